import type { PieceFace, SeenPiece } from './convex.ts';
import { halfOf, orderOf, piecesOf } from './convex.ts';
import type { Stage } from './stage.ts';
import { dot } from './vector.ts';

/** Pieces that touch may overlap by this much (mm of the world) and still count as apart: chord errors of round parts. */
const TOUCH_MM = 0.6;
/** A cut that frees a knot of pieces makes two of one; far more than any table needs. */
const MOST_CUTS = 400;

/** What is left of `piece` outside `body`: at most one piece per plane of the body. */
function outside(piece: SeenPiece, body: SeenPiece, tolerance: number): SeenPiece[] {
  const out: SeenPiece[] = [];
  let rest: SeenPiece | undefined = piece;
  for (const plane of body.planes) {
    if (rest === undefined) break;
    const free = halfOf(rest, plane, 'outside', tolerance);
    if (free !== undefined) out.push(free);
    rest = halfOf(rest, plane, 'inside', tolerance);
  }
  return out;
}

/** Pieces that run into each other (housed and lapped parts) are cut until none does; the earlier part keeps its shape. */
function partOverlaps(pieces: readonly SeenPiece[], tolerance: number): SeenPiece[] {
  let done: SeenPiece[] = [];
  for (const piece of pieces) {
    let rest: SeenPiece[] = [piece];
    for (const body of done) {
      rest = rest.flatMap((p) => (orderOf(body, p, tolerance) === undefined ? outside(p, body, tolerance) : [p]));
    }
    done = [...done, ...rest];
  }
  return done;
}

/** Splits one piece of a knot by a plane of another one that crosses it. */
function cutKnot(
  knot: readonly SeenPiece[],
  tolerance: number,
): { readonly piece: SeenPiece; readonly halves: readonly SeenPiece[] } | undefined {
  for (const body of knot) {
    for (const plane of body.planes) {
      for (const piece of knot) {
        if (piece === body) continue;
        const reach = piece.points.map((p) => dot(plane.normal, p) - plane.offset);
        if (Math.min(...reach) > -2 * tolerance || Math.max(...reach) < 2 * tolerance) continue;
        const halves = (['inside', 'outside'] as const).flatMap((side) => halfOf(piece, plane, side, tolerance) ?? []);
        if (halves.length === 2) return { piece, halves };
      }
    }
  }
  return undefined;
}

/**
 * Faces from the farthest to the nearest, so that painting them in turn shows every one rightly.
 * Convex pieces are ordered by the planes that part them; a ring of pieces that each lie before the next is cut.
 */
export function paintOrder(stage: Stage): PieceFace[] {
  const tolerance = TOUCH_MM * stage.projection.unitsPerMm;
  let pieces = partOverlaps(piecesOf(stage), tolerance);
  for (let cuts = 0; ; cuts += 1) {
    const { sorted, knot } = sortPieces(pieces, tolerance);
    const cut = knot.length === 0 || cuts >= MOST_CUTS ? undefined : cutKnot(knot, tolerance);
    if (cut === undefined) return [...sorted, ...knot].flatMap((p) => p.faces);
    pieces = pieces.flatMap((p) => (p === cut.piece ? cut.halves : [p]));
  }
}

function sortPieces(pieces: readonly SeenPiece[], tolerance: number): { readonly sorted: SeenPiece[]; readonly knot: SeenPiece[] } {
  const before = pieces.map(() => new Set<number>());
  pieces.forEach((a, i) => {
    for (let j = i + 1; j < pieces.length; j += 1) {
      const b = pieces[j];
      const order = b === undefined ? 0 : orderOf(a, b, tolerance);
      if (order === -1) before[j]?.add(i);
      if (order === 1) before[i]?.add(j);
    }
  });
  const sorted: SeenPiece[] = [];
  const waiting = new Set(pieces.keys());
  for (;;) {
    const next = [...waiting].find((i) => [...(before[i] ?? [])].every((j) => !waiting.has(j)));
    if (next === undefined) break;
    waiting.delete(next);
    const piece = pieces[next];
    if (piece !== undefined) sorted.push(piece);
  }
  return { sorted, knot: pieces.filter((_, i) => waiting.has(i)) };
}
