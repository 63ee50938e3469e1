import type { Exact } from '../units/index.ts';
import { exact, minus, over, plus } from '../units/index.ts';

const ONE = exact(1n);

/**
 * Margin (share of the price) that a mark-up (share of the cost) gives: 1/2 becomes 1/3.
 *
 * @source g = m / (1 + m); shop-owner's page on mark-up and gross profit.
 */
export function marginOfMarkUp(markUp: Exact): Exact {
  return over(markUp, plus(ONE, markUp));
}

/**
 * Price that leaves a margin on a cost: a cost of 20 at a margin of 1/4 asks 26.67, not 25.
 *
 * @source price = cost / (1 - g); small-business pricing article. Throws a RangeError for a margin of the whole price.
 */
export function priceForMargin(cost: Exact, margin: Exact): Exact {
  return over(cost, minus(ONE, margin));
}
