import type { BoxMm, Mark } from './display-list.ts';
import type { TextMark } from './lettering.ts';

type Segment = readonly [number, number, number, number];

/** What is already on a sheet, for finding room for the next text. */
export interface Occupied {
  readonly addMarks: (marks: readonly Mark[]) => void;
  /** No drawn line touches the box and no text lies nearer than `padMm`. */
  readonly isFree: (box: BoxMm, padMm: number) => boolean;
  /** Whether a line would run through a text. */
  readonly crossesText: (segment: Segment) => boolean;
  /** How many drawn lines it would cross. */
  readonly crossings: (segment: Segment) => number;
}

export const grownBox = ({ x, y, width, height }: BoxMm, byMm: number): BoxMm => ({
  x: x - byMm,
  y: y - byMm,
  width: width + 2 * byMm,
  height: height + 2 * byMm,
});

export const boxesMeet = (a: BoxMm, b: BoxMm): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

/** Whether a line runs through the inside of a box. */
export function lineMeetsBox([x1, y1, x2, y2]: Segment, { x, y, width, height }: BoxMm): boolean {
  if ((x1 <= x && x2 <= x) || (x1 >= x + width && x2 >= x + width) || (y1 <= y && y2 <= y) || (y1 >= y + height && y2 >= y + height))
    return false;
  let t0 = 0;
  let t1 = 1;
  for (const [from, to, low, high] of [
    [x1, x2, x, x + width],
    [y1, y2, y, y + height],
  ] as const) {
    const d = to - from;
    if (Math.abs(d) < 1e-12) {
      if (from <= low || from >= high) return false;
      continue;
    }
    const [a, b] = [(low - from) / d, (high - from) / d];
    t0 = Math.max(t0, Math.min(a, b));
    t1 = Math.min(t1, Math.max(a, b));
  }
  return t1 > t0;
}

/** Whether two lines cross between their ends. */
function cross([ax, ay, bx, by]: Segment, [cx, cy, dx, dy]: Segment): boolean {
  const side = (x1: number, y1: number, x2: number, y2: number, x: number, y: number): number =>
    (x2 - x1) * (y - y1) - (y2 - y1) * (x - x1);
  return side(ax, ay, bx, by, cx, cy) * side(ax, ay, bx, by, dx, dy) < 0 && side(cx, cy, dx, dy, ax, ay) * side(cx, cy, dx, dy, bx, by) < 0;
}

/** Straight pieces of a mark's path; arcs and curves by their chords. */
export function segmentsOf(mark: Mark): Segment[] {
  if (mark.kind === 'text') return [];
  const out: Segment[] = [];
  let [x, y, startX, startY] = [0, 0, 0, 0];
  for (const step of mark.steps) {
    if (step[0] === 'Z') {
      out.push([x, y, startX, startY]);
      continue;
    }
    const [toX, toY] = [step.at(-2) as number, step.at(-1) as number];
    if (step[0] === 'M') [startX, startY] = [toX, toY];
    else out.push([x, y, toX, toY]);
    [x, y] = [toX, toY];
  }
  return out;
}

const isDrawn = (mark: Mark): boolean =>
  mark.kind === 'tick' || (mark.kind === 'line' && mark.class !== 'grain' && mark.colour === undefined);

export function occupiedBy(marks: readonly Mark[]): Occupied {
  const segments: Segment[] = [];
  const texts: TextMark[] = [];
  const addMarks = (more: readonly Mark[]): void => {
    for (const mark of more) {
      if (mark.kind === 'text') texts.push(mark);
      else if (isDrawn(mark)) segments.push(...segmentsOf(mark));
    }
  };
  addMarks(marks);
  return {
    addMarks,
    isFree: (box, padMm) => {
      const wide = grownBox(box, padMm);
      return !texts.some((t) => boxesMeet(wide, t.boxMm)) && !segments.some((s) => lineMeetsBox(s, wide));
    },
    crossesText: (segment) => texts.some((t) => lineMeetsBox(segment, grownBox(t.boxMm, 0.4))),
    crossings: (segment) => segments.filter((s) => cross(segment, s)).length,
  };
}
