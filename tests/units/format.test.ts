import { expect, test } from 'vitest';
import {
  formatAngle,
  formatDate,
  formatDimension,
  formatForce,
  formatInches,
  formatLength,
  formatMass,
  formatMoney,
  formatNumber,
  formatPercent,
  formatShortDate,
  formatSizes,
  parseLength,
} from '../../src/units/index.ts';

const gb = 'en-GB';
const mm = { style: 'mm', locale: gb } as const;
const inches = { style: 'in', locale: gb } as const;
const both = { style: 'mm+in', locale: gb } as const;

test('lengths and sizes', () => {
  expect(formatLength(1800.4, mm)).toBe('1,800\u202fmm');
  expect(formatLength(27.25, { ...mm, decimals: 1 })).toBe('27.3\u202fmm');
  expect(formatLength(1800.225, inches)).toBe('70⅞″');
  expect(formatLength(1800.225, both)).toBe('1,800\u202fmm (70⅞″)');
  expect(formatSizes([1800, 850, 740], mm)).toBe('1,800\u00a0× 850\u00a0× 740\u202fmm');
  expect(formatSizes([1800, 850, 740], inches)).toBe('70⅞\u00a0× 33\u20097⁄16\u00a0× 29⅛″');
  expect(formatDimension(1800, mm)).toBe('1,800');
  expect(formatDimension(1800, both)).toBe('1,800 (70⅞″)');
  expect(formatLength(1800, { style: 'mm', locale: 'de-DE' })).toBe('1.800\u202fmm');
  expect(formatLength(-0.2, mm)).toBe('0\u202fmm');
  expect(formatLength(-12, mm)).toBe('\u221212\u202fmm');
});

test.each([
  [34.925, 16, '1⅜″'],
  [30.1625, 16, '1\u20093⁄16″'],
  [4.7625, 16, '3⁄16″'],
  [12.7, 16, '½″'],
  [0, 16, '0″'],
  [25.3, 16, '1″'],
  [-34.925, 16, '−1⅜″'],
  [-0.1, 16, '0″'],
  [0.79375, 32, '1⁄32″'],
  [0.79375, 8, '0″'],
] as const)('%d mm in %dths is %s', (length, fraction, text) => {
  expect(formatInches(length, gb, fraction)).toBe(text);
});

test('what is shown in sixteenths is read back within a thirty-second', () => {
  for (let length = 1; length < 3000; length += 7.3) {
    const back = parseLength(formatInches(length, 'en-GB').replace(',', ''), { bare: 'mm' });
    expect(back.ok).toBe(true);
    if (back.ok) expect(Math.abs(back.value.mm - length)).toBeLessThanOrEqual(25.4 / 32 + 1e-9);
  }
});

test('masses, forces, percentages, angles', () => {
  expect(formatMass(41.2, 'mm', gb)).toBe('41\u202fkg');
  expect(formatMass(41.2, 'in', gb)).toBe('91\u202flb');
  expect(formatMass(41.2, 'mm+in', gb)).toBe('41\u202fkg (91\u202flb)');
  expect(formatForce(1093, 'mm', gb)).toBe('1,093\u202fN');
  expect(formatForce(600.51, 'in', 'en-US')).toBe('135\u202flbf');
  expect(formatPercent(88.4, gb)).toBe('88\u202f%');
  expect(formatAngle(10.54, gb)).toBe('10.5°');
  expect(formatNumber(1234.5, 'fr-FR', 1)).toBe('1\u202f234,5');
});

test('money and days in the stated locale', () => {
  expect(formatMoney({ currency: 'EUR', minor: 634800 }, gb)).toBe('€6,348.00');
  expect(formatMoney({ currency: 'EUR', minor: 634800 }, gb, true)).toBe('€6,348');
  expect(formatMoney({ currency: 'EUR', minor: 634850 }, gb, true)).toBe('€6,348.50');
  expect(formatMoney({ currency: 'EUR', minor: 634800 }, 'de-DE')).toBe('6.348,00\u00a0€');
  expect(formatMoney({ currency: 'USD', minor: -540050 }, 'en-US')).toBe('−$5,400.50');
  expect(formatMoney({ currency: 'JPY', minor: 5400 }, 'en-US')).toBe('¥5,400');
  expect(formatMoney({ currency: 'EUR', minor: 9007199254740991 }, gb)).toBe('€90,071,992,547,409.91');
  expect(formatDate({ year: 2027, month: 2, day: 14 }, gb)).toBe('14 February 2027');
  expect(formatDate({ year: 2027, month: 2, day: 14 }, 'en-US')).toBe('February 14, 2027');
  expect(formatShortDate({ year: 2027, month: 2, day: 14 }, gb)).toBe('14 Feb 2027');
});
