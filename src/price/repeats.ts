import type { Exact } from '../units/index.ts';
import { exact, plus, ZERO } from '../units/index.ts';

/**
 * How many times the hours of the first piece it takes to make so many identical ones: each repeat takes 5 % less than the one before, at most
 * 30 % less than the first.
 *
 * @source Jones, "How to price the job", joint rule (8 joints at 2 h take 13.3 h); the reading of the discount is ours.
 */
export function repeatFactor(count: number): Exact {
  let factor = ZERO;
  for (let done = 0; done < count; done += 1) factor = plus(factor, exact(BigInt(Math.max(70, 100 - 5 * done)), 100n));
  return factor;
}
