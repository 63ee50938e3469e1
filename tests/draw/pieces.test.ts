import { describe, expect, test } from 'vitest';
import { shapeOf } from '../../src/draw/shape.ts';
import { computeDemo } from '../demos/load.ts';

const crossed = computeDemo('marl-ockley/r1/B').table;
const hollow = crossed.parts
  .map((part) => shapeOf(part, 0.7))
  .filter(({ part, pieces }) => part.solid.kind !== 'rings' && pieces.length > 1);

/** Area of a plane polygon by its corners, Newell's sum. */
function areaOf(points: readonly (readonly [number, number, number])[]): number {
  let [x, y, z] = [0, 0, 0];
  points.forEach((p, i) => {
    const q = points[(i + 1) % points.length] ?? p;
    x += (p[1] - q[1]) * (p[2] + q[2]);
    y += (p[2] - q[2]) * (p[0] + q[0]);
    z += (p[0] - q[0]) * (p[1] + q[1]);
  });
  return Math.hypot(x, y, z) / 2;
}
const sum = (faces: readonly { readonly points: readonly (readonly [number, number, number])[] }[]): number =>
  faces.reduce((total, { points }) => total + areaOf(points), 0);

describe('a part with hollows is painted by its pieces', () => {
  test('there are such parts', () => {
    expect(hollow.length).toBeGreaterThan(0);
  });

  // The skin is triangulated apart from the cutting into pieces: what the pieces show must be that skin and no cut.
  test.each(hollow.map((shape) => [shape.part.id, shape] as const))(
    '%s: its pieces show its skin, and none of the cuts between them',
    (_id, shape) => {
      expect(shape.pieces.flatMap(({ cuts }) => cuts).length).toBeGreaterThan(0);
      const shown = sum(shape.pieces.flatMap(({ faces }) => faces));
      const skin = sum(shape.faces);
      expect(shown / skin).toBeGreaterThan(1 - 1e-9);
      expect(shown / skin).toBeLessThan(1 + 1e-9);
    },
  );
});
