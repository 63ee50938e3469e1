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
  /** Where a body's shadow comes within reach of the edge. */
  readonly spanOf: (shadow: Hull) => Span | undefined;
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
    spanOf: (shadow) => {
      const within = cut(polygonOf(shadow), [-outward[0], -outward[1]], kneeReachMm - reach);
      const places = within.map((p) => p[along] - startMm);
      if (places.length < 3) return undefined;
      const span: Span = [Math.max(0, Math.min(...places)), Math.min(lengthMm, Math.max(...places))];
      return span[1] > span[0] ? span : undefined;
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

/** The rim, measured from +x counter-clockwise; a body within reach takes all of the rim that it subtends from the middle. */
function rimEdge(rxMm: number, ryMm: number): SeatingEdge {
  const outline = hullOf([shapeOf({ kind: 'ellipse', rxMm, ryMm })]);
  const steps = 3600;
  const sums = [0];
  for (let i = 0; i < steps; i++) {
    const [a, b] = [i, i + 1].map((k) => (2 * Math.PI * k) / steps) as [number, number];
    const chord = Math.hypot(rxMm * (Math.cos(b) - Math.cos(a)), ryMm * (Math.sin(b) - Math.sin(a)));
    sums.push((sums[i] as number) + chord);
  }
  const lengthMm = sums[steps] as number;
  const alongMm = (angleRad: number): number => {
    const turns = Math.floor(angleRad / (2 * Math.PI));
    const exact = ((angleRad - turns * 2 * Math.PI) * steps) / (2 * Math.PI);
    const i = Math.min(steps - 1, Math.floor(exact));
    return turns * lengthMm + (sums[i] as number) + (exact - i) * ((sums[i + 1] as number) - (sums[i] as number));
  };
  const spanOf = (shadow: Hull): Span | undefined => {
    if (insetMm(outline, shadow) >= kneeReachMm) return undefined;
    const points = polygonOf(shadow);
    const angles = points.map((p) => Math.atan2(p[1] / ryMm, p[0] / rxMm));
    const middle = angles[0] ?? 0;
    const turned = angles.map((a) => Math.atan2(Math.sin(a - middle), Math.cos(a - middle)));
    const [low, high] = [Math.min(...turned), Math.max(...turned)];
    return high - low >= Math.PI ? [0, lengthMm] : [alongMm(middle + low), alongMm(middle + high)];
  };
  return { id: 'rim', lengthMm, closed: true, spanOf };
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
  return parts.flatMap((part) =>
    planHulls(part, 0, highMm).flatMap((shadow) => {
      const span = edge.spanOf(shadow);
      return span === undefined ? [] : [span];
    }),
  );
}
