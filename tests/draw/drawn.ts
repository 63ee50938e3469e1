/** Draws test tables once per process, and reads marks the slow and plain way. */
import type { Table } from '../../src/design/index.ts';
import type { BoxMm, Drawings, Mark } from '../../src/draw/index.ts';
import { drawTable, sharedFrame } from '../../src/draw/index.ts';
import type { EffectiveSpec } from '../../src/spec/index.ts';
import type { LengthStyle } from '../../src/units/index.ts';
import { openFonts } from '../../src/write/index.ts';
import { specOf } from '../fixtures.ts';
import { assessment } from './assessed.ts';

export const fonts = openFonts();

export function specShown(show: LengthStyle, paper: 'a4' | 'letter' = 'a4'): EffectiveSpec {
  const spec = specOf();
  return { ...spec, proposal: { ...spec.proposal, show, paper } };
}

export const draw = (table: Table, spec: EffectiveSpec = specShown('mm')): Drawings =>
  drawTable(spec, table, assessment, sharedFrame([table]), fonts.measure);

export type Text = Extract<Mark, { readonly kind: 'text' }>;
export const textsOf = (marks: readonly Mark[]): Text[] => marks.filter((m) => m.kind === 'text');

export interface Line {
  readonly class: string;
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
}

/** Straight pieces of the drawn lines and ticks, grain left out; arcs by their chords. */
export function linesOf(marks: readonly Mark[]): Line[] {
  const out: Line[] = [];
  for (const mark of marks) {
    if (mark.kind === 'text' || mark.kind === 'face' || (mark.kind === 'line' && mark.colour !== undefined)) continue;
    let at: readonly [number, number] = [0, 0];
    let start = at;
    for (const step of mark.steps) {
      const to = step[0] === 'Z' ? start : ([step.at(-2), step.at(-1)] as [number, number]);
      if (step[0] === 'M') start = to;
      else out.push({ class: mark.kind === 'tick' ? 'tick' : mark.class, from: at, to });
      at = to;
    }
  }
  return out;
}

/** Whether a line enters a box, by walking along it in steps of a tenth of a millimetre. */
export function entersBox({ from, to }: Line, box: BoxMm): boolean {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const steps = Math.max(1, Math.ceil(length / 0.1));
  for (let i = 0; i <= steps; i += 1) {
    const x = from[0] + ((to[0] - from[0]) * i) / steps;
    const y = from[1] + ((to[1] - from[1]) * i) / steps;
    if (x > box.x && x < box.x + box.width && y > box.y && y < box.y + box.height) return true;
  }
  return false;
}
