import type { CalendarDate } from './quantity.ts';

const MONTH_DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

/** Leap years of the Gregorian calendar. */
export function isLeapYear(year: number): boolean {
  return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
}

/** Days of a month, 1 to 12. */
export function daysInMonth(year: number, month: number): number {
  return month === 2 && isLeapYear(year) ? 29 : (MONTH_DAYS[month - 1] ?? 0);
}

/** Reads `2027-02-14` (ISO 8601 calendar date, years 1900 to 2999); `undefined` where the text or the day does not exist. */
export function parseDate(text: string): CalendarDate | undefined {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (match === null) return undefined;
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  if (year < 1900 || year > 2999 || month < 1 || month > 12 || day < 1 || day > daysInMonth(year, month)) return undefined;
  return { year, month, day };
}

/** `2027-02-14`. */
export function isoDate(date: CalendarDate): string {
  return `${String(date.year).padStart(4, '0')}-${String(date.month).padStart(2, '0')}-${String(date.day).padStart(2, '0')}`;
}

/**
 * Days since 1970-01-01 in the proleptic Gregorian calendar.
 *
 * @source the year is counted from 1 March, so that the leap day is its last: common practice of calendar arithmetic.
 */
export function dayNumber(date: CalendarDate): number {
  const marchYear = date.month <= 2 ? date.year - 1 : date.year;
  const monthFromMarch = (date.month + 9) % 12;
  const dayOfYear = Math.floor((153 * monthFromMarch + 2) / 5) + date.day - 1;
  const leapDays = Math.floor(marchYear / 4) - Math.floor(marchYear / 100) + Math.floor(marchYear / 400);
  return marchYear * 365 + leapDays + dayOfYear - 719468;
}

/** The day `count` days later, or earlier where `count` is below zero. */
export function addDays(date: CalendarDate, count: number): CalendarDate {
  return fromDayNumber(dayNumber(date) + count);
}

/** The same day of the month `count` months later; the last day of that month where it is shorter. */
export function addMonths(date: CalendarDate, count: number): CalendarDate {
  const months = date.year * 12 + (date.month - 1) + count;
  const year = Math.floor(months / 12);
  const month = months - year * 12 + 1;
  return { year, month, day: Math.min(date.day, daysInMonth(year, month)) };
}

/** The day with a number of `dayNumber`. */
export function fromDayNumber(days: number): CalendarDate {
  const shifted = days + 719468;
  const era = Math.floor(shifted / 146097);
  const dayOfEra = shifted - era * 146097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36524) - Math.floor(dayOfEra / 146096)) / 365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const monthFromMarch = Math.floor((5 * dayOfYear + 2) / 153);
  const day = dayOfYear - Math.floor((153 * monthFromMarch + 2) / 5) + 1;
  const month = monthFromMarch < 10 ? monthFromMarch + 3 : monthFromMarch - 9;
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  return { year, month, day };
}

/** Below zero, zero or above zero as `a` is earlier than, the same as or later than `b`. */
export function compareDates(a: CalendarDate, b: CalendarDate): number {
  return dayNumber(a) - dayNumber(b);
}
