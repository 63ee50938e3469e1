/**
 * Days of care by hand on a wall calendar.
 * @source the Gregorian calendar (leap years 2028 and 2000, none in 2100); hours and days of each class: tests/published/finishes.csv
 */
import { describe, expect, it } from 'vitest';
import { careDates } from '../../src/care/index.ts';
import { dayNumber, isoDate } from '../../src/units/index.ts';
import { finishes } from './read-rules.ts';
import { day, finish, input } from './tables.ts';

const dates = (id: string, finished: string, delivered: string, southern = false) =>
  Object.fromEntries(
    Object.entries(
      careDates(
        input({
          finish: finish(id),
          finishedOn: day(finished),
          deliveredOn: day(delivered),
          place: { humidityLowPercent: 40, humidityHighPercent: 60, facts: southern ? ['southern'] : [] },
        }),
      ),
    ).map(([key, date]) => [key, isoDate(date)]),
  );

describe('days of care', () => {
  it.each([
    // 48 hours and 21 days from 8 February: the leap day of 2028 is one of the 21.
    ['hardwax-oil', '2028-02-08', '2028-02-10', '2028-02-29', '2028-03-01'],
    ['hardwax-oil', '2027-02-08', '2027-02-10', '2027-03-01', '2027-03-02'],
    ['hardwax-oil', '2100-02-08', '2100-02-10', '2100-03-01', '2100-03-02'],
    ['hardwax-oil', '2000-02-08', '2000-02-10', '2000-02-29', '2000-03-01'],
    // 504 hours are 21 days, 90 days to harden.
    ['linseed-oil-raw', '2027-12-01', '2027-12-22', '2028-02-29', '2028-03-01'],
    ['soap', '2027-12-30', '2027-12-31', '2028-01-02', '2028-01-03'],
  ])('%s finished on %s', (id, finished, lightUseOver, curedOn, curedFrom) => {
    expect(dates(id, finished, finished)).toMatchObject({ lightUseOver, curedOn, curedFrom });
  });

  it('harden from the last coat, whenever the table is delivered', () => {
    expect(dates('hardwax-oil', '2028-02-08', '2028-02-09').curedOn).toBe(dates('hardwax-oil', '2028-02-08', '2029-09-09').curedOn);
  });

  it.each([
    // A table delivered in January has had no three months of heating by 15 April.
    ['2027-09-30', false, '2028-04-15'],
    ['2028-01-15', false, '2028-04-15'],
    ['2028-01-16', false, '2029-04-15'],
    ['2027-12-31', false, '2028-04-15'],
    ['2027-05-10', true, '2027-10-15'],
    ['2027-08-10', true, '2028-10-15'],
  ])('delivered on %s (southern: %s), first looked at on %s', (delivered, southern, firstCheckOn) => {
    expect(dates('hardwax-oil', '2027-05-01', delivered, southern)).toMatchObject({ firstCheckOn });
  });

  it('count a new coat in months from the delivery, or from the last refresh', () => {
    // 12 to 36 months; a leap day falls on the last of February.
    expect(dates('hardwax-oil', '2028-02-01', '2028-02-29')).toMatchObject({ refreshFrom: '2029-02-28', refreshTo: '2031-02-28' });
    const again = careDates(input({ deliveredOn: day('2027-05-10'), refreshedOn: day('2028-06-30') }));
    expect(isoDate(again.refreshFrom)).toBe('2029-06-30');
    // It was looked at as it was refinished, and no day that is over is told.
    expect(isoDate(again.firstCheckOn)).toBe('2029-04-15');
  });

  it('stand in order for every finish, over a whole leap cycle', () => {
    for (const id of Object.keys(finishes))
      for (let year = 2027; year <= 2031; year += 1)
        for (const monthDay of ['01-31', '02-28', '12-31']) {
          const of = careDates(
            input({ finish: finish(id), finishedOn: day(`${year}-${monthDay}`), deliveredOn: day(`${year}-${monthDay}`) }),
          );
          const [light, cured] = [dayNumber(of.lightUseOver), dayNumber(of.curedOn)];
          expect(light).toBeLessThanOrEqual(cured);
          expect(dayNumber(of.lightUseFrom)).toBe(light + 1);
          expect(dayNumber(of.curedFrom)).toBe(cured + 1);
          // 86,400,000 ms a day: the runtime's own calendar as the second opinion.
          const began = Date.UTC(year, Number(monthDay.slice(0, 2)) - 1, Number(monthDay.slice(3)));
          expect(new Date(began + (finishes[id]?.fullCureDays ?? 0) * 864e5).toISOString().slice(0, 10)).toBe(isoDate(of.curedOn));
        }
  });
});
