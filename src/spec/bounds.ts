import type { LengthReading } from '../units/index.ts';
import { parseLength } from '../units/index.ts';

/** Least and greatest value, in the field's inner unit; `above`: the least itself is not allowed. */
export interface Bounds {
  readonly from?: number;
  readonly to?: number;
  readonly above?: boolean;
}

/** `12 to 80 mm`, `above 0 and up to 10000 mm`, `0 or more`; empty where there are none. */
export function boundsInWords(bounds: Bounds, unit: string): string {
  const withUnit = unit === '' ? '' : ` ${unit}`;
  const { from, to } = bounds;
  if (from !== undefined && to !== undefined) {
    return bounds.above === true ? `above ${from} and up to ${to}${withUnit}` : `${from} to ${to}${withUnit}`;
  }
  if (from !== undefined) return bounds.above === true ? `above ${from}${withUnit}` : `${from}${withUnit} or more`;
  return to === undefined ? '' : `up to ${to}${withUnit}`;
}

/**
 * The length that was probably meant by one out of range: the same number in the other unit (a bare number alone), ten times as
 * much (centimetres were written; first of all where there is a decimal point), a tenth (one zero too many). The first that fits is
 * the text to type; none, `undefined`.
 */
export function meantInstead(written: string, bounds: Bounds, reading: LengthReading): string | undefined {
  const number = /^(-?\d+(?:\.\d+)?) ?(mm|cm|m|in)?$/.exec(written.trim());
  if (number === null) return undefined;
  const [value, unit] = [Number(number[1]), number[2] ?? reading.bare];
  const other = reading.bare === 'mm' ? 'in' : 'mm';
  const swapped = number[2] === undefined ? [`${value} ${other}`] : [];
  const tenfold = `${tidy(value * 10)} ${unit}`;
  const tenth = `${tidy(value / 10)} ${unit}`;
  const candidates = Number.isInteger(value) ? [...swapped, tenfold, tenth] : [tenfold, ...swapped, tenth];
  return candidates.find((text) => {
    const read = parseLength(text, reading);
    return read.ok && fits(read.value.mm, bounds);
  });
}

function fits(value: number, { from, to, above }: Bounds): boolean {
  return (from === undefined || value > from || (value === from && above !== true)) && (to === undefined || value <= to);
}

function tidy(value: number): string {
  return String(Number(value.toPrecision(12)));
}
