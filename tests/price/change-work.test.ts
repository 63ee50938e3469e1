/** What a change makes of work that is counted once, of waiting, of joints and finishes: reckoned on paper as in change.test.ts. */
import { describe, expect, test } from 'vitest';
import type { Table } from '../../src/design/index.ts';
import { type ChangePrice, type PricedTable, priceChange } from '../../src/price/index.ts';
import type { EffectiveSpec, ShopRatesSpec, STAGES } from '../../src/spec/index.ts';
import { partFates } from '../../src/takeoff/index.ts';
import { plain } from '../takeoff/tables.ts';
import { bench, pricedOf, withRails, withTop } from './change-tables.ts';

type Stage = (typeof STAGES)[number];
const lines = ({ lines: all }: ChangePrice, ...ids: readonly string[]) =>
  all.filter(({ id }) => ids.includes(id)).map(({ id, quantity, cost, shown }) => [id, quantity, cost.minor, shown.minor]);

const once = (per: 'job' | 'table', mid: number) => ({ says: per, per, low: mid, mid, high: mid, finishing: false });
const withRates = (over: Partial<ShopRatesSpec>, of: EffectiveSpec = bench): EffectiveSpec => ({
  ...of,
  library: { ...of.library, rates: { ...of.library.rates, ...over } },
});
const { operations } = bench.library.rates;
const whole = withRates({
  operations: { ...operations, buying: once('job', 3), fixing: once('table', 0.5), 'hand-over': once('table', 1.5) },
});

describe('work that a table or a job has once', () => {
  const from = (to: Table, stage: Stage, of: EffectiveSpec = whole): ChangePrice =>
    priceChange({ ordered: pricedOf(plain, of), draft: pricedOf(to, of), stage });

  test('buying by the timber that is bought anew; fitting, handing over and the road once it was done', () => {
    const ids = ['labour/buying', 'labour/fixing', 'labour/hand-over', 'labour/delivery'];
    // 0.07749 of 0.0912924 + 0.0186732 m3: 70.47 % of 3 h = 2.114; 2.1 x 57.93 = 121.653; x 1.15 = 139.90095.
    const buying = ['labour/buying', '2.10 h', 12165, 13990];
    // 0.5 x 57.93 = 28.965; x 1.15 = 33.30975.
    const fixing = ['labour/fixing', '0.50 h', 2897, 3331];
    expect(lines(from(withTop(1600, 900), 'cut'), ...ids)).toEqual([buying]);
    expect(lines(from(withTop(1600, 900), 'finished'), ...ids)).toEqual([buying, fixing]);
    expect(lines(from(withTop(1600, 900), 'delivered'), ...ids)).toEqual([
      buying,
      fixing,
      // 1.5 x 57.93 = 86.895; x 1.15 = 99.92925.
      ['labour/hand-over', '1.50 h', 8690, 9993],
      // 4 x 57.93 x 1.15 = 266.478.
      ['labour/delivery', '4.00 h', 23172, 26648],
    ]);
  });

  test('of three tables, a job is one', () => {
    const three = { ...whole, proposal: { ...whole.proposal, quantity: 3 } };
    expect(lines(from(withTop(1600, 900), 'delivered', three), 'labour/buying', 'labour/delivery', 'labour/hand-over')).toEqual([
      ['labour/buying', '2.10 h', 12165, 13990],
      // 1.5 x (1 + 0.95 + 0.9) = 4.275; 4.3 x 57.93 = 249.099; x 1.15 = 286.46385.
      ['labour/hand-over', '4.30 h', 24910, 28646],
      ['labour/delivery', '4.00 h', 23172, 26648],
    ]);
  });

  test('bought and not cut: buying by what is over', () => {
    // 1.64 x 0.04 x 0.04 x 1.35 = 0.0035424 of 0.1099656: 3.22 % of 3 h = 0.097; 0.1 x 57.93 = 5.793; x 1.15 = 6.66195.
    expect(lines(from(withTop(1600, 760), 'timber-bought'), 'labour/buying')).toEqual([['labour/buying', '0.10 h', 579, 666]]);
  });

  test('assembly by the share of the base that is lost', () => {
    expect(lines(from(withRails(90), 'cut'), 'labour/assembly')).toEqual([]);
    // Rails 0.010224 of rails and legs 0.010224 + 0.013832 m3: 42.5 % of 4 h = 1.7; 98.481; x 1.15 = 113.25315.
    expect(lines(from(withRails(90), 'glued'), 'labour/assembly')).toEqual([['labour/assembly', '1.70 h', 9848, 11325]]);
  });
});

test('weeks: timber, glue and finish each wait for what they hold up', () => {
  const change = { ...bench.library.rates.change, handlingHours: 0, weekHours: 80, timberDays: 7, glueDays: 14, finishDays: 28 };
  const slow = withRates({ change: { usableElsewhere: { percent: 50, written: '50 %' }, ...change } });
  const weeks = (to: Table, stage: Stage) => priceChange({ ordered: pricedOf(plain, slow), draft: pricedOf(to, slow), stage }).weeks;
  const wider = withTop(1600, 900);
  // Less than half a week of work, and 7, 7 + 14, 7 + 14 + 28 days.
  expect([weeks(wider, 'cut'), weeks(wider, 'glued'), weeks(wider, 'finished')]).toEqual([2, 4, 8]);
  // A top cut to size needs no timber and no glue, and its finish hardens again: 28 days.
  const narrower = withTop(1600, 760);
  expect([weeks(narrower, 'cut'), weeks(narrower, 'glued'), weeks(narrower, 'finished')]).toEqual([1, 1, 5]);
});

test('a finished top cut to size gets its whole edge anew', () => {
  const cut = priceChange({ ordered: pricedOf(plain), draft: pricedOf(withTop(1600, 760)), stage: 'finished' });
  // 4.8 m x 0.6 = 2.88; 2.9 x 57.93 = 167.997; x 1.15 = 193.197.
  expect(lines(cut, 'labour/edge-shaping')).toEqual([['labour/edge-shaping', '2.90 h', 16800, 19320]]);
});

test('another finish of the base: stripped and finished again once it is finished, before that nothing', () => {
  const other = { ...bench.library.finishes['hardwax-oil'] } as EffectiveSpec['library']['finishes'][string];
  const finishes = { ...bench.library.finishes, 'other-oil': other };
  const spec: EffectiveSpec = { ...bench, library: { ...bench.library, finishes } };
  const to: PricedTable = pricedOf(plain, { ...spec, table: { ...spec.table, baseFinish: 'other-oil' } });
  const at = (stage: Stage) => priceChange({ ordered: pricedOf(plain, spec), draft: to, stage });
  expect(at('glued').lines.map(({ id }) => id)).toEqual(['handling']);
  expect(at('finished').work).toMatchObject({ lost: [], topCutToSize: false });
  // Legs 4 x 0.18, rails 2 x 0.2938, less glue 8 x 0.002 and floor 4 x 0.0036: 1.2772 m2 x 0.9 = 1.149; 1.15 h; 66.6195; 76.612425.
  const sanding = ['1.15 h', 6662, 7661];
  expect(lines(at('finished'), 'labour/sanding', 'strip/sanding')).toEqual([
    ['labour/sanding', ...sanding],
    ['strip/sanding', ...sanding],
  ]);
});

test('a part with another joint is another part', () => {
  const lost = (joints: Table['joints']) => [...partFates(plain, { ...plain, joints }).lost].sort();
  const [first, ...others] = plain.joints;
  if (first === undefined) throw new Error('no joints');
  expect(lost(plain.joints)).toEqual([]);
  // Rails and legs are alike in pairs: with one joint of four in dowels, one rail and one leg are of no use.
  expect(lost([{ ...first, kind: 'dowels' }, ...others])).toHaveLength(2);
  expect(lost(plain.joints.map((joint) => ({ ...joint, kind: 'dowels' as const })))).toEqual([
    'leg-1',
    'leg-2',
    'leg-3',
    'leg-4',
    'rail-1',
    'rail-2',
  ]);
});
