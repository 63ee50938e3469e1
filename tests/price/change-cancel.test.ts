/** What cancelling leaves due at each stage, reckoned on paper from tests/takeoff/rates.ts: asked is cost x 1.25 for timber, x 1.15 for labour. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { type CancelPrice, cancellationRule, priceCancellation, priceTable } from '../../src/price/index.ts';
import { checkSpec, SCHEMAS, STAGES, type StageWord, type TermsSpec } from '../../src/spec/index.ts';
import { decimal, percent } from '../fixtures.ts';
import { plain } from '../takeoff/tables.ts';
import { bench, pricedOf } from './change-tables.ts';

const ordered = pricedOf(plain);
/** 3,270.00 net, 3,924.00 with 20 %; the first of 40, 40 and 20 % is paid. */
const price = priceTable(bench, ordered.takeOff);
const paidMinor = 156960;
const nothing = { currency: 'EUR', minor: 0 };
const at = (stage: StageWord, over: Partial<Parameters<typeof priceCancellation>[0]> = {}): CancelPrice =>
  priceCancellation({ ordered, net: price.net, total: price.total, earlier: nothing, stage, paidMinor, ...over });
const lines = ({ lines: all }: CancelPrice) => all.map(({ id, quantity, amount }) => [id, quantity, amount.minor]);
const sums = ({ net, tax, due, open }: CancelPrice) => [net.minor, tax.minor, due.minor, open.minor];

describe('an order of 3,924.00, of which 1,569.60 is paid', () => {
  test('that is none yet owes nothing: all comes back', () => {
    expect(sums(at('approved'))).toEqual([0, 0, 0, -156960]);
  });

  test('before timber is bought: the hours of drawing, at most 10 % of the price', () => {
    // 6 h x 57.93 = 347.58; x 1.15 = 399.717. 10 % of 3,270.00 = 327.00; x 1.2 = 392.40. 1,569.60 - 392.40 = 1,177.20 back.
    expect(lines(at('ordered'))).toEqual([
      ['labour/design', '6.00 h', 39972],
      ['at-most', undefined, -7272],
    ]);
    expect(sums(at('ordered'))).toEqual([32700, 6540, 39240, -117720]);
  });

  test('timber bought: the hours, and half of the timber', () => {
    expect(lines(at('timber-bought'))).toEqual([
      ['labour/design', '6.00 h', 39972],
      // 0.0912924 x 50 % = 0.0456; x 3,400 = 155.04; x 1.25.
      ['timber/oak-40', '0.0456 m³', 19380],
      // 0.0186732 x 50 % = 0.0093; x 3,900 = 36.27; x 1.25 = 45.3375.
      ['timber/oak-65', '0.0093 m³', 4534],
      // 8 x 0.90 = 7.20; x 1.20. Nobody said that they can go back.
      ['hardware/buttons', '8', 864],
    ]);
    // 647.50 x 20 % = 129.50.
    expect(sums(at('timber-bought'))).toEqual([64750, 12950, 77700, -79260]);
  });

  test('cut: planing, joints and legs, and the whole timber', () => {
    expect(lines(at('cut'))).toEqual([
      ['labour/design', '6.00 h', 39972],
      // 1.95 x 57.93 = 112.9635; x 1.15 = 129.908.
      ['labour/milling', '1.95 h', 12991],
      // 3.2 x 57.93 = 185.376; x 1.15 = 213.1824.
      ['labour/mortise-and-tenon', '3.20 h', 21318],
      ['labour/square-leg', '2.00 h', 13324],
      // 0.0913 x 3,400 = 310.42; x 1.25 = 388.025.
      ['timber/oak-40', '0.0913 m³', 38803],
      // 0.0187 x 3,900 = 72.93; x 1.25 = 91.1625.
      ['timber/oak-65', '0.0187 m³', 9116],
      ['hardware/buttons', '8', 864],
    ]);
    // 1,363.88 + 272.78 = 1,636.66; less 1,569.60.
    expect(sums(at('cut'))).toEqual([136388, 27278, 163666, 6706]);
  });

  test('glued: gluing and assembly as well', () => {
    // Beyond cut: 133.24 + 66.62 + 26.65 + 4 h x 57.93 x 1.15 = 266.478: 492.99. 1,856.87 x 1.2 = 2,228.244.
    expect(sums(at('glued'))).toEqual([185687, 37137, 222824, 65864]);
  });

  test('what was bought beside the timber goes back, as stated, until it is built in', () => {
    const feet = { kind: 'Levelling glide', count: 4, price: decimal('3.20'), usableElsewhere: percent(75) };
    const { hardware } = bench.library.rates;
    const buttons = { ...hardware['buttons'], usableElsewhere: percent(100) } as NonNullable<(typeof hardware)[string]>;
    const rates = { ...bench.library.rates, hardware: { ...hardware, buttons } };
    const own = { ...bench, library: { ...bench.library, rates }, table: { ...bench.table, hardware: { feet } } };
    const things = (stage: StageWord) =>
      lines(at(stage, { ordered: pricedOf(plain, own) })).filter(([id]) => String(id).startsWith('hardware/'));
    expect(things('ordered')).toEqual([]);
    // 4 x 3.20 = 12.80; a quarter of it 3.20; x 1.20 = 3.84. The buttons go back whole.
    expect(things('timber-bought')).toEqual([['hardware/feet', '4 less 75 %', 384]]);
    expect(things('cut')).toEqual([['hardware/feet', '4 less 75 %', 384]]);
    expect(things('glued')).toEqual([
      ['hardware/buttons', '8', 864],
      ['hardware/feet', '4', 1536],
    ]);
  });

  test('finished: the price, with the order’s own tax', () => {
    expect(sums(at('finished'))).toEqual([327000, 65400, 392400, 235440]);
  });
});

test('a later stage never leaves less due, and none more than the price', () => {
  let before = 0;
  for (const stage of STAGES) {
    const { due, paid, open, net, tax } = at(stage);
    expect(due.minor).toBeGreaterThanOrEqual(before);
    expect(due.minor).toBeLessThanOrEqual(price.total.minor);
    expect([open.minor, due.minor]).toEqual([due.minor - paid.minor, net.minor + tax.minor]);
    before = due.minor;
  }
});

test('what earlier changes asked stays due in full, within the price', () => {
  const earlier = { currency: 'EUR', minor: 50000 };
  const more = { net: { currency: 'EUR', minor: 377000 }, total: { currency: 'EUR', minor: 452400 }, earlier };
  expect(sums(at('cut', more))).toEqual([186388, 37278, 223666, 66706]);
  const small = { net: { currency: 'EUR', minor: 100000 }, total: { currency: 'EUR', minor: 120000 } };
  expect(lines(at('cut', small)).at(-1)).toEqual(['at-most', undefined, -36388]);
  expect(sums(at('cut', small))).toEqual([100000, 20000, 120000, -36960]);
  // A total with friendlier tax than the proposal's rate: never more than it.
  expect(sums(at('cut', { ...small, total: { currency: 'EUR', minor: 110000 } }))).toEqual([100000, 10000, 110000, -46960]);
});

test('rules of the terms, by the latest stage that is reached; those that come with the program where they state none', () => {
  const cancellation = [
    { stage: 'Cut', says: 'The price.', rule: { kind: 'price' as const, from: 'cut' as const } },
    { stage: 'Before', says: 'Drawing.', rule: { kind: 'design-hours' as const, from: 'ordered' as const, atMost: percent(5) } },
  ];
  const own = { ...bench, library: { ...bench.library, terms: { ...bench.library.terms, cancellation } } };
  expect(STAGES.map((stage) => cancellationRule(own, stage).kind)).toEqual([...Array(5).fill('design-hours'), ...Array(5).fill('price')]);
  const owed = priceCancellation({
    ordered: { ...ordered, spec: own },
    net: price.net,
    total: price.total,
    earlier: nothing,
    stage: 'ordered',
    paidMinor,
  });
  // 5 % of 3,270.00.
  expect(owed.net.minor).toBe(16350);
  expect(STAGES.map((stage) => cancellationRule(bench, stage).kind)).toEqual([
    ...Array(4).fill('design-hours'),
    ...Array(3).fill('work-and-timber'),
    ...Array(3).fill('price'),
  ]);
});

/** Standing terms that come with the program: what `cancel` reckons by is what the words beside it say. */
test.each(['standard-eu', 'standard-us', 'trade-eu'])('rules of %s are in step with its words', (name) => {
  const text = readFileSync(new URL(`../../templates/terms/${name}.yaml`, import.meta.url), 'utf8');
  const { value } = checkSpec(SCHEMAS.terms, parse(text, { schema: 'failsafe' }), ['library', 'terms']);
  const rows = (value as TermsSpec).cancellation;
  expect(rows.map(({ rule }) => [rule?.kind, rule?.from])).toEqual([
    ['design-hours', 'enquiry'],
    ['work-and-timber', 'timber-bought'],
    ['work-and-timber', 'cut'],
    ['price', 'finished'],
  ]);
  const says = {
    'design-hours': /^You pay the hours spent on drawing, at most 10 % of the price;/,
    'work-and-timber':
      /^You pay (?:the hours spent, the (?:timber|lumber) and what else I bought for your table, less what I can give back or use for another one|the work done and the material used)\./,
    price: /^You pay the price\./,
  };
  for (const { says: words, rule } of rows) expect(words).toMatch(says[rule?.kind ?? 'price']);
  expect(rows[0]?.rule).toMatchObject({ atMost: { percent: 10 } });
});
