import type { Mark, MeasureText } from './display-list.ts';
import type { LengthLettering, TextMark } from './lettering.ts';
import { capHeight, LETTERING_MM, lettering } from './lettering.ts';
import type { Occupied } from './occupied.ts';
import { segmentsOf } from './occupied.ts';

export type DimensionSide = 'below' | 'above' | 'left' | 'right';

/** Where a measure ends: its place along the row, and how far the object reaches there (both in mm of the sheet). */
export interface Stop {
  readonly alongMm: number;
  readonly reachMm: number;
}

/** One measured length of a row. `realMm` is what it measures on the table. */
export interface Measure {
  readonly from: Stop;
  readonly to: Stop;
  readonly realMm: number;
  /** Put before the figure: a diameter sign. */
  readonly sign?: string;
}

/** Measures on one line beside a view. `baseMm` is the outermost edge of the view on that side. */
export interface DimensionRow {
  readonly side: DimensionSide;
  readonly baseMm: number;
  /** 0 is next to the view. */
  readonly row: number;
  readonly measures: readonly Measure[];
}

export interface DimensionLook {
  readonly shown: LengthLettering;
  readonly measure: MeasureText;
  readonly sizeMm?: number;
}

/** Sheet mm. @source common practice of drawing offices: first line 10 mm off the object, next ones 8 mm on; extensions 1 mm off and 2 mm past */
const FIRST_MM = 10;
const STEP_MM = 8;
const OFF_MM = 1;
const PAST_MM = 2;
const GAP_MM = 0.9;
const TICK_MM = 1.2;
const TICK_HALF_WIDTH_MM = 0.16;

const outward: Readonly<Record<DimensionSide, 1 | -1>> = { below: 1, right: 1, above: -1, left: -1 };
const isUpright = (side: DimensionSide): boolean => side === 'left' || side === 'right';

/** Two lines of lettering need more room between rows. */
export const rowStepMm = (lines: number): number => (lines > 1 ? STEP_MM + 2.5 : STEP_MM);

/** Distance of a row's line from the view. */
export const rowOffsetMm = (row: number, lines: number): number => FIRST_MM + row * rowStepMm(lines);

/** Along and away from the view -> sheet. */
const point = (side: DimensionSide, alongMm: number, awayMm: number): readonly [number, number] =>
  isUpright(side) ? [awayMm, alongMm] : [alongMm, awayMm];

const lineOf = ({ side, baseMm, row }: DimensionRow, shown: LengthLettering): number =>
  baseMm + outward[side] * rowOffsetMm(row, shown.style === 'mm+in' ? 2 : 1);

/**
 * Dimension lines, extensions, ticks and figures of all rows beside a view. Lines come first, so that every figure can
 * keep clear of all of them; `occupied` learns what was added.
 */
export function drawRows(rows: readonly DimensionRow[], look: DimensionLook, occupied: Occupied): Mark[] {
  const marks = rows.flatMap((row) => linesOfRow(row, lineOf(row, look.shown)));
  occupied.addMarks(marks);
  // What fits between its ends goes first, then the ends of rows, which may reach beyond them; the narrow ones find what is left.
  const all = rows.flatMap((row) => row.measures.map((one, index) => ({ row, one, index, urgency: urgencyOf(one, row, index, look) })));
  for (const { row, one, index } of all.toSorted((a, b) => a.urgency - b.urgency)) {
    const texts = figures(one, row, lineOf(row, look.shown), index, look, occupied);
    marks.push(...texts);
    occupied.addMarks(texts);
  }
  return marks;
}

function urgencyOf(
  { from, to, realMm }: Measure,
  { measures }: DimensionRow,
  index: number,
  { shown, measure, sizeMm = LETTERING_MM }: DimensionLook,
): 0 | 1 | 2 {
  const widthMm = Math.max(...shown.linesOf(realMm).map((line) => measure(line, sizeMm, 'sans')));
  if (Math.abs(to.alongMm - from.alongMm) >= widthMm + 3) return 0;
  return index === 0 || index === measures.length - 1 ? 1 : 2;
}

function linesOfRow({ side, measures }: DimensionRow, lineMm: number): Mark[] {
  const sign = outward[side];
  const marks: Mark[] = [];
  const drawn = new Set<number>();
  for (const { from, to } of measures) {
    for (const stop of [from, to]) {
      const key = Math.round(stop.alongMm * 100);
      if (drawn.has(key)) continue;
      drawn.add(key);
      const start = point(side, stop.alongMm, stop.reachMm + sign * OFF_MM);
      const end = point(side, stop.alongMm, lineMm + sign * PAST_MM);
      marks.push(straight('extension', start, end), tick(...point(side, stop.alongMm, lineMm)));
    }
    marks.push(dimensionLine(side, from.alongMm, to.alongMm, lineMm));
  }
  return marks;
}

const straight = (lineClass: 'extension' | 'dimension', from: readonly [number, number], to: readonly [number, number]): Mark => ({
  kind: 'line',
  class: lineClass,
  steps: [
    ['M', ...from],
    ['L', ...to],
  ],
});

const dimensionLine = (side: DimensionSide, from: number, to: number, lineMm: number): Mark =>
  straight('dimension', point(side, from, lineMm), point(side, to, lineMm));

/** An oblique stroke through the end of a dimension line, as a thin filled shape. */
function tick(x: number, y: number): Mark {
  const [l, w] = [TICK_MM, TICK_HALF_WIDTH_MM];
  return {
    kind: 'tick',
    steps: [['M', x - l - w, y + l - w], ['L', x + l - w, y - l - w], ['L', x + l + w, y - l + w], ['L', x - l + w, y + l + w], ['Z']],
  };
}

interface Candidate {
  readonly texts: readonly TextMark[];
  readonly more: readonly Mark[];
}

/**
 * The figure of a measure where there is room: over the middle of its line; beyond the end of the row on a lengthened line;
 * on the other side of the line; and so on outward. Inches stand under the line when millimetres stand over it.
 */
function figures(one: Measure, row: DimensionRow, lineMm: number, index: number, look: DimensionLook, occupied: Occupied): Mark[] {
  const sizeMm = look.sizeMm ?? LETTERING_MM;
  const { side, measures } = row;
  const upright = isUpright(side);
  const lines = look.shown.linesOf(one.realMm).map((line) => (one.sign ?? '') + line);
  const widthMm = Math.max(...lines.map((line) => look.measure(line, sizeMm, 'sans')));
  const [from, to] = [Math.min(one.from.alongMm, one.to.alongMm), Math.max(one.from.alongMm, one.to.alongMm)];
  const up = capHeight(sizeMm);
  const text = (line: string, along: number, baseline: number): TextMark =>
    lettering(line, point(side, along, baseline), look.measure, { sizeMm, anchor: 'middle', angleDeg: upright ? -90 : 0 });
  // Over the line is up on a level line and left of an upright one; under it is the other way.
  const over = (level: number): number => lineMm - GAP_MM - level * (up + GAP_MM);
  const under = (level: number): number => lineMm + GAP_MM + up + level * (up + GAP_MM);
  const block = (along: number, level: number): readonly TextMark[] =>
    lines.map((line, i) => text(line, along, i === 0 ? over(level) : under(level)));
  const candidates: Candidate[] = [];
  if (to - from >= widthMm + 1) {
    for (const share of [0.5, 0.3, 0.7]) candidates.push({ texts: block(from + (to - from) * share, 0), more: [] });
  }
  const ends: readonly (1 | -1)[] = index === 0 && measures.length > 1 ? [-1, 1] : [1, -1];
  for (const end of ends) {
    const outermost = measures.every((m) =>
      end > 0 ? Math.max(m.from.alongMm, m.to.alongMm) <= to + 1e-6 : Math.min(m.from.alongMm, m.to.alongMm) >= from - 1e-6,
    );
    if (!outermost) continue;
    const edge = end > 0 ? to : from;
    const along = edge + end * (PAST_MM + widthMm / 2);
    candidates.push({ texts: block(along, 0), more: [dimensionLine(side, edge, edge + end * (PAST_MM + widthMm), lineMm)] });
  }
  // Past the ends of the extension lines: under a level line, left of an upright one.
  const outer = PAST_MM + 0.5;
  const beyond = (along: number, level: number): readonly TextMark[] =>
    lines.map((line, i) => {
      const away = outer + (level + i) * (up + GAP_MM);
      return text(line, along, side === 'left' || side === 'above' ? lineMm - away : lineMm + away + up);
    });
  // Farther off, a thin leader says what the figure belongs to.
  const middle = (from + to) / 2;
  for (const level of [0, 1, 2, 3, 4, 5]) {
    for (const shift of [0, 0.5, -0.5, 1, -1, 1.6, -1.6, 2.4, -2.4]) {
      const texts = beyond(middle + shift * widthMm, level);
      const near = outward[side] * (outer + level * (up + GAP_MM));
      const end = point(side, middle + (shift - Math.sign(shift) * 0.5) * widthMm, lineMm + near);
      const more = level > 0 || Math.abs(shift) > 0.5 ? [straight('extension', point(side, middle, lineMm), end)] : [];
      candidates.push({ texts, more });
    }
  }
  const fitting = candidates.find(
    ({ texts, more }) =>
      texts.every((t) => occupied.isFree(t.boxMm, 0.35)) && more.every((m) => segmentsOf(m).every((l) => !occupied.crossesText(l))),
  );
  const chosen = fitting ?? candidates[0];
  return chosen === undefined ? [] : [...chosen.more, ...chosen.texts];
}
