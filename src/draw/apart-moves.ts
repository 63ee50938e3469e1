import type { Joint, Part, Table } from '../design/index.ts';
import type { Vec3 } from '../solid/index.ts';
import { boundsMm } from '../solid/index.ts';
import { centre, dot, minus, newell, plus, size, times, unit } from './vector.ts';

/** A piece as it is carried: its parts, moved together. */
export interface ApartPiece {
  /** Ids of its parts. */
  readonly parts: readonly string[];
}

/** A piece with the way on which it comes off, in the table's frame, mm. */
export interface MovedPiece {
  readonly parts: readonly Part[];
  readonly offsetMm: Vec3;
}

interface BoxMm {
  readonly minMm: Vec3;
  readonly maxMm: Vec3;
}

/** A point of a joint, with where its two sides have gone. */
export interface Trail {
  readonly fromMm: Vec3;
  readonly toMm: Vec3;
}

/** Clear space between two pieces that were pulled apart, and the step by which it is looked for, mm. */
const GAP_MM = 170;
const STEP_MM = 40;
const MOST_STEPS = 100;
/** Pieces nearer than this are not apart, mm. */
const CLEAR_MM = 30;

const boxesOf = (parts: readonly Part[]): readonly BoxMm[] => parts.map(({ solid, placement }) => boundsMm(solid, placement));

const shifted = ({ minMm, maxMm }: BoxMm, by: Vec3): BoxMm => ({ minMm: plus(minMm, by), maxMm: plus(maxMm, by) });

const meet = (a: BoxMm, b: BoxMm, clearMm: number): boolean =>
  ([0, 1, 2] as const).every((k) => a.minMm[k] < b.maxMm[k] + clearMm && b.minMm[k] < a.maxMm[k] + clearMm);

const middleOf = (parts: readonly Part[]): Vec3 => centre(boxesOf(parts).map(({ minMm, maxMm }) => times(plus(minMm, maxMm), 0.5)));

/** The joints between two pieces. */
function between(joints: readonly Joint[], one: readonly Part[], other: readonly Part[]): readonly Joint[] {
  const [a, b] = [new Set(one.map(({ id }) => id)), new Set(other.map(({ id }) => id))];
  return joints.filter((joint) => (a.has(joint.a) && b.has(joint.b)) || (b.has(joint.a) && a.has(joint.b)));
}

/** The way off one piece from another: along the normal of what touches, away from it. */
function wayOff(joint: Joint, from: Vec3, to: Vec3): Vec3 {
  const away = minus(to, from);
  const [widest] = joint.contact.map(newell).toSorted((a, b) => size(b) - size(a));
  if (widest === undefined || size(widest) === 0) return unit(away);
  const normal = unit(widest);
  return dot(normal, away) < 0 ? times(normal, -1) : normal;
}

const SIDEWAYS: readonly Vec3[] = [
  [0, -1, 0],
  [0, 1, 0],
  [-1, 0, 0],
  [1, 0, 0],
];

/** The way on which a drawer runs out: the one on which it meets nothing soonest. */
function wayOut(boxes: readonly BoxMm[], others: readonly BoxMm[]): Vec3 {
  const meets = (way: Vec3): number =>
    Array.from({ length: 20 }, (_, i) => times(way, (i + 1) * STEP_MM)).filter((by) =>
      boxes.some((box) => others.some((other) => meet(shifted(box, by), other, -2))),
    ).length;
  const [best] = SIDEWAYS.map((way) => ({ way, met: meets(way) })).toSorted((a, b) => a.met - b.met);
  return best?.way ?? [0, -1, 0];
}

/**
 * Where each piece goes when a table is drawn apart. The last piece stays; each one before it moves off the pieces that stay, along
 * the normals of their joints; drawers run out sideways; the top is lifted. A piece goes on until it is clear of all that was put
 * down before it. Solid boxes of parts along the table's axes decide what is clear.
 *
 * @param pieces in the order in which they come off, two at least
 * @param liftMm how far the top has to rise so that it hides nothing
 */
export function moveApart(
  table: Table,
  pieces: readonly ApartPiece[],
  liftMm: (top: readonly Part[], placed: readonly MovedPiece[]) => number,
): readonly MovedPiece[] {
  const all = pieces.map(({ parts }) => table.parts.filter(({ id }) => parts.includes(id)));
  const placed: { readonly index: number; readonly moved: MovedPiece }[] = [];
  for (const index of [...all.keys()].toReversed()) {
    const parts = all[index] ?? [];
    const before = placed.map(({ moved }) => moved);
    placed.push({ index, moved: { parts, offsetMm: offsetOf(table, parts, before, liftMm) } });
  }
  return placed.toSorted((a, b) => a.index - b.index).map(({ moved }) => moved);
}

function offsetOf(
  table: Table,
  parts: readonly Part[],
  placed: readonly MovedPiece[],
  liftMm: (top: readonly Part[], placed: readonly MovedPiece[]) => number,
): Vec3 {
  if (placed.length === 0) return [0, 0, 0];
  if (parts.some(({ id }) => id === table.top.partId)) return [0, 0, liftMm(parts, placed)];
  const boxes = boxesOf(parts);
  const others = placed.flatMap((one) => boxesOf(one.parts).map((box) => shifted(box, one.offsetMm)));
  const isDrawer = parts.every(({ role }) => role === 'drawer');
  const neighbours = placed.flatMap((one) => between(table.joints, parts, one.parts).map((joint) => ({ joint, one })));
  const ways = neighbours.map(({ joint, one }) => wayOff(joint, middleOf(one.parts), middleOf(parts)));
  const sum = ways.reduce<Vec3>((total, way) => plus(total, way), [0, 0, 0]);
  // A drawer runs out where it hangs, not where the top was lifted to.
  const base = placed.filter((one) => one.parts.every(({ id }) => id !== table.top.partId));
  const home = isDrawer ? { offsetMm: centre(base.map(({ offsetMm }) => offsetMm)) } : neighbours[0]?.one;
  const start: Vec3 = home?.offsetMm ?? [0, 0, 0];
  const outward = minus(middleOf(parts), middleOf(placed.flatMap((one) => one.parts)));
  const way = isDrawer ? wayOut(boxes, boxesOf(base.flatMap((one) => one.parts))) : size(sum) > 1e-6 ? unit(sum) : unit(outward);
  let offset = plus(start, times(way, GAP_MM));
  for (let i = 0; i < MOST_STEPS; i += 1) {
    const at = offset;
    if (!boxes.some((box) => others.some((other) => meet(shifted(box, at), other, CLEAR_MM)))) break;
    offset = plus(offset, times(way, STEP_MM));
  }
  return offset;
}

/** Most ways that are drawn for the fixings of a top: its outermost. */
const CORNERS: readonly (readonly [number, number])[] = [
  [-1, -1],
  [1, -1],
  [1, 1],
  [-1, 1],
];

/** The ways on which pieces came off: one for each joint, and those of the outermost fixings of the top. */
export function trailsOf(table: Table, moved: readonly MovedPiece[]): readonly Trail[] {
  const holder = (id: string): MovedPiece | undefined => moved.find(({ parts }) => parts.some((part) => part.id === id));
  const joints = table.joints.flatMap((joint): readonly Trail[] => {
    const [a, b] = [holder(joint.a), holder(joint.b)];
    if (a === undefined || b === undefined || a === b || joint.kind === 'rests') return [];
    const points = joint.contact.map((polygon) => centre(polygon));
    return points.length === 0 ? [] : [{ fromMm: plus(centre(points), a.offsetMm), toMm: plus(centre(points), b.offsetMm) }];
  });
  const top = holder(table.top.partId);
  const base = moved.findLast((one) => one !== top);
  const { pointsMm } = table.fixing;
  if (top === undefined || base === undefined || pointsMm.length === 0) return joints;
  const underMm = table.top.heightMm - table.top.thicknessMm;
  const outermost = CORNERS.flatMap(([sx, sy]) => pointsMm.toSorted((p, q) => sx * (q.xMm - p.xMm) + sy * (q.yMm - p.yMm))[0] ?? []);
  const lifts = [...new Set(outermost)].map(({ xMm, yMm }): Trail => {
    const at: Vec3 = [xMm, yMm, underMm];
    const below = moved.find((one) => one !== top && boxesOf(one.parts).some((box) => isUnder(box, at))) ?? base;
    return { fromMm: plus(at, below.offsetMm), toMm: plus(at, top.offsetMm) };
  });
  return [...joints, ...lifts];
}

const isUnder = ({ minMm, maxMm }: BoxMm, [x, y, z]: Vec3): boolean =>
  minMm[0] - 1 <= x && x <= maxMm[0] + 1 && minMm[1] - 1 <= y && y <= maxMm[1] + 1 && Math.abs(maxMm[2] - z) < 2;
