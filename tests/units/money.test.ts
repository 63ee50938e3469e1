import { describe, expect, test } from 'vitest';
import {
  decimalOfMoney,
  distribute,
  exact,
  exactOf,
  exactOfNumber,
  minorDigits,
  minusMoney,
  money,
  over,
  percentOf,
  plus,
  roundHalfUp,
  roundMinor,
  roundToStep,
  roundUp,
  sumMoney,
  times,
  toDecimal,
  toNumber,
} from '../../src/units/index.ts';
import table from '../published/money.json' with { type: 'json' };

function decimal(text: string) {
  const value = exactOf(text);
  if (value === undefined) throw new Error(`test row is not a decimal: ${text}`);
  return value;
}

test.each(table.instalments)('$total shared by $weights', ({ total, weights, expected }) => {
  const shares = distribute(
    money('EUR', total),
    weights.map((w) => exact(BigInt(w))),
  );
  expect(shares.map((s) => s.minor)).toEqual(expected);
});

test.each(table.rounding)('$amount $currency rounds to $minor', ({ amount, currency, minor }) => {
  expect(roundMinor(decimal(amount), currency)).toEqual({ currency, minor });
});

test.each(Object.entries(table.digits))('%s has %i digits', (currency, digits) => {
  expect(minorDigits(currency)).toBe(digits);
});

test('tax-inclusive 2.99 at 4 %: net rounded first 2.88, tax rounded first 0.12 (billing-system documentation)', () => {
  const gross = decimal('2.99');
  expect(roundMinor(over(gross, decimal('1.04')), 'EUR').minor).toBe(288);
  expect(roundMinor(times(gross, over(decimal('0.04'), decimal('1.04'))), 'EUR').minor).toBe(12);
});

test('20 % of 100.02 is 20.00 and the total 120.02 (EN 16931)', () => {
  const net = sumMoney('EUR', [money('EUR', 3334), money('EUR', 3334), money('EUR', 3334)]);
  const tax = percentOf(net, exact(20n));
  expect(tax.minor).toBe(2000);
  expect(decimalOfMoney(sumMoney('EUR', [net, tax]))).toBe('120.02');
});

describe('laws', () => {
  test('shares add up and none is off by a whole unit, for 2,000 pseudo-random splits', () => {
    let seed = 12345;
    const next = (below: number) => {
      seed = (seed * 48271) % 2147483647;
      return seed % below;
    };
    for (let i = 0; i < 2000; i++) {
      const total = next(2000001) - 1000000;
      const weights = Array.from({ length: 1 + next(7) }, () => exact(BigInt(next(1000)), BigInt(1 + next(9))));
      if (weights.every((w) => w.num === 0n)) continue;
      const shares = distribute(money('EUR', total), weights);
      expect(sumMoney('EUR', shares).minor).toBe(total);
      const all = weights.reduce((sum, w) => plus(sum, w));
      shares.forEach((share, index) => {
        const due = (total * toNumber(weights[index] ?? exact(0n))) / toNumber(all);
        expect(Math.abs(share.minor - due)).toBeLessThan(1 + 1e-6);
      });
    }
  });

  test('numbers become the decimal that is read, not their binary neighbour', () => {
    expect(exactOfNumber(0.1)).toEqual(exact(1n, 10n));
    expect(exactOfNumber(1.005)).toEqual(exact(1005n, 1000n));
    expect(exactOfNumber(2.5e-7)).toEqual(exact(25n, 100000000n));
    expect(exactOfNumber(1e21)).toEqual(exact(10n ** 21n));
    expect(() => exactOfNumber(Number.NaN)).toThrow(RangeError);
  });

  test('rounding to steps, up, and to whole numbers', () => {
    expect(toDecimal(roundToStep(decimal('12.344'), decimal('0.05')), 2)).toBe('12.35');
    expect(toDecimal(roundToStep(decimal('7.125'), decimal('0.25')), 2)).toBe('7.25');
    expect(roundUp(decimal('4.001'))).toBe(5n);
    expect(roundUp(decimal('-4.9'))).toBe(-4n);
    expect(roundUp(decimal('5'))).toBe(5n);
    expect(roundHalfUp(decimal('-2.5'))).toBe(-3n);
    expect(toDecimal(decimal('-0.005'), 2)).toBe('-0.01');
    expect(toDecimal(exact(2n, 3n), 4)).toBe('0.6667');
  });

  test('what can not be added or held throws: it is a fault of the program', () => {
    expect(() => sumMoney('EUR', [money('USD', 1)])).toThrow(RangeError);
    expect(() => minusMoney(money('EUR', 1), money('USD', 1))).toThrow(RangeError);
    expect(() => money('EUR', 0.5)).toThrow(RangeError);
    expect(() => exact(1n, 0n)).toThrow(RangeError);
    expect(() => distribute(money('EUR', 5), [exact(0n)])).toThrow(RangeError);
    expect(() => distribute(money('EUR', 5), [exact(2n), exact(-1n)])).toThrow(RangeError);
  });
});
