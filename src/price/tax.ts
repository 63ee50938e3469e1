import type { EffectiveSpec } from '../spec/index.ts';
import type { Exact, Money } from '../units/index.ts';
import { exact, exactMoney, exactOfNumber, over, percentOf, plus, roundMinor, sumMoney, times } from '../units/index.ts';
import type { ShownLine, TaxLine } from './price.ts';

/** Key that says a line carries no tax. */
export const NO_TAX = 'none';

/**
 * One tax line for each tax of the lines, in the order of the first line that carries it: the base is the exact sum of its lines, the tax is
 * rounded once.
 *
 * @source EN 16931, BR-CO-17: tax = base x rate, rounded to the minor unit.
 */
export function taxLines(spec: EffectiveSpec, shown: readonly ShownLine[]): readonly TaxLine[] {
  const { taxes, currency } = spec.library.rates;
  return [...new Set(shown.map((line) => line.taxId))].flatMap((id): readonly TaxLine[] => {
    const tax = taxes[id];
    if (tax === undefined || id === NO_TAX) return [];
    const lines = shown.filter((line) => line.taxId === id);
    const base = sumMoney(
      currency,
      lines.map((line) => line.amount),
    );
    const { percent } = tax.percent;
    return [{ id, says: tax.says, percent: String(percent), base, amount: percentOf(base, exactOfNumber(percent)) }];
  });
}

/**
 * Tax that is already inside an amount, rounded once; the net is the amount less the tax.
 *
 * @source tax = gross x r / (1 + r), r in percent here.
 */
export function taxInside(gross: Money, percent: Exact): Money {
  return roundMinor(over(times(exactMoney(gross), percent), plus(exact(100n), percent)), gross.currency);
}
