import type { LengthStyle } from '../units/index.ts';
import { formatShortDate } from '../units/index.ts';
import type { Mark } from './display-list.ts';
import { LETTERING_MM, lettering, SMALL_MM, TITLE_MM } from './lettering.ts';
import type { Drawing } from './view-block.ts';
import { wordOf } from './words.ts';

/** Height of the strip along the foot of a sheet, sheet mm. */
export const TITLE_BLOCK_MM = 19;

export type Angle = 'first-angle' | 'third-angle';

/** How the views are arranged: first angle where A4 is used, third angle where Letter is. @source common practice (ISO 5456-2 leaves both) */
export const angleOf = ({ spec }: Drawing): Angle => (spec.proposal.paper === 'letter' ? 'third-angle' : 'first-angle');

const line = (x1: number, y1: number, x2: number, y2: number, lineClass: 'hairline' | 'edge' = 'hairline'): Mark => ({
  kind: 'line',
  class: lineClass,
  steps: [
    ['M', x1, y1],
    ['L', x2, y2],
  ],
});

/** Lengths that a scale bar may stand for, mm, and how they are divided. */
const barsMm: Readonly<Record<'mm' | 'in', readonly (readonly [number, number])[]>> = {
  mm: [
    [2000, 4],
    [1000, 4],
    [500, 5],
    [200, 4],
    [100, 5],
  ],
  in: [
    [96 * 25.4, 4],
    [48 * 25.4, 4],
    [36 * 25.4, 3],
    [24 * 25.4, 4],
    [12 * 25.4, 4],
    [6 * 25.4, 3],
  ],
};

/** The longest bar that fits: `realMm` long, in `parts` equal parts. */
export function scaleBarFor(scale: number, roomMm: number, style: LengthStyle): { readonly realMm: number; readonly parts: number } {
  const list = barsMm[style === 'in' ? 'in' : 'mm'];
  const [realMm, parts] = list.find(([mm]) => mm / scale <= roomMm) ?? [scale * roomMm, 1];
  return { realMm, parts };
}

/** A bar with every other part filled, zero and its whole length written over its ends. */
function scaleBar(drawing: Drawing, x: number, y: number, scale: number, roomMm: number): Mark[] {
  const { shown, measure } = drawing;
  const { realMm, parts } = scaleBarFor(scale, roomMm, shown.style);
  const marks: Mark[] = [];
  const step = realMm / parts / scale;
  const height = 1.3;
  for (let i = 0; i < parts; i += 1) {
    const at = x + i * step;
    const steps = [['M', at, y], ['L', at + step, y], ['L', at + step, y + height], ['L', at, y + height], ['Z']] as const;
    marks.push(i % 2 === 0 ? { kind: 'tick', steps } : { kind: 'line', class: 'hairline', steps });
  }
  const end = shown.style === 'in' ? `${Math.round(realMm / 25.4)}\u2033` : `${Math.round(realMm)}\u202fmm`;
  marks.push(lettering('0', [x, y - 1], measure, { class: 'small', sizeMm: SMALL_MM }));
  marks.push(lettering(end, [x + realMm / scale, y - 1], measure, { class: 'small', sizeMm: SMALL_MM, anchor: 'end' }));
  return marks;
}

/**
 * The sign of the arrangement of views: a truncated cone from the side, and from its small end.
 * First angle: the view from the left stands on the right; third angle: on the left.
 * @source ISO 5456-2, from memory; drawn so that both circles are visible edges
 */
function projectionSign(x: number, y: number, angle: Angle): Mark[] {
  const [small, large, length] = [1.2, 2.3, 5];
  const cone = angle === 'first-angle' ? x : x + 8;
  const circles = angle === 'first-angle' ? x + 10.3 : x + 2.3;
  const circle = (r: number): Mark => ({
    kind: 'line',
    class: 'fixing',
    steps: [['M', circles - r, y], ['A', r, r, 0, 1, 1, circles + r, y], ['A', r, r, 0, 1, 1, circles - r, y], ['Z']],
  });
  return [
    {
      kind: 'line',
      class: 'fixing',
      steps: [['M', cone, y - small], ['L', cone + length, y - large], ['L', cone + length, y + large], ['L', cone, y + small], ['Z']],
    },
    circle(small),
    circle(large),
    {
      kind: 'line',
      class: 'centre',
      steps: [
        ['M', x - 1, y],
        ['L', x + 14, y],
      ],
    },
    {
      kind: 'line',
      class: 'centre',
      steps: [
        ['M', circles, y - large - 1],
        ['L', circles, y + large + 1],
      ],
    },
  ];
}

export interface TitleBlockFacts {
  readonly scale: number;
  readonly sheetName: string;
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
}

/** The strip along the foot: what is drawn and for whom, who draws, scale with its bar, units, arrangement, revision and date. */
export function titleBlock(drawing: Drawing, { scale, sheetName, xMm, yMm, widthMm }: TitleBlockFacts): Mark[] {
  const { spec, shown, measure } = drawing;
  const { proposal, variant, library } = spec;
  const marks: Mark[] = [line(xMm, yMm, xMm + widthMm, yMm, 'edge')];
  const fitted = (text: string, roomMm: number, sizeMm: number, face: 'sans' | 'serif'): number =>
    Math.min(sizeMm, (sizeMm * roomMm) / measure(text, sizeMm, face));
  const word = (key: Parameters<typeof wordOf>[1]): string => wordOf(spec, key);
  const cell = (x: number, room: number, label: string, value: string, second?: string): void => {
    marks.push(lettering(label, [x, yMm + 5], measure, { class: 'small', sizeMm: SMALL_MM }));
    if (value !== '') marks.push(lettering(value, [x, yMm + 10.2], measure, { sizeMm: fitted(value, room, LETTERING_MM, 'sans') }));
    if (second !== undefined)
      marks.push(lettering(second, [x, yMm + 15.4], measure, { class: 'note', sizeMm: fitted(second, room, LETTERING_MM * 0.86, 'sans') }));
  };
  const pad = 3;
  const narrow = widthMm < 330;
  const widths = narrow ? [0, 56, 54, 34, 38] : [0, 78, 84, 44, 48];
  const first = widthMm - widths.reduce((sum, w) => sum + w, 0);
  const starts: number[] = [];
  let at = xMm;
  for (const width of [first, ...widths.slice(1)]) {
    starts.push(at);
    if (at > xMm) marks.push(line(at, yMm + 2, at, yMm + TITLE_BLOCK_MM - 1));
    at += width;
  }
  const start = (i: number): number => (starts[i] ?? xMm) + (i === 0 ? 0 : pad);
  const room = (i: number): number => (i === 0 ? first : (widths[i] ?? 0)) - pad - (i === 0 ? 0 : pad);
  const design = `${variant.id} · ${variant.name}`;
  marks.push(
    lettering(design, [start(0), yMm + 8], measure, { class: 'title', sizeMm: fitted(design, room(0), TITLE_MM * 1.15, 'serif') }),
  );
  marks.push(
    lettering(proposal.title, [start(0), yMm + 14.6], measure, {
      class: 'note',
      sizeMm: fitted(proposal.title, room(0), LETTERING_MM, 'sans'),
    }),
  );
  const { name, trade } = library.maker;
  cell(start(1), room(1), word('draw.maker'), name, proposal.invented ? word('draw.invented') : trade === '' ? undefined : trade);
  cell(start(2), room(2), `${word('draw.scale')} 1:${scale}`, '');
  marks.push(...scaleBar(drawing, start(2), yMm + 12.4, scale, room(2) - 4));
  const units = shown.style === 'mm' ? 'draw.units-mm' : shown.style === 'in' ? 'draw.units-in' : 'draw.units-both';
  const angle = angleOf(drawing);
  cell(start(3), room(3), word(`draw.${angle}`), '', word(units));
  marks.push(...projectionSign(start(3) + 1, yMm + 9.4, angle));
  const date = formatShortDate(proposal.revision.date, shown.locale);
  cell(start(4), room(4), `${word('draw.revision')} · ${word('draw.size')}`, `${proposal.revision.id} · ${sheetName}`, date);
  return marks;
}
