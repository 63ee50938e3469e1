import { unionOf } from './clip.ts';
import { cutConvex } from './cut.ts';
import { type Placed, placedPieces } from './overlap.ts';
import { hull } from './polygon.ts';
import { CHORD_MM } from './tolerance.ts';
import type { Polyhedron, Region, Vec2, Vec3 } from './types.ts';
import { type Axis, along, scale } from './vector.ts';

/** Part of space that is looked at: between two heights, and the like along x and y. */
export interface Slab {
  readonly axis: Axis;
  readonly fromMm: number;
  readonly toMm: number;
}

/** A shadow and how far a round outline may lie outside its polygon. */
export interface Shadow {
  readonly regions: readonly Region[];
  readonly chordErrorMm: number;
}

/**
 * Plane coordinates of a point seen along an axis: along x (y, z), along y (x, z), along z (x, y). Seen from +x, from -y and from above,
 * the first coordinate runs to the right and the second up.
 */
export const seenAlong = (axis: Axis, p: Vec3): Vec2 => (axis === 'x' ? [p[1], p[2]] : axis === 'y' ? [p[0], p[2]] : [p[0], p[1]]);

function within(piece: Polyhedron, slabs: readonly Slab[]): Polyhedron | undefined {
  let left: Polyhedron | undefined = piece;
  for (const { axis, fromMm, toMm } of slabs) {
    const up = along(axis);
    left = left && cutConvex(left, { normal: up, offsetMm: toMm });
    left = left && cutConvex(left, { normal: scale(up, -1), offsetMm: -fromMm });
  }
  return left;
}

/**
 * Outline of solids seen along an axis from far away, joined; only what lies within `slabs` where given.
 * Plane-faced bodies are exact to the clipping grid; round ones lie inside by at most `chordErrorMm`, their extremes along the axes exact.
 */
export function projectShadow(solids: readonly Placed[], axis: Axis, slabs: readonly Slab[] = [], chordErrorMm: number = CHORD_MM): Shadow {
  const outlines = solids.flatMap((placed) =>
    placedPieces(placed, chordErrorMm).flatMap((piece): Region[] => {
      const left = within(piece, slabs);
      if (left === undefined) return [];
      const outer = hull(left.vertices.map((p) => seenAlong(axis, p)));
      return outer.length < 3 ? [] : [{ outer, holes: [] }];
    }),
  );
  return { regions: unionOf(outlines), chordErrorMm };
}
