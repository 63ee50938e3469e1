import { describe, expect, test } from 'vitest';
import type { Outline, Vec2 } from '../../src/solid/index.ts';
import {
  areaMm2,
  centreOfLoop,
  differenceOf,
  hull,
  innerCurve,
  insetPolygon,
  intersectionOf,
  isConvexLoop,
  isInLoop,
  offsetRegions,
  outsideMm,
  parallelPoint,
  signedAreaMm2,
  smoothInsetMm,
  supportOf,
  supportOfInner,
  unionOf,
} from '../../src/solid/index.ts';
import { manifold } from './oracle.ts';
import { runOfNumbers } from './samples.ts';

const rectangle: readonly Vec2[] = [
  [-1050, -410],
  [1050, -410],
  [1050, 410],
  [-1050, 410],
];
const oval: Outline = { kind: 'ellipse', rxMm: 1100, ryMm: 500 };
const turn = (deg: number): Vec2 => [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];

describe('support', () => {
  test('the farthest of ten thousand points of an ellipse is no farther, and nearly as far', () => {
    for (const deg of [0, 17, 45, 90, 133, 270.5]) {
      const [ux, uy] = turn(deg);
      let most = 0;
      for (let k = 0; k < 10000; k++) {
        const t = (2 * Math.PI * k) / 10000;
        most = Math.max(most, 1100 * Math.cos(t) * ux + 500 * Math.sin(t) * uy);
      }
      const { reachMm, atMm } = supportOf(oval, [ux, uy]);
      expect(reachMm).toBeGreaterThanOrEqual(most - 1e-9);
      expect(reachMm - most).toBeLessThan(1e-3);
      expect((atMm[0] / 1100) ** 2 + (atMm[1] / 500) ** 2).toBeCloseTo(1, 12);
    }
  });

  test('of the inner parallel curve: the same, by points at the distance', () => {
    const inner = innerCurve(oval, 50);
    if (inner === undefined) throw new Error('the curve exists');
    for (const deg of [0, 30, 61, 90]) {
      const [ux, uy] = turn(deg);
      let most = 0;
      for (let k = 0; k < 10000; k++) {
        const [x, y] = parallelPoint(1100, 500, 50, (2 * Math.PI * k) / 10000);
        most = Math.max(most, x * ux + y * uy);
      }
      expect(Math.abs(supportOfInner(inner, [ux, uy]).reachMm - most)).toBeLessThan(1e-3);
    }
  });

  test('points of the parallel curve are 50 mm inside, none nearer', () => {
    for (let k = 0; k < 36; k++) {
      const [x, y] = parallelPoint(1100, 500, 50, (2 * Math.PI * k) / 36 + 0.01);
      let nearest = Number.POSITIVE_INFINITY;
      for (let j = 0; j < 40000; j++) {
        const t = (2 * Math.PI * j) / 40000;
        nearest = Math.min(nearest, Math.hypot(1100 * Math.cos(t) - x, 500 * Math.sin(t) - y));
      }
      expect(nearest).toBeCloseTo(50, 3);
    }
  });

  // Radius of curvature of an ellipse at the end of its long axis: b^2 / a (any calculus text; from memory).
  test('no smooth curve beyond the least radius of curvature', () => {
    expect(smoothInsetMm(1100, 500)).toBeCloseTo(250000 / 1100, 9);
    expect(innerCurve(oval, 228)).toBeUndefined();
    expect(innerCurve(oval, 227)).toBeDefined();
  });
});

describe('inset of polygons', () => {
  test('a rectangle', () => {
    const inner = insetPolygon(rectangle, 50);
    expect(inner?.map((p) => p.map((v) => Math.abs(v)))).toEqual([
      [1000, 360],
      [1000, 360],
      [1000, 360],
      [1000, 360],
    ]);
    expect(insetPolygon(rectangle, 410)).toBeUndefined();
  });

  test('a short side vanishes: a cut corner of 30 mm, 100 mm in, leaves a plain corner', () => {
    const cut: readonly Vec2[] = [
      [0, 0],
      [500, 0],
      [500, 470],
      [470, 500],
      [0, 500],
    ];
    expect(insetPolygon(cut, 100)).toHaveLength(4);
    expect(insetPolygon(cut, 10)).toHaveLength(5);
  });

  test('a bay: kept by offsetting on the grid', () => {
    const bay: readonly Vec2[] = [
      [0, 0],
      [300, 0],
      [300, 120],
      [180, 120],
      [180, 200],
      [0, 200],
    ];
    expect(isConvexLoop(bay)).toBe(false);
    const inner = insetPolygon(bay, 10) ?? [];
    expect(signedAreaMm2(inner)).toBeCloseTo(280 * 100 + 160 * 80, 1);
  });
});

describe('regions', () => {
  const square = (x: number, y: number, side: number): Vec2[] => [
    [x, y],
    [x + side, y],
    [x + side, y + side],
    [x, y + side],
  ];
  const region = (outer: Vec2[]) => ({ outer, holes: [] });

  test('inclusion and exclusion: |A or B| + |A and B| = |A| + |B|, and the kernel agrees', () => {
    const next = runOfNumbers(13);
    for (let k = 0; k < 30; k++) {
      const a = square(next() * 50, next() * 50, 40 + 30 * next());
      const b = square(next() * 50, next() * 50, 40 + 30 * next());
      const [ra, rb] = [region(a), region(b)];
      const both = areaMm2(intersectionOf([ra], [rb]));
      const either = areaMm2(unionOf([ra, rb]));
      expect(either + both).toBeCloseTo(areaMm2([ra]) + areaMm2([rb]), 0);
      expect(areaMm2(differenceOf([ra], [rb])) + both).toBeCloseTo(areaMm2([ra]), 0);
      const kernel = new manifold.CrossSection([a as [number, number][]]).add(new manifold.CrossSection([b as [number, number][]]));
      expect(Math.abs(kernel.area() - either)).toBeLessThan(1);
    }
  });

  test('a frame has a hole, and an island in it is a region of its own', () => {
    const frame = differenceOf([region(square(0, 0, 100))], [region(square(20, 20, 60))]);
    const all = unionOf([...frame, region(square(40, 40, 20))]);
    expect(all).toHaveLength(2);
    expect(areaMm2(all)).toBeCloseTo(10000 - 3600 + 400, 3);
    expect(areaMm2(offsetRegions([region(square(0, 0, 100))], 5))).toBeCloseTo(110 * 110, 1);
  });

  test('hull, middle, inside', () => {
    expect(hull([...square(0, 0, 10), [5, 5], [5, 0], [10, 5]])).toHaveLength(4);
    expect(
      hull([
        [1, 1],
        [1, 1],
      ]),
    ).toEqual([[1, 1]]);
    expect(
      hull([
        [0, 0],
        [5, 5],
        [10, 10],
      ]),
    ).toHaveLength(2);
    expect(centreOfLoop(square(10, 20, 6))).toEqual([13, 23]);
    expect(isInLoop(square(0, 0, 10), [10, 5])).toBe(true);
    expect(isInLoop(square(0, 0, 10), [10.0005, 5])).toBe(false);
    expect(isInLoop(square(0, 0, 10), [10.0005, 5], 0.001)).toBe(true);
  });
});

describe('outside', () => {
  test('of a rectangle and a circle', () => {
    const outline: Outline = { kind: 'polygon', points: rectangle };
    expect(outsideMm(outline, [1053, 414])).toBeCloseTo(5, 12);
    expect(outsideMm(outline, [1000, 0])).toBe(0);
    expect(outsideMm({ kind: 'ellipse', rxMm: 600, ryMm: 600 }, [433, 433])).toBeCloseTo(433 * Math.SQRT2 - 600, 9);
  });

  test('of an ellipse: the nearest of many points', () => {
    for (const p of [
      [1120, 10],
      [700, 450],
      [3, 520],
      [900, 900],
    ] as readonly Vec2[]) {
      let nearest = Number.POSITIVE_INFINITY;
      for (let j = 0; j < 200000; j++) {
        const t = (2 * Math.PI * j) / 200000;
        nearest = Math.min(nearest, Math.hypot(1100 * Math.cos(t) - p[0], 500 * Math.sin(t) - p[1]));
      }
      expect(outsideMm(oval, p)).toBeCloseTo(nearest, 4);
    }
  });
});
