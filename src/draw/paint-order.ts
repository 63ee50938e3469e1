import type { PieceFace, SeenPiece } from './convex.ts';
import { orderOf, piecesOf } from './convex.ts';
import { orderFaces } from './face-order.ts';
import type { Stage } from './stage.ts';

/** Pieces that touch may overlap by this much (mm of the world) and still count as apart: chord errors of round parts. */
const TOUCH_MM = 0.6;
/** Thickness of a plane when faces are ordered one by one (mm of the world). */
const PLANE_MM = 0.02;

/** For each piece the ones that must be painted before it; two that run into each other wait for each other. */
function waitsFor(pieces: readonly SeenPiece[], tolerance: number): Set<number>[] {
  const waits = pieces.map(() => new Set<number>());
  pieces.forEach((a, i) => {
    for (let j = i + 1; j < pieces.length; j += 1) {
      const b = pieces[j];
      const order = b === undefined ? 0 : orderOf(a, b, tolerance);
      if (order === -1 || order === undefined) waits[j]?.add(i);
      if (order === 1 || order === undefined) waits[i]?.add(j);
    }
  });
  return waits;
}

/** All that a piece waits for, near and far. */
function reachable(from: number, waits: readonly ReadonlySet<number>[]): Set<number> {
  const found = new Set<number>();
  const stack = [from];
  for (let i = stack.pop(); i !== undefined; i = stack.pop()) {
    for (const j of waits[i] ?? []) {
      if (found.has(j)) continue;
      found.add(j);
      stack.push(j);
    }
  }
  return found;
}

/**
 * Faces from the farthest to the nearest, so that painting them in turn shows every one rightly.
 * Convex pieces are ordered whole, by the planes that part them. Pieces that each lie before the next in a ring, or run
 * into each other, form a knot; the faces of a knot are ordered one by one and cut where they must be.
 */
export function paintOrder(stage: Stage): PieceFace[] {
  const { projection } = stage;
  const pieces = piecesOf(stage);
  const waits = waitsFor(pieces, TOUCH_MM * projection.unitsPerMm);
  const needs = pieces.map((_, i) => reachable(i, waits));
  const done = new Set<number>();
  const out: PieceFace[] = [];
  while (done.size < pieces.length) {
    const next = pieces.findIndex((_, i) => !done.has(i) && [...(needs[i] ?? [])].every((j) => done.has(j) || needs[j]?.has(i) === true));
    if (next === -1) break;
    const knot = [...pieces.keys()].filter((j) => j === next || (needs[next]?.has(j) === true && needs[j]?.has(next) === true));
    const faces = knot.flatMap((j) => pieces[j]?.faces ?? []);
    out.push(...(knot.length === 1 ? faces : orderFaces(faces, projection, PLANE_MM * projection.unitsPerMm)));
    for (const j of knot) done.add(j);
  }
  return out;
}
