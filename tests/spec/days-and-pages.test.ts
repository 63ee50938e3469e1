import { expect, test } from 'vitest';
import { day } from '../../src/spec/field.ts';

/** What a maker writes for a day, and what is proposed to type. @source ISO 8601-1:2019, 5.2.2.1: year-month-day */
const rows: readonly (readonly [string, string | undefined])[] = [
  ['14 March 2027', '2027-03-14'],
  ['14. march 2027', '2027-03-14'],
  ['March 14th, 2027', '2027-03-14'],
  ['1st Sept 2027', '2027-09-01'],
  ['29 Feb 2028', '2028-02-29'],
  ['29 Feb 2027', undefined],
  ['March 2027', undefined],
  ['the 14th of next month', undefined],
  ['14 to 16 March or April 2027', undefined],
];

test.each(rows)('a day written as %s', (written, meant) => {
  const result = day('the day').safeParse(written);
  expect(result.success).toBe(false);
  expect(JSON.stringify(result.error).includes(meant ?? '"type":"')).toBe(meant !== undefined);
});
