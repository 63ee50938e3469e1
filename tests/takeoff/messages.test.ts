/** Every problem of the take-off, word for word as the maker reads it (without the line of the file, which reading adds). */
import { expect, test } from 'vitest';
import { CATALOGUE, formatProblem } from '../../src/problem/index.ts';
import { takeOff } from '../../src/takeoff/index.ts';
import { length, percent, variant } from '../fixtures.ts';
import { rates, spec } from './rates.ts';
import { boxPart, jointOf, plain, withParts } from './tables.ts';

const board = { wood: 'oak-european', length: length(2400), width: length(300), thickness: length(40), count: 1, owned: true };
const { milling, sanding } = rates.operations;
if (milling === undefined || sanding === undefined) throw new Error('the test rates are incomplete');

const taken = [
  takeOff(spec({}, { timber: {} }), plain),
  takeOff(spec(), withParts(boxPart('post', 'post', [100, 120, 700], [0, 0, 0], [700, 120, 100]))),
  takeOff(spec({ stock: { b1: { ...board, moisture: percent(14) }, b2: { ...board, faults: 'a shake' }, b3: board } }), plain),
  takeOff(spec({ finish: 'hardwaxoil' }), plain),
  takeOff(spec(), { ...plain, fixing: { ...plain.fixing, kind: 'figure-eights' } }),
  takeOff(spec({}, { operations: { miling: milling } }), plain),
  takeOff(spec({}, { operations: { ...rates.operations, milling: { ...milling, per: 'table' } } }), plain),
  takeOff(spec(), { ...plain, joints: [...plain.joints, jointOf('lap', 'rail-1', 'rail-2', 100)] }),
  takeOff({ ...spec(), variant: { ...variant, hours: 60 } }, plain),
  takeOff(spec({}, { operations: { ...rates.operations, sanding: { ...sanding, mid: 8 } } }), plain),
];

const first = new Map<string, string>();
for (const problem of taken.flatMap((one) => one.problems)) {
  if (!first.has(problem.code)) first.set(problem.code, formatProblem(problem, { colour: false }));
}

test('every code of the take-off is met', () => {
  const codes = Object.keys(CATALOGUE).filter((code) => code.startsWith('takeoff/'));
  expect([...first.keys()].toSorted()).toEqual(codes.toSorted());
});

test('and reads so', () => {
  expect(`\n${[...first.values()].join('\n')}`).toMatchInlineSnapshot(`
    "
    error[takeoff/no-timber]: the shop rates list no sawn timber of oak-european, so this table can not be priced
      table.top
      found: oak-european
      to mend: add a timber with wood: oak-european to the shop rates, or choose another wood

    warning[takeoff/laminated]: part.post is thicker than any sawn board yields, so it is counted as 3 layers glued face to face
      table.post
      found: 700 × 120 × 100 mm
      to mend: show the glue lines in the scope, or add a thicker timber to the shop rates

    warning[takeoff/board-not-ready]: board b1 is too wet to be worked and is not counted as stock
      table.stock.b1.moisture
      found: 14 %
      allowed: at most 12 %
      to mend: dry it further, or buy this part of the timber

    warning[takeoff/top-short-of-boards]: the clear boards on hand do not make up the width of the top
      table.stock
      found: 290 mm usable after straightening edges, number of boards: 1
      allowed: at least 815 mm, of which 15 mm for cutting to size
      to mend: use b2 with the fault on show and put the client's yes on record, or buy one more board
      also table.stock.b2.faults: its fault would show in the top

    error[takeoff/unknown-finish]: there is no finish called hardwaxoil
      table.finish
      found: hardwaxoil
      allowed: hardwax-oil
      to mend: if hardwax-oil was meant, write finish: hardwax-oil

    warning[takeoff/finishing-share]: preparing and finishing the surfaces takes an unusually small share of the hours
      library.rates.operations
      found: 11.4 % of 33.5 h
      allowed: 20 to 35 % is usual (common practice)
      to mend: look at the hours for sanding, flattening and coats in the shop rates

    error[takeoff/no-hardware-price]: the shop rates have no price for figure-eights, so this table can not be priced
      table.fixing
      found: figure-eights
      allowed: buttons, knock-down-bolts, screws, steel
      to mend: add figure-eights under hardware in the shop rates, or list it under hardware in the table with its own price

    error[takeoff/unknown-operation]: nothing in a table counts the operation miling of the shop rates
      library.rates.operations.miling
      found: miling
      allowed: design, buying, milling, edge-joint, glue-up, panel-trim, flattening, mortise-and-tenon, lap, loose-tenon, glued-joint, screwed-joint, knock-down, square-leg, shaped-leg, turned-leg, shaped-part, edge-shaping, under-chamfer, arris, drawer, sanding, wiped-coat, sprayed-coat, brushed-coat, between-coats, assembly, fixing, hand-over, delivery
      to mend: if milling was meant, write milling

    warning[takeoff/uncounted-work]: the table has work for which the shop rates have no hours: 3.93 m² of part faces
      library.rates.operations
      found: no operation milling
      to mend: add milling with per: m2 to the operations of the shop rates

    error[takeoff/operation-unit]: the operation milling is counted per m2, not per table
      library.rates.operations.milling.per
      found: table
      allowed: m2
      to mend: write per: m2, and the hours for one of them

    warning[takeoff/hours-differ]: the hours counted from the table are far from your own estimate
      variant.hours
      found: 60 h estimated, 39.3 h counted
      allowed: 48.0 to 72.0 h
      to mend: correct the estimate, the shop rates, or add what is not counted under work
    "
  `);
});
