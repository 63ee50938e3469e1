import type { Choice, EffectiveSpec, OptionSpec } from '../spec/index.ts';
import type { TakeOff } from '../takeoff/index.ts';
import type { Exact, Money } from '../units/index.ts';
import {
  compareExact,
  distribute,
  exact,
  exactDecimal,
  exactMoney,
  exactOfNumber,
  minus,
  minusMoney,
  over,
  plus,
  roundMinor,
  sumMoney,
  toNumber,
  ZERO,
} from '../units/index.ts';
import type { BuildUp } from './build-up.ts';
import { buildUp, total } from './build-up.ts';
import { hoursForAll } from './costs.ts';
import { choiceWithoutFixedPrices, fixedPriceOptions } from './fixed-price.ts';
import { linesOf } from './free-lines.ts';
import type { CostLine, Price, ShownLine } from './price.ts';
import { checkMargin, checkTerms, noStandardPrice } from './problems.ts';
import { taxLines } from './tax.ts';

/**
 * The price of a variant's table with one choice of options, for as many tables as the proposal orders.
 *
 * An option with a price of its own is a shown line, and the table's line then stays at the price of the same choice without it: `without` is
 * the `Price` of `choiceWithoutFixedPrices(variant, choice)` and must be given where that is not `undefined`. The build still holds the real
 * cost of the patched table, and a line of group `option` that takes the difference out again.
 * Several tables: design, buying and delivery once; the other hours per table with the saving of `repeatFactor`; materials per table; one price
 * for each.
 * Problems: `price/currency-differs`, `price/unknown-tax`, `price/instalments-not-whole`, `price/groups-not-whole`,
 * `price/no-standard-price` (errors), `price/private-line-tax`, `price/margin-low` (warnings).
 */
export function priceTable(spec: EffectiveSpec, taken: TakeOff, choice: Choice = [], without?: Price): Price {
  const { rates } = spec.library;
  const built = buildUp(spec, taken);
  const fixed = fixedPriceOptions(spec.variant, choice);
  const standard = fixed.length === 0 ? undefined : without?.shown.find((line) => line.id === 'table');
  const table = standard ?? tableLine(spec, built);
  const options = fixed.map(([id, option]) => optionLine(spec, id, option));
  const shown = [table, ...options, ...linesOf(spec, true).map(freeLine), ...delivery(spec)];
  const net = sumMoney(rates.currency, amounts(shown));
  const taxes = taxLines(spec, shown);
  const due = sumMoney(rates.currency, [net, ...amounts(taxes)]);
  const build = [
    ...built.lines,
    ...takenOut(
      built,
      table,
      fixed.map(([id]) => id),
    ),
  ];
  const earned = sumMoney(rates.currency, amounts([table, ...options]));
  const marginPercent = marginOf(earned, built.cost);
  return {
    currency: rates.currency,
    build,
    costMinor: built.cost.minor,
    marginPercent,
    spread: { low: earnedPerHour(spec, taken, built, earned, 'low'), high: earnedPerHour(spec, taken, built, earned, 'high') },
    shown,
    net,
    taxes,
    total: due,
    instalments: instalmentsOf(spec, due),
    problems: [
      ...checkTerms(spec),
      ...(choiceWithoutFixedPrices(spec.variant, choice) !== undefined && standard === undefined
        ? noStandardPrice(
            spec,
            fixed.map(([id]) => id),
          )
        : []),
      ...checkMargin(spec, earned, built.cost, marginPercent),
    ],
  };
}

function tableLine(spec: EffectiveSpec, { each, net }: BuildUp): ShownLine {
  const groups = spec.variant.priceGroups ?? [];
  const weights = groups.map((group) => exactOfNumber(group.percent.percent));
  const shares = weights.some((weight) => weight.num > 0n) ? distribute(net, weights) : [];
  return {
    id: 'table',
    says: 'price.table',
    quantity: spec.proposal.quantity,
    each,
    amount: net,
    certainty: 'fixed',
    provisional: false,
    taxId: spec.proposal.tax,
    groups: shares.map((amount, i) => ({ says: groups[i]?.says ?? '', amount })),
  };
}

function optionLine(spec: EffectiveSpec, id: string, option: OptionSpec): ShownLine {
  const { quantity, tax } = spec.proposal;
  const each = roundMinor(option.price === undefined ? ZERO : exactDecimal(option.price), spec.library.rates.currency);
  return {
    id: `option/${id}`,
    says: option.says,
    quantity,
    each,
    amount: { ...each, minor: each.minor * quantity },
    certainty: 'fixed',
    provisional: false,
    taxId: tax,
    groups: [],
  };
}

function freeLine({ id, line, amount }: ReturnType<typeof linesOf>[number]): ShownLine {
  const { says, quantity, certainty, provisional, tax } = line;
  const each = roundMinor(exactDecimal(line.each), amount.currency);
  return { id: `line/${id}`, says, quantity, each, amount, certainty, provisional, taxId: tax, groups: [] };
}

function delivery(spec: EffectiveSpec): readonly ShownLine[] {
  const { delivery: asked, currency } = spec.library.rates;
  const amount = roundMinor(exactDecimal(asked), currency);
  if (amount.minor === 0) return [];
  const taxId = spec.proposal.tax;
  return [
    {
      id: 'delivery',
      says: 'price.delivery',
      quantity: 1,
      each: amount,
      amount,
      certainty: 'fixed',
      provisional: false,
      taxId,
      groups: [],
    },
  ];
}

/** The line that brings the build of a patched table back to the price at which the table is shown. */
function takenOut(built: BuildUp, table: ShownLine, ids: readonly string[]): readonly CostLine[] {
  const amount = minusMoney(table.amount, built.net);
  if (amount.minor === 0) return [];
  return [{ id: `option/${ids.join('+')}`, group: 'option', says: 'Asked as a line of its own', amount }];
}

function marginOf(net: Money, cost: Money): number {
  return net.minor === 0 ? 0 : toNumber(over(exact(BigInt(net.minor - cost.minor) * 100n), exact(BigInt(net.minor))));
}

/** What is left for an hour at the bench after everything but labour and contingency, if the hours run low or high. */
function earnedPerHour(spec: EffectiveSpec, taken: TakeOff, built: BuildUp, earned: Money, run: 'low' | 'high'): Money {
  const tables = spec.proposal.quantity;
  const hours = taken.operations.reduce<Exact>((sum, line) => plus(sum, hoursForAll(line, line.hours[run], tables)), ZERO);
  if (compareExact(hours, ZERO) === 0) return { currency: earned.currency, minor: 0 };
  const other = built.lines.filter(({ group }) => ['timber', 'hardware', 'finish', 'overhead', 'line'].includes(group));
  return roundMinor(over(minus(exactMoney(earned), exactMoney(total(spec, other))), hours), earned.currency);
}

/** The total shared out by percent, largest remainder first, so that the instalments add up to it. */
function instalmentsOf(spec: EffectiveSpec, due: Money): Price['instalments'] {
  const { instalments } = spec.proposal;
  const weights = instalments.map((one) => exactOfNumber(one.percent.percent));
  if (!weights.some((weight) => weight.num > 0n)) return [];
  return distribute(due, weights).map((amount, i) => ({
    percent: String(instalments[i]?.percent.percent ?? 0),
    when: instalments[i]?.when ?? '',
    amount,
  }));
}

const amounts = (lines: readonly { readonly amount: Money }[]): readonly Money[] => lines.map((line) => line.amount);
