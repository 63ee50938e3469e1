import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { changeByCoefficientMm, changeByShrinkageMm, equilibriumMoisturePercent } from '../../src/assess/moisture.ts';

interface Row {
  readonly id: string;
  readonly quantity: string;
  readonly inputs: Readonly<Record<string, number>>;
  readonly expected: number;
  readonly tolerance: number;
  readonly source: string;
}
const rows = JSON.parse(readFileSync(new URL('../published/wood.json', import.meta.url), 'utf8')) as Row[];
const input = (row: Row, name: string): number => row.inputs[name] ?? Number.NaN;
const near = (value: number, row: Row): void => expect(Math.abs(value - row.expected)).toBeLessThanOrEqual(row.tolerance);

const table = readFileSync(new URL('../published/wood-emc.csv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split(','))
  .map(([celsius, , humidity, moisture, kind]) => ({
    celsius: Number(celsius),
    humidity: Number(humidity),
    moisture: Number(moisture),
    kind,
  }));

/** Eq. 4-5 with the handbook's Fahrenheit coefficients: a second set of numbers for the same surface. */
function byFahrenheit(t: number, humidityPercent: number): number {
  const w = 330 + 0.452 * t + 0.00415 * t * t;
  const k = 0.791 + 0.000463 * t - 0.000000844 * t * t;
  const k1 = 6.34 + 0.000775 * t - 0.0000935 * t * t;
  const k2 = 1.09 + 0.0284 * t - 0.0000904 * t * t;
  const kh = (k * humidityPercent) / 100;
  return (1800 / w) * (kh / (1 - kh) + (k1 * kh + 2 * k1 * k2 * kh * kh) / (1 + k1 * kh + k1 * k2 * kh * kh));
}

describe('equilibrium moisture (Wood Handbook Eq. 4-5 against Table 4-2)', () => {
  test('every tabulated row within 0.08 % moisture', () => {
    const tabulated = table.filter((row) => row.kind === 'tabulated');
    expect(tabulated).toHaveLength(74);
    for (const row of tabulated) expect(Math.abs(equilibriumMoisturePercent(row.celsius, row.humidity) - row.moisture)).toBeLessThan(0.08);
  });
  test.each(rows.filter((row) => row.quantity === 'emc_pct'))('$id', (row) => {
    near(equilibriumMoisturePercent(input(row, 'temperature_C'), input(row, 'relative_humidity_pct')), row);
  });
  test('the Fahrenheit coefficients agree within 0.03 % moisture from 10 to 32 C', () => {
    for (let celsius = 10; celsius <= 32; celsius += 2) {
      for (let humidity = 20; humidity <= 80; humidity += 10) {
        const other = byFahrenheit(celsius * 1.8 + 32, humidity);
        expect(Math.abs(equilibriumMoisturePercent(celsius, humidity) - other)).toBeLessThan(0.03);
      }
    }
  });
});

describe('movement across the grain (Wood Handbook Eq. 13-2 and 13-3)', () => {
  test.each(rows.filter((row) => /^(dimension_change_(mm|in)|final_dimension_mm|final_dimension_in)$/.test(row.quantity)))('$id', (row) => {
    const initial = row.inputs.initial_mm ?? input(row, 'initial_in');
    const change = changeByCoefficientMm(
      initial,
      input(row, 'coefficient_per_pct'),
      input(row, 'mc_initial_pct'),
      input(row, 'mc_final_pct'),
    );
    near(row.quantity.startsWith('final') ? initial + change : change, row);
  });
  test.each(rows.filter((row) => row.quantity === 'dimension_change_mm_from_total_shrinkage'))('$id', (row) => {
    near(
      changeByShrinkageMm(input(row, 'initial_mm'), input(row, 'shrinkage_pct'), input(row, 'mc_initial_pct'), input(row, 'mc_final_pct')),
      row,
    );
  });
  test.each(rows.filter((row) => row.quantity === 'dim_change_coefficient_from_total_shrinkage'))(
    '$id: Eq. 13-3 over one point of moisture from 10 % is the coefficient of Table 13-5',
    (row) => near(changeByShrinkageMm(1, input(row, 'shrinkage_pct'), 10, 11), row),
  );
});
