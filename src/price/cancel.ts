import type { CancellationRule, EffectiveSpec, StageWord } from '../spec/index.ts';
import { isReached, STAGES, USUAL_CHANGE_RATES } from '../spec/index.ts';
import type { Brought, OperationLine, Progress, TakenTable } from '../takeoff/index.ts';
import { BOARD_FOOT_M3, boughtThings, byStage, LEAST_M3, stageOfOperation, stageOfWhole, timberOnRack } from '../takeoff/index.ts';
import type { Exact, Money } from '../units/index.ts';
import { exact, exactOfNumber, minusMoney, over, percentOf, plus, sumMoney, times } from '../units/index.ts';
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
  /** Where the order took the place of another: what of that serves in it. */
  readonly brought?: Brought;
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
 * it is cut less the share that can be used elsewhere; and what was bought beside it, less what goes back or into another table.
 * Both with the lines of earlier changes: what they were asked for is done. `price`: the price. Tax is that of the proposal; where the price is due, the order's own.
 */
export function priceCancellation({ ordered, net, total, earlier, stage, brought, paidMinor }: CancelCase): CancelPrice {
  const { spec } = ordered;
  const progress: Progress = { stage, ...(brought === undefined ? {} : { brought }) };
  const { currency } = net;
  const rule = cancellationRule(spec, stageOfWhole(progress));
  const paid: Money = { currency, minor: paidMinor };
  const done = (lines: readonly CancelLine[], netDue: Money, due: Money): CancelPrice => {
    return { stage, rule, lines, net: netDue, tax: minusMoney(due, netDue), due, paid, open: minusMoney(due, paid) };
  };
  const nothing: Money = { currency, minor: 0 };
  if (!isReached('ordered', stage)) return done([], nothing, nothing);
  if (rule.kind === 'price') return done([{ id: 'price', says: 'The price of the order', amount: net }], net, total);
  const changes: readonly CancelLine[] = earlier.minor === 0 ? [] : [{ id: 'changes', says: 'Changes agreed before', amount: earlier }];
  const lines = [
    ...workLines(ordered, progress),
    ...(rule.kind === 'work-and-timber' ? [...timberLines(ordered, progress), ...thingLines(ordered, progress)] : []),
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

/** The share of the hours of each operation that is done: of one that belongs to parts by what is counted of them, else by timber, base or the whole. */
function doneShare(ordered: TakenTable, progress: Progress): (line: OperationLine) => number {
  const { spec, takeOff } = ordered;
  const isDone = (id: string, stage: StageWord): boolean => isReached(stageOfOperation(spec, id), stage);
  if (progress.brought === undefined) return ({ id }) => (isDone(id, progress.stage) ? 1 : 0);
  const groups = byStage(ordered, progress);
  const rack = timberOnRack(ordered, progress);
  const allM3 = takeOff.timber.reduce((sum, { toBuyM3 }) => sum + toBuyM3, 0);
  const ofBase = (id: string): number => groups.reduce((sum, { stage, share }) => sum + (isDone(id, stage) ? share.ofBase : 0), 0);
  const boughtM3 = [
    ...rack.values(),
    ...groups.flatMap(({ stage, share }) => (isReached('cut', stage) ? [...share.timberM3.values()] : [])),
  ];
  return ({ id, per, quantity }) => {
    if (isDone(id, progress.stage)) return 1;
    if (id === 'buying') return allM3 === 0 ? 0 : boughtM3.reduce((sum, m3) => sum + m3, 0) / allM3;
    if (id === 'assembly' || per === 'own') return ofBase(id);
    const counted = groups.map(({ stage, share }) => (isDone(id, stage) ? (share.quantities.get(id) ?? 0) : 0));
    return quantity === 0 ? 0 : counted.reduce((sum, one) => sum + one, 0) / quantity;
  };
}

function workLines(ordered: TakenTable, progress: Progress): readonly CancelLine[] {
  const { spec, takeOff } = ordered;
  const { rates } = spec.library;
  const shareOf = doneShare(ordered, progress);
  return takeOff.operations.flatMap((line): readonly CancelLine[] => {
    const share = shareOf(line);
    if (share === 0) return [];
    const quantity = stepped(hoursForAll(line, line.hours.mid * share, spec.proposal.quantity), rates.steps.hour);
    const { shown } = asPriced(spec, 'labour', costOf(quantity.value, rates.hour));
    return shown.minor === 0 ? [] : [{ id: `labour/${line.id}`, says: line.says, quantity: `${quantity.text} h`, amount: shown }];
  });
}

/** m3 of each timber that is cut, and that is bought and not cut, of one table. */
function timberHad(
  ordered: TakenTable,
  progress: Progress,
): { readonly cut: ReadonlyMap<string, number>; readonly rack: ReadonlyMap<string, number> } {
  const cut = new Map<string, number>();
  for (const { stage, share } of byStage(ordered, progress))
    if (isReached('cut', stage)) for (const [timber, m3] of share.timberM3) cut.set(timber, (cut.get(timber) ?? 0) + m3);
  return { cut, rack: timberOnRack(ordered, progress) };
}

function timberLines(ordered: TakenTable, progress: Progress): readonly CancelLine[] {
  const { spec, takeOff } = ordered;
  const { rates, woods } = spec.library;
  const usable = (rates.change ?? USUAL_CHANGE_RATES).usableElsewhere.percent;
  const share: Exact = over(exactOfNumber(100 - usable), exact(100n));
  const { cut, rack } = timberHad(ordered, progress);
  return takeOff.timber.flatMap(({ timber: id, toBuyM3 }): readonly CancelLine[] => {
    const timber = rates.timber[id];
    const [cutM3, rackM3] = [cut.get(id) ?? 0, rack.get(id) ?? 0];
    if (timber === undefined || cutM3 + rackM3 === 0) return [];
    const byM3 = timber.per === 'm3';
    // What is all cut, or all on the rack, is priced from the very figure that the price was made of.
    const exactM3 = (m3: number): number => (Math.abs(m3 - toBuyM3) < LEAST_M3 ? toBuyM3 : m3);
    const sold = (m3: number): Exact => exactOfNumber(byM3 ? exactM3(m3) : exactM3(m3) / BOARD_FOOT_M3);
    const all = times(plus(sold(cutM3), times(sold(rackM3), share)), exact(BigInt(spec.proposal.quantity)));
    const quantity = stepped(all, byM3 ? rates.steps.m3 : rates.steps.boardFoot);
    const { shown } = asPriced(spec, 'timber', costOf(quantity.value, timber.price));
    const says = `${woods[timber.wood]?.name ?? timber.wood}, ${timber.thickness.written}`;
    return [{ id: `timber/${id}`, says, quantity: `${quantity.text} ${byM3 ? 'm³' : 'board feet'}`, amount: shown }];
  });
}

function thingLines(ordered: TakenTable, progress: Progress): readonly CancelLine[] {
  const { spec } = ordered;
  return boughtThings(ordered, progress).flatMap(({ id, from, says, count, usablePercent }): readonly CancelLine[] => {
    const price = priceOfThing(spec, { id, from });
    if (price === undefined || usablePercent === 100) return [];
    const all = count * spec.proposal.quantity;
    const { shown } = asPriced(spec, 'hardware', costOf(keptOf(all, usablePercent), price));
    return [{ id: `hardware/${id}`, says, quantity: lessUsable(all, usablePercent), amount: shown }];
  });
}
