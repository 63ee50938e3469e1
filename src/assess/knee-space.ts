import type { Part, Table } from '../design/index.ts';
import type { Polyhedron } from '../solid/index.ts';
import { boundsMm, cutConvex, placedPieces } from '../solid/index.ts';

/** A leg that only brushes the box's side is not in it, mm. */
const brushMm = 1e-6;

/** What a part has between the front edge and the back of the box: its stretch along x and its lowest point, mm. */
interface Blocker {
  readonly id: string;
  readonly fromMm: number;
  readonly toMm: number;
  readonly lowMm: number;
}

/**
 * Height of the tallest free box of a width and depth whose front is the front edge of the top, wherever along it the box fits best, mm;
 * and the part that ends it (the top, where nothing else does). Standing on the floor, so a low stretcher leaves nothing.
 */
export function kneeSpace(
  table: Table,
  parts: readonly Part[],
  wideMm: number,
  deepMm: number,
): { readonly heightMm: number; readonly blockedBy: string } {
  const front = -table.overallMm.width / 2;
  const blockers = parts.flatMap((part) => blockersOf(part, front, front + deepMm));
  const half = table.overallMm.length / 2;
  const starts = [-half, half - wideMm, ...blockers.flatMap((b) => [b.toMm, b.fromMm - wideMm])];
  let best = { heightMm: 0, blockedBy: table.top.partId };
  for (const start of starts) {
    if (start < -half - brushMm || start + wideMm > half + brushMm) continue;
    const above = blockers.filter((b) => b.fromMm < start + wideMm - brushMm && b.toMm > start + brushMm);
    const lowest = above.reduce<Blocker | undefined>((a, b) => (a === undefined || b.lowMm < a.lowMm ? b : a), undefined);
    const heightMm = lowest?.lowMm ?? table.top.heightMm - table.top.thicknessMm;
    if (heightMm > best.heightMm || best.heightMm === 0)
      best = { heightMm: Math.max(0, heightMm), blockedBy: lowest?.id ?? table.top.partId };
  }
  return best;
}

function blockersOf(part: Part, frontMm: number, backMm: number): Blocker[] {
  return placedPieces(part).flatMap((piece) => {
    const behind = cutConvex(piece, { normal: [0, -1, 0], offsetMm: -frontMm });
    const within: Polyhedron | undefined = behind && cutConvex(behind, { normal: [0, 1, 0], offsetMm: backMm });
    if (within === undefined) return [];
    const { minMm, maxMm } = boundsMm(within);
    const thick = maxMm[1] - minMm[1] > brushMm;
    return thick ? [{ id: part.id, fromMm: minMm[0], toMm: maxMm[0], lowMm: minMm[2] }] : [];
  });
}
