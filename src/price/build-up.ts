import type { EffectiveSpec } from '../spec/index.ts';
import type { TakeOff } from '../takeoff/index.ts';
import type { Money } from '../units/index.ts';
import {
  decimalOfMoney,
  exact,
  exactDecimal,
  exactMoney,
  exactOfNumber,
  minusMoney,
  over,
  percentOf,
  roundMinor,
  roundUp,
  sumMoney,
  times,
} from '../units/index.ts';
import { costLines } from './costs.ts';
import { linesOf } from './free-lines.ts';
import type { CostLine } from './price.ts';

/** How the price of all tables comes about, before any option with a price of its own. */
export interface BuildUp {
  readonly lines: readonly CostLine[];
  /** Net price of one table, a multiple of `roundUpTo`. */
  readonly each: Money;
  /** Net price of all tables: `each` times their number, and the sum of `lines`. */
  readonly net: Money;
  /** Cost of all tables: everything but mark-ups and rounding. */
  readonly cost: Money;
}

const MARKED_UP = ['timber', 'hardware', 'finish', 'labour'] as const;

/**
 * Builds the price of the tables up: direct costs, overhead where it is a line, contingency on all of these, a mark-up on each of the four kinds
 * of cost, private free lines as they stand, and friendly rounding as the last line, which brings one table's price up to a multiple of
 * `roundUpTo`. Every line is rounded to minor units once, so that the lines add up to the price.
 *
 * @source order of the build-up: common practice; lines rounded first, then added: EN 16931, BR-CO-10.
 */
export function buildUp(spec: EffectiveSpec, taken: TakeOff): BuildUp {
  const { rates } = spec.library;
  const costs = [...costLines(spec, taken), ...overhead(spec)];
  const direct = total(spec, costs);
  const reserve = percentLine('contingency', 'contingency', 'Contingency on the cost', direct, rates.contingency.percent);
  const markUps = MARKED_UP.flatMap((group) => {
    const base = total(
      spec,
      costs.filter((line) => line.group === group),
    );
    return percentLine(`mark-up/${group}`, 'mark-up', `Mark-up on ${group}`, base, rates.markUp[group].percent);
  });
  const hidden = linesOf(spec, false).map(({ id, line, amount }): CostLine => {
    return { id: `line/${id}`, group: 'line', says: line.says, quantity: String(line.quantity), rate: `${line.each} each`, amount };
  });
  const exactLines = [...costs, ...reserve, ...markUps, ...hidden];
  const each = roundedUp(spec, total(spec, exactLines));
  const net = sumMoney(rates.currency, [{ currency: rates.currency, minor: each.minor * spec.proposal.quantity }]);
  const difference = minusMoney(net, total(spec, exactLines));
  const rounding: readonly CostLine[] =
    difference.minor === 0
      ? []
      : [{ id: 'rounding', group: 'rounding', says: `Up to a multiple of ${rates.roundUpTo}`, amount: difference }];
  return { lines: [...exactLines, ...rounding], each, net, cost: total(spec, [...costs, ...reserve, ...hidden]) };
}

/** Sum of the lines in the currency of the shop rates. */
export function total(spec: EffectiveSpec, lines: readonly CostLine[]): Money {
  return sumMoney(
    spec.library.rates.currency,
    lines.map((line) => line.amount),
  );
}

function overhead(spec: EffectiveSpec): readonly CostLine[] {
  const { overhead: how, currency } = spec.library.rates;
  if (how.kind === 'in-hour') return [];
  const tables = spec.proposal.quantity;
  const amount = roundMinor(times(exactDecimal(how.amount), exact(BigInt(tables))), currency);
  return [
    { id: 'overhead', group: 'overhead', says: 'Overhead of the shop', quantity: String(tables), rate: `${how.amount} a table`, amount },
  ];
}

function percentLine(id: string, group: CostLine['group'], says: string, base: Money, percent: number): readonly CostLine[] {
  if (percent === 0 || base.minor === 0) return [];
  const amount = percentOf(base, exactOfNumber(percent));
  return [{ id, group, says, quantity: `${percent} %`, rate: `of ${decimalOfMoney(base)}`, amount }];
}

/** One table's share of the sum, brought up to a multiple of `roundUpTo`; to whole minor units where that is 0. */
function roundedUp(spec: EffectiveSpec, sum: Money): Money {
  const { currency, roundUpTo } = spec.library.rates;
  const share = over(exactMoney(sum), exact(BigInt(spec.proposal.quantity)));
  const unit = exactMoney({ currency, minor: 1 });
  const multiple = exactDecimal(roundUpTo);
  const to = multiple.num === 0n ? unit : multiple;
  return roundMinor(times(exact(roundUp(over(share, to))), to), currency);
}
