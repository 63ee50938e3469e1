import type { Exact } from './exact.ts';
import { exact, exactOf, over, roundHalfUp, times, toDecimal } from './exact.ts';
import type { DecimalText, Money } from './quantity.ts';

/** Digits after the point of the currencies that do not have two. @source ISO 4217, list one, column "minor unit". */
const OTHER_DIGITS: Readonly<Record<string, number>> = {
  BIF: 0,
  CLP: 0,
  DJF: 0,
  GNF: 0,
  ISK: 0,
  JPY: 0,
  KMF: 0,
  KRW: 0,
  PYG: 0,
  RWF: 0,
  UGX: 0,
  VND: 0,
  VUV: 0,
  XAF: 0,
  XOF: 0,
  XPF: 0,
  BHD: 3,
  IQD: 3,
  JOD: 3,
  KWD: 3,
  LYD: 3,
  OMR: 3,
  TND: 3,
};

/** Digits of the minor unit of an ISO 4217 currency: 2 for most, 0 for yen, 3 for Kuwaiti dinar. */
export function minorDigits(currency: string): number {
  return OTHER_DIGITS[currency] ?? 2;
}

/** Whether a text has the form of an ISO 4217 code: three capital letters. */
export function isCurrencyCode(text: string): boolean {
  return /^[A-Z]{3}$/.test(text);
}

/** Whole minor units. Throws a RangeError beyond 2^53 - 1: no table costs that. */
export function money(currency: string, minor: number): Money {
  if (!Number.isSafeInteger(minor)) throw new RangeError(`an amount of money is a whole number of minor units, not ${minor}`);
  return { currency, minor: minor === 0 ? 0 : minor };
}

/** Rounds an exact amount in whole units (57.935 EUR) to minor units, a half away from zero: once a line, nowhere else. */
export function roundMinor(amount: Exact, currency: string): Money {
  const scale = exact(10n ** BigInt(minorDigits(currency)));
  return money(currency, Number(roundHalfUp(times(amount, scale))));
}

/** The exact amount in whole units. */
export function exactMoney(amount: Money): Exact {
  return exact(BigInt(amount.minor), 10n ** BigInt(minorDigits(amount.currency)));
}

/** The exact value of a decimal that the schemas have checked. Throws a RangeError for any other text. */
export function exactDecimal(text: DecimalText): Exact {
  const value = exactOf(text);
  if (value === undefined) throw new RangeError(`not a decimal: ${text}`);
  return value;
}

/** Decimal text with the currency's digits, e.g. `57.90`. */
export function decimalOfMoney(amount: Money): DecimalText {
  return toDecimal(exactMoney(amount), minorDigits(amount.currency)) as DecimalText;
}

/** Adds amounts of one currency. Throws a RangeError where two currencies meet. */
export function sumMoney(currency: string, amounts: readonly Money[]): Money {
  let minor = 0;
  for (const amount of amounts) {
    if (amount.currency !== currency) throw new RangeError(`${amount.currency} can not be added to ${currency}`);
    minor += amount.minor;
  }
  return money(currency, minor);
}

/** `a - b`. Throws a RangeError where two currencies meet. */
export function minusMoney(a: Money, b: Money): Money {
  return sumMoney(a.currency, [a, { currency: b.currency, minor: -b.minor }]);
}

/** A percentage of an amount, rounded once, a half away from zero. `percent` is exact decimal text or a checked number's text. */
export function percentOf(amount: Money, percent: Exact): Money {
  return roundMinor(over(times(exactMoney(amount), percent), exact(100n)), amount.currency);
}

/**
 * Shares an amount out by weights so that the shares add up to it exactly: whole minor units of each exact share first,
 * then one more to the largest remainders, ties to the earlier. Throws a RangeError where no weight is above zero or one is below it.
 *
 * @source largest remainder (Hamilton's) method of apportionment; the rule for ties is this program's.
 */
export function distribute(amount: Money, weights: readonly Exact[]): readonly Money[] {
  const total = weights.reduce((sum, w) => sum + scaleTo(w, weights), 0n);
  if (total <= 0n || weights.some((w) => w.num < 0n)) throw new RangeError('an amount can only be shared out by weights of 0 or more');
  const sign = amount.minor < 0 ? -1n : 1n;
  const whole = BigInt(amount.minor) * sign;
  const shares = weights.map((weight, index) => {
    const product = whole * scaleTo(weight, weights);
    return { index, minor: product / total, rest: product % total };
  });
  const left = Number(whole - shares.reduce((sum, s) => sum + s.minor, 0n));
  const first = shares.toSorted((a, b) => (a.rest === b.rest ? a.index - b.index : a.rest > b.rest ? -1 : 1)).slice(0, left);
  return shares.map((s) => money(amount.currency, Number(sign * (s.minor + (first.includes(s) ? 1n : 0n)))));
}

/** A weight as a whole number, all weights on their common denominator. */
function scaleTo(weight: Exact, all: readonly Exact[]): bigint {
  const common = all.reduce((product, w) => product * w.den, 1n);
  return (weight.num * common) / weight.den;
}
