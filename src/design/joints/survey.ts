import type { Bounds, Overlap, Touch } from '../../solid/index.ts';
import { boundsMeet, boundsMm, CONTACT_MM2, OVERLAP_MM3, overlapOf, TOUCH_MM, touchAreaMm2, touchesOf } from '../../solid/index.ts';
import type { Part } from '../table.ts';

/** Two parts that touch or claim the same place; `a` comes first in the table. */
export interface Pair {
  readonly a: Part;
  readonly b: Part;
  readonly touches: readonly Touch[];
  readonly touchMm2: number;
  readonly overlap: Overlap;
  /** More shared material than rounding explains. */
  readonly overlaps: boolean;
}

/** Every pair of parts that meet, found once and used by all checks. */
export function surveyPairs(parts: readonly Part[]): readonly Pair[] {
  const boxes = parts.map((p) => boundsMm(p.solid, p.placement));
  const pairs: Pair[] = [];
  parts.forEach((a, i) => {
    parts.slice(i + 1).forEach((b, k) => {
      if (!boundsMeet(boxes[i] as Bounds, boxes[i + 1 + k] as Bounds, TOUCH_MM)) return;
      const touches = touchesOf(a, b);
      const overlap = overlapOf(a, b);
      const touchMm2 = touchAreaMm2(touches);
      const overlaps = overlap.volumeMm3 > OVERLAP_MM3;
      if (touchMm2 >= CONTACT_MM2 || overlaps) pairs.push({ a, b, touches, touchMm2, overlap, overlaps });
    });
  });
  return pairs;
}

/** The pair of two ids, whichever way round. */
export const pairOf = (pairs: readonly Pair[], a: string, b: string): Pair | undefined =>
  pairs.find((p) => (p.a.id === a && p.b.id === b) || (p.a.id === b && p.b.id === a));
