import type { CancellationRule, EffectiveSpec, StageWord } from '../spec/index.ts';
import { isReached, STAGES, USUAL_CHANGE_RATES } from '../spec/index.ts';
import type { TakenTable } from '../takeoff/index.ts';
import { boughtThings, stageOfOperation } from '../takeoff/index.ts';
import type { Exact, Money } from '../units/index.ts';
import { exact, exactOfNumber, minusMoney, over, percentOf, sumMoney, times } from '../units/index.ts';
import { asPriced, costOf, stepped } from './as-priced.ts';
import { keptOf, lessUsable } from './change.ts';
import { hoursForAll, priceOfThing } from './costs.ts';

/** A line of what is due on cancelling; net, as priced. */
export interface CancelLine {
  readonly id: string;
  readonly says: string;
  readonly quantity?: string;
  readonly amount: Money;
}

/** What the maker's own terms make due when an order is cancelled at a stage. */
export interface CancelPrice {
  readonly stage: StageWord;
  readonly rule: CancellationRule;
  readonly lines: readonly CancelLine[];
  readonly net: Money;
  readonly tax: Money;
  /** With tax; never more than the total of the order. */
  readonly due: Money;
  readonly paid: Money;
  /** Due less paid: below zero it is to be returned. */
  readonly open: Money;
}

export interface CancelCase {
  readonly ordered: TakenTable;
  /** Of the order, for all tables. */
  readonly net: Money;
  readonly total: Money;
  /** Net, of changes that were ordered before: due in full. */
  readonly earlier: Money;
  readonly stage: StageWord;
  readonly paidMinor: number;
}

/** What holds where the terms state no rule. As in the standing terms that come with the program. */
export const USUAL_CANCELLATION: readonly CancellationRule[] = [
  { kind: 'design-hours', from: 'enquiry', atMost: { percent: 10, written: '10 %' } },
  { kind: 'work-and-timber', from: 'timber-bought' },
  { kind: 'price', from: 'finished' },
];

/** The rule of the latest stage that is reached. */
export function cancellationRule(spec: EffectiveSpec, stage: StageWord): CancellationRule {
  const stated = spec.library.terms.cancellation.flatMap(({ rule }) => rule ?? []);
  const rules = stated.length === 0 ? USUAL_CANCELLATION : stated;
  const reached = rules.filter(({ from }) => isReached(from, stage));
  return reached.toSorted((a, b) => STAGES.indexOf(b.from) - STAGES.indexOf(a.from))[0] ?? NOTHING_BEFORE;
}

const NOTHING_BEFORE: CancellationRule = { kind: 'design-hours', from: 'enquiry', atMost: { percent: 0, written: '0 %' } };

/**
 * What is due when an order is cancelled, by the rule of the terms at the stage reached. Before there is an order nothing is due.
 * `design-hours`: the hours whose stage is passed, at most a share of the price. `work-and-timber`: those hours, and the timber; until
 * it is cut less the share that can be used elsewhere; and what was bought beside it, less what goes back or into another table. Both with the lines of earlier changes: what they were asked for is done. `price`:
 * the price. Tax is that of the proposal; where the price is due, the order's own.
 */
export function priceCancellation({ ordered, net, total, earlier, stage, paidMinor }: CancelCase): CancelPrice {
  const { spec } = ordered;
  const { currency } = net;
  const rule = cancellationRule(spec, stage);
  const paid: Money = { currency, minor: paidMinor };
  const done = (lines: readonly CancelLine[], netDue: Money, due: Money): CancelPrice => {
    return { stage, rule, lines, net: netDue, tax: minusMoney(due, netDue), due, paid, open: minusMoney(due, paid) };
  };
  const nothing: Money = { currency, minor: 0 };
  if (!isReached('ordered', stage)) return done([], nothing, nothing);
  if (rule.kind === 'price') return done([{ id: 'price', says: 'The price of the order', amount: net }], net, total);
  const changes: readonly CancelLine[] = earlier.minor === 0 ? [] : [{ id: 'changes', says: 'Changes agreed before', amount: earlier }];
  const lines = [
    ...workLines(ordered, stage),
    ...(rule.kind === 'work-and-timber' ? [...timberLines(ordered, stage), ...thingLines(ordered, stage)] : []),
    ...changes,
  ];
  const sum = sumMoney(
    currency,
    lines.map(({ amount }) => amount),
  );
  const most = rule.kind === 'design-hours' ? percentOf(net, exactOfNumber(rule.atMost.percent)) : net;
  const netDue = sum.minor > most.minor ? most : sum;
  const capped: readonly CancelLine[] =
    netDue.minor === sum.minor
      ? []
      : [
          {
            id: 'at-most',
            says: rule.kind === 'design-hours' ? `At most ${rule.atMost.written} of the price` : 'At most the price',
            amount: minusMoney(netDue, sum),
          },
        ];
  const rate = exactOfNumber(spec.library.rates.taxes[spec.proposal.tax]?.percent.percent ?? 0);
  const taxed = sumMoney(currency, [netDue, percentOf(netDue, rate)]);
  return done([...lines, ...capped], netDue, taxed.minor > total.minor ? total : taxed);
}

function workLines({ spec, takeOff }: TakenTable, stage: StageWord): readonly CancelLine[] {
  const { rates } = spec.library;
  return takeOff.operations
    .filter(({ id }) => isReached(stageOfOperation(spec, id), stage))
    .map((line) => {
      const quantity = stepped(hoursForAll(line, line.hours.mid, spec.proposal.quantity), rates.steps.hour);
      const { shown } = asPriced(spec, 'labour', costOf(quantity.value, rates.hour));
      return { id: `labour/${line.id}`, says: line.says, quantity: `${quantity.text} h`, amount: shown };
    });
}

function timberLines({ spec, takeOff }: TakenTable, stage: StageWord): readonly CancelLine[] {
  const { rates, woods } = spec.library;
  const usable = (rates.change ?? USUAL_CHANGE_RATES).usableElsewhere.percent;
  const share: Exact = isReached('cut', stage) ? exact(1n) : over(exactOfNumber(100 - usable), exact(100n));
  return takeOff.timber.flatMap((line): readonly CancelLine[] => {
    const timber = rates.timber[line.timber];
    if (timber === undefined) return [];
    const byM3 = timber.per === 'm3';
    const all = times(exactOfNumber(byM3 ? line.toBuyM3 : line.toBuyBoardFeet), exact(BigInt(spec.proposal.quantity)));
    const quantity = stepped(times(all, share), byM3 ? rates.steps.m3 : rates.steps.boardFoot);
    const { shown } = asPriced(spec, 'timber', costOf(quantity.value, timber.price));
    const says = `${woods[timber.wood]?.name ?? timber.wood}, ${timber.thickness.written}`;
    return [{ id: `timber/${line.timber}`, says, quantity: `${quantity.text} ${byM3 ? 'm³' : 'board feet'}`, amount: shown }];
  });
}

function thingLines(ordered: TakenTable, stage: StageWord): readonly CancelLine[] {
  const { spec } = ordered;
  return boughtThings(ordered, stage).flatMap(({ id, from, says, count, usablePercent }): readonly CancelLine[] => {
    const price = priceOfThing(spec, { id, from });
    if (price === undefined || usablePercent === 100) return [];
    const all = count * spec.proposal.quantity;
    const { shown } = asPriced(spec, 'hardware', costOf(keptOf(all, usablePercent), price));
    return [{ id: `hardware/${id}`, says, quantity: lessUsable(all, usablePercent), amount: shown }];
  });
}
