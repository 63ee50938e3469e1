import { describe, expect, test } from 'vitest';
import type { Placement, Solid, Vec3 } from '../../src/solid/index.ts';
import {
  areaMm2,
  box,
  CHORD_MM,
  cone,
  disc,
  extrude,
  floorContact,
  frustum,
  gapMm,
  IDENTITY,
  levelSection,
  octagonalPost,
  overlapOf,
  projectShadow,
  rotation,
  touchAreaMm2,
  touchesOf,
} from '../../src/solid/index.ts';
import { manifold, placedBody } from './oracle.ts';
import { anyPlacement, holedRegion, runOfNumbers, samples } from './samples.ts';

const at = (x: number, y: number, z: number): Placement => ({ originMm: [x, y, z], axes: IDENTITY });
const placed = (solid: Solid, placement: Placement) => ({ solid, placement });

describe('overlap', () => {
  test('two boxes, corner in corner', () => {
    const found = overlapOf(placed(box(100, 80, 60), at(0, 0, 0)), placed(box(100, 80, 60), at(70, 50, 40)));
    expect(found.volumeMm3).toBeCloseTo(30 * 30 * 20, 6);
    expect(found.centroidMm[0]).toBeCloseTo(35, 9);
    expect(found.centroidMm[2]).toBeCloseTo(50, 9);
  });

  test('forty pairs of turned bodies agree with the kernel', () => {
    const next = runOfNumbers(5);
    const small: readonly Solid[] = [
      box(120, 60, 90),
      frustum([40, 60], [70, 80], 110, [20, -10]),
      octagonalPost(90, 60, 120),
      extrude({ outer: holedRegion.outer.map(([x, y]) => [x / 2, y / 2]), holes: [] }, 70),
      cone(90, 60, 120),
    ];
    let met = 0;
    for (let k = 0; k < 40; k++) {
      const a = placed(small[Math.floor(next() * small.length)] as Solid, anyPlacement(next, 90));
      const b = placed(small[Math.floor(next() * small.length)] as Solid, anyPlacement(next, 90));
      const shared = placedBody(a.solid, a.placement).intersect(placedBody(b.solid, b.placement));
      const wanted = shared.volume();
      const found = overlapOf(a, b).volumeMm3;
      // Inscribed prisms lie within 0.02 mm of a round skin; the kernel's single precision adds a little.
      expect(Math.abs(found - wanted)).toBeLessThanOrEqual(CHORD_MM * shared.surfaceArea() + 1e-6 * wanted + 0.5);
      expect(overlapOf(b, a).volumeMm3).toBeCloseTo(found, 3);
      if (wanted > 1) met++;
    }
    expect(met).toBeGreaterThan(15);
  });

  test('a post on a disc, a rail against a round leg, a peg in its own hole: no overlap', () => {
    const post = placed(cone(120, 120, 500), at(0, 0, 45));
    expect(overlapOf(post, placed(disc(700, 700, 45), at(0, 0, 0))).volumeMm3).toBe(0);
    expect(overlapOf(post, placed(box(400, 20, 60), at(260, 0, 100))).volumeMm3).toBe(0);
    const ring = [...Array(64).keys()].map((k): [number, number] => [
      10.02 * Math.cos((Math.PI * k) / 32),
      10.02 * Math.sin((Math.PI * k) / 32),
    ]);
    const holed = extrude(
      {
        outer: [
          [-50, -50],
          [50, -50],
          [50, 50],
          [-50, 50],
        ],
        holes: [ring],
      },
      40,
    );
    expect(overlapOf(placed(holed, at(0, 0, 0)), placed(cone(20, 20, 60), at(0, 0, -10))).volumeMm3).toBeLessThan(1);
  });

  test('the mouth of a tenon that is let in is its own section', () => {
    const leg = placed(box(60, 60, 700), at(0, 0, 0));
    const rail = placed(box(200, 20, 50), at(110, 0, 600));
    const found = overlapOf(leg, rail);
    expect(found.volumeMm3).toBeCloseTo(20 * 20 * 50, 6);
    expect(found.mouth).toHaveLength(1);
    for (const p of found.mouth[0] ?? []) expect(p[0]).toBeCloseTo(30, 9);
  });
});

describe('touch', () => {
  test('a turned post on a plate: the whole section', () => {
    const plate = placed(box(400, 400, 30), at(0, 0, 0));
    const post = placed(octagonalPost(100, 80, 300), { originMm: [20, 10, 30], axes: rotation('z', 33) });
    // Regular octagon by width across flats: 2 (sqrt 2 - 1) w^2.
    const wanted = 2 * (Math.SQRT2 - 1) * 100 * 100;
    expect(touchAreaMm2(touchesOf(plate, post))).toBeCloseTo(wanted, 0);
    expect(touchesOf(plate, post)[0]?.normal).toEqual([0, 0, 1]);
    expect(touchesOf(post, plate)[0]?.normal[2]).toBeCloseTo(-1, 12);
  });

  test('a round plate under a chamfered oval top: pi r^2 within the chord', () => {
    const top = placed(disc(1400, 900, 30, { inMm: 60, upMm: 15 }), at(0, 0, 700));
    const head = placed(cone(300, 300, 40), at(0, 0, 660));
    const found = touchAreaMm2(touchesOf(top, head));
    expect(found).toBeLessThan(Math.PI * 150 * 150);
    expect(found).toBeGreaterThan(Math.PI * 150 * 150 * 0.9995);
  });

  test('at the edge of a chamfer only what is flat counts', () => {
    const top = placed(disc(600, 600, 30, { inMm: 100, upMm: 20 }), at(0, 0, 700));
    const leg = placed(box(60, 60, 700), at(200, 0, 0));
    const found = touchAreaMm2(touchesOf(top, leg));
    // Area of the square x 170..230, y +-30 inside the circle r = 200, by the integral of sqrt(r^2 - y^2) - 170.
    const primitive = (y: number): number => (y * Math.sqrt(40000 - y * y) + 40000 * Math.asin(y / 200)) / 2;
    // The rim runs 60 mm, its polygon within CHORD_MM of it.
    expect(Math.abs(found - (2 * primitive(30) - 170 * 60))).toBeLessThan(60 * CHORD_MM);
  });

  test('0.04 mm apart still touches, 0.06 does not, half a degree does not, an edge does not', () => {
    const low = placed(box(100, 100, 50), at(0, 0, 0));
    expect(touchesOf(low, placed(box(100, 100, 50), at(0, 0, 50.04)))).toHaveLength(1);
    expect(touchesOf(low, placed(box(100, 100, 50), at(0, 0, 50.06)))).toHaveLength(0);
    expect(touchesOf(low, placed(box(100, 100, 50), { originMm: [0, 0, 50], axes: rotation('x', 0.5) }))).toHaveLength(0);
    expect(touchesOf(low, placed(box(100, 100, 50), at(100, 0, 50)))).toHaveLength(0);
  });

  test('the gap is said where faces look at each other', () => {
    expect(gapMm(placed(box(100, 100, 50), at(0, 0, 0)), placed(box(80, 80, 50), at(10, 5, 62.5)))).toBeCloseTo(12.5, 9);
    expect(gapMm(placed(box(100, 100, 50), at(0, 0, 0)), placed(box(80, 80, 50), at(10, 5, 20)))).toBe(0);
    expect(gapMm(placed(cone(100, 100, 50), at(0, 0, 0)), placed(cone(100, 100, 50), at(130, 0, 0)))).toBeCloseTo(30, 9);
  });
});

describe('section and shadow', () => {
  test.each(samples)('$name: level sections agree with the kernel', ({ solid }) => {
    const next = runOfNumbers(21);
    for (let k = 0; k < 3; k++) {
      const placement = anyPlacement(next, 20);
      const body = placedBody(solid, placement);
      const { min, max } = body.boundingBox();
      for (const share of [0.2, 0.5, 0.83]) {
        const z = min[2] + share * (max[2] - min[2]);
        const wanted = body.slice(z).area();
        const found = areaMm2(levelSection(solid, placement, z, 0.002));
        expect(Math.abs(found - wanted)).toBeLessThanOrEqual(3e-4 * wanted + 1);
      }
    }
  });

  test.each(samples)('$name: shadows agree with the kernel', ({ solid }) => {
    const placement = anyPlacement(runOfNumbers(31), 20);
    const body = placedBody(solid, placement);
    const { regions, chordErrorMm } = projectShadow([placed(solid, placement)], 'z', [], 0.002);
    expect(chordErrorMm).toBe(0.002);
    const wanted = body.project().area();
    expect(Math.abs(areaMm2(regions) - wanted)).toBeLessThanOrEqual(3e-4 * wanted + 1);
  });

  test('several bodies join; a slab of space cuts', () => {
    const legs = [-400, 400].map((x) => placed(frustum([40, 40], [60, 60], 700), at(x, 0, 0)));
    expect(areaMm2(projectShadow(legs, 'y').regions)).toBeCloseTo(2 * 50 * 700, 3);
    const low = projectShadow(legs, 'y', [{ axis: 'z', fromMm: 0, toMm: 350 }]);
    expect(areaMm2(low.regions)).toBeCloseTo(2 * 45 * 350, 3);
    expect(areaMm2(projectShadow(legs, 'x').regions)).toBeCloseTo(50 * 700, 3);
  });

  test('holes show through', () => {
    const board = placed(extrude(holedRegion, 24), at(0, 0, 0));
    expect(projectShadow([board], 'z').regions[0]?.holes).toHaveLength(2);
    expect(levelSection(board.solid, board.placement, 10)[0]?.holes).toHaveLength(2);
  });
});

describe('floor contact', () => {
  test('whole foot sections', () => {
    expect(floorContact(frustum([42, 42], [62, 62], 700, [30, 0]), at(100, 50, 0))).toEqual([
      {
        kind: 'polygon',
        points: [
          [79, 29],
          [121, 29],
          [121, 71],
          [79, 71],
        ],
      },
    ]);
    expect(floorContact(cone(60, 40, 700), at(5, 6, 0))).toEqual([{ kind: 'ellipse', centreMm: [5, 6], rxMm: 30, ryMm: 30 }]);
  });

  test('upside down the other end stands', () => {
    const over: Placement = { originMm: [0, 0, 700], axes: rotation('x', 180) };
    expect(floorContact(cone(60, 40, 700), over)).toEqual([{ kind: 'ellipse', centreMm: [0, 0], rxMm: 20, ryMm: 20 }]);
  });

  test('an oval turned by a quarter swaps its axes', () => {
    const [found] = floorContact(disc(400, 200, 30), { originMm: [0, 0, 0], axes: rotation('z', 90) });
    expect(found).toMatchObject({ kind: 'ellipse', rxMm: 100, ryMm: 200 });
  });

  test('a leaning box stands on an edge, a lying cylinder on a line, nothing above the floor does', () => {
    const lean: Placement = { originMm: [0, 0, 25 * Math.sin(Math.PI / 18)], axes: rotation('y', 10) };
    const [edge] = floorContact(box(50, 40, 700), lean);
    expect(edge?.kind === 'polygon' ? edge.points : []).toHaveLength(2);
    const lying: Placement = { originMm: [0, 0, 30], axes: rotation('y', 90) };
    const [line] = floorContact(cone(60, 60, 500), lying);
    expect(line?.kind === 'polygon' ? line.points.map((p) => Math.abs(p[1])) : []).toEqual([0, 0]);
    expect(floorContact(box(50, 40, 700), at(0, 0, 0.2))).toEqual([]);
    expect(floorContact(box(50, 40, 700), at(0, 0, -0.2))).toEqual([]);
  });
});

test('the kernel itself: a cube', () => {
  expect(manifold.Manifold.cube([10, 20, 30] satisfies Vec3 as [number, number, number]).volume()).toBeCloseTo(6000, 6);
});
