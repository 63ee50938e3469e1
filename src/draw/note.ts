import type { PartRole } from '../design/index.ts';
import type { EffectiveSpec } from '../spec/index.ts';
import type { Mark, MeasureText } from './display-list.ts';
import type { LengthLettering } from './lettering.ts';
import { capHeight, LETTERING_MM, lettering, sizesLine } from './lettering.ts';
import { pointsOf, reachAlong } from './measures.ts';
import type { Occupied } from './occupied.ts';
import type { Shape } from './shape.ts';
import type { View, ViewPlace } from './view.ts';
import { onSheet } from './view.ts';
import { partNameOf } from './words.ts';

/** Sections of rails, slabs, posts and bearers are written beside a leader that ends in a dot on the part. */
export interface NoteLook {
  readonly spec: EffectiveSpec;
  readonly shown: LengthLettering;
  readonly measure: MeasureText;
}

const NOTE_MM = LETTERING_MM * 0.86;
const DOT_MM = 0.45;

const notedRoles: ReadonlySet<PartRole> = new Set<PartRole>(['apron', 'stretcher', 'rail', 'slab', 'post', 'foot', 'bearer']);

/** The parts whose section this view tells: those that lie along it, and what stands; one of each type. */
function notedShapes(view: View): Shape[] {
  const seen = new Set<string>();
  return view.stage.shapes.filter(({ part, pieces }) => {
    if (!notedRoles.has(part.role) || part.grain === undefined || seen.has(part.type)) return false;
    // A round foot has its diameter and its height among the measures.
    if (part.role === 'foot' && part.solid.kind === 'rings') return false;
    const [x, y] = (['x', 'y'] as const).map((axis) => {
      const [low, high] = reachAlong(
        pieces.flatMap((p) => p.points),
        axis,
      );
      return high - low;
    });
    const longInFront = (x ?? 0) >= (y ?? 0) - 1;
    const stands = part.role === 'slab' || part.role === 'post';
    const here =
      view.name === 'front'
        ? part.role === 'slab'
          ? false
          : stands || longInFront
        : view.name === 'side' && (part.role === 'slab' || (!stands && !longInFront));
    if (here) seen.add(part.type);
    return here;
  });
}

function textOf(shape: Shape, { spec, shown }: NoteLook): string {
  const { part } = shape;
  const name = partNameOf(spec, part.name);
  if (part.solid.kind === 'rings') {
    const diameters = [...new Set([part.solid.rings.at(-1), part.solid.rings[0]].map((r) => 2 * (r?.rxMm ?? 0)))];
    return `${name} ${diameters.map((d) => `Ø${sizesLine([d], shown)}`).join(' – ')}`;
  }
  return `${name} ${sizesLine([part.sizeMm.width, part.sizeMm.thickness], shown)}`;
}

/** Notes of a view's parts where there is room; a note that finds none is left out, since the cutting list has every section. */
export function drawNotes(view: View, place: ViewPlace, look: NoteLook, occupied: Occupied): Mark[] {
  const marks: Mark[] = [];
  for (const shape of notedShapes(view)) {
    const found = placeNote(shape, view, place, look, occupied);
    marks.push(...found);
    occupied.addMarks(found);
  }
  return marks;
}

/** Distances along the part, and slants of the leader, that are tried in turn. */
const ANCHORS = [0.5, 0.35, 0.65, 0.22, 0.78, 0.1, 0.9];
const DROPS_MM = [8, -8, 11, -11, 14, 18, -18, 23, 6, 28, 34];

function placeNote(shape: Shape, view: View, place: ViewPlace, look: NoteLook, occupied: Occupied): Mark[] {
  const points = pointsOf(shape).map((p) => onSheet(place, view.stage.projection.project(p)));
  const [xs, ys] = [points.map((p) => p[0]), points.map((p) => p[1])];
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const stands = bottom - top > right - left;
  const text = textOf(shape, look);
  const width = look.measure(text, NOTE_MM, 'sans');
  // The leader that crosses the fewest lines; among equals the first.
  let best: { readonly cost: number; readonly marks: Mark[] } | undefined;
  for (const drop of DROPS_MM) {
    for (const share of ANCHORS) {
      for (const way of [1, -1] as const) {
        const x = stands ? (left + right) / 2 : left + (right - left) * share;
        const y = stands ? top + (bottom - top) * share : (top + bottom) / 2;
        const shelf: readonly [number, number] = stands
          ? [x + way * (Math.abs(drop) * 0.7 + (right - left) / 2), y + Math.sign(drop) * 4]
          : [x + way * Math.abs(drop) * 0.5, drop > 0 ? bottom + drop : top + drop];
        const end = shelf[0] + way * (width + 1);
        const mark = lettering(text, [way > 0 ? shelf[0] + 1 : shelf[0] - 1, shelf[1] - 0.8], look.measure, {
          class: 'note',
          sizeMm: NOTE_MM,
          anchor: way > 0 ? 'start' : 'end',
        });
        const room = {
          x: Math.min(shelf[0], end),
          y: shelf[1] - 0.8 - capHeight(NOTE_MM),
          width: Math.abs(end - shelf[0]),
          height: capHeight(NOTE_MM) + 1.8,
        };
        if (!occupied.isFree(room, 0.8)) continue;
        if (occupied.crossesText([x, y, shelf[0], shelf[1]])) continue;
        const cost = occupied.crossings([x, y, shelf[0], shelf[1]]);
        if (best === undefined || cost < best.cost) best = { cost, marks: [leader(x, y, shelf, end), dot(x, y), mark] };
      }
    }
  }
  return best?.marks ?? [];
}

const leader = (x: number, y: number, shelf: readonly [number, number], end: number): Mark => ({
  kind: 'line',
  class: 'extension',
  steps: [
    ['M', x, y],
    ['L', shelf[0], shelf[1]],
    ['L', end, shelf[1]],
  ],
});

const dot = (x: number, y: number): Mark => ({
  kind: 'tick',
  steps: [['M', x - DOT_MM, y], ['A', DOT_MM, DOT_MM, 0, 1, 1, x + DOT_MM, y], ['A', DOT_MM, DOT_MM, 0, 1, 1, x - DOT_MM, y], ['Z']],
});
