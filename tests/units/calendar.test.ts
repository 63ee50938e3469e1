import { expect, test } from 'vitest';
import { addDays, addMonths, compareDates, dayNumber, daysInMonth, fromDayNumber, isoDate, parseDate } from '../../src/units/index.ts';

function day(text: string) {
  const date = parseDate(text);
  if (date === undefined) throw new Error(`test row is no day: ${text}`);
  return date;
}

/** Meeus, Astronomical Algorithms, 2nd edition, chapter 7: Julian day at 0 h, from memory; 1970-01-01 is 2440587.5. */
const JULIAN: readonly [string, number][] = [
  ['2000-01-01', 2451544.5],
  ['1999-01-01', 2451179.5],
  ['1987-01-27', 2446822.5],
  ['1987-06-19', 2446965.5],
  ['1988-01-27', 2447187.5],
  ['1988-06-19', 2447331.5],
  ['1900-01-01', 2415020.5],
];

test.each(JULIAN)('%s has the Julian day %d', (text, julian) => {
  expect(dayNumber(day(text)) + 2440587.5).toBe(julian);
});

test('day numbers agree with the platform calendar over 200 years, and come back', () => {
  for (let n = -25567; n < 50000; n += 13) {
    const date = fromDayNumber(n);
    expect(Date.UTC(date.year, date.month - 1, date.day) / 86400000).toBe(n);
    expect(dayNumber(date)).toBe(n);
  }
});

test.each([
  ['2027-02-14', { year: 2027, month: 2, day: 14 }],
  ['2028-02-29', { year: 2028, month: 2, day: 29 }],
  ['2027-02-29', undefined],
  ['1900-02-29', undefined],
  ['2027-13-01', undefined],
  ['2027-04-31', undefined],
  ['14.02.2027', undefined],
  ['2027-2-14', undefined],
  ['0099-01-01', undefined],
])('%s', (text, expected) => {
  expect(parseDate(text)).toEqual(expected);
  if (expected !== undefined) expect(isoDate(expected)).toBe(text);
});

test('days and months on', () => {
  expect(isoDate(addDays(day('2027-02-14'), 30))).toBe('2027-03-16');
  expect(isoDate(addDays(day('2028-03-01'), -1))).toBe('2028-02-29');
  expect(isoDate(addMonths(day('2027-01-31'), 1))).toBe('2027-02-28');
  expect(isoDate(addMonths(day('2027-03-31'), -13))).toBe('2026-02-28');
  expect(daysInMonth(2100, 2)).toBe(28);
  expect(compareDates(day('2027-02-14'), day('2027-02-15'))).toBeLessThan(0);
});
