/**
 * What is asked for an order that was changed, once or twice, and cancelled: held to the cent against an account that is kept another
 * way, in exact fractions. It follows the pieces on the bench, each group of them with the stage that it has reached, and knows no parts,
 * no joints and no shares; sizes, rates and rules are those of tests/takeoff/rates.ts and tables.ts, written out again below.
 * Rules: work and timber of what was cut whole, of timber on the rack a half; a change asks what it makes of no use (common practice).
 */
import { describe, expect, test } from 'vitest';
import type { Table } from '../../src/design/index.ts';
import { type PricedTable, priceCancellation, priceChange } from '../../src/price/index.ts';
import type { StageWord } from '../../src/spec/index.ts';
import { type Brought, broughtBy } from '../../src/takeoff/index.ts';
import { bench, pricedOf, withRails, withTop } from './change-tables.ts';

/** An exact fraction. */
type Fraction = readonly [bigint, bigint];
const f = (top: number, bottom = 1): Fraction => [BigInt(top), BigInt(bottom)];
const add = ([a, b]: Fraction, [c, d]: Fraction): Fraction => [a * d + c * b, b * d];
const mul = (...all: readonly Fraction[]): Fraction => all.reduce(([a, b], [c, d]): Fraction => [a * c, b * d], f(1));
const less = ([a, b]: Fraction, [c, d]: Fraction): boolean => a * d < c * b;
const isSome = ([a]: Fraction): boolean => a > 0n;
/** Half up; all amounts here are positive. */
const rounded = ([a, b]: Fraction): bigint => (2n * a + b) / (2n * b);
/** A number of thousandths of a metre, in metres. */
const mm = (value: number): Fraction => f(value, 1000);

/** A design: width of the top and height of the rails, mm. The top is 1,600 long and 30 thick, of six boards. */
interface Design {
  readonly topMm: number;
  readonly railMm: number;
}
const groups = ['top', 'rails', 'legs'] as const;
type Group = (typeof groups)[number];

/** Rough timber of a group with 40, 10 and 5 mm over length, width and thickness, 3 mm a saw cut between boards, 35 % over, m3. */
function roughM3({ topMm, railMm }: Design, group: Group): Fraction {
  if (group === 'top') return mul(mm(1640), mm(topMm + 5 * 3 + 6 * 10), mm(40), f(135, 100));
  if (group === 'rails') return mul(f(2), mm(1420), mm(railMm + 10), mm(40), f(135, 100));
  // 65 mm timber makes 60: the thickness of the board.
  return mul(f(4), mm(760), mm(70), mm(65), f(135, 100));
}

const order = ['ordered', 'timber-bought', 'cut', 'glued'] as const;
type Step = (typeof order)[number];
const has = (stage: Step, reached: Step): boolean => order.indexOf(stage) <= order.indexOf(reached);

/** Hours of each operation that a group has taken once it is cut, and once it is glued. */
function hoursOf({ topMm, railMm }: Design, group: Group): Readonly<Record<'cut' | 'glued', Readonly<Record<string, Fraction>>>> {
  if (group === 'top')
    return {
      cut: { milling: mul(f(2), mm(1600), mm(topMm + 30), f(1, 2)) },
      glued: { 'edge-joint': mul(f(5), mm(1600), f(1, 4)), 'glue-up': f(1), 'panel-trim': f(4, 10) },
    };
  // Four tenons of 0.8 h, half of each in a leg. The base is assembled in 4 h, by rough timber.
  const rails = roughM3({ topMm, railMm }, 'rails');
  const all = add(rails, roughM3({ topMm, railMm }, 'legs'));
  const shareOf = (m3: Fraction): Fraction => mul(f(4), m3, [all[1], all[0]]);
  if (group === 'rails')
    return {
      cut: { milling: mul(f(4), mm(1380), mm(railMm + 25), f(1, 2)), 'mortise-and-tenon': f(16, 10) },
      glued: { assembly: shareOf(rails) },
    };
  return {
    cut: { milling: mul(f(8), mm(720), mm(120), f(1, 2)), 'mortise-and-tenon': f(16, 10), 'square-leg': f(2) },
    glued: { assembly: shareOf(roughM3({ topMm, railMm }, 'legs')) },
  };
}

/** The bench: a design, how far each group of its pieces is, and m3 of timber on the rack. */
interface Bench {
  readonly design: Design;
  readonly at: Readonly<Record<Group, Step>>;
  readonly rack: Readonly<Record<'oak-40' | 'oak-65', Fraction>>;
  readonly hasButtons: boolean;
}
const timberOf = (group: Group): 'oak-40' | 'oak-65' => (group === 'legs' ? 'oak-65' : 'oak-40');

/** All pieces that are not further go to a stage. */
function workTo(now: Bench, stage: Step): Bench {
  const at = Object.fromEntries(groups.map((group) => [group, has(now.at[group], stage) ? stage : now.at[group]])) as Bench['at'];
  return {
    ...now,
    at,
    rack: has('timber-bought', stage) ? rackFor(now.design, at) : now.rack,
    hasButtons: now.hasButtons || has('timber-bought', stage),
  };
}
function rackFor(design: Design, at: Bench['at']): Bench['rack'] {
  const rack = { 'oak-40': f(0), 'oak-65': f(0) };
  for (const group of groups) if (!has('cut', at[group])) rack[timberOf(group)] = add(rack[timberOf(group)], roughM3(design, group));
  return rack;
}

const isSame = (a: Design, b: Design, group: Group): boolean =>
  group === 'legs' || (group === 'top' ? a.topMm === b.topMm : a.railMm === b.railMm);

/** Another design takes the place of this one: pieces of another size are gone, with what they took; the others and the timber serve. */
function changeTo(now: Bench, design: Design): Bench {
  const at = Object.fromEntries(
    groups.map((group) => [group, isSame(now.design, design, group) && has('cut', now.at[group]) ? now.at[group] : 'ordered']),
  ) as Bench['at'];
  const needed = rackFor(design, at);
  const least = (id: 'oak-40' | 'oak-65'): Fraction => (less(now.rack[id], needed[id]) ? now.rack[id] : needed[id]);
  return { ...now, design, at, rack: { 'oak-40': least('oak-40'), 'oak-65': least('oak-65') } };
}

const tables = (count: number) => ({
  /** The second of two takes 5 % less. */
  labour: count === 1 ? f(1) : f(195, 100),
  count: f(count),
});

/** Net cents of hours at 57.93 and of m3, each line at its step, then at 1.15 or 1.25, rounded once. */
const labourMinor = (hours: Fraction): bigint => rounded(mul([rounded(mul(hours, f(20))), 20n], f(5793), f(115, 100)));
const timberMinor = (m3: Fraction, price: number): bigint =>
  rounded(mul([rounded(mul(m3, f(10000))), 10000n], f(price * 100), f(125, 100)));
const total = (all: Iterable<bigint>): bigint => [...all].reduce((sum, one) => sum + one, 0n);

/** Net cents of all hours of some groups at their stages, by operation. */
function hoursMinor(
  design: Design,
  at: Bench['at'],
  which: readonly Group[],
  count: number,
  extra: Readonly<Record<string, Fraction>> = {},
): bigint {
  const hours = new Map<string, Fraction>(Object.entries(extra));
  for (const group of which)
    for (const stage of ['cut', 'glued'] as const)
      if (has(stage, at[group]))
        for (const [id, one] of Object.entries(hoursOf(design, group)[stage]))
          hours.set(id, add(hours.get(id) ?? f(0), mul(one, tables(count).labour)));
  return total([...hours.values()].map(labourMinor));
}

/** Net cents that cancelling leaves due beside what changes asked. */
function dueMinor(now: Bench, count: number): bigint {
  const timber = (['oak-40', 'oak-65'] as const).map((id): bigint => {
    const cut = groups.filter((group) => timberOf(group) === id && has('cut', now.at[group]));
    const used = cut.reduce((sum, group) => add(sum, roughM3(now.design, group)), mul(now.rack[id], f(1, 2)));
    return timberMinor(mul(used, tables(count).count), id === 'oak-40' ? 3400 : 3900);
  });
  // Eight buttons at 0.90, x 1.20.
  const buttons = now.hasButtons ? rounded(mul(f(8 * 90), tables(count).count, f(120, 100))) : 0n;
  return hoursMinor(now.design, now.at, groups, count, { design: f(6) }) + total(timber) + buttons;
}

/** Net cents that a change asks for what it makes of no use: cut pieces, and half of what is over on the rack. */
function askedMinor(now: Bench, design: Design, count: number): bigint {
  const lost = groups.filter((group) => !isSame(now.design, design, group) && has('cut', now.at[group]));
  const after = changeTo(now, design);
  const m3 = (which: readonly Group[]): Fraction =>
    mul(
      which.reduce((sum, group) => add(sum, roughM3(now.design, group)), f(0)),
      tables(count).count,
    );
  const over = add(now.rack['oak-40'], mul(after.rack['oak-40'], f(-1)));
  const lines = [m3(lost), mul(over, f(1, 2), tables(count).count)].filter(isSome).map((one) => timberMinor(one, 3400));
  return total(lines) + hoursMinor(now.design, now.at, lost, count);
}

/** The program's own way through the same story. */
interface Way {
  readonly table: PricedTable;
  readonly stage: StageWord;
  readonly brought?: Brought;
}
const rails = (table: Table, railMm: number): Table => ({
  ...table,
  parts: table.parts.map((part) => withRails(railMm).parts.find(({ id, role }) => role === 'rail' && id === part.id) ?? part),
});
const made = new Map<string, PricedTable>();
function tableOf({ topMm, railMm }: Design, count: number): PricedTable {
  const key = `${topMm} ${railMm} ${count}`;
  const of = { ...bench, proposal: { ...bench.proposal, quantity: count } };
  const table = made.get(key) ?? pricedOf(rails(withTop(1600, topMm), railMm), of);
  made.set(key, table);
  return table;
}
const progress = ({ stage, brought }: Way) => ({ stage, ...(brought === undefined ? {} : { brought }) });
/** Net, the price so high that no rule caps it. */
function cancelled({ table, stage, brought }: Way): bigint {
  const most = { currency: 'EUR', minor: 100_000_000 };
  const { lines } = priceCancellation({
    ...{ ordered: table, net: most, total: most, earlier: { currency: 'EUR', minor: 0 }, stage, paidMinor: 0 },
    ...(brought === undefined ? {} : { brought }),
  });
  return total(lines.map(({ amount }) => BigInt(amount.minor)));
}
function changed(way: Way, table: PricedTable): { readonly way: Way; readonly asked: bigint } {
  const { shown, again } = priceChange({ ordered: way.table, draft: table, ...progress(way) });
  const next = { table, stage: again ?? way.stage, brought: broughtBy(way.table, table, progress(way)) };
  return { way: next, asked: BigInt(shown.lost.minor) + BigInt(shown.redone.minor) };
}

const first: Design = { topMm: 800, railMm: 80 };
/** Each is larger than those before, so that no piece is made of another. */
const designs: readonly Design[] = [
  { topMm: 900, railMm: 80 },
  { topMm: 800, railMm: 90 },
  { topMm: 900, railMm: 90 },
];
const stories = [1, 2].flatMap((count) =>
  order.flatMap((before) =>
    designs.flatMap((second) =>
      order.flatMap((after) =>
        [undefined, { topMm: 1000, railMm: second.railMm }, { topMm: second.topMm, railMm: 100 }].map(
          (third) => [count, before, second, after, third] as const,
        ),
      ),
    ),
  ),
);

describe('cancelled after changes, to the cent', () => {
  test.each(stories)('%i, %s, then %o, %s, then %o', (count, before, second, after, third) => {
    const nothing: Bench = {
      ...{ design: first, at: { top: 'ordered', rails: 'ordered', legs: 'ordered' }, hasButtons: false },
      rack: { 'oak-40': f(0), 'oak-65': f(0) },
    };
    let bench = workTo(nothing, before);
    let way: Way = { table: tableOf(first, count), stage: before };
    expect(cancelled(way)).toBe(dueMinor(bench, count));
    for (const [design, stage] of [[second, after] as const, ...(third === undefined ? [] : [[third, 'glued'] as const])]) {
      const change = changed(way, tableOf(design, count));
      expect(change.asked).toBe(askedMinor(bench, design, count));
      bench = changeTo(bench, design);
      way = change.way;
      expect(cancelled(way)).toBe(dueMinor(bench, count));
      bench = workTo(bench, stage);
      way = has(way.stage as Step, stage) ? { ...way, stage } : way;
      expect(cancelled(way)).toBe(dueMinor(bench, count));
    }
  });
});
