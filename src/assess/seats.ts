import type { Part, Table } from '../design/index.ts';
import type { Vec2 } from '../solid/index.ts';
import type { EffectiveSpec } from '../spec/index.ts';
import { clearancesOf } from './clearances.ts';
import { cut, polygonOf } from './rim.ts';
import { rimEdge } from './round-seats.ts';
import type { SeatingEdge, Span } from './seating-edge.ts';
import { heightsOf, planHulls } from './slice.ts';

/**
 * How far in from the edge knees and the arms of a chair reach at most, mm: common practice, near the 11 in (280 mm) that the
 * 2010 ADA Standards, 306.3.3, ask for at 9 in above the floor. Under a small top it is three quarters of the way to the middle:
 * knees go past a post there.
 */
const mostReachMm = 300;

function reachUnder(table: Table): number {
  return Math.min(mostReachMm, (0.75 * Math.min(table.overallMm.length, table.overallMm.width)) / 2);
}

/** Free floor that a chair needs behind the edge, mm: common practice. A table that stands against a wall has no seats there. */
const chairRoomMm = 450;

/** The sides and ends of a rectangle behind which the room leaves floor for a chair, or the rim. */
export function seatingEdges(spec: EffectiveSpec, table: Table): readonly SeatingEdge[] {
  const { outline } = table.top;
  const kneeMm = reachUnder(table);
  if (outline.kind === 'ellipse') return [rimEdge(outline.rxMm, outline.ryMm, kneeMm)];
  const xs = outline.points.map((p) => p[0]);
  const ys = outline.points.map((p) => p[1]);
  const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const straight = (id: SeatingEdge['id'], along: 0 | 1, startMm: number, lengthMm: number, outward: Vec2, reach: number): SeatingEdge => ({
    id,
    lengthMm,
    closed: false,
    spansOf: (shadow) => {
      const within = cut(polygonOf(shadow), [-outward[0], -outward[1]], kneeMm - reach);
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
