import type { ShopRatesSpec } from '../spec/index.ts';
import { byCodeUnit } from '../units/index.ts';
import type { OperationDone } from './plan-and-done.ts';

/** Fewer tables than these tell nothing of the next one. @source common practice */
export const LEAST_TABLES = 3;
/** A median closer to 1 than this is no reason to change a rate. @source common practice */
export const CLOSE_ENOUGH = 0.05;

type Rate = Pick<ShopRatesSpec['operations'][string], 'low' | 'mid' | 'high'>;

/** A rate that the tables done so far speak for. Ratios are of hours done over the usual hours reckoned. */
export interface ProposedRate {
  readonly operation: string;
  readonly says: string;
  /** Tables for which hours were written down. */
  readonly tables: number;
  readonly medianRatio: number;
  readonly lowestRatio: number;
  readonly highestRatio: number;
  readonly now: Rate;
  readonly proposed: Rate;
}

/** Median of numbers: of an even count the mean of the middle two; throws for none. */
export function median(numbers: readonly number[]): number {
  const sorted = numbers.toSorted((a, b) => a - b);
  const [low, high] = [sorted[Math.floor((sorted.length - 1) / 2)], sorted[Math.ceil((sorted.length - 1) / 2)]];
  if (low === undefined || high === undefined) throw new RangeError('no median of nothing');
  return (low + high) / 2;
}

const cents = (hours: number): number => Math.round(hours * 100) / 100;

/**
 * Rates that finished tables speak for, by operation: the usual hours times the median of done over reckoned, which one odd table does not
 * move; the fewest and the most take in what was seen. Nothing below `LEAST_TABLES` tables, or where the median is close to 1.
 */
export function proposedRates(
  tables: readonly (readonly OperationDone[])[],
  operations: Readonly<Record<string, ShopRatesSpec['operations'][string]>>,
): readonly ProposedRate[] {
  return Object.entries(operations)
    .toSorted(([a], [b]) => byCodeUnit(a, b))
    .flatMap(([operation, { says, low, mid, high }]): readonly ProposedRate[] => {
      const ratios = tables.flatMap((done) => done.find(({ id }) => id === operation)?.ratio ?? []);
      if (ratios.length < LEAST_TABLES || mid === 0) return [];
      const medianRatio = median(ratios);
      if (Math.abs(medianRatio - 1) < CLOSE_ENOUGH) return [];
      const [lowestRatio, highestRatio] = [Math.min(...ratios), Math.max(...ratios)];
      const proposed = {
        low: cents(Math.min(low * medianRatio, mid * lowestRatio)),
        mid: cents(mid * medianRatio),
        high: cents(Math.max(high * medianRatio, mid * highestRatio)),
      };
      return [{ operation, says, tables: ratios.length, medianRatio, lowestRatio, highestRatio, now: { low, mid, high }, proposed }];
    });
}
