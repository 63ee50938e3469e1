import { isoDate } from './calendar.ts';
import { decimalOfMoney, minorDigits } from './money.ts';
import type { CalendarDate, LengthStyle, Money } from './quantity.ts';

/** Between a number and its unit: narrow, and no line breaks there. */
export const UNIT_SPACE = '\u202f';
const MINUS = '\u2212';
const FRACTION_SLASH = '\u2044';
const INCH_MARK = '\u2033';
const MM_PER_INCH = 25.4;
const KG_PER_POUND = 0.45359237;
const N_PER_POUND_FORCE = 4.4482216152605;

/** Fractions that have a sign of their own in every good font. */
const SIGNS: Readonly<Record<string, string>> = {
  '1/2': '½',
  '1/4': '¼',
  '3/4': '¾',
  '1/8': '⅛',
  '3/8': '⅜',
  '5/8': '⅝',
  '7/8': '⅞',
};

/** How a length is shown. `locale` is a BCP 47 tag; `fraction` the finest part of an inch (16 where silent); `decimals` of mm (0 where silent). */
export interface LengthShown {
  readonly style: LengthStyle;
  readonly locale: string;
  readonly fraction?: 8 | 16 | 32 | 64;
  readonly decimals?: 0 | 1 | 2;
}

/** A number with the locale's grouping, at most so many decimals, a real minus and never a minus zero. */
export function formatNumber(value: number, locale: string, decimals = 0, leastDecimals = 0): string {
  const options: Intl.NumberFormatOptions = {
    maximumFractionDigits: decimals,
    minimumFractionDigits: leastDecimals,
    signDisplay: 'negative',
  };
  return new Intl.NumberFormat(locale, options).format(value).replace('-', MINUS);
}

/**
 * Inches as a whole number and a proper fraction, nearest part of a rule: 34.925 mm is `1⅜″`, 30.1625 mm is `1 3⁄16″`.
 * Composed fractions are digits around a fraction slash: set them with the font feature `frac`.
 */
export function formatInches(mm: number, locale: string, fraction: 8 | 16 | 32 | 64 = 16): string {
  return `${inchNumber(mm, locale, fraction)}${INCH_MARK}`;
}

function inchNumber(mm: number, locale: string, fraction: number): string {
  const parts = Math.round((Math.abs(mm) / MM_PER_INCH) * fraction);
  const sign = mm < 0 && parts > 0 ? MINUS : '';
  const whole = Math.floor(parts / fraction);
  let [over, under] = [parts % fraction, fraction];
  while (over > 0 && over % 2 === 0) [over, under] = [over / 2, under / 2];
  if (over === 0) return sign + formatNumber(whole, locale);
  const mark = SIGNS[`${over}/${under}`];
  if (mark !== undefined) return sign + (whole === 0 ? mark : formatNumber(whole, locale) + mark);
  const composed = `${over}${FRACTION_SLASH}${under}`;
  return sign + (whole === 0 ? composed : `${formatNumber(whole, locale)}\u2009${composed}`);
}

/** A length with its unit: `1,800 mm`, `70⅞″`, or `1,800 mm (70⅞″)`. */
export function formatLength(mm: number, shown: LengthShown): string {
  return formatSizes([mm], shown);
}

/** The number alone, for dimensions on a drawing whose title block names the unit; inches keep their mark. */
export function formatDimension(mm: number, shown: LengthShown): string {
  const metric = formatNumber(mm, shown.locale, shown.decimals ?? 0);
  if (shown.style === 'mm') return metric;
  const inches = formatInches(mm, shown.locale, shown.fraction);
  return shown.style === 'in' ? inches : `${metric} (${inches})`;
}

/** Several lengths as one size: `1,800 × 850 × 740 mm`, `70⅞ × 33 7⁄16 × 29⅛″`. */
export function formatSizes(lengthsMm: readonly number[], shown: LengthShown): string {
  const times = '\u00a0× ';
  const metric = `${lengthsMm.map((mm) => formatNumber(mm, shown.locale, shown.decimals ?? 0)).join(times)}${UNIT_SPACE}mm`;
  if (shown.style === 'mm') return metric;
  const inches = `${lengthsMm.map((mm) => inchNumber(mm, shown.locale, shown.fraction ?? 16)).join(times)}${INCH_MARK}`;
  return shown.style === 'in' ? inches : `${metric} (${inches})`;
}

/** A mass: `41 kg`, `90 lb`, or both. */
export function formatMass(kg: number, style: LengthStyle, locale: string, decimals = 0): string {
  const metric = `${formatNumber(kg, locale, decimals)}${UNIT_SPACE}kg`;
  if (style === 'mm') return metric;
  const pounds = `${formatNumber(kg / KG_PER_POUND, locale, decimals)}${UNIT_SPACE}lb`;
  return style === 'in' ? pounds : `${metric} (${pounds})`;
}

/** Below this share of a unit a mass counts as whole: the noise of arithmetic, not of a scale. */
const WHOLE = 1e-6;

/** A mass rounded up to whole kilograms and pounds, each by itself: who lifts is told no less than there is. */
export function formatLiftedMass(kg: number, style: LengthStyle, locale: string): string {
  const metric = formatMass(Math.ceil(kg - WHOLE), 'mm', locale);
  const pounds = formatMass(Math.ceil(kg / KG_PER_POUND - WHOLE) * KG_PER_POUND, 'in', locale);
  return style === 'mm' ? metric : style === 'in' ? pounds : `${metric} (${pounds})`;
}

/** A force: `1,093 N`, `246 lbf`, or both. */
export function formatForce(newton: number, style: LengthStyle, locale: string, decimals = 0): string {
  const metric = `${formatNumber(newton, locale, decimals)}${UNIT_SPACE}N`;
  if (style === 'mm') return metric;
  const pounds = `${formatNumber(newton / N_PER_POUND_FORCE, locale, decimals)}${UNIT_SPACE}lbf`;
  return style === 'in' ? pounds : `${metric} (${pounds})`;
}

/** A percentage of 0 to 100: `88 %` (the space is the narrow one of units, in every language). */
export function formatPercent(percent: number, locale: string, decimals = 0): string {
  return `${formatNumber(percent, locale, decimals)}${UNIT_SPACE}%`;
}

/** An angle: `10.5°`. */
export function formatAngle(deg: number, locale: string, decimals = 1): string {
  return `${formatNumber(deg, locale, decimals)}°`;
}

/**
 * Money in the locale's manner, with the currency's own digits: `€6,348.00`. The amount goes through exact decimal text, so that no
 * cent is lost on the way. `whole: true` leaves the minor units out where they are all zero.
 */
export function formatMoney(amount: Money, locale: string, whole = false): string {
  const digits = minorDigits(amount.currency);
  const shown = whole && amount.minor % 10 ** digits === 0 ? 0 : digits;
  const format = new Intl.NumberFormat(locale, {
    style: 'currency',
    currency: amount.currency,
    minimumFractionDigits: shown,
    maximumFractionDigits: shown,
  });
  return format.format(decimalOfMoney(amount) as unknown as Intl.StringNumericLiteral).replace('-', MINUS);
}

/** A day in words: `14 February 2027`, `February 14, 2027`. */
export function formatDate(date: CalendarDate, locale: string): string {
  const format = new Intl.DateTimeFormat(locale, { dateStyle: 'long', timeZone: 'UTC' });
  return format.format(Date.UTC(date.year, date.month - 1, date.day));
}

/** The month of a day in words: `February 2027`. */
export function formatMonth(date: CalendarDate, locale: string): string {
  const format = new Intl.DateTimeFormat(locale, { month: 'long', year: 'numeric', timeZone: 'UTC' });
  return format.format(Date.UTC(date.year, date.month - 1, 1));
}

/** A day for narrow columns: `14 Feb 2027`; `iso` gives `2027-02-14`. */
export function formatShortDate(date: CalendarDate, locale: string): string {
  if (locale === 'iso') return isoDate(date);
  const format = new Intl.DateTimeFormat(locale, { day: 'numeric', month: 'short', year: 'numeric', timeZone: 'UTC' });
  return format.format(Date.UTC(date.year, date.month - 1, date.day));
}
