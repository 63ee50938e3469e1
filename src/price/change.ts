import type { EffectiveSpec, StageWord } from '../spec/index.ts';
import { isReached, USUAL_CHANGE_RATES } from '../spec/index.ts';
import type { Brought, ChangeHours, ChangeWork, Progress, TakenTable } from '../takeoff/index.ts';
import { againFrom, BOARD_FOOT_M3, changeWork } from '../takeoff/index.ts';
import type { Exact, Money } from '../units/index.ts';
import { exact, exactOfNumber, minusMoney, over, plus, roundUp, sumMoney, times, toNumber, ZERO } from '../units/index.ts';
import { asPriced, costOf, stepped } from './as-priced.ts';
import { priceOfThing } from './costs.ts';
import { repeatFactor } from './repeats.ts';

/** A line of a change: what it costs the maker, private, and what it asks of the client. */
export interface ChangeLine {
  readonly id: string;
  readonly group: 'lost' | 'redone' | 'handling';
  readonly says: string;
  /** After rounding to its step, with its unit. Private. */
  readonly quantity: string;
  readonly rate: string;
  readonly cost: Money;
  /** With contingency and mark-up, as the table was priced; net. */
  readonly shown: Money;
}

/** What a change to an order costs from the stage reached. Net amounts. */
export interface ChangePrice {
  readonly currency: string;
  readonly stage: StageWord;
  /** New design less ordered design, each as a whole: below zero where the new one is smaller. */
  readonly difference: Money;
  readonly lines: readonly ChangeLine[];
  /** What the client is shown beside the difference: no hour and no rate, so that no mark-up can be divided out. */
  readonly shown: { readonly lost: Money; readonly redone: Money; readonly handling: Money };
  /** All of it. */
  readonly net: Money;
  /** Hours of work done again, of handling, and what the new design takes more. */
  readonly hours: { readonly redone: number; readonly handling: number; readonly more: number };
  /** The stage to which the work goes back; absent where all that was done stands. */
  readonly again?: 'ordered' | 'glued';
  /** Whole weeks that it adds: an estimate. */
  readonly weeks: number;
  readonly work: ChangeWork;
}

/** A design of one revision, with its net price for all tables without lines of a change. */
export interface PricedTable extends TakenTable {
  readonly net: Money;
}

export interface ChangeCase {
  readonly ordered: PricedTable;
  readonly draft: PricedTable;
  readonly stage: StageWord;
  /** Where the order took the place of another: what of that serves in it. */
  readonly brought?: Brought;
}

/**
 * The price of a change to an order. Timber, bought things and hours already spent are priced by the rates of the order, with
 * contingency and mark-up as the table was; handling, waiting and what can be used elsewhere by the rates of the draft. Before there is
 * an order a change costs its difference alone. Each line is rounded once; overhead that is a line of the table's price is not asked again.
 *
 * Weeks: work done again, handling and what the new design takes more, over the bench hours of a week, and the days that
 * timber or a thing bought anew, whichever comes later, and glue and finish wait; rounded up. A thing with no days stated adds none.
 *
 * @source spent in vain = spent on the ordered design less what serves the new one: reckoned so in `changeWork`; common practice.
 */
export function priceChange({ ordered, draft, stage, brought }: ChangeCase): ChangePrice {
  const { spec } = ordered;
  const { currency } = spec.library.rates;
  const rates = draft.spec.library.rates.change ?? USUAL_CHANGE_RATES;
  const progress: Progress = { stage, ...(brought === undefined ? {} : { brought }) };
  const work = changeWork(ordered, draft, progress);
  const again = againFrom(ordered, draft, progress);
  const tables = exact(BigInt(spec.proposal.quantity));
  const handlingHours = isReached('ordered', stage) ? rates.handlingHours : 0;
  const lines = [
    ...timberLines(spec, work, tables, rates.usableElsewhere.percent),
    ...thingLines(spec, work),
    ...finishLines(spec, work, tables),
    ...work.hours.map((one) => hourLine(spec, one)),
    ...(handlingHours === 0 ? [] : [handlingLine(draft.spec, handlingHours)]),
  ];
  const shownOf = (group: ChangeLine['group']): Money =>
    sumMoney(
      currency,
      lines.filter((line) => line.group === group).map(({ shown }) => shown),
    );
  const difference = minusMoney(draft.net, ordered.net);
  const shown = { lost: shownOf('lost'), redone: shownOf('redone'), handling: shownOf('handling') };
  const redone = work.hours.reduce<Exact>((sum, one) => plus(sum, hoursOf(spec, one)), ZERO);
  const more = Math.max(0, draft.takeOff.hours.mid - ordered.takeOff.hours.mid) * spec.proposal.quantity;
  const hours = { redone: toNumber(redone), handling: handlingHours, more };
  const days =
    Math.max(work.waitsFor.timber ? rates.timberDays : 0, ...work.anew.map(({ days: waits = 0 }) => waits)) +
    (work.waitsFor.glue ? rates.glueDays : 0) +
    (work.waitsFor.finish ? rates.finishDays : 0);
  const bench = over(plus(redone, exactOfNumber(handlingHours + more)), exactOfNumber(rates.weekHours));
  const weeks = isReached('ordered', stage) ? Number(roundUp(plus(bench, over(exactOfNumber(days), exact(7n))))) : 0;
  return {
    currency,
    stage,
    difference,
    lines,
    shown,
    net: sumMoney(currency, [difference, shown.lost, shown.redone, shown.handling]),
    hours,
    ...(again === undefined ? {} : { again }),
    weeks,
    work,
  };
}

function timberLines(spec: EffectiveSpec, work: ChangeWork, tables: Exact, usablePercent: number): readonly ChangeLine[] {
  const { rates, woods } = spec.library;
  const kept = over(exactOfNumber(100 - usablePercent), exact(100n));
  return work.timber.flatMap(({ timber: id, why, m3 }): readonly ChangeLine[] => {
    const timber = rates.timber[id];
    if (timber === undefined) return [];
    const byM3 = timber.per === 'm3';
    const all = times(exactOfNumber(byM3 ? m3 : m3 / BOARD_FOOT_M3), tables);
    const quantity = stepped(why === 'surplus' ? times(all, kept) : all, byM3 ? rates.steps.m3 : rates.steps.boardFoot);
    const unit = byM3 ? 'm³' : 'board feet';
    return [
      {
        id: `timber/${id}`,
        group: 'lost',
        says: `${woods[timber.wood]?.name ?? timber.wood}, ${timber.thickness.written}, ${why === 'lost' ? 'cut' : 'bought'}`,
        quantity: `${quantity.text} ${unit}`,
        rate: `${timber.price} a ${byM3 ? 'm³' : 'board foot'}`,
        ...asPriced(spec, 'timber', costOf(quantity.value, timber.price)),
      },
    ];
  });
}

function thingLines(spec: EffectiveSpec, work: ChangeWork): readonly ChangeLine[] {
  return work.things.flatMap(({ id, from, says, count, usablePercent }): readonly ChangeLine[] => {
    const price = priceOfThing(spec, { id, from });
    if (price === undefined || usablePercent === 100) return [];
    const all = count * spec.proposal.quantity;
    return [
      {
        id: `hardware/${id}`,
        group: 'lost',
        says,
        quantity: lessUsable(all, usablePercent),
        rate: `${price} each`,
        ...asPriced(spec, 'hardware', costOf(keptOf(all, usablePercent), price)),
      },
    ];
  });
}

/** How many, less the share that is usable elsewhere. */
export const lessUsable = (count: number, usablePercent: number): string =>
  usablePercent === 0 ? String(count) : `${count} less ${usablePercent} %`;
export const keptOf = (count: number, usablePercent: number): Exact =>
  times(exactOfNumber(count), over(exactOfNumber(100 - usablePercent), exact(100n)));

function finishLines(spec: EffectiveSpec, work: ChangeWork, tables: Exact): readonly ChangeLine[] {
  return work.finish.flatMap(({ finish: id, litres }): readonly ChangeLine[] => {
    const finish = spec.library.finishes[id];
    if (finish === undefined) return [];
    const quantity = stepped(times(exactOfNumber(litres), tables), spec.library.rates.steps.litre);
    return [
      {
        id: `finish/${id}`,
        group: 'lost',
        says: finish.name,
        quantity: `${quantity.text} litres`,
        rate: `${finish.pricePerLitre} a litre`,
        ...asPriced(spec, 'finish', costOf(quantity.value, finish.pricePerLitre)),
      },
    ];
  });
}

/** Hours for all tables, at the step of the shop rates. */
function hoursOf(spec: EffectiveSpec, { hours, once }: ChangeHours): Exact {
  const one = exactOfNumber(hours);
  return stepped(once ? one : times(one, repeatFactor(spec.proposal.quantity)), spec.library.rates.steps.hour).value;
}

const WHY: Readonly<Record<ChangeHours['why'], string>> = { again: '', trim: ', cut to size', strip: ', finish taken off' };

function hourLine(spec: EffectiveSpec, work: ChangeHours): ChangeLine {
  const { rates } = spec.library;
  const quantity = stepped(hoursOf(spec, work), rates.steps.hour);
  return {
    id: `${work.why === 'again' ? 'labour' : work.why}/${work.id}`,
    group: 'redone',
    says: `${work.says}${WHY[work.why]}`,
    quantity: `${quantity.text} h`,
    rate: `${rates.hour} an hour`,
    ...asPriced(spec, 'labour', costOf(quantity.value, rates.hour)),
  };
}

function handlingLine(spec: EffectiveSpec, hours: number): ChangeLine {
  const { rates } = spec.library;
  const quantity = stepped(exactOfNumber(hours), rates.steps.hour);
  return {
    id: 'handling',
    group: 'handling',
    says: 'Drawing, checking and planning the change',
    quantity: `${quantity.text} h`,
    rate: `${rates.hour} an hour`,
    ...asPriced(spec, 'labour', costOf(quantity.value, rates.hour)),
  };
}
