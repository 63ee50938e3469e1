/**
 * The whole price of one table, reckoned on paper from its sizes: 1600 x 800 x 30, 750 high, four legs of 60, two rails of 80 x 25, four
 * tenons (tests/takeoff/tables.ts), at the invented rates of tests/takeoff/rates.ts. Every figure below can be checked with a pencil.
 */
import { expect, test } from 'vitest';
import { priceTable } from '../../src/price/index.ts';
import { takeOff } from '../../src/takeoff/index.ts';
import { percent, proposal } from '../fixtures.ts';
import { rates, spec } from '../takeoff/rates.ts';
import { plain } from '../takeoff/tables.ts';

const forty = { percent: percent(40), when: 'then' };

test('one table to the cent', () => {
  const effective = {
    ...spec({}, { markUp: { ...rates.markUp, labour: percent(10) } }),
    proposal: { ...proposal, instalments: [forty, forty, { ...forty, percent: percent(20) }] },
  };
  const price = priceTable(effective, takeOff(effective, plain));
  expect(price.build.map((line) => [line.id, line.quantity, line.amount.minor])).toEqual([
    // 40 mm: top 1.64 x (0.815 + 6 x 0.010) x 0.04 = 0.0574, rails 2 x 1.42 x 0.09 x 0.04 = 0.010224; x 1.35 = 0.0912924; x 3,400.
    ['timber/oak-40', '0.0913 m³', 31042],
    // 65 mm: 4 x 0.76 x 0.07 x 0.065 = 0.013832; x 1.35 = 0.0186732; x 3,900.
    ['timber/oak-65', '0.0187 m³', 7293],
    // Two buttons at each of four places along: 8 x 0.90.
    ['hardware/buttons', '8', 720],
    // Skin: top and edges 1.28 + 0.144, underside 1.28, legs 4 x 0.18, rails 2 x 0.2938, less glue 8 x 0.002, less floor 4 x 0.0036
    // = 3.9812 m2; x 2 coats / 24 x 1.1 = 0.3649 l; x 46.00.
    ['finish/hardwax-oil', '0.36 litres', 1656],
    // All hours x 57.93.
    ['labour/design', '6.00 h', 34758],
    // 2 x 1.6 x 0.83 + 4 x 2 x 0.72 x 0.12 + 2 x 2 x 1.38 x 0.105 = 3.9268 m2 x 0.5 = 1.9634.
    ['labour/milling', '1.95 h', 11296],
    // Five joints x 1.6 m x 0.25.
    ['labour/edge-joint', '2.00 h', 11586],
    ['labour/glue-up', '1.00 h', 5793],
    ['labour/panel-trim', '0.40 h', 2317],
    // Both faces 2.56 m2 x 1.5 = 3.84.
    ['labour/flattening', '3.85 h', 22303],
    ['labour/mortise-and-tenon', '3.20 h', 18538],
    ['labour/square-leg', '2.00 h', 11586],
    // 4.8 m x 0.6 = 2.88.
    ['labour/edge-shaping', '2.90 h', 16800],
    // 4 x (4 x 0.72 + 2 x 1.38) = 22.56 m x 0.1 = 2.256.
    ['labour/arris', '2.25 h', 13034],
    // 3.9812 x 0.9 = 3.58308; x 0.2 x 2 = 1.59248; x 0.15 = 0.59718.
    ['labour/sanding', '3.60 h', 20855],
    ['labour/wiped-coat', '1.60 h', 9269],
    ['labour/between-coats', '0.60 h', 3476],
    ['labour/assembly', '4.00 h', 23172],
    ['labour/delivery', '4.00 h', 23172],
    // Timber 383.35, hardware 7.20, finish 16.56, labour 2,279.55: 2,686.66; x 5 % = 134.333.
    ['contingency', '5 %', 13433],
    ['mark-up/timber', '20 %', 7667],
    ['mark-up/hardware', '15 %', 108],
    ['mark-up/finish', '15 %', 248],
    // 227.955: a half goes up.
    ['mark-up/labour', '10 %', 22796],
    // 2,686.66 + 134.33 + 76.67 + 1.08 + 2.48 + 227.96 = 3,129.18, up to 3,150.00.
    ['rounding', undefined, 2082],
  ]);
  expect(price.costMinor).toBe(268666 + 13433);
  expect(price.shown.map((line) => [line.id, line.amount.minor])).toEqual([
    ['table', 315000],
    ['delivery', 12000],
  ]);
  expect([price.net.minor, price.taxes[0]?.amount.minor, price.total.minor]).toEqual([327000, 65400, 392400]);
  expect(price.instalments.map((i) => i.amount.minor)).toEqual([156960, 156960, 78480]);
  // (3,150.00 - 2,820.99) / 3,150.00.
  expect(price.marginPercent).toBeCloseTo((100 * 329.01) / 3150, 9);
});
