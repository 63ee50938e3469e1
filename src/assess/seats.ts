import type { Part, Table } from '../design/index.ts';
import type { Vec2 } from '../solid/index.ts';
import type { EffectiveSpec } from '../spec/index.ts';
import { clearancesOf } from './clearances.ts';
import type { Hull } from './convex.ts';
import { hullOf, shapeOf } from './convex.ts';
import { insetMm } from './inset.ts';
import { cut, polygonOf } from './rim.ts';
import { heightsOf, planHulls } from './slice.ts';

/**
 * How far in from the edge knees and the arms of a chair reach, mm: common practice, near the 11 in (280 mm) that the
 * 2010 ADA Standards, 306.3.3, ask for at 9 in above the floor.
 */
export const kneeReachMm = 300;

/** Stretch of a seating edge, mm from its start. */
export type Span = readonly [number, number];

/** An edge of the top along which people sit: a straight side, or the whole rim of a round or oval top. */
export interface SeatingEdge {
  readonly id: 'front' | 'right' | 'back' | 'left' | 'rim';
  readonly lengthMm: number;
  readonly closed: boolean;
  /** Where a body's shadow comes within reach of the edge: once, or at both ends of a bar under a round top. */
  readonly spansOf: (shadow: Hull) => readonly Span[];
}

/** Free floor that a chair needs behind the edge, mm: common practice. A table that stands against a wall has no seats there. */
const chairRoomMm = 450;

/** The sides and ends of a rectangle behind which the room leaves floor for a chair, or the rim. */
export function seatingEdges(spec: EffectiveSpec, table: Table): readonly SeatingEdge[] {
  const { outline } = table.top;
  if (outline.kind === 'ellipse') return [rimEdge(outline.rxMm, outline.ryMm)];
  const xs = outline.points.map((p) => p[0]);
  const ys = outline.points.map((p) => p[1]);
  const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const straight = (id: SeatingEdge['id'], along: 0 | 1, startMm: number, lengthMm: number, outward: Vec2, reach: number): SeatingEdge => ({
    id,
    lengthMm,
    closed: false,
    spansOf: (shadow) => {
      const within = cut(polygonOf(shadow), [-outward[0], -outward[1]], kneeReachMm - reach);
      const places = within.map((p) => p[along] - startMm);
      if (places.length < 3) return [];
      const span: Span = [Math.max(0, Math.min(...places)), Math.min(lengthMm, Math.max(...places))];
      return span[1] > span[0] ? [span] : [];
    },
  });
  const clearMm = clearancesOf(spec.proposal.room, table);
  const edges = [
    straight('front', 0, x0, x1 - x0, [0, -1], -y0),
    straight('right', 1, y0, y1 - y0, [1, 0], x1),
    straight('back', 0, x0, x1 - x0, [0, 1], y1),
    straight('left', 1, y0, y1 - y0, [-1, 0], -x0),
  ];
  return edges.filter((edge) => edge.id === 'rim' || clearMm[edge.id] >= chairRoomMm);
}

/** Step along a shadow's outline where a round top asks which of it lies within reach, mm: its spans are exact to this. */
const stepMm = 1;

/** The rim, measured from +x counter-clockwise; a body within reach takes the rim that it subtends from the middle. */
function rimEdge(rxMm: number, ryMm: number): SeatingEdge {
  const outline = hullOf([shapeOf({ kind: 'ellipse', rxMm, ryMm })]);
  const { lengthMm, alongMm } = rimLength(rxMm, ryMm);
  const isNear = (p: Vec2): boolean => depthMm(rxMm, ryMm, p) < kneeReachMm;
  const spansOf = (shadow: Hull): readonly Span[] => {
    if (insetMm(outline, shadow) >= kneeReachMm) return [];
    const angles = stepsAlong(polygonOf(shadow))
      .filter(isNear)
      .map((p) => Math.atan2(p[1] / ryMm, p[0] / rxMm))
      .sort((a, b) => a - b);
    // Within reach the nearest point to the middle is this far off, in the ellipse's own angle: a wider gap is free rim.
    const gapRad = (4 * stepMm) / Math.max(stepMm, Math.min(rxMm, ryMm) - kneeReachMm);
    return groupsOf(angles, gapRad).map(([low, high]): Span => [alongMm(low), alongMm(high)]);
  };
  return { id: 'rim', lengthMm, closed: true, spansOf };
}

/**
 * Distance from a place under the top to an elliptic rim, mm; 0 outside.
 * The nearest point is (a^2 x / (t + a^2), b^2 y / (t + b^2)) for the one t at which it lies on the ellipse; found by bisection.
 * @source Eberly, "Distance from a Point to an Ellipse", Geometric Tools (from memory)
 */
export function depthMm(rxMm: number, ryMm: number, at: Vec2): number {
  const [a, b] = [Math.max(rxMm, ryMm), Math.min(rxMm, ryMm)];
  const [x, y] = rxMm >= ryMm ? [Math.abs(at[0]), Math.abs(at[1])] : [Math.abs(at[1]), Math.abs(at[0])];
  if ((x / a) ** 2 + (y / b) ** 2 >= 1) return 0;
  if (a === b) return a - Math.sqrt(x * x + y * y);
  const onRim = (t: number): number => ((a * x) / (t + a * a)) ** 2 + ((b * y) / (t + b * b)) ** 2 - 1;
  let [low, high] = [-b * b + b * y, 0];
  for (let k = 0; k < 50; k++) {
    const middle = (low + high) / 2;
    if (onRim(middle) > 0) low = middle;
    else high = middle;
  }
  const nearX = (a * a * x) / (high + a * a);
  // On the long axis near the middle the nearest point lies to the side, where t + b^2 is 0.
  const nearY = y > 0 ? (b * b * y) / (high + b * b) : b * Math.sqrt(Math.max(0, 1 - (nearX / a) ** 2));
  return Math.sqrt((x - nearX) ** 2 + (y - nearY) ** 2);
}

/** Length of an ellipse, and the length from +x to an angle of its parameter, by 3,600 chords (short by less than 1 in 1e6). */
function rimLength(rxMm: number, ryMm: number): { readonly lengthMm: number; readonly alongMm: (angleRad: number) => number } {
  const steps = 3600;
  const sums = [0];
  for (let i = 0; i < steps; i++) {
    const [a, b] = [(2 * Math.PI * i) / steps, (2 * Math.PI * (i + 1)) / steps];
    sums.push((sums[i] as number) + Math.hypot(rxMm * (Math.cos(b) - Math.cos(a)), ryMm * (Math.sin(b) - Math.sin(a))));
  }
  const lengthMm = sums[steps] as number;
  const alongMm = (angleRad: number): number => {
    const turns = Math.floor(angleRad / (2 * Math.PI));
    const exact = ((angleRad - turns * 2 * Math.PI) * steps) / (2 * Math.PI);
    const i = Math.min(steps - 1, Math.floor(exact));
    return turns * lengthMm + (sums[i] as number) + (exact - i) * ((sums[i + 1] as number) - (sums[i] as number));
  };
  return { lengthMm, alongMm };
}

function stepsAlong(polygon: readonly Vec2[]): Vec2[] {
  return polygon.flatMap((from, i) => {
    const to = polygon[(i + 1) % polygon.length] as Vec2;
    const count = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / stepMm));
    return Array.from(
      { length: count },
      (_, k): Vec2 => [from[0] + (k / count) * (to[0] - from[0]), from[1] + (k / count) * (to[1] - from[1])],
    );
  });
}

/** Stretches of sorted angles without a gap, across the seam at pi where they join up; the whole turn where there is no gap at all. */
function groupsOf(angles: readonly number[], gapRad: number): (readonly [number, number])[] {
  const groups: [number, number][] = [];
  for (const angle of angles) {
    const last = groups.at(-1);
    if (last !== undefined && angle - last[1] <= gapRad) last[1] = angle;
    else groups.push([angle, angle]);
  }
  const [first, last] = [groups[0], groups.at(-1)];
  if (first === undefined || last === undefined || first[0] + 2 * Math.PI - last[1] > gapRad) return groups;
  if (first === last) return [[0, 2 * Math.PI]];
  return [[last[0], first[1] + 2 * Math.PI], ...groups.slice(1, -1)];
}

/** Lengths of what is left free of spans, in order along the edge. */
export function freeRunsMm(edge: SeatingEdge, taken: readonly Span[]): readonly number[] {
  const wrapped = edge.closed ? taken.flatMap((span) => unwrap(span, edge.lengthMm)) : taken;
  const sorted = [...wrapped].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const runs: number[] = [];
  let at = 0;
  for (const [from, to] of sorted) {
    if (from > at) runs.push(from - at);
    at = Math.max(at, to);
  }
  if (edge.lengthMm > at) runs.push(edge.lengthMm - at);
  const first = sorted[0];
  const joinsUp = edge.closed && first !== undefined && first[0] > 0 && at < edge.lengthMm && runs.length > 1;
  return joinsUp ? [(runs[0] as number) + (runs.at(-1) as number), ...runs.slice(1, -1)] : runs;
}

function unwrap([from, to]: Span, lengthMm: number): Span[] {
  const start = ((from % lengthMm) + lengthMm) % lengthMm;
  const end = start + (to - from);
  if (to - from >= lengthMm) return [[0, lengthMm]];
  return end <= lengthMm
    ? [[start, end]]
    : [
        [start, lengthMm],
        [0, end - lengthMm],
      ];
}

/** What stands between floor and knee (a leg, a slab), and what hangs above (an apron); low stretchers and feet are neither. */
export function obstaclesOf(
  table: Table,
  parts: readonly Part[],
  kneeHeightMm: number,
): { readonly standing: readonly Part[]; readonly hanging: readonly Part[] } {
  const base = parts.filter((part) => part.id !== table.top.partId);
  const middleMm = kneeHeightMm / 2;
  return {
    standing: base.filter((part) => heightsOf(part).lowMm < middleMm && heightsOf(part).highMm > middleMm),
    hanging: base.filter((part) => heightsOf(part).lowMm >= middleMm),
  };
}

/** Stretches of an edge that the given parts take between floor and a height. */
export function takenSpans(edge: SeatingEdge, parts: readonly Part[], highMm: number): readonly Span[] {
  return parts.flatMap((part) => planHulls(part, 0, highMm).flatMap((shadow) => edge.spansOf(shadow)));
}
