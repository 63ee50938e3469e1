import type { LengthStyle } from '../units/index.ts';
import { formatInches, formatNumber } from '../units/index.ts';
import type { BoxMm, Mark, MeasureText } from './display-list.ts';
import { letteringFaces } from './line-weights.ts';

export type TextMark = Extract<Mark, { readonly kind: 'text' }>;

/** Height of a capital over the size of its type: Source Sans 3 and Source Serif 4. @source the fonts' OS/2 tables, sCapHeight 660 and 670 of 1000 */
const CAP_SHARE = 0.66;
const DESCENT_SHARE = 0.22;

/** Height of capitals on a sheet in mm, turned into sizes of type. @source common practice of drawing offices: 2.5 mm lettering, 3.5 mm titles */
export const LETTERING_MM = 2.5 / CAP_SHARE;
export const TITLE_MM = 3.5 / CAP_SHARE;
export const SMALL_MM = 1.8 / CAP_SHARE;

export const capHeight = (sizeMm: number): number => CAP_SHARE * sizeMm;

/** Figures and capitals stand on the line, a decimal comma hangs a little below it, anything else may reach further. */
function descentShare(text: string): number {
  if (/^[0-9A-Z¼½¾⅛⅜⅝⅞Ø\u2033\u2009.\u2044 ×]*$/.test(text)) return 0.02;
  return /^[0-9,]*$/.test(text) ? 0.13 : DESCENT_SHARE;
}

/** A text with its measured box. `at` is the anchor on the baseline. */
export function lettering(
  text: string,
  at: readonly [number, number],
  measure: MeasureText,
  look: {
    readonly class?: TextMark['class'];
    readonly sizeMm?: number;
    readonly anchor?: TextMark['anchor'];
    readonly angleDeg?: 0 | -90;
  } = {},
): TextMark {
  const { class: textClass = 'lettering', sizeMm = LETTERING_MM, anchor = 'start', angleDeg = 0 } = look;
  const width = measure(text, sizeMm, letteringFaces[textClass]);
  const up = CAP_SHARE * sizeMm;
  const down = sizeMm * descentShare(text);
  const back = anchor === 'start' ? 0 : anchor === 'middle' ? width / 2 : width;
  const boxMm: BoxMm =
    angleDeg === 0
      ? { x: at[0] - back, y: at[1] - up, width, height: up + down }
      : { x: at[0] - up, y: at[1] - width + back, width: up + down, height: width };
  return { kind: 'text', class: textClass, text, atMm: at, sizeMm, anchor, angleDeg, boxMm };
}

/** Signs that the fonts of pages may lack, as digits round a fraction slash; every writer sets those as proper fractions (font feature `frac`). */
const signs: Readonly<Record<string, string>> = { '½': '1/2', '¼': '1/4', '¾': '3/4', '⅛': '1/8', '⅜': '3/8', '⅝': '5/8', '⅞': '7/8' };
const composed = (text: string): string =>
  text.replace(
    /(\d?)([½¼¾⅛⅜⅝⅞])/g,
    (_, whole: string, sign: string) => `${whole}${whole === '' ? '' : '\u2009'}${(signs[sign] ?? sign).replace('/', '\u2044')}`,
  );

/** How lengths are lettered on a drawing. */
export interface LengthLettering {
  readonly style: LengthStyle;
  readonly locale: string;
  /** The lines of a dimension. */
  readonly linesOf: (mm: number) => readonly string[];
}

/** Lettering of lengths for one drawing; each length is worded once. */
export function lengthLettering(style: LengthStyle, locale: string): LengthLettering {
  const known = new Map<number, readonly string[]>();
  const worded = (mm: number): readonly string[] => {
    const lines = known.get(mm) ?? linesOf(mm, style, locale);
    known.set(mm, lines);
    return lines;
  };
  return { style, locale, linesOf: worded };
}

/**
 * The lines of a dimension: one, or millimetres and inches for `mm+in`. No unit (the title block names it), no grouping of thousands.
 * Millimetres are whole, or have one decimal where the length has.
 */
function linesOf(mm: number, style: LengthStyle, locale: string): readonly string[] {
  const whole = Math.abs(mm - Math.round(mm)) < 0.05;
  const metric = formatNumber(mm, locale, whole ? 0 : 1).replaceAll(/(?<=\d)[,.\u00a0\u202f\u2019](?=\d{3}(?!\d))/g, '');
  const inches = composed(formatInches(mm, locale));
  if (style === 'mm') return [metric];
  return style === 'in' ? [inches] : [metric, inches];
}

/** Several lengths in one line, joined by a multiplication sign: `60 × 24`, with the inches in brackets for `mm+in`. */
export function sizesLine(lengthsMm: readonly number[], shown: LengthLettering): string {
  const [first = [], second] = [0, 1].map((line) => lengthsMm.flatMap((mm) => shown.linesOf(mm)[line] ?? []));
  const tail = second === undefined || second.length === 0 ? '' : ` (${second.join(' × ')})`;
  return first.join(' × ') + tail;
}
