import { formatLength, formatNumber, formatPercent } from '../units/index.ts';
import type { MeasuredNow } from './claim-source.ts';
import type { ClaimSection, ClaimTable } from './claim-view.ts';
import { moistureText, type Saying, sizeName } from './papers.ts';

/** How a claim is told, and which of it: a copy has the sizes that its page shows, and none of the maker's own remarks. */
export interface Telling extends Saying {
  readonly isCopy: boolean;
  readonly sees: (what: string) => boolean;
}

/** A label and what stands beside it. */
export type Row = readonly [string, string];

/** A part of the sheet, empty but for what is given. */
export const section = (id: ClaimSection['id'], head: string, more: Partial<ClaimSection> = {}): ClaimSection => ({
  id,
  head,
  rows: [],
  paragraphs: [],
  small: [],
  ...more,
});
/** A column of a table; `share` of its width, 0 to 1. */
export const column = (head: string, share: number, isNumber = false): ClaimTable['columns'][number] => ({ head, share, isNumber });
/** In one line; empty ones left out. */
export const listed = (parts: readonly string[]): string => parts.filter((part) => part !== '').join('; ');

/** A length in mm, as the proposal shows lengths. */
export function lengthOf(mm: number, { words, show }: Telling): string {
  return formatLength(mm, { style: show, locale: words.language, decimals: 1, fraction: 32 });
}

/** From the smaller of two lengths in mm to the larger. */
export function rangeOf([a, b]: readonly [number, number], telling: Telling): string {
  const [low, high] = a < b ? [a, b] : [b, a];
  const { words, show } = telling;
  // A range says its unit once where it has one alone.
  const first = show === 'mm' ? formatNumber(low, words.language, 0) : lengthOf(low, telling);
  const last = show === 'mm' ? lengthOf(Math.round(high), telling) : lengthOf(high, telling);
  return `${first} ${words.say('range.to')} ${last}`;
}

/** What was measured at the table, of the sizes that may be told. */
export function measuredRows({ humidityPercent, celsius, moisturePercent, sizes }: MeasuredNow, telling: Telling): readonly Row[] {
  const { words, sees } = telling;
  return [
    ...(humidityPercent === undefined
      ? []
      : [[words.say('claim.humidity-now'), formatPercent(humidityPercent, words.language, 1)] as const]),
    ...(celsius === undefined ? [] : [[words.say('claim.celsius-now'), `${formatNumber(celsius, words.language, 1)}\u00a0°C`] as const]),
    ...(moisturePercent.length === 0 ? [] : [[words.say('claim.moisture-now'), moistureText(moisturePercent, words)] as const]),
    ...sizes.filter(({ what }) => sees(what)).map(({ what, mm }): Row => [sizeName(what, words), lengthOf(mm, telling)]),
  ];
}
