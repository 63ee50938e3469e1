import { describe, expect, test } from 'vitest';
import type { Mat3, Solid, Vec3 } from '../../src/solid/index.ts';
import {
  areaMm2,
  boundsMm,
  centroidMm,
  cone,
  convexPieces,
  disc,
  frustum,
  levelSection,
  mirrored,
  moments,
  placedReachMm,
  rings,
  toTable,
  transposed,
  volumeMm3,
} from '../../src/solid/index.ts';
import { placedBody } from './oracle.ts';
import { anyPlacement, runOfNumbers, samples } from './samples.ts';

const AT = {
  originMm: [0, 0, 0],
  axes: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
} as const;

/** Chords within 0.0005 mm of a round of at least 20 mm radius lose at most 2 x 0.0005 / 20 of its area. */
const ROUND = 5e-5;

const near = (found: number, wanted: number, ratio: number): void => {
  expect(Math.abs(found - wanted)).toBeLessThanOrEqual(ratio * Math.max(1, Math.abs(wanted)));
};

describe('volume and first moments against published formulas', () => {
  // Beyer (ed.), CRC Standard Mathematical Tables, "Mensuration formulas": frustum of a right circular cone; from memory.
  test.each([
    [381, 345, 44],
    [60, 60, 700],
    [50, 0, 90],
  ])('frustum of a cone, radii %d and %d, height %d', (R, r, h) => {
    const solid = cone(2 * R, 2 * r, h);
    const sum = R * R + R * r + r * r;
    near(volumeMm3(solid), (Math.PI * h * sum) / 3, 1e-12);
    near(centroidMm(solid)[2], (h * (R * R + 2 * R * r + 3 * r * r)) / (4 * sum), 1e-12);
  });

  // The same tables: prismoidal formula V = h (A1 + 4 Am + A2) / 6, exact for any body between parallel plane figures.
  test('prism between two rectangles', () => {
    const solid = frustum([42, 60], [62, 75], 717, [35, -12]);
    near(volumeMm3(solid), (717 * (42 * 60 + 4 * 52 * 67.5 + 62 * 75)) / 6, 1e-12);
  });

  test('oval disc: pi a b h', () => near(volumeMm3(disc(2200, 1000, 32)), Math.PI * 1100 * 500 * 32, 1e-12));

  // Cavalieri: leaning adds nothing; the middle of each section moves along.
  test('a sheared round leg has the volume of the upright one', () => {
    const upright = cone(40, 60, 700);
    const leaning = rings([
      { zMm: 0, rxMm: 20, ryMm: 20, xMm: 60, yMm: -25 },
      { zMm: 700, rxMm: 30, ryMm: 30 },
    ]);
    near(volumeMm3(leaning), volumeMm3(upright), 1e-12);
    const z = centroidMm(upright)[2];
    near(centroidMm(leaning)[2], z, 1e-12);
    near(centroidMm(leaning)[0], 60 * (1 - z / 700), 1e-12);
    near(centroidMm(leaning)[1], -25 * (1 - z / 700), 1e-12);
  });
});

describe.each(samples)('$name', ({ solid }) => {
  const whole = moments(solid);

  test('volume agrees with the kernel', () => {
    near(placedBody(solid, AT, 0.0005).volume(), whole.volumeMm3, solid.kind === 'rings' ? ROUND : 1e-6);
  });

  test('by divergence = by summed sections (Gauss, per millimetre of height)', () => {
    const { minMm, maxMm } = boundsMm(solid);
    const steps = 1000;
    const dz = (maxMm[2] - minMm[2]) / steps;
    let volume = 0;
    let first = 0;
    // Sections at the middles of thin slices: the sum differs by what a slice across a step or bend cuts off.
    for (let k = 0; k < steps; k++) {
      const z = minMm[2] + (k + 0.5) * dz;
      const area = areaMm2(levelSection(solid, AT, z, 0.0005));
      volume += area * dz;
      first += area * dz * z;
    }
    near(volume, whole.volumeMm3, 1e-3);
    near(first, whole.firstMm4[2], 1e-3);
  });

  test('moment about the near edge + moment about the far edge = volume x distance', () => {
    const { minMm, maxMm } = boundsMm(solid);
    const c = centroidMm(solid);
    for (const i of [0, 1, 2] as const) {
      expect(c[i]).toBeGreaterThan(minMm[i]);
      expect(c[i]).toBeLessThan(maxMm[i]);
      const about = (edge: number): number => Math.abs(whole.firstMm4[i] - edge * whole.volumeMm3);
      near(about(minMm[i]) + about(maxMm[i]), whole.volumeMm3 * (maxMm[i] - minMm[i]), 1e-9);
    }
  });

  test('pieces fill it', () => {
    const sum = convexPieces(solid, 0.0005).reduce((s, p) => s + volumeMm3(p), 0);
    near(sum, whole.volumeMm3, solid.kind === 'rings' ? ROUND : 1e-12);
  });

  test('turned and moved: middle and reach follow', () => {
    const next = runOfNumbers(7);
    for (let k = 0; k < 5; k++) {
      const placement = anyPlacement(next, 500);
      const c = centroidMm(solid, placement);
      const moved = toTable(placement, centroidMm(solid));
      c.forEach((v, i) => {
        near(v, moved[i] as number, 1e-12);
      });
      const body = placedBody(solid, placement, 0.001).boundingBox();
      const exact = boundsMm(solid, placement);
      for (const i of [0, 1, 2] as const) {
        expect(Math.abs(body.min[i] - exact.minMm[i])).toBeLessThan(0.002);
        expect(Math.abs(body.max[i] - exact.maxMm[i])).toBeLessThan(0.002);
      }
      const [a, b] = [placedReachMm(solid, placement, [0, 0, 1]), exact.maxMm[2]];
      expect(a).toBe(b);
    }
  });

  test('mirrored: same volume, middle across the plane', () => {
    const other = mirrored(solid);
    near(volumeMm3(other), whole.volumeMm3, 1e-12);
    const [a, b] = [centroidMm(solid), centroidMm(other)];
    near(b[0], -a[0], 1e-9);
    near(b[1], a[1], 1e-9);
    expect(placedBody(other, AT).volume()).toBeGreaterThan(0);
  });

  test('twice the size: eight times the volume', () => {
    near(volumeMm3(scaled(solid, 2)), 8 * whole.volumeMm3, 1e-12);
  });
});

function scaled(solid: Solid, by: number): Solid {
  const s = (v: Vec3): Vec3 => [v[0] * by, v[1] * by, v[2] * by];
  if (solid.kind === 'polyhedron') return { ...solid, vertices: solid.vertices.map(s) };
  return rings(
    solid.rings.map((r) => ({ zMm: r.zMm * by, rxMm: r.rxMm * by, ryMm: r.ryMm * by, xMm: (r.xMm ?? 0) * by, yMm: (r.yMm ?? 0) * by })),
  );
}

test('a rotation and its transpose undo each other', () => {
  const { axes } = anyPlacement(runOfNumbers(3), 1);
  const back: Mat3 = transposed(axes);
  const p = toTable({ originMm: [0, 0, 0], axes: back }, toTable({ originMm: [0, 0, 0], axes }, [1, 2, 3]));
  p.forEach((v, i) => {
    near(v, i + 1, 1e-12);
  });
});
