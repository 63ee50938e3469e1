/**
 * What an order comes to once a change has taken its place and parts are to be made again. Reckoned on paper from tests/takeoff/rates.ts;
 * and a law: what was done and bought is charged once, by the change or by the cancellation, whatever was changed and when.
 */
import { describe, expect, test } from 'vitest';
import { type CancelPrice, type PricedTable, priceCancellation, priceChange, priceTable } from '../../src/price/index.ts';
import type { StageWord } from '../../src/spec/index.ts';
import { againFrom, type Brought, broughtBy } from '../../src/takeoff/index.ts';
import { boxPart, plain, withParts } from '../takeoff/tables.ts';
import { bench, pricedOf, withRails, withTop } from './change-tables.ts';

const ordered = pricedOf(plain);
const wider = pricedOf(withTop(1600, 900));
const narrower = pricedOf(withTop(1600, 760));
const rails = pricedOf(withRails(90));
const nothing = { currency: 'EUR', minor: 0 };

/** Cancelled with nothing asked of changes before. */
function cancelled(table: PricedTable, stage: StageWord, brought?: Brought): CancelPrice {
  const { net, total } = priceTable(bench, table.takeOff);
  return priceCancellation({
    ordered: table,
    net,
    total,
    earlier: nothing,
    stage,
    ...(brought === undefined ? {} : { brought }),
    paidMinor: 0,
  });
}
const lines = ({ lines: all }: CancelPrice) => all.map(({ id, quantity, amount }) => [id, quantity, amount.minor]);

describe('a top 100 mm wider, after the glue-up', () => {
  const brought = broughtBy(ordered, wider, { stage: 'glued' });

  test('the base serves, and the work goes back to the buying of timber', () => {
    expect([...brought.parts.keys()].sort()).toEqual(['leg-1', 'leg-2', 'leg-3', 'leg-4', 'rail-1', 'rail-2']);
    expect([...new Set(brought.parts.values())]).toEqual(['glued']);
    expect([...brought.timberM3]).toEqual([]);
    expect(againFrom(ordered, wider, { stage: 'glued' })).toBe('ordered');
  });

  test('cancelled before anything is made again: what was done at the base, and no top', () => {
    expect(lines(cancelled(wider, 'ordered', brought))).toEqual([
      ['labour/design', '6.00 h', 39972],
      // Four faces of 4 legs, 0.72 x 2 x (0.06 + 0.06), and of 2 rails, 1.38 x 2 x (0.08 + 0.025): 0.6912 + 0.5796 = 1.2708 m2
      // x 0.5 = 0.6354, to the step 0.65; x 57.93 = 37.6545; x 1.15.
      ['labour/milling', '0.65 h', 4330],
      // 4 x 0.8 = 3.2 x 57.93 = 185.376; x 1.15.
      ['labour/mortise-and-tenon', '3.20 h', 21318],
      ['labour/square-leg', '2.00 h', 13324],
      // The base is assembled: 4 x 57.93 = 231.72; x 1.15.
      ['labour/assembly', '4.00 h', 26648],
      // 0.0913 less 0.0775 of the old top, which the change charges.
      ['timber/oak-40', '0.0138 m³', 5865],
      ['timber/oak-65', '0.0187 m³', 9116],
      ['hardware/buttons', '8', 864],
    ]);
  });

  test('cut again: its boards and their planing beside it, and no glue-up yet', () => {
    const ids = lines(cancelled(wider, 'cut', brought)).map(([id, quantity]) => `${id} ${quantity}`);
    expect(ids).toContain('labour/assembly 4.00 h');
    expect(ids.some((id) => id?.startsWith('labour/glue-up'))).toBe(false);
    // The wider top: 1.64 x (0.9 + 0.015 + 6 x 0.01) x 0.04 x 1.35 = 0.0863; with the rails 0.0138: 0.1001.
    expect(ids).toContain('timber/oak-40 0.1001 m³');
  });

  test('glued again: as an order that never was another', () => {
    for (const stage of ['glued', 'finished'] as const)
      expect(lines(cancelled(wider, stage, brought))).toEqual(lines(cancelled(wider, stage)));
  });

  test('a table of which a part is missing is not finished: no cancellation asks its whole price', () => {
    const late = broughtBy(ordered, wider, { stage: 'finished' });
    expect(cancelled(wider, 'ordered', late).rule.kind).toBe('work-and-timber');
    expect(cancelled(wider, 'finished', late).rule.kind).toBe('price');
  });
});

test('where the work goes back to', () => {
  const back = (draft: PricedTable, stage: StageWord) => againFrom(ordered, draft, { stage });
  const stages = ['ordered', 'timber-bought', 'cut', 'glued', 'finished'] as const;
  expect(stages.map((stage) => back(wider, stage))).toEqual([undefined, 'ordered', 'ordered', 'ordered', 'ordered']);
  // A top cut to size stays glued; once it is finished it is stripped.
  expect(stages.map((stage) => back(narrower, stage))).toEqual([undefined, undefined, undefined, undefined, 'glued']);
  expect(stages.map((stage) => back(ordered, stage))).toEqual([undefined, undefined, undefined, undefined, undefined]);
});

test('timber that is bought and not cut stays charged at what it would fetch less, though more has to come', () => {
  const brought = broughtBy(ordered, wider, { stage: 'timber-bought' });
  const { rule, lines: all } = cancelled(wider, 'ordered', brought);
  expect(rule.kind).toBe('work-and-timber');
  // 0.0912924 x 50 % = 0.0456, and 0.0186732 x 50 % = 0.0093: what was on the rack before, not what the wider top takes more.
  expect(all.filter(({ id }) => id.startsWith('timber/')).map(({ quantity }) => quantity)).toEqual(['0.0456 m³', '0.0093 m³']);
});

test('of timber on the rack serves what the new table needs, and no more: the rest was charged by the change', () => {
  const { timberM3 } = broughtBy(ordered, narrower, { stage: 'timber-bought' });
  // 1.64 x (0.76 + 0.015 + 6 x 0.01) x 0.04 x 1.35 = 0.07395, and rails 2 x 1.42 x 0.09 x 0.04 x 1.35 = 0.01380.
  expect(timberM3.get('oak-40')).toBeCloseTo(0.07395 + 0.0138, 4);
  expect(timberM3.get('oak-65')).toBeCloseTo(0.0186732, 6);
});

describe('a plate of steel', () => {
  const {
    wood: _wood,
    grain: _grain,
    ...steel
  } = boxPart('plate', 'plate', [400, 400, 10], [0, 0, 600], [400, 400, 10], { material: 'steel', densityKgM3: 7850 });
  const small = boxPart('plate', 'plate', [400, 300, 10], [0, 0, 600], [400, 300, 10]);
  const plate = pricedOf(withParts(steel));
  const smaller = pricedOf(withParts({ ...steel, solid: small.solid, sizeMm: small.sizeMm }));
  const steelOf = (draft: PricedTable) =>
    [...broughtBy(plate, draft, { stage: 'cut' }).things].find(([thing]) => thing.startsWith('steel'))?.[1];

  test('that is added or made anew puts the work back; the same again does not', () => {
    expect([ordered, plate].map((from) => againFrom(from, plate, { stage: 'cut' }))).toEqual(['ordered', undefined]);
    expect(againFrom(plate, smaller, { stage: 'cut' })).toBe('ordered');
  });

  test('serves where it fits, and not where another size is asked for', () => {
    // 0.4 x 0.4 x 0.01 x 7,850 = 12.56 kg: 13 pieces of 1 kg.
    expect([steelOf(plate), steelOf(smaller)]).toEqual([13, 0]);
  });
});

describe('what was done and bought is charged once', () => {
  const tables = { ordered, wider, narrower, rails, longer: pricedOf(withTop(1800, 800)), slim: pricedOf(withRails(80)) };
  const named = Object.entries(tables);
  const cases = named.flatMap(([from, a]) =>
    named.flatMap(([to, b]) => (['cut', 'glued'] as const).map((stage) => [`${from} to ${to}, ${stage}`, a, b, stage] as const)),
  );
  test.each(cases)('%s: before the change = after it with what the change asked', (_name, a, b, stage) => {
    const asked = priceChange({ ordered: a, draft: b, stage });
    const after = cancelled(b, asked.again ?? stage, broughtBy(a, b, { stage }));
    // Trimming a top to size is work of the change and of no table.
    const trims = asked.lines.filter(({ id }) => id.startsWith('trim/')).reduce((sum, { shown }) => sum + shown.minor, 0);
    const before = cancelled(a, stage).net.minor;
    // Each line is rounded to 0.05 h or 0.0001 m3 on either side: at most half a step of 3.33 and 0.43, so many lines.
    const roundings = (asked.lines.length + after.lines.length + 12) * 1.7 * 100;
    const both = after.net.minor + asked.shown.lost.minor + asked.shown.redone.minor - trims;
    expect(Math.abs(both - before)).toBeLessThanOrEqual(Math.min(roundings, 1500));
  });

  test('a second change before anything is made again asks nothing for what was never made', () => {
    const brought = broughtBy(ordered, wider, { stage: 'glued' });
    const back = priceChange({ ordered: wider, draft: ordered, stage: 'ordered', brought });
    expect([back.shown.lost.minor, back.shown.redone.minor]).toEqual([0, 0]);
    // What the first change lost, a second one for the rails does not lose again.
    const second = priceChange({
      ordered: wider,
      draft: pricedOf({
        ...withTop(1600, 900),
        parts: withTop(1600, 900).parts.map(
          (part) => withRails(90).parts.find(({ id, role }) => role === 'rail' && id === part.id) ?? part,
        ),
      }),
      stage: 'ordered',
      brought,
    });
    const alone = priceChange({ ordered, draft: rails, stage: 'glued' });
    expect([second.shown.lost.minor, second.shown.redone.minor]).toEqual([alone.shown.lost.minor, alone.shown.redone.minor]);
  });
});
