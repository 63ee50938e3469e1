import type { EffectiveSpec } from '../spec/index.ts';
import type { DecimalText, Exact, Money } from '../units/index.ts';
import { exact, exactDecimal, exactOfNumber, over, plus, roundMinor, roundToStep, times, toDecimal } from '../units/index.ts';

/** A quantity at its step, with the step's own decimals: what the line shows is what is multiplied. */
export function stepped(quantity: Exact, step: DecimalText): { readonly value: Exact; readonly text: string } {
  const value = roundToStep(quantity, exactDecimal(step));
  return { value, text: toDecimal(value, step.split('.')[1]?.length ?? 0) };
}

/** Quantity times price, exactly. */
export const costOf = (quantity: Exact, price: DecimalText): Exact => times(quantity, exactDecimal(price));

/**
 * An exact cost in whole units as the maker bears it and as the table's price asks it: with contingency and the mark-up of its kind, both on the
 * cost; each rounded once.
 */
export function asPriced(
  spec: EffectiveSpec,
  kind: 'timber' | 'hardware' | 'finish' | 'labour',
  cost: Exact,
): { readonly cost: Money; readonly shown: Money } {
  const { currency, contingency, markUp } = spec.library.rates;
  const percent = plus(exact(100n), plus(exactOfNumber(contingency.percent), exactOfNumber(markUp[kind].percent)));
  return { cost: roundMinor(cost, currency), shown: roundMinor(over(times(cost, percent), exact(100n)), currency) };
}
