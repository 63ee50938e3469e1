import type { EffectiveSpec, FreeLineSpec } from '../spec/index.ts';
import type { Money } from '../units/index.ts';
import { exactDecimal, exactOfNumber, roundMinor, times } from '../units/index.ts';

/** A free line of the proposal with its amount. */
export interface PricedLine {
  readonly id: string;
  readonly line: FreeLineSpec;
  readonly amount: Money;
}

/** The proposal's shown or private free lines that this variant has, in the order written; each amount is rounded once. */
export function linesOf(spec: EffectiveSpec, shown: boolean): readonly PricedLine[] {
  const { currency } = spec.library.rates;
  return Object.entries(spec.proposal.lines)
    .filter(([, line]) => line.shown === shown && (line.variants?.includes(spec.variant.id) ?? true))
    .map(([id, line]) => ({ id, line, amount: roundMinor(times(exactDecimal(line.each), exactOfNumber(line.quantity)), currency) }));
}
