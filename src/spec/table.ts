import type { z } from 'zod';
import type { BareUnit } from '../units/index.ts';
import { baseSchema } from './base.ts';
import { choice, decimal, length, mass, nameOf, number, percent, text, yesNo } from './field.ts';
import { freePartSchema, jointSchema, stateSchema } from './part.ts';
import { group, list, named } from './shape.ts';
import { STAGES } from './stage.ts';
import { fixingSchema, topSchema } from './top.ts';

function hardware() {
  return group(
    'a bought thing',
    {
      kind: text('what is bought', { more: "A key of the shop rates' hardware, or your own words with a price." }),
      count: number('how many are bought', { from: 1, to: 1000, whole: true }),
      price: decimal('the price of one', { more: "Overrides the shop rates'." }).optional(),
      mass: mass('the mass of one').optional(),
      says: text('what it is for').optional(),
      stage: choice('the stage by whose end it is bought', STAGES, {
        more: 'As the shop rates say of its kind where silent, else `timber-bought`. A change to an order is charged what was bought for nothing.',
        examples: ['cut'],
      }).optional(),
      usableElsewhere: percent(
        'the share of its price that can be got back or used elsewhere',
        { from: 0, to: 100 },
        {
          more: 'As the shop rates say of its kind where silent, else none of it. Counts until the table is glued up; a change or a cancellation is charged the rest.',
          examples: ['80 %'],
        },
      ).optional(),
      days: number(
        'the days until it has come, bought anew',
        { from: 0, to: 365 },
        { more: 'As the shop rates say of its kind where silent. For the new date of a change.', examples: ['21'] },
      ).optional(),
    },
    { example: 'hardware:\n  bolts: { kind: bed-bolt, count: 8 }' },
  );
}

function stockBoard(bare: BareUnit) {
  return group(
    'a board of your own',
    {
      wood: nameOf('the wood of the board'),
      length: length(bare, 'the length of the board', { from: 50, to: 8000 }),
      width: length(bare, 'the width of the board', { from: 20, to: 2000 }),
      thickness: length(bare, 'the thickness of the board', { from: 5, to: 300 }, { quarters: true, examples: ['40 mm', '8/4'] }),
      count: number('how many boards there are', { from: 1, to: 500, whole: true }).prefault('1'),
      usableLength: length(
        bare,
        'the usable length of the board',
        { from: 20, to: 8000 },
        { more: 'Clear of checks; all of it where silent.' },
      ).optional(),
      usableWidth: length(
        bare,
        'the usable width of the board',
        { from: 10, to: 2000 },
        { more: 'Clear of sapwood and wane; all of it where silent.' },
      ).optional(),
      moisture: percent('the moisture of the board', { from: 0, to: 100 }).optional(),
      faults: text('the faults of the board').optional(),
      owned: yesNo('whether the board is paid already or brought by the client', { more: 'It adds no cost then.' }).prefault('true'),
    },
    { example: 'stock:\n  s3: { wood: ash-white, length: 1950, width: 240, thickness: 40, moisture: 9.5 % }' },
  );
}

/** Hours at worst, usual and best; low <= mid <= high is a law checked after reading. */
export function hoursSchema() {
  const hours = (noun: string) => number(noun, { from: 0, to: 2000 });
  return group('hours', { low: hours('the fewest hours'), mid: hours('the usual hours'), high: hours('the most hours') });
}

/** table.yaml, also merged with a variant and its options. `bare`: the unit of bare numbers. */
export function tableSchema(bare: BareUnit) {
  return group('the table', {
    wood: nameOf('the wood of the table', { examples: ['oak-european'] }),
    height: length(
      bare,
      'the height of the table',
      { from: 300, to: 1300 },
      { more: 'Overall, to the upper face of the top.', examples: ['745 mm', '29 1/2 in'] },
    ),
    top: topSchema(bare),
    base: baseSchema(bare),
    parts: named('the free parts', freePartSchema(bare), { more: 'By id.' }).prefault({}),
    joints: named('the joints of free parts', jointSchema(), { more: 'By id. Kinds of bases make their own.' }).prefault({}),
    fixing: fixingSchema().prefault({ kind: 'slotted-screws' }),
    states: named('other states of the table', stateSchema(bare), { more: 'By id.' }).prefault({}),
    finish: nameOf('the finish of the table', { examples: ['hardwax-oil'] }),
    baseFinish: nameOf('another finish for the base').optional(),
    hardware: named('bought things', hardware(), { more: 'By id.' }).prefault({}),
    stock: named('your own boards that this table must come from', stockBoard(bare), { more: 'By id.' }).prefault({}),
    alsoHas: list('what else is built in', choice('what is built in', ['breadboard', 'leaf', 'levellers', 'castors', 'bolts']), {
      more: 'For its care, where parts and bought things do not show it.',
    }).prefault([]),
    work: named('work that nothing else counts', group('work', { says: text('what the work is'), hours: hoursSchema() }), {
      more: 'By id.',
      example: 'work:\n  fit: { says: Fitting round the radiator pipe, hours: { low: 1, mid: 2, high: 3 } }',
    }).prefault({}),
  });
}

/** Bought things counted by piece. A price here overrides the shop's. */
export type HardwareSpec = z.infer<ReturnType<typeof hardware>>;
/** The maker's own boards that this table must come from. */
export type StockBoardSpec = z.infer<ReturnType<typeof stockBoard>>;
/** The table of one variant: table.yaml, the variant's patch and the chosen options, merged and checked. */
export type TableSpec = z.infer<ReturnType<typeof tableSchema>>;
/** Work that no driver counts: the maker says the hours. */
export type ExtraWorkSpec = TableSpec['work'][string];
