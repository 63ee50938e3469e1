/**
 * What a change to an order costs, reckoned on paper from the rates of tests/takeoff/rates.ts and tests/price/change-tables.ts, and laws
 * that hold whatever the figures. Asked is cost x (100 + contingency + mark-up) %: timber 1.25, finish 1.20, labour 1.15.
 */
import { describe, expect, test } from 'vitest';
import type { Part } from '../../src/design/index.ts';
import { type ChangePrice, type PricedTable, priceChange } from '../../src/price/index.ts';
import { stages as recorded, workStages } from '../../src/record/index.ts';
import { box } from '../../src/solid/index.ts';
import { type EffectiveSpec, STAGES, WORK_STAGES } from '../../src/spec/index.ts';
import { changeWork, partFates, stageOfOperation } from '../../src/takeoff/index.ts';
import { decimal, percent } from '../fixtures.ts';
import { boxPart, plain, withParts } from '../takeoff/tables.ts';
import { bench, pricedOf, withRails, withTop } from './change-tables.ts';

const ordered = pricedOf(plain);
const wider = pricedOf(withTop(1600, 900));
const narrower = pricedOf(withTop(1600, 760));
const rails = pricedOf(withRails(90));

const lines = ({ lines: all }: ChangePrice) => all.map(({ id, quantity, cost, shown }) => [id, quantity, cost.minor, shown.minor]);
const sums = ({ difference, shown, net, weeks }: ChangePrice) => [
  difference.minor,
  shown.lost.minor,
  shown.redone.minor,
  shown.handling.minor,
  net.minor,
  weeks,
];

/** Two hours of 57.93, x 1.15 = 133.239. */
const handling = ['handling', '2.00 h', 11586, 13324];

describe('a top 100 mm wider', () => {
  const at = (stage: (typeof STAGES)[number]) => priceChange({ ordered, draft: wider, stage });

  test('before the order: the difference of the two prices, 3,370.00 less 3,270.00, and nothing else', () => {
    for (const stage of ['enquiry', 'proposed', 'approved'] as const) expect(sums(at(stage))).toEqual([10000, 0, 0, 0, 10000, 0]);
  });

  test('ordered: the hours of drawing and planning beside it', () => {
    expect(lines(at('ordered'))).toEqual([handling]);
    // (2 + 1.2327 h more of the wider top) / 30 h: one week.
    expect(sums(at('ordered'))).toEqual([10000, 0, 0, 13324, 23324, 1]);
  });

  test('timber bought: all of it serves the wider top too; some more has to come, 14 days', () => {
    // 3.2327 / 30 + 14 / 7 = 2.11: three weeks.
    expect(sums(at('timber-bought'))).toEqual([10000, 0, 0, 13324, 23324, 3]);
  });

  test('cut: its boards are lost, with their planing', () => {
    expect(lines(at('cut'))).toEqual([
      // 1.64 x (0.815 + 6 x 0.010) x 0.04 = 0.0574; x 1.35 = 0.07749; 0.0775 x 3,400 = 263.50; x 1.25 = 329.375.
      ['timber/oak-40', '0.0775 m³', 26350, 32938],
      // 2 x 1.6 x 0.83 = 2.656 m2 x 0.5 = 1.328; 1.35 x 57.93 = 78.2055; x 1.15 = 89.936.
      ['labour/milling', '1.35 h', 7821, 8994],
      handling,
    ]);
    expect(sums(at('cut'))).toEqual([10000, 32938, 8994, 13324, 65256, 3]);
  });

  test('glued: gluing and trimming as well', () => {
    expect(lines(at('glued'))).toEqual([
      ['timber/oak-40', '0.0775 m³', 26350, 32938],
      ['labour/milling', '1.35 h', 7821, 8994],
      // Five joints x 1.6 m x 0.25 = 2; x 57.93 x 1.15 = 133.239.
      ['labour/edge-joint', '2.00 h', 11586, 13324],
      // 57.93 x 1.15 = 66.6195.
      ['labour/glue-up', '1.00 h', 5793, 6662],
      // 0.4 x 57.93 = 23.172; x 1.15 = 26.6478.
      ['labour/panel-trim', '0.40 h', 2317, 2665],
      handling,
    ]);
    // Redone 89.94 + 133.24 + 66.62 + 26.65 = 316.45; 100.00 + 329.38 + 316.45 + 133.24 = 879.07.
    // (4.75 + 2 + 1.2327) / 30 + (14 + 2) / 7 = 2.55: three weeks.
    expect(sums(at('glued'))).toEqual([10000, 32938, 31645, 13324, 87907, 3]);
  });

  test('finished: flattening, edge, sanding and coats as well, and the finish itself', () => {
    expect(lines(at('finished')).slice(1, 2)).toEqual([
      // Skin of the top 2 x 1.6 x 0.8 + 2 x 0.03 x 2.4 = 2.704 m2; x 2 / 24 x 1.1 = 0.2479 l; 0.25 x 46.00 = 11.50; x 1.20.
      ['finish/hardwax-oil', '0.25 litres', 1150, 1380],
    ]);
    expect(lines(at('finished')).slice(6, -1)).toEqual([
      // Both faces 2.56 m2 x 1.5 = 3.84; 3.85 x 57.93 = 223.0305; x 1.15 = 256.485.
      ['labour/flattening', '3.85 h', 22303, 25649],
      // 4.8 m x 0.6 = 2.88; 2.9 x 57.93 = 167.997; x 1.15 = 193.197.
      ['labour/edge-shaping', '2.90 h', 16800, 19320],
      // 2.704 x 0.9 = 2.4336; 2.45 x 57.93 = 141.9285; x 1.15 = 163.218.
      ['labour/sanding', '2.45 h', 14193, 16322],
      // 2.704 x 2 x 0.2 = 1.0816; 1.1 x 57.93 = 63.723; x 1.15 = 73.281.
      ['labour/wiped-coat', '1.10 h', 6372, 7328],
      // 2.704 x 0.15 = 0.4056; 0.4 h.
      ['labour/between-coats', '0.40 h', 2317, 2665],
    ]);
    // 316.45 + 256.49 + 193.20 + 163.22 + 73.28 + 26.65 = 1,029.29. (15.45 + 2 + 1.2327) / 30 + (14 + 2 + 7) / 7 = 3.91.
    expect(sums(at('finished'))).toEqual([10000, 34318, 102929, 13324, 160571, 4]);
  });
});

describe('a top 40 mm narrower', () => {
  const at = (stage: (typeof STAGES)[number]) => priceChange({ ordered, draft: narrower, stage });

  test('timber bought: half of what is over can be used elsewhere', () => {
    // 1.64 x 0.04 x 0.04 x 1.35 x 50 % = 0.00177; 0.0018 x 3,400 = 6.12; x 1.25 = 7.65.
    expect(lines(at('timber-bought'))).toEqual([['timber/oak-40', '0.0018 m³', 612, 765], handling]);
  });

  test('glued: cut to size; what is done already is not credited', () => {
    expect(at('glued').work).toMatchObject({ lost: [], topCutToSize: true });
    expect(lines(at('glued'))).toEqual([
      // 0.00354 x 3,400.
      ['timber/oak-40', '0.0035 m³', 1190, 1488],
      // 2 x 1.6 x 0.04 x 0.5 = 0.064 h.
      ['labour/milling', '0.05 h', 290, 333],
      ['trim/panel-trim', '0.40 h', 2317, 2665],
      handling,
    ]);
  });

  test('finished: stripped, which takes as long as sanding, and finished again', () => {
    expect(lines(at('finished')).filter(([id]) => String(id).startsWith('strip'))).toEqual([['strip/sanding', '2.45 h', 14193, 16322]]);
    expect(lines(at('finished')).map(([id]) => id)).toContain('labour/wiped-coat');
  });
});

test('rails of another height are lost with half of their joints; the legs and the top stay', () => {
  const cut = priceChange({ ordered, draft: rails, stage: 'cut' });
  expect(cut.work.lost).toEqual([{ name: 'part.rail', count: 2 }]);
  expect(lines(cut)).toEqual([
    // 2 x 1.42 x 0.09 x 0.04 x 1.35 = 0.0138 m3; x 3,400 = 46.92; x 1.25.
    ['timber/oak-40', '0.0138 m³', 4692, 5865],
    // 2 x 2 x 1.38 x 0.105 = 0.5796 m2 x 0.5 = 0.29 h; 0.3 x 57.93 = 17.379; x 1.15 = 19.98585.
    ['labour/milling', '0.30 h', 1738, 1999],
    // Four tenons x 0.8, half of each in the legs: 1.6 h; 92.688; x 1.15 = 106.5912.
    ['labour/mortise-and-tenon', '1.60 h', 9269, 10659],
    handling,
  ]);
});

describe('bought things of no use to the new design', () => {
  /** Mark-up 15 % and contingency 5 % on hardware: asked is cost x 1.20. */
  const glides = (kind: string, count: number) => ({ kind, count, price: decimal('3.20') });
  const {
    wood: _wood,
    grain: _grain,
    ...steel
  } = boxPart('plate', 'plate', [1, 1, 1], [0, 0, 600], [1, 1, 1], {
    material: 'steel',
    densityKgM3: 7850,
  });
  const table = (size: readonly [number, number, number], hardware: EffectiveSpec['table']['hardware'], points = 8): PricedTable => {
    const part: Part = { ...steel, solid: box(...size), sizeMm: { length: size[0], width: size[1], thickness: size[2] } };
    const fixing = { ...plain.fixing, pointsMm: plain.fixing.pointsMm.slice(0, points) };
    return pricedOf({ ...withParts(part), fixing }, { ...bench, table: { ...bench.table, hardware } });
  };
  const before = table([400, 400, 10], { feet: glides('Levelling glide', 4) });
  const at = (draft: PricedTable, stage: (typeof STAGES)[number]) => priceChange({ ordered: before, draft, stage });
  const things = (price: ChangePrice) => lines(price).filter(([id]) => String(id).startsWith('hardware/'));

  test('of none is there anything before it is bought, nor of the same again', () => {
    const after = table([400, 300, 10], {}, 6);
    for (const stage of ['enquiry', 'approved', 'ordered'] as const) expect(things(at(after, stage))).toEqual([]);
    for (const stage of STAGES) expect(things(at(before, stage))).toEqual([]);
  });

  test('a plate of another size whole, of other things what is over; at cost with contingency and mark-up', () => {
    const after = table([400, 300, 10], { feet: glides('Levelling glide', 3) }, 6);
    for (const stage of ['timber-bought', 'cut', 'glued', 'finished', 'delivered'] as const) {
      const price = at(after, stage);
      expect(things(price)).toEqual([
        // 8 - 6 = 2 x 0.90 = 1.80; x 1.20 = 2.16.
        ['hardware/buttons', '2', 180, 216],
        // 0.4 x 0.4 x 0.01 x 7,850 = 12.56 kg: 13 pieces of 1 kg x 4.20 = 54.60; x 1.20 = 65.52.
        ['hardware/steel', '13', 5460, 6552],
        // 4 - 3 = 1 x 3.20; x 1.20 = 3.84.
        ['hardware/feet', '1', 320, 384],
      ]);
      expect(price.shown.lost.minor).toBe(216 + 6552 + 384);
      expect(price.work.lost).toEqual([{ name: 'part.plate', count: 1 }]);
    }
  });

  test('another kind is another thing, more of the same costs nothing, and a new price does not make it another', () => {
    expect(things(at(table([400, 400, 10], { feet: glides('Felt pad', 4) }), 'cut'))).toEqual([['hardware/feet', '4', 1280, 1536]]);
    expect(things(at(table([400, 400, 10], { feet: { ...glides('Levelling glide', 6), price: decimal('9.00') } }), 'cut'))).toEqual([]);
  });

  test('a plate of the same size in another material is another plate', () => {
    const parts = before.table.parts.map((part) => (part.id === 'plate' ? { ...part, material: 'brass' } : part));
    expect(things(at(pricedOf({ ...before.table, parts }, before.spec), 'cut'))).toEqual([['hardware/steel', '13', 5460, 6552]]);
  });

  test('what is bought anew comes when it comes: its days beside those of the timber, and where none are stated it is named', () => {
    const anew = (stage: (typeof STAGES)[number], days?: number, size: readonly [number, number, number] = [400, 300, 10]) => {
      const feet = { ...glides('Felt pad', 4), ...(days === undefined ? {} : { days }) };
      return priceChange({ ordered: before, draft: table(size, { feet }), stage });
    };
    const said = (price: ChangePrice) => price.work.anew.map(({ says, count, days }) => [says, count, days]);
    // Before the stage of their buying they come with the rest; a plate of the same size is no new one.
    expect(said(anew('ordered', 21))).toEqual([]);
    expect(said(anew('cut', 21, [400, 400, 10]))).toEqual([['Felt pad', 4, 21]]);
    // 0.4 x 0.3 x 0.01 x 7,850 = 9.42 kg: 10 pieces.
    expect(said(anew('cut'))).toEqual([
      ['Steel plate', 10, undefined],
      ['Felt pad', 4, undefined],
    ]);
    // Half a bench week at most, and 21 or 42 days; those of the timber run beside.
    expect([anew('cut', undefined).weeks, anew('cut', 21).weeks, anew('cut', 42).weeks]).toEqual([1, 4, 7]);
    const { hardware } = bench.library.rates;
    const steel = { ...hardware['steel'], days: 35 } as NonNullable<(typeof hardware)[string]>;
    const slow = { ...bench, library: { ...bench.library, rates: { ...bench.library.rates, hardware: { ...hardware, steel } } } };
    const other = pricedOf(table([400, 300, 10], {}).table, slow);
    const price = priceChange({ ordered: pricedOf(before.table, slow), draft: other, stage: 'cut' });
    expect([said(price), price.weeks]).toEqual([[['Steel plate', 10, 35]], 6]);
  });

  test('by the stage that the table or the shop rates say, and for every table ordered', () => {
    const late = table([400, 400, 10], { feet: { ...glides('Levelling glide', 4), stage: 'finished' } });
    const after = table([400, 400, 10], {});
    const of = (stage: (typeof STAGES)[number]) => things(priceChange({ ordered: late, draft: after, stage }));
    expect([of('glued'), of('finished')]).toEqual([[], [['hardware/feet', '4', 1280, 1536]]]);
    const three = ({ table: one, spec }: PricedTable) => pricedOf(one, { ...spec, proposal: { ...spec.proposal, quantity: 3 } });
    expect(things(priceChange({ ordered: three(before), draft: three(after), stage: 'cut' }))).toEqual([
      ['hardware/feet', '12', 3840, 4608],
    ]);
    const { hardware } = bench.library.rates;
    const buttons = { ...hardware['buttons'], stage: 'glued' } as NonNullable<(typeof hardware)[string]>;
    const own = { ...bench, library: { ...bench.library, rates: { ...bench.library.rates, hardware: { ...hardware, buttons } } } };
    const fewer = pricedOf({ ...plain, fixing: { ...plain.fixing, pointsMm: plain.fixing.pointsMm.slice(0, 4) } }, own);
    const stages = STAGES.filter((stage) => things(priceChange({ ordered: pricedOf(plain, own), draft: fewer, stage })).length > 0);
    expect(stages).toEqual(['glued', 'finished', 'delivered', 'accepted']);
  });
});

describe('laws', () => {
  const tables: Readonly<Record<string, PricedTable>> = { plain: ordered, wider, narrower, rails, longer: pricedOf(withTop(1700, 760)) };
  const pairs = Object.keys(tables).flatMap((a) => Object.keys(tables).map((b) => [a, b] as const));
  const price = (a: string, b: string, stage: (typeof STAGES)[number]) =>
    priceChange({ ordered: tables[a] as PricedTable, draft: tables[b] as PricedTable, stage });

  test.each(pairs)('%s to %s: no line is negative, and a later stage never costs less', (a, b) => {
    let before = Number.NEGATIVE_INFINITY;
    for (const stage of STAGES) {
      const one = price(a, b, stage);
      expect(one.lines.every(({ cost, shown }) => cost.minor >= 0 && shown.minor >= cost.minor)).toBe(true);
      expect(one.net.minor).toBe(one.difference.minor + one.shown.lost.minor + one.shown.redone.minor + one.shown.handling.minor);
      expect(one.net.minor).toBeGreaterThanOrEqual(before);
      before = one.net.minor;
    }
  });

  test.each(pairs)('%s to %s and back yields money to nobody: the differences cancel, what was spent stays paid', (a, b) => {
    for (const stage of STAGES) {
      const [there, back] = [price(a, b, stage), price(b, a, stage)];
      expect(there.difference.minor + back.difference.minor).toBe(0);
      expect(there.net.minor + back.net.minor).toBeGreaterThanOrEqual(0);
    }
  });

  test.each(Object.keys(tables))('%s unchanged: nothing but the handling, at any stage', (a) => {
    for (const stage of STAGES) {
      const one = price(a, a, stage);
      expect(one.net.minor).toBe(one.shown.handling.minor);
      expect(one.work).toMatchObject({ lost: [], topCutToSize: false, timber: [], hours: [], finish: [] });
    }
  });

  test('what a smaller design asks less is never more than what was not yet done of it', () => {
    const whole = price('plain', 'narrower', 'enquiry').net.minor;
    expect(whole).toBeLessThan(0);
    expect(price('plain', 'narrower', 'cut').net.minor).toBeGreaterThan(whole);
  });

  test('several tables: timber by number, hours with the usual saving on repeats', () => {
    const three = (one: PricedTable): PricedTable => {
      const spec = { ...one.spec, proposal: { ...one.spec.proposal, quantity: 3 } };
      return pricedOf(one.table, spec);
    };
    const all = priceChange({ ordered: three(ordered), draft: three(wider), stage: 'cut' });
    expect(lines(all)).toEqual([
      // 3 x 0.07749 = 0.23247; x 3,400 = 790.50; x 1.25 = 988.125.
      ['timber/oak-40', '0.2325 m³', 79050, 98813],
      // 1.328 x (1 + 0.95 + 0.9) = 3.7848; 3.8 x 57.93 = 220.134; x 1.15 = 253.1541.
      ['labour/milling', '3.80 h', 22013, 25315],
      handling,
    ]);
  });

  test('timber of the client is lost without a price', () => {
    const own: PricedTable = {
      ...ordered,
      takeOff: { ...ordered.takeOff, timber: ordered.takeOff.timber.map((t) => ({ ...t, toBuyM3: 0 })) },
    };
    expect(priceChange({ ordered: own, draft: wider, stage: 'cut' }).shown.lost.minor).toBe(0);
  });

  test('rates of the shop: handling, weekly hours, what can be used elsewhere', () => {
    const change = {
      handlingHours: 4,
      weekHours: 2,
      usableElsewhere: percent(100),
      timberDays: 0,
      glueDays: 0,
      finishDays: 0,
    };
    const of = { ...bench, library: { ...bench.library, rates: { ...bench.library.rates, change } } };
    const one = priceChange({ ordered, draft: pricedOf(withTop(1600, 760), of), stage: 'timber-bought' });
    expect(lines(one)).toEqual([
      ['timber/oak-40', '0.0000 m³', 0, 0],
      ['handling', '4.00 h', 23172, 26648],
    ]);
    expect(one.weeks).toBe(2);
  });
});

describe('stages', () => {
  test('are those of the record', () => expect([STAGES, WORK_STAGES]).toEqual([recorded, workStages]));

  test('an operation is done by the stage that the rates say, else by the usual one', () => {
    const said = { ...bench.library.rates.operations['flattening'], stage: 'glued' as const };
    const operations = { ...bench.library.rates.operations, flattening: said } as typeof bench.library.rates.operations;
    const other = { ...bench, library: { ...bench.library, rates: { ...bench.library.rates, operations } } };
    expect(
      ['design', 'buying', 'milling', 'glue-up', 'flattening', 'sanding', 'delivery', 'own-work/splay'].map((id) =>
        stageOfOperation(bench, id),
      ),
    ).toEqual(['ordered', 'timber-bought', 'cut', 'glued', 'finished', 'finished', 'delivered', 'cut']);
    expect(stageOfOperation(other, 'flattening')).toBe('glued');
    const hours = changeWork(pricedOf(plain, other), wider, { stage: 'glued' }).hours.map(({ id }) => id);
    expect(hours).toContain('flattening');
  });
});

test('a top fits into the old one or it does not: along, across, round, thicker, another wood', () => {
  const fate = (to: ReturnType<typeof withTop>) => {
    const { lost, topCutToSize } = partFates(plain, to);
    return lost.has('top') ? 'lost' : topCutToSize ? 'cut to size' : 'kept';
  };
  const round = { ...withTop(780, 780) };
  const disc = { ...round, top: { ...round.top, outline: { kind: 'ellipse' as const, rxMm: 390, ryMm: 390 } } };
  const big = { ...disc, top: { ...disc.top, outline: { kind: 'ellipse' as const, rxMm: 390, ryMm: 401 } } };
  const top = (over: object) => ({ ...plain, parts: plain.parts.map((part) => (part.id === 'top' ? { ...part, ...over } : part)) });
  expect(
    [
      plain,
      withTop(1590, 800),
      withTop(1610, 700),
      withTop(1500, 801),
      disc,
      big,
      top({ wood: 'ash-white' }),
      top({ sizeMm: { length: 1600, width: 800, thickness: 32 } }),
    ].map(fate),
  ).toEqual(['kept', 'cut to size', 'lost', 'lost', 'cut to size', 'lost', 'lost', 'lost']);
});
