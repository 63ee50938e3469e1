import { describe, expect, test } from 'vitest';
import type { Vec2 } from '../../src/solid/index.ts';
import { AT_ORIGIN, box, cone, disc, extrude, meshOf, rings, skinAreaMm2, skinPatches, triangulate } from '../../src/solid/index.ts';
import { placedBody } from './oracle.ts';
import { holedRegion, runOfNumbers, samples } from './samples.ts';

/** Circumference of an ellipse by the arithmetic-geometric mean. NIST Digital Library of Mathematical Functions, 19.8(i) and 19.30.5. */
function ellipseRoundMm(a: number, b: number): number {
  let [m, g, power] = [a, b, 1];
  let sum = (a * a + b * b) / 2;
  for (let k = 0; k < 40; k++) {
    const c = (m - g) / 2;
    [m, g] = [(m + g) / 2, Math.sqrt(m * g)];
    sum -= power * c * c;
    power *= 2;
  }
  return (2 * Math.PI * sum) / m;
}

describe('skin', () => {
  test('circumference of an ellipse with half axes 2 and 1 is 9.688448 (DLMF 19.30: 4 a E(k))', () => {
    expect(ellipseRoundMm(2, 1)).toBeCloseTo(9.6884482205, 9);
  });

  test('the rim of an oval plate = circumference x thickness', () => {
    const rim = skinPatches(disc(2200, 1000, 32)).find((p) => p.normal === undefined);
    expect(rim?.areaMm2).toBeDefined();
    const wanted = ellipseRoundMm(1100, 500) * 32;
    expect(Math.abs((rim?.areaMm2 ?? 0) / wanted - 1)).toBeLessThan(1e-9);
  });

  // CRC Standard Mathematical Tables: lateral area of a frustum of a right circular cone, pi (R + r) sqrt((R - r)^2 + h^2); from memory.
  test('cone: pi (R + r) s and two discs', () => {
    const wanted = Math.PI * (381 + 345) * Math.hypot(36, 44) + Math.PI * (381 ** 2 + 345 ** 2);
    expect(Math.abs(skinAreaMm2(cone(762, 690, 44)) / wanted - 1)).toBeLessThan(1e-12);
  });

  test('the curved quadrature gives the closed form where both hold', () => {
    // A hair of lean sends the band through the quadrature.
    const leaning = rings([
      { zMm: 0, rxMm: 381, ryMm: 381, xMm: 1e-9 },
      { zMm: 44, rxMm: 345, ryMm: 345 },
    ]);
    expect(Math.abs(skinAreaMm2(leaning) / skinAreaMm2(cone(762, 690, 44)) - 1)).toBeLessThan(1e-9);
  });

  test('plane faces carry outward normals', () => {
    const up = skinPatches(box(100, 50, 20)).filter((p) => (p.normal?.[2] ?? 0) > 0.99);
    expect(up).toHaveLength(1);
    expect(up[0]?.areaMm2).toBe(5000);
  });

  test.each(samples)('$name: area agrees with the kernel', ({ solid }) => {
    const body = placedBody(solid, AT_ORIGIN, 0.0005);
    expect(Math.abs(skinAreaMm2(solid) / body.surfaceArea() - 1)).toBeLessThan(2e-5);
  });
});

describe('mesh', () => {
  test.each(samples)('$name: watertight, every edge shared by two triangles in opposite ways', ({ solid }) => {
    const { triangles, positions, faceOf, smooth, edges } = meshOf(solid, 0.05);
    const ways = new Map<string, number>();
    for (const [a, b, c] of triangles) {
      for (const key of [`${a} ${b}`, `${b} ${c}`, `${c} ${a}`]) ways.set(key, (ways.get(key) ?? 0) + 1);
    }
    for (const [key, count] of ways) {
      const [a, b] = key.split(' ');
      expect(count).toBe(1);
      expect(ways.get(`${b} ${a}`)).toBe(1);
    }
    // Euler, for bodies with so many holes through them: V - E + F = 2 - 2 holes.
    const holes = solid.kind === 'polyhedron' ? Math.max(...solid.faces.map((f) => f.loops.length)) - 1 : 0;
    expect(positions.length - ways.size / 2 + triangles.length).toBe(2 - 2 * holes);
    expect(faceOf).toHaveLength(triangles.length);
    expect(Math.max(...faceOf)).toBe(smooth.length - 1);
    expect(edges.length).toBeGreaterThan(0);
  });

  test('the chord error that is stated is kept, and reached', () => {
    for (const asked of [1, 0.1, 0.01]) {
      const found = meshOf(cone(600, 600, 30), asked);
      expect(found.chordErrorMm).toBeLessThanOrEqual(asked);
      const [a, b] = [found.positions[0], found.positions[1]];
      const middle = Math.hypot(((a?.[0] ?? 0) + (b?.[0] ?? 0)) / 2, ((a?.[1] ?? 0) + (b?.[1] ?? 0)) / 2);
      expect(300 - middle).toBeCloseTo(found.chordErrorMm, 9);
    }
  });

  test('a box shows twelve edges, a cylinder two circles, an octagon no edge between coplanar faces', () => {
    expect(meshOf(box(1, 1, 1), 1).edges).toHaveLength(12);
    const round = meshOf(cone(100, 100, 50), 0.1);
    expect(round.edges).toHaveLength((2 * round.positions.length) / 2);
    expect(round.smooth.filter((s) => s)).toHaveLength(1);
  });
});

describe('triangles over a polygon', () => {
  const area = (loops: readonly (readonly Vec2[])[], t: readonly number[]): number => {
    const [a, b, c] = t.map((i) => loops.flat()[i] as Vec2) as [Vec2, Vec2, Vec2];
    return ((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) / 2;
  };

  test('holes and a bay: area by shoelace, no triangle turned over', () => {
    const loops = [holedRegion.outer, ...holedRegion.holes.map((h) => [...h].reverse())] as readonly (readonly Vec2[])[];
    const triangles = triangulate(loops);
    const areas = triangles.map((t) => area(loops, t));
    expect(Math.min(...areas)).toBeGreaterThanOrEqual(0);
    // 300 x 120 + 180 x 80 less 50 x 60 less the triangle (60 x 50 + 20 x 10 ... by its own determinant) = 2150.
    const triangle = Math.abs(60 * 50 - -20 * 70) / 2;
    expect(areas.reduce((s, a) => s + a, 0)).toBeCloseTo(36000 + 14400 - 3000 - triangle, 6);
    // Corners + 2 a hole - 2 triangles (Euler).
    expect(triangles).toHaveLength(6 + 4 + 3 + 2 * 2 - 2);
  });

  test('two hundred random star outlines with a square hole', () => {
    const next = runOfNumbers(11);
    for (let round = 0; round < 200; round++) {
      const n = 5 + Math.floor(next() * 30);
      const outer = [...Array(n).keys()].map((k): Vec2 => {
        const r = 50 + 100 * next();
        return [r * Math.cos((2 * Math.PI * k) / n), r * Math.sin((2 * Math.PI * k) / n)];
      });
      const h = 5 + 10 * next();
      const hole: Vec2[] = [
        [-h, -h],
        [-h, h],
        [h, h],
        [h, -h],
      ];
      const loops = [outer, hole];
      const shoelace = outer.reduce((s, p, i) => {
        const q = outer[(i + 1) % n] as Vec2;
        return s + (p[0] * q[1] - p[1] * q[0]) / 2;
      }, 0);
      const areas = triangulate(loops).map((t) => area(loops, t));
      expect(Math.min(...areas)).toBeGreaterThanOrEqual(0);
      expect(areas.reduce((s, a) => s + a, 0)).toBeCloseTo(shoelace - 4 * h * h, 6);
    }
  });

  test('a hole beside its outline is refused', () => {
    const square = (x: number): Vec2[] => [
      [x, 0],
      [x + 10, 0],
      [x + 10, 10],
      [x, 10],
    ];
    expect(() => extrude({ outer: square(0), holes: [square(50)] }, 1)).toThrow(RangeError);
  });
});
