import { expect, test } from 'vitest';
import { measuredLast } from '../../src/cli/handing/claim-source.ts';

/** Of each kind of measurement at a claimed table the last one counts, by whatever entry. Figures are invented. */
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
