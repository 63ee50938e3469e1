import type { Table } from '../../src/design/index.ts';
import { type PricedTable, priceTable } from '../../src/price/index.ts';
import type { EffectiveSpec } from '../../src/spec/index.ts';
import { takeOff } from '../../src/takeoff/index.ts';
import { percent } from '../fixtures.ts';
import { rates, spec } from '../takeoff/rates.ts';
import { boxPart, plain } from '../takeoff/tables.ts';

/** Mark-ups 20 % timber, 15 % finish, 10 % labour; contingency 5 %: asked is cost x 1.25, 1.20 and 1.15. */
export const bench: EffectiveSpec = spec({}, { markUp: { ...rates.markUp, labour: percent(10) } });

/** The plain table of tests/takeoff/tables.ts with a top of another size, its base as it was. */
export function withTop(lengthMm: number, widthMm: number): Table {
  const [x, y] = [lengthMm / 2, widthMm / 2];
  const size = [lengthMm, widthMm, 30] as const;
  return {
    ...plain,
    parts: [boxPart('top', 'top', size, [0, 0, 720], size, { boards: 6, features: ['glued-up'] }), ...plain.parts.slice(1)],
    top: {
      ...plain.top,
      acrossGrainMm: widthMm,
      outline: {
        kind: 'polygon',
        points: [
          [-x, -y],
          [x, -y],
          [x, y],
          [-x, y],
        ],
      },
    },
  };
}

/** The plain table with rails of another height. */
export const withRails = (heightMm: number): Table => ({
  ...plain,
  parts: plain.parts.map((part) =>
    part.role === 'rail' ? boxPart(part.id, 'rail', [1380, 25, heightMm], part.placement.originMm, [1380, heightMm, 25]) : part,
  ),
});

/** A table taken off and priced, before anything is added for a change. */
export function pricedOf(table: Table, of: EffectiveSpec = bench): PricedTable {
  const taken = takeOff(of, table);
  return { spec: of, table, takeOff: taken, net: priceTable(of, taken).net };
}
