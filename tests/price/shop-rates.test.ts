import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import type { ShopRatesSpec } from '../../src/spec/index.ts';
import { DRIVERS } from '../../src/takeoff/index.ts';
import { usualHours } from '../published/trade-hours.ts';
import { moneyChecks } from '../published/trade-money.ts';

const yardstick = (text: string): number => {
  const [, whole = '0', over = '0', under = '1', unit] = /^(?:(\d+(?:\.\d+)?)(?![/\d]))?\s*(?:(\d+)\/(\d+))?\s*(mm|in)$/.exec(text) ?? [];
  expect(unit, text).toBeDefined();
  return (Number(whole) + Number(over) / Number(under)) * (unit === 'in' ? 25.4 : 1);
};

describe.each(['runa', 'runa-usd', 'runa-trade'])('the shop rates %s', (id) => {
  // As written, before reading: only what this test looks at.
  const rates = parse(readFileSync(new URL(`../../templates/rates/${id}.yaml`, import.meta.url), 'utf8')) as Pick<
    ShopRatesSpec,
    'operations' | 'hour'
  > & {
    timber: Record<string, { thickness: string; yields: { short: string; long: string } }>;
  };

  test('the hour is pay with its burden and overhead over the hours at the bench', () => {
    const { inputs, expected } = moneyChecks['rate-01'];
    const hour = (inputs.salary * (1 + inputs.burden) + inputs.overhead) / (inputs.hours * inputs.billable);
    expect(rates.hour).toBe(hour.toFixed(2));
    expect(Number(rates.hour)).toBe(expected);
  });

  test('every operation is one that is counted, in its unit, within the usual range', () => {
    expect(Object.keys(rates.operations).toSorted()).toEqual(Object.keys(DRIVERS).toSorted());
    for (const [key, operation] of Object.entries(rates.operations)) {
      const usual = usualHours[key];
      expect(operation.per, key).toBe(DRIVERS[key]?.per);
      expect(operation.per, key).toBe(usual?.per);
      const rising = [usual?.low ?? Number.NaN, operation.low, operation.mid, operation.high, usual?.high ?? Number.NaN];
      expect(rising, key).toEqual(rising.toSorted((a, b) => a - b));
    }
  });

  test('sawn timber yields less than its thickness, and long parts less than short ones', () => {
    for (const [key, { thickness, yields }] of Object.entries(rates.timber)) {
      expect(yardstick(yields.short), key).toBeLessThan(yardstick(thickness));
      expect(yardstick(yields.long), key).toBeLessThan(yardstick(yields.short));
      expect(yardstick(yields.long), key).toBeGreaterThan(yardstick(thickness) * 0.65);
    }
  });
});
