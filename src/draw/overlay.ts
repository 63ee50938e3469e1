import type { Table } from '../design/index.ts';
import { projectShadow, type Vec2 } from '../solid/index.ts';
import type { Library } from '../spec/index.ts';
import type { Mark, PathStep, Sheet } from './display-list.ts';
import { shapeOf } from './shape.ts';
import { drawView, onSheet, smallLineClasses, type View, type ViewName, type ViewPlace, viewOf } from './view.ts';

/** Chord error of round parts, mm of the world. */
const CHORD_MM = 0.5;
/** Widest view of an overlay, sheet mm. */
const WIDEST_MM = 110;
const SCALES = [5, 10, 15, 20, 25, 30, 50];
const PAD_MM = 2;

/** A table drawn over the one that it grew from, on one scale and one floor line; a round one, which looks alike from the side, from the front alone. */
export interface Overlay {
  readonly front: Sheet;
  readonly side?: Sheet;
}

/** Accessible words of the two sheets. */
export type OverlayWords = Readonly<Record<keyof Overlay, Pick<Sheet, 'title' | 'description'>>>;

const axes = { front: 'y', side: 'x' } as const;

/** The older table as one outline. */
function outlineOf(table: Table, name: keyof Overlay): readonly (readonly Vec2[])[] {
  return projectShadow(table.parts, axes[name], [], CHORD_MM).regions.flatMap(({ outer, holes }) => [outer, ...holes]);
}

/** Reach of a view and an outline together: left, low, right, high. */
function reachOf(view: View, outline: readonly (readonly Vec2[])[]): readonly [number, number, number, number] {
  const points = outline.flat();
  const [left, low, right, high] = view.box;
  return [
    points.reduce((least, [u]) => Math.min(least, u), left),
    points.reduce((least, [, v]) => Math.min(least, v), low),
    points.reduce((most, [u]) => Math.max(most, u), right),
    points.reduce((most, [, v]) => Math.max(most, v), high),
  ];
}

function closed(points: readonly Vec2[], at: ViewPlace): readonly PathStep[] {
  const [first, ...rest] = points.map((point) => onSheet(at, point));
  if (first === undefined) return [];
  return [['M', ...first], ...rest.map((point): PathStep => ['L', ...point]), ['Z']];
}

/**
 * Draws a table as it is now, with the outline of the earlier one over it in a narrow line of dashes and dots. Both stand
 * with the middle of their tops at the same place on the floor. Sheet mm.
 */
export function drawOverlay(now: Table, before: Table, library: Library, words: OverlayWords): Overlay {
  const shapes = now.parts.map((part) => shapeOf(part, CHORD_MM));
  const seen = (name: keyof Overlay & ViewName) => {
    const [view, outline] = [viewOf(shapes, name), outlineOf(before, name)];
    return { name, view, outline, reach: reachOf(view, outline) };
  };
  const views = { front: seen('front'), side: seen('side') };
  const all = [views.front, views.side];
  const widest = Math.max(...all.map(({ reach: [left, , right] }) => right - left));
  const highest = Math.max(...all.map(({ reach: [, , , high] }) => high));
  const scale = SCALES.find((one) => widest / one <= WIDEST_MM) ?? 100;
  const floorMm = PAD_MM + highest / scale;
  const sheetOf = ({ name, view, outline, reach: [left, , right] }: (typeof all)[number]): Sheet => {
    const at: ViewPlace = { atMm: [PAD_MM - left / scale, floorMm], scale };
    const widthMm = (right - left) / scale + 2 * PAD_MM;
    const floor: Mark = {
      kind: 'line',
      class: 'floor',
      steps: [
        ['M', 0, floorMm],
        ['L', widthMm, floorMm],
      ],
    };
    const former = outline.map((points): Mark => ({ kind: 'line', class: 'former', steps: closed(points, at) }));
    return {
      id: `changed-${name}`,
      ...words[name],
      widthMm,
      heightMm: floorMm + PAD_MM,
      scale,
      marks: [floor, ...drawView(view, at, now, library, smallLineClasses), ...former],
    };
  };
  const isRound = now.top.shape === 'round' && before.top.shape === 'round';
  return { front: sheetOf(views.front), ...(isRound ? {} : { side: sheetOf(views.side) }) };
}
