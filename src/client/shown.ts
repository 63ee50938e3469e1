import {
  type CalendarDate,
  formatDate,
  formatLength,
  formatMoney,
  formatNumber,
  formatPercent,
  formatSizes,
  type LengthStyle,
  UNIT_SPACE,
} from '../units/index.ts';

/** @source NIST SP 811 (2008), B.8: standard gravity, avoirdupois pound, board foot of 144 cubic inches */
const GRAVITY = 9.80665;
const KG_PER_POUND = 0.45359237;
const M3_PER_BOARD_FOOT = 144 * 0.0254 ** 3;

/** Forces are shown in steps of this. */
const FORCE_STEP_N = 10;

/** Decimals of a tax rate or share that are kept. */
const EXACT_DECIMALS = 4;

/** Which way a figure is rounded: a load that tips goes down, a weight to be lifted goes up. */
export type Rounding = 'down' | 'near' | 'up';

const rounders: Readonly<Record<Rounding, (value: number) => number>> = { down: Math.floor, near: Math.round, up: Math.ceil };
/** Takes the noise of floating point away before a figure is rounded up or down, so that 300.0000001 stays 300. */
const NOISE = 1e-6;

/** Rounds to a whole step in the stated direction. */
export function roundTo(value: number, step: number, rounding: Rounding): number {
  const nudge = rounding === 'down' ? NOISE : rounding === 'up' ? -NOISE : 0;
  return rounders[rounding](value / step + nudge) * step;
}

/** How quantities are shown to one reader: language, units, currency. Every figure is rounded for a client here and nowhere else. */
export interface Shown {
  readonly locale: string;
  readonly length: (mm: number, rounding?: Rounding) => string;
  readonly sizes: (lengthsMm: readonly number[]) => string;
  /** A load on the table in kilograms or pounds, from newtons. */
  readonly load: (newton: number, rounding: Rounding) => string;
  /** The same load as a force, or undefined where a reader thinks in pounds alone. */
  readonly force: (newton: number, rounding: Rounding) => string | undefined;
  readonly mass: (kg: number, rounding?: Rounding) => string;
  readonly percent: (percent: number, rounding?: Rounding) => string;
  /** A rate as it was agreed, not rounded: from decimal text. */
  readonly exactPercent: (percent: string) => string;
  readonly number: (value: number) => string;
  readonly money: (minor: number) => string;
  /** Without the minor units where they are zero: for a price in large type. */
  readonly wholeMoney: (minor: number) => string;
  /** With its sign: what an option adds or takes. */
  readonly moneyChange: (minor: number) => string;
  readonly date: (date: CalendarDate) => string;
  /** `2 to 4 mm`, with `to` in the reader's words. */
  readonly lengthRange: (lowMm: number, highMm: number, to: string) => string;
  readonly volume: (mm3: number) => string;
}

/** Formats for a locale (BCP 47), a style of lengths and a currency (ISO 4217). */
export function shownIn(locale: string, style: LengthStyle, currency: string): Shown {
  const weight = (kg: number, rounding: Rounding): string => {
    const metric = `${formatNumber(roundTo(kg, 1, rounding), locale)}${UNIT_SPACE}kg`;
    if (style === 'mm') return metric;
    const pounds = `${formatNumber(roundTo(kg / KG_PER_POUND, 1, rounding), locale)}${UNIT_SPACE}lb`;
    return style === 'in' ? pounds : `${metric} (${pounds})`;
  };
  const length = (mm: number, rounding: Rounding = 'near'): string => {
    const step = style === 'in' ? 25.4 / 16 : 1;
    return formatLength(roundTo(mm, step, rounding), { style, locale });
  };
  const money = (minor: number, whole: boolean): string => formatMoney({ currency, minor }, locale, whole);
  return {
    locale,
    length,
    // A line may end before the inches, never inside a size.
    sizes: (lengthsMm) => formatSizes(lengthsMm, { style, locale }).replaceAll(/ (?!\()/g, '\u00a0'),
    load: (newton, rounding) => weight(newton / GRAVITY, rounding),
    force: (newton, rounding) =>
      style === 'in' ? undefined : `${formatNumber(roundTo(newton, FORCE_STEP_N, rounding), locale)}${UNIT_SPACE}N`,
    mass: (kg, rounding = 'near') => weight(kg, rounding),
    percent: (percent, rounding = 'near') => formatPercent(roundTo(percent, 1, rounding), locale),
    exactPercent: (percent) => formatPercent(Number(percent), locale, EXACT_DECIMALS),
    number: (value) => formatNumber(value, locale, 1),
    money: (minor) => money(minor, false),
    wholeMoney: (minor) => money(minor, true),
    moneyChange: (minor) => (minor > 0 ? `+${money(minor, false)}` : money(minor, false)),
    date: (date) => formatDate(date, locale),
    lengthRange: (lowMm, highMm, to) => {
      const step = style === 'in' ? 25.4 / 16 : 1;
      const low = roundTo(lowMm, step, 'down');
      const high = roundTo(highMm, step, 'up');
      if (low === high || low === 0) return formatLength(high, { style, locale });
      const first = style === 'mm' ? formatNumber(low, locale) : formatLength(low, { style, locale });
      return `${first} ${to} ${formatLength(high, { style, locale })}`;
    },
    volume: (mm3) => {
      const m3 = mm3 / 1e9;
      const metric = `${formatNumber(m3, locale, 4, 4)}${UNIT_SPACE}m³`;
      if (style === 'mm') return metric;
      const boardFeet = `${formatNumber(m3 / M3_PER_BOARD_FOOT, locale, 1, 1)}${UNIT_SPACE}bf`;
      return style === 'in' ? boardFeet : `${metric} (${boardFeet})`;
    },
  };
}
