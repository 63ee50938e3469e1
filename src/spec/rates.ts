import { z } from 'zod';
import { choice, currency, day, decimal, length, mass, nameOf, number, percent, text, yesNo } from './field.ts';
import { group, kinds, named } from './shape.ts';
import { STAGES } from './stage.ts';

const WORK_UNITS = ['job', 'm2', 'm', 'panel', 'joint', 'part', 'leg', 'end', 'table', 'm2-coat', 'm2-between', 'trip', 'drawer'] as const;
/** What the hours of an operation are counted by. */
export type WorkUnit = (typeof WORK_UNITS)[number];

const share = (noun: string) => percent(noun, { from: 0, to: 500 });
const allowance = (noun: string) => length('mm', noun, { from: 0, to: 500 });

function timber() {
  return group(
    'sawn timber',
    {
      wood: nameOf('the wood'),
      thickness: length('mm', 'the rough thickness', { from: 5, to: 300 }, { quarters: true, examples: ['40 mm', '8/4'] }),
      yields: group('the thickest finished part it yields', {
        short: length('mm', 'the thickest short part', { from: 2, to: 300 }),
        long: length('mm', 'the thickest long part', { from: 2, to: 300 }),
      }),
      price: decimal('the price'),
      per: choice('what the price is for', ['m3', 'board-foot']),
      addition: percent('the addition on the net volume', { from: 0, to: 300 }),
      quotedOn: day('the day of the quotation'),
    },
    {
      example:
        'timber:\n  oak-40:\n    wood: oak-european\n    thickness: 40 mm\n    yields: { short: 34 mm, long: 32 mm }\n    price: "3400"\n    per: m3\n    addition: 35 %\n    quotedOn: 2026-01-10',
    },
  );
}

function operation() {
  const hours = (noun: string) => number(noun, { from: 0, to: 1000 });
  return group('an operation', {
    says: text('what is done'),
    per: choice('what it is counted by', WORK_UNITS),
    low: hours('the fewest hours for one'),
    mid: hours('the usual hours for one'),
    high: hours('the most hours for one'),
    finishing: yesNo('whether it belongs to the finishing').prefault('false'),
    stage: choice('the stage by whose end it is done', STAGES, {
      more: 'What a change or a cancellation costs depends on it. Where silent: `design` ordered; `buying` timber-bought; `glue-up`, `edge-joint`, `panel-trim`, `glued-joint`, `drawer` and `assembly` glued; `flattening`, `edge-shaping`, `under-chamfer`, `arris`, `sanding`, coats and `fixing` finished; `hand-over` and `delivery` delivered; all else cut.',
      examples: ['cut'],
    }).optional(),
  });
}

function changeRates() {
  const days = (noun: string) => number(noun, { from: 0, to: 365 });
  return group(
    'what a change to an order costs beside the work itself',
    {
      handlingHours: number('the hours for drawing, checking and planning a change', { from: 0, to: 100 }).prefault('2'),
      weekHours: number('the bench hours in a week', { from: 1, to: 80 }, { more: 'For the new date.' }).prefault('30'),
      usableElsewhere: percent(
        'the share of bought, uncut timber that can be used elsewhere',
        { from: 0, to: 100 },
        {
          more: 'A change or a cancellation is charged the rest.',
        },
      ).prefault('50 %'),
      timberDays: days('the days until timber bought anew has come and settled').prefault('14'),
      glueDays: days('the days that a new glue-up rests').prefault('2'),
      finishDays: days('the days that a finish hardens').prefault('7'),
    },
    {
      more: 'As the example where silent.',
      example: 'change: { handlingHours: 2, weekHours: 30, usableElsewhere: 50 %, timberDays: 14, glueDays: 2, finishDays: 7 }',
    },
  );
}

/** templates/rates/<id>.yaml; bare lengths are mm. */
export function ratesSchema() {
  return group('the shop rates', {
    format: choice('the format of the file', ['leafwright/rates/1']).prefault('leafwright/rates/1'),
    currency: currency('the currency of the rates'),
    hour: decimal('the cost of a bench hour', { more: 'With `overhead: { kind: in-hour }` it already carries the overhead of the shop.' }),
    overhead: kinds('the overhead', [
      group('overhead inside the hour', { kind: z.literal('in-hour') }),
      group('overhead as a line of its own', { kind: z.literal('line'), amount: decimal('the overhead of one table') }),
    ]),
    markUp: group(
      'the mark-ups',
      {
        timber: share('the mark-up on timber'),
        hardware: share('the mark-up on hardware'),
        finish: share('the mark-up on finish'),
        labour: share('the mark-up on labour'),
      },
      { more: 'Each on the cost of its own base.' },
    ),
    contingency: share('the contingency on the cost of the work'),
    leastMargin: percent('the least margin of the net price', { from: 0, to: 100 }),
    delivery: decimal('the price of delivery'),
    roundUpTo: decimal("the multiple that the table's net price is brought up to"),
    steps: group(
      'the steps that quantities are rounded to',
      {
        boardFoot: decimal('the step of board feet'),
        m3: decimal('the step of cubic metres'),
        m2: decimal('the step of square metres'),
        litre: decimal('the step of litres'),
        hour: decimal('the step of hours'),
      },
      { more: 'Before a quantity meets money.' },
    ).prefault({ boardFoot: '0.01', m3: '0.0001', m2: '0.01', litre: '0.01', hour: '0.05' }),
    quoteDays: number(
      'the days for which a quotation of timber holds',
      { from: 1, to: 3650, whole: true },
      { more: 'From `quotedOn`; `issue` asks.' },
    ).prefault('90'),
    timber: named('the timber you buy', timber(), { more: 'By id.' }),
    hardware: named(
      'the hardware you buy',
      group('hardware', {
        says: text('what it is'),
        price: decimal('the price of one'),
        mass: mass('the mass of one').optional(),
        stage: choice('the stage by whose end it is bought', STAGES, {
          more: '`timber-bought` where silent. A change to an order is charged what was bought for nothing.',
          examples: ['cut'],
        }).optional(),
        usableElsewhere: percent(
          'the share of its price that can be got back or used elsewhere',
          { from: 0, to: 100 },
          {
            more: 'Counts until the table is glued up; a change or a cancellation is charged the rest. None of it where silent.',
            examples: ['80 %'],
          },
        ).optional(),
        days: number(
          'the days until it has come, bought anew',
          { from: 0, to: 365 },
          {
            more: 'For the new date of a change; where silent, the report of the change says that they are yours to add.',
            examples: ['21'],
          },
        ).optional(),
      }),
      { more: 'By id.' },
    ).prefault({}),
    allowances: group('what is added to finished sizes', {
      length: allowance('the addition to the length'),
      width: allowance('the addition to the width'),
      thickness: allowance('the addition to the thickness'),
      kerf: allowance('the saw kerf'),
    }),
    operations: named('the operations', operation(), { more: 'By id.' }),
    change: changeRates().optional(),
    taxes: named(
      'the taxes',
      group('a tax', { says: text('what the tax is called'), percent: percent('the rate of the tax', { from: 0, to: 100 }) }),
      {
        more: 'By id; `none` needs no entry.',
      },
    ).prefault({}),
  });
}

/** What the shop costs and asks. Never leaves the workshop. */
export type ShopRatesSpec = z.infer<ReturnType<typeof ratesSchema>>;
/** Sawn timber that the shop buys, by wood and thickness. */
export type TimberSpec = ShopRatesSpec['timber'][string];
/** What a change to an order costs beside the work itself. */
export type ChangeRatesSpec = NonNullable<ShopRatesSpec['change']>;
/** What holds where the shop rates say nothing about changes. Common practice of a small shop, from memory. */
export const USUAL_CHANGE_RATES: ChangeRatesSpec = {
  handlingHours: 2,
  weekHours: 30,
  usableElsewhere: { percent: 50, written: '50 %' },
  timberDays: 14,
  glueDays: 2,
  finishDays: 7,
};
/** Hours for one of a kind of work: low, usual and high. */
export type OperationSpec = ShopRatesSpec['operations'][string];
