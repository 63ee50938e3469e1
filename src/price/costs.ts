import type { EffectiveSpec } from '../spec/index.ts';
import type { HardwareLine, OperationLine, TakeOff } from '../takeoff/index.ts';
import type { DecimalText, Exact, Money } from '../units/index.ts';
import { exact, exactOfNumber, roundMinor, times } from '../units/index.ts';
import { costOf, stepped } from './as-priced.ts';
import type { CostLine } from './price.ts';
import { repeatFactor } from './repeats.ts';

/** The direct cost of all tables of the proposal: one line for each timber, thing, finish and operation, each rounded once. */
export function costLines(spec: EffectiveSpec, taken: TakeOff): readonly CostLine[] {
  return [...timberCosts(spec, taken), ...hardwareCosts(spec, taken), ...finishCosts(spec, taken), ...labourCosts(spec, taken)];
}

/**
 * Hours of one operation for all tables: what belongs to the job (design, buying, the delivery trip) counts once, the rest per table with the
 * usual saving on repeats.
 */
export function hoursForAll(line: OperationLine, hours: number, tables: number): Exact {
  const one = exactOfNumber(hours);
  return line.per === 'job' || line.per === 'trip' ? one : times(one, repeatFactor(tables));
}

function timberCosts(spec: EffectiveSpec, taken: TakeOff): readonly CostLine[] {
  const { rates, woods } = spec.library;
  return taken.timber.flatMap((line): readonly CostLine[] => {
    const timber = rates.timber[line.timber];
    if (timber === undefined) return [];
    const byM3 = timber.per === 'm3';
    const all = times(exactOfNumber(byM3 ? line.toBuyM3 : line.toBuyBoardFeet), tablesOf(spec));
    const quantity = stepped(all, byM3 ? rates.steps.m3 : rates.steps.boardFoot);
    const unit = byM3 ? 'm³' : 'board feet';
    return [
      {
        id: `timber/${line.timber}`,
        group: 'timber',
        says: `${woods[line.wood]?.name ?? line.wood}, ${timber.thickness.written}`,
        quantity: `${quantity.text} ${unit}`,
        rate: `${timber.price} a ${byM3 ? 'm³' : 'board foot'}`,
        amount: amountOf(spec, quantity.value, timber.price),
      },
    ];
  });
}

/** The price of one bought thing: the table's own, else that of the shop rates. */
export function priceOfThing(spec: EffectiveSpec, { id, from }: Pick<HardwareLine, 'id' | 'from'>): DecimalText | undefined {
  return from === 'table' ? spec.table.hardware[id]?.price : spec.library.rates.hardware[id]?.price;
}

function hardwareCosts(spec: EffectiveSpec, taken: TakeOff): readonly CostLine[] {
  const tables = spec.proposal.quantity;
  return taken.hardware.flatMap((line): readonly CostLine[] => {
    const price = priceOfThing(spec, line);
    if (price === undefined) return [];
    const count = line.count * tables;
    return [
      {
        id: `hardware/${line.id}`,
        group: 'hardware',
        says: line.says,
        quantity: String(count),
        rate: `${price} each`,
        amount: amountOf(spec, exactOfNumber(count), price),
      },
    ];
  });
}

function finishCosts(spec: EffectiveSpec, taken: TakeOff): readonly CostLine[] {
  const ids = [...new Set(taken.finish.map((line) => line.finish))];
  return ids.flatMap((id): readonly CostLine[] => {
    const finish = spec.library.finishes[id];
    if (finish === undefined) return [];
    const litres = taken.finish.filter((line) => line.finish === id).reduce((sum, line) => sum + line.litres, 0);
    const quantity = stepped(times(exactOfNumber(litres), tablesOf(spec)), spec.library.rates.steps.litre);
    return [
      {
        id: `finish/${id}`,
        group: 'finish',
        says: finish.name,
        quantity: `${quantity.text} litres`,
        rate: `${finish.pricePerLitre} a litre`,
        amount: amountOf(spec, quantity.value, finish.pricePerLitre),
      },
    ];
  });
}

function labourCosts(spec: EffectiveSpec, taken: TakeOff): readonly CostLine[] {
  const { rates } = spec.library;
  return taken.operations.map((line): CostLine => {
    const quantity = stepped(hoursForAll(line, line.hours.mid, spec.proposal.quantity), rates.steps.hour);
    return {
      id: `labour/${line.id}`,
      group: 'labour',
      says: line.says,
      quantity: `${quantity.text} h`,
      rate: `${rates.hour} an hour`,
      amount: amountOf(spec, quantity.value, rates.hour),
    };
  });
}

const tablesOf = (spec: EffectiveSpec): Exact => exact(BigInt(spec.proposal.quantity));

function amountOf(spec: EffectiveSpec, quantity: Exact, price: DecimalText): Money {
  return roundMinor(costOf(quantity, price), spec.library.rates.currency);
}
