import { expect, test } from 'vitest';
import { topAcrossPath } from '../../src/cli/handing/as-built.ts';
import { expectedSince, measuredLast, warrantyOf } from '../../src/cli/handing/claim-source.ts';
import type { OrderedTable } from '../../src/cli/handing/ordered-table.ts';
import type { EntryOf } from '../../src/record/index.ts';
import { computed } from '../client/commission.ts';

/** What a claim is held against: the last of each measurement, the size as built, the time that was agreed. Figures are invented. */
const step = (n: number, on: string, more: object) => ({ n, on, moisturePercent: [], sizes: [], photographs: [], ...more });
const width = (mm: number) => ({ sizes: [{ what: 'top.width', mm }] });

test('the last of each kind counts, and a temperature with the air that it was read in', () => {
  const steps = [
    step(31, '2028-01-20', { humidityPercent: 30, celsius: 18, moisturePercent: [7], ...width(795) }),
    step(32, '2028-01-28', { humidityPercent: 27, moisturePercent: [6.2, 6.4] }),
    step(33, '2028-02-02', { sizes: [{ what: 'height', mm: 744 }, ...width(792).sizes] }),
  ];
  expect(measuredLast(steps, 'top.width')).toEqual({ humidityPercent: 27, moisturePercent: [6.2, 6.4], acrossMm: 792 });
  expect(measuredLast(steps.slice(0, 1), 'top.width')).toEqual({
    humidityPercent: 30,
    celsius: 18,
    moisturePercent: [7],
    acrossMm: 795,
  });
  expect(measuredLast([step(31, '2028-01-20', {})], 'top.width')).toEqual({});
});

test('a size that nobody measured when the table was built is compared with none', () => {
  const standard = computed().variants[0]?.standard;
  if (standard === undefined) throw new Error('no design');
  const ordered = { care: standard } as unknown as OrderedTable;
  const { top } = standard.table;
  const handOver = (asBuilt: readonly object[]) => ({ moisturePercent: [9], asBuilt }) as unknown as EntryOf<'hand-over'>;
  const last = { humidityPercent: 30, acrossMm: top.acrossGrainMm - 9 };
  const drawn = expectedSince(ordered, handOver([]), last);
  expect(drawn?.expectedMm[1]).toBeLessThan(top.acrossGrainMm);
  expect([drawn?.result, drawn?.measuredChangeMm]).toEqual([undefined, undefined]);
  const built = { what: topAcrossPath(standard.table), unit: 'mm', built: top.acrossGrainMm };
  expect(expectedSince(ordered, handOver([built]), last)?.measuredChangeMm).toBe(-9);
  expect(expectedSince(ordered, handOver([built]), {})).toBeUndefined();
});

test('what was agreed runs from the delivery, by months of the calendar, and is nothing where the terms name no section', () => {
  const { terms } = computed().input.library;
  const sections = [{ ...terms.sections[0], title: 'If something is wrong', body: 'I put\n  it right.' }] as typeof terms.sections;
  const of = (months?: number) =>
    warrantyOf(
      { ...terms, sections, warranty: { section: 'If something is wrong', ...(months === undefined ? {} : { months }) } },
      '2027-08-31',
    );
  // 31 August and six months: the last day of February, in a leap year the 29th.
  expect(of(6)).toEqual({ title: 'If something is wrong', says: 'I put it right.', until: '2028-02-29' });
  expect(of(24)?.until).toBe('2029-08-31');
  expect(of()).not.toHaveProperty('until');
  const { warranty: _none, ...silent } = terms;
  expect(warrantyOf({ ...silent, sections }, '2027-08-31')).toBeUndefined();
});
