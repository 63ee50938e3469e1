import type { Table } from '../design/index.ts';
import type { Vec3 } from '../solid/index.ts';
import type { DimensionRow, DimensionSide, Measure, Stop } from './dimension.ts';
import type { Span } from './measures.ts';
import { bearerSpan, footSpans, headSpans, isMirrored, levels, reachAtLevel } from './measures.ts';
import type { Shape } from './shape.ts';
import type { View, ViewPlace } from './view.ts';
import { onSheet } from './view.ts';

/**
 * `full`: each measure once on the whole sheet; `single`: a view that stands alone also has its overall sizes; `main`: those
 * alone, without the section of any part; `overall`: the same for a telephone.
 */
export type DimensionExtent = 'full' | 'single' | 'main' | 'overall';

const isBrief = (extent: DimensionExtent): boolean => extent === 'main' || extent === 'overall';

interface Drawn {
  readonly table: Table;
  readonly shapes: readonly Shape[];
  readonly view: View;
  readonly place: ViewPlace;
}

/** Lengths under this are no measure (mm of the world). */
const LEAST_MM = 0.6;

const overall = (table: Table, axis: 'x' | 'y'): Span => {
  const half = (axis === 'x' ? table.overallMm.length : table.overallMm.width) / 2;
  const [low, high] = reachOfTop(table, axis, half);
  return { from: low, to: high, round: table.top.shape === 'round' };
};

function reachOfTop({ top }: Table, axis: 'x' | 'y', half: number): readonly [number, number] {
  if (top.outline.kind === 'ellipse') return axis === 'x' ? [-top.outline.rxMm, top.outline.rxMm] : [-top.outline.ryMm, top.outline.ryMm];
  const values = top.outline.points.map((p) => (axis === 'x' ? p[0] : p[1]));
  return values.length === 0 ? [-half, half] : [Math.min(...values), Math.max(...values)];
}

/** From the edge of the top to each span in turn; only to the middle when the rest is its mirror image. */
function chainOf(edge: Span, spans: readonly Span[]): Span[] {
  const mirrored = isMirrored(spans);
  const chain: Span[] = [];
  let at = edge.from;
  for (const span of spans) {
    chain.push({ from: at, to: span.from, round: false });
    if (mirrored && span.from > LEAST_MM) break;
    chain.push(span);
    at = span.to;
    if (mirrored && at > LEAST_MM) break;
  }
  if (!mirrored) chain.push({ from: at, to: edge.to, round: false });
  return chain.filter((s) => s.to - s.from > LEAST_MM);
}

const sameSpans = (a: readonly Span[], b: readonly Span[]): boolean =>
  a.length === b.length &&
  a.every((s, i) => Math.abs(s.from - (b[i]?.from ?? 0)) < LEAST_MM && Math.abs(s.to - (b[i]?.to ?? 0)) < LEAST_MM);

/** Heights nearer than this on the sheet are not both written. */
const LEVELS_APART_MM = 2;
/** The clear height under rails is a main measure, however low they are. */
const CLEAR_APART_MM = 1;

/** A row of level measures; `levelOf` gives the height or depth in the table at which a stop's extension begins. */
function row(drawn: Drawn, side: DimensionSide, index: number, spans: readonly Span[], at: (mm: number) => Vec3): DimensionRow {
  const { view, place } = drawn;
  const upright = side === 'left' || side === 'right';
  const [left, low, right, high] = view.box;
  const corner = onSheet(place, side === 'left' || side === 'below' ? [left, low] : [right, high]);
  const stop = (mm: number): Stop => {
    const [x, y] = onSheet(place, view.stage.projection.project(at(mm)));
    return upright ? { alongMm: y, reachMm: x } : { alongMm: x, reachMm: y };
  };
  const measures = spans.map(
    (s): Measure => ({ from: stop(s.from), to: stop(s.to), realMm: s.to - s.from, ...(s.round ? { sign: 'Ø' } : {}) }),
  );
  return { side, baseMm: upright ? corner[0] : corner[1], row: index, measures };
}

/** Measures of one view: overhangs, feet and clear widths below; heights at the left; heads of legs and bearers on the underside. */
export function dimensionRows(drawn: Drawn, extent: DimensionExtent): DimensionRow[] {
  const { table, shapes, view } = drawn;
  switch (view.name) {
    case 'front':
      return [...levelRows(drawn, 'x', extent), ...heightRows(drawn, 'x', extent)];
    case 'side': {
      const again = extent === 'full' && table.top.shape === 'round' && sameSpans(footSpans(shapes, 'x'), footSpans(shapes, 'y'));
      const heights = isBrief(extent) ? [] : heightRows(drawn, 'y', extent);
      return [...(again ? [] : levelRows(drawn, 'y', extent)), ...heights];
    }
    case 'plan': {
      if (extent === 'full') return [];
      const width = overall(table, 'y');
      const length = row(drawn, 'below', 0, [overall(table, 'x')], (x) => [x, table.top.shape === 'rectangle' ? width.from : 0, 0]);
      if (table.top.shape === 'round') return [length];
      const left = overall(table, 'x').from;
      return [length, row(drawn, 'left', 0, [width], (y) => [table.top.shape === 'rectangle' ? left : 0, y, 0])];
    }
    case 'underside':
      return isBrief(extent) ? [] : undersideRows(drawn);
  }
}

function levelRows(drawn: Drawn, axis: 'x' | 'y', extent: DimensionExtent): DimensionRow[] {
  const { table, shapes } = drawn;
  const edge = overall(table, axis);
  const under = table.top.heightMm - table.top.thicknessMm;
  const feet = footSpans(shapes, axis);
  const isEdge = (mm: number): boolean => Math.abs(mm - edge.from) < LEAST_MM || Math.abs(mm - edge.to) < LEAST_MM;
  const isFoot = (mm: number): boolean => feet.some((s) => Math.abs(s.from - mm) < LEAST_MM || Math.abs(s.to - mm) < LEAST_MM);
  const at = (mm: number): Vec3 => {
    const z = isEdge(mm) && !isFoot(mm) ? under + chamferUp(table) : 0;
    return axis === 'x' ? [mm, 0, z] : [0, mm, z];
  };
  const chain = isBrief(extent) ? [] : chainOf(edge, feet);
  const rows = chain.length === 0 ? [] : [row(drawn, 'below', 0, chain, at)];
  return [...rows, row(drawn, 'below', rows.length, [edge], at)];
}

const chamferUp = (table: Table): number => table.top.underChamfer?.upMm ?? 0;

/** A level whose edge begins farther in than this share of the view belongs to the other elevation. */
const FAR_IN = 0.35;

/** Levels that the front can show, and those left for the end because their edges lie far from the front's left side. */
function sharedLevels({ table, shapes, place }: Drawn): { readonly front: readonly number[]; readonly side: readonly number[] } {
  const all = levels(shapes, table, LEVELS_APART_MM * place.scale, CLEAR_APART_MM * place.scale);
  const edge = overall(table, 'x');
  const limit = edge.from + FAR_IN * (edge.to - edge.from);
  const front = all.filter((z) => reachAtLevel(shapes, table, z, 'x')[0] <= limit);
  const under = table.top.heightMm - table.top.thicknessMm;
  const rest = all.filter((z) => !front.includes(z));
  return { front, side: rest.length === 0 ? [] : [0, ...rest.filter((z) => z > 0 && z < under), under] };
}

function heightRows(drawn: Drawn, axis: 'x' | 'y', extent: DimensionExtent): DimensionRow[] {
  const { table, shapes } = drawn;
  const shared = sharedLevels(drawn);
  const heights = isBrief(extent) ? [] : axis === 'x' ? shared.front : shared.side;
  const chain: Span[] = heights.slice(1).map((to, i): Span => ({ from: heights[i] ?? 0, to, round: false }));
  const at = (z: number): Vec3 => {
    const [low] = reachAtLevel(shapes, table, z, axis);
    return axis === 'x' ? [low, 0, z] : [0, low, z];
  };
  const whole: Span = { from: 0, to: table.top.heightMm, round: false };
  const rows = chain.length < 2 ? [] : [row(drawn, 'left', 0, chain, at)];
  return axis === 'y' && extent === 'full' ? rows : [...rows, row(drawn, 'left', rows.length, [whole], at)];
}

/** Where legs and slabs meet the top, if that says more than their feet did; else how far the bearers reach. */
function undersideRows(drawn: Drawn): DimensionRow[] {
  const { table, shapes } = drawn;
  const rows: DimensionRow[] = [];
  for (const axis of ['x', 'y'] as const) {
    const edge = overall(table, axis);
    const heads = headSpans(shapes, axis);
    const bearer = bearerSpan(shapes, axis);
    const side = axis === 'x' ? 'above' : 'left';
    const other = overall(table, axis === 'x' ? 'y' : 'x').from;
    const rim = table.top.shape === 'rectangle' ? other : 0;
    const isEdge = (mm: number): boolean => Math.abs(mm - edge.from) < LEAST_MM || Math.abs(mm - edge.to) < LEAST_MM;
    const inner = headSpans(shapes, axis === 'x' ? 'y' : 'x')[0]?.from ?? 0;
    const at = (mm: number): Vec3 => (axis === 'x' ? [mm, isEdge(mm) ? rim : inner, 0] : [isEdge(mm) ? rim : inner, mm, 0]);
    if (bearer !== undefined) {
      if (axis === 'x' || bearerSpan(shapes, 'x') === undefined)
        rows.push(row(drawn, side, 0, [bearer], (mm) => (axis === 'x' ? [mm, bearer.asideMm, 0] : [bearer.asideMm, mm, 0])));
    } else if (heads.length > 0 && !sameSpans(heads, footSpans(shapes, axis))) rows.push(row(drawn, side, 0, chainOf(edge, heads), at));
  }
  return rows;
}
