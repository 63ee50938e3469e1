import type { Vec2, Vec3 } from '../solid/index.ts';
import type { SeenEdge, SeenFace, Stage } from './stage.ts';
import { GUARD_MM } from './stage.ts';
import { between } from './vector.ts';

/** `outline`: nothing of the table lies beyond it on one side; `edge`: visible within the table; `hidden`: behind something. */
export type Visibility = 'outline' | 'edge' | 'hidden';

export interface SeenLine {
  readonly a: Vec2;
  readonly b: Vec2;
  readonly visibility: Visibility;
}

/** Stretches of one edge, from 0 at its beginning to 1 at its end, in order and apart. */
export type Stretches = readonly (readonly [number, number])[];

/** In mm of the world: nearness that counts as in front, and the step beside an edge. */
const IN_FRONT_MM = 0.05;
const BESIDE_MM = 0.25;

/**
 * The stretch of an edge that one face covers: a line against the sides of a convex polygon and, where `nearer`
 * is given, against the face's plane. All are linear in the edge's parameter, so the ends are exact.
 * Sides that end the shape lie a guard further in, so that an edge on the very rim is not covered by its own face.
 */
function covered({ sides, slope }: SeenFace, a: Vec3, b: Vec3, nearer: number | undefined): readonly [number, number] | undefined {
  const [au, av, an] = a;
  const [bu, bv, bn] = b;
  let t0 = 0;
  let t1 = 1;
  for (let i = 0; i <= sides.length; i += 3) {
    const last = i === sides.length;
    if (last && nearer === undefined) break;
    const ka = last ? slope[0] : (sides[i] as number);
    const kb = last ? slope[1] : (sides[i + 1] as number);
    const kc = last ? slope[2] - (nearer ?? 0) : (sides[i + 2] as number);
    const da = ka * au + kb * av + kc - (last ? an : 0);
    const db = ka * bu + kb * bv + kc - (last ? bn : 0);
    if (da <= 0 && db <= 0) return undefined;
    if (da < 0) t0 = Math.max(t0, da / (da - db));
    else if (db < 0) t1 = Math.min(t1, da / (da - db));
    if (t1 <= t0) return undefined;
  }
  return [t0, t1];
}

/** Joins stretches that touch or overlap within `slack`. */
export function join(stretches: Stretches, slack: number): Stretches {
  const out: (readonly [number, number])[] = [];
  for (const [from, to] of stretches.toSorted((x, y) => x[0] - y[0])) {
    const last = out.at(-1);
    if (last !== undefined && from <= last[1] + slack) out[out.length - 1] = [last[0], Math.max(last[1], to)];
    else out.push([from, to]);
  }
  return out;
}

/** What of `whole` lies in none of `taken` (joined, in order); crumbs shorter than `slack` are left out. */
export function without(whole: Stretches, taken: Stretches, slack: number): Stretches {
  const out: (readonly [number, number])[] = [];
  for (const [from, to] of whole) {
    let at = from;
    for (const [s, e] of taken) {
      if (e <= at || s >= to) continue;
      if (s - at > slack) out.push([at, s]);
      at = Math.max(at, e);
    }
    if (to - at > slack) out.push([at, to]);
  }
  return out;
}

/** What of `a` also lies in `b`. */
const common = (a: Stretches, b: Stretches, slack: number): Stretches => without(a, without([[0, 1]], b, 0), slack);

function linesOf(edge: SeenEdge, stage: Stage): SeenLine[] {
  const unit = stage.projection.unitsPerMm;
  const { a, b } = edge;
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const beside = BESIDE_MM * unit;
  const aside: Vec3 = [(-(b[1] - a[1]) / length) * beside, ((b[0] - a[0]) / length) * beside, 0];
  const left = Math.min(a[0], b[0]) - beside;
  const right = Math.max(a[0], b[0]) + beside;
  const low = Math.min(a[1], b[1]) - beside;
  const high = Math.max(a[1], b[1]) + beside;
  const near = stage.faces.filter(({ box }) => box[0] < right && box[2] > left && box[1] < high && box[3] > low);
  const slack = (4 * GUARD_MM * unit) / length;
  const gather = (shift: 1 | 0 | -1): Stretches => {
    const from: Vec3 = [a[0] + shift * aside[0], a[1] + shift * aside[1], a[2]];
    const to: Vec3 = [b[0] + shift * aside[0], b[1] + shift * aside[1], b[2]];
    const nearer = shift === 0 ? IN_FRONT_MM * unit : undefined;
    const found: (readonly [number, number])[] = [];
    for (const face of near) {
      const stretch = covered(face, from, to, nearer);
      if (stretch !== undefined) found.push(stretch);
    }
    return join(found, slack);
  };
  const all: Stretches = [[0, 1]];
  const hidden = gather(0);
  const visible = without(all, hidden, slack);
  const lines: SeenLine[] = [];
  const add = (stretches: Stretches, visibility: Visibility): void => {
    for (const [s, e] of stretches) {
      const [p, q] = [between(a, b, s), between(a, b, e)];
      lines.push({ a: [p[0], p[1]], b: [q[0], q[1]], visibility });
    }
  };
  add(hidden, 'hidden');
  if (visible.length > 0) {
    const open = join([...without(all, gather(1), slack), ...without(all, gather(-1), slack)], slack);
    const outline = common(visible, open, slack);
    add(outline, 'outline');
    add(without(visible, outline, slack), 'edge');
  }
  return lines;
}

/** Every edge of the table cut into what is seen and what is hidden, exact to the guards above. */
export function findLines(stage: Stage): SeenLine[] {
  return stage.edges.flatMap((edge) => linesOf(edge, stage));
}
