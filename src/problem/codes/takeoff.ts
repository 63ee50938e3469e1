import type { CodeEntry } from './entry.ts';

/** Codes of cutting list, boards and work. */
export const takeoffCodes: Readonly<Record<`takeoff/${string}`, CodeEntry>> = {
  'takeoff/no-timber': {
    title: 'the shop rates list no sawn timber of a wood that the table uses',
    explain:
      'Timber without a price would be left out of the price in silence. Add a timber of the wood to the shop rates, or choose another wood.',
  },
  'takeoff/laminated': {
    title: 'a part is thicker than any sawn board of its wood yields',
    explain: 'It is counted as layers glued face to face, with their gluing. The client sees glue lines: say so, or buy thicker timber.',
  },
  'takeoff/board-not-ready': {
    title: 'a board of your stock is too wet to be worked',
    explain:
      'Wood for a heated room is worked at 8 to 10 % (common practice). Above 12 % the board is not counted, and its part is bought.',
  },
  'takeoff/top-short-of-boards': {
    title: 'the clear boards on hand do not make up the width of the top',
    explain:
      'Each board loses the width allowance when its edges are straightened, and a top is glued 15 mm wider than finished. A board with a fault and no usable size is not counted, for its fault would show.',
  },
  'takeoff/unknown-finish': {
    title: 'the table names a finish that is not in the list of finishes',
    explain: 'Coats, litres and care come from the finish. Use one of the list, or add it to templates/finishes.yaml.',
  },
  'takeoff/no-hardware-price': {
    title: 'a bought thing has no price',
    explain:
      'Fixings, bolts and plates are counted from the table. Each kind needs a price in the shop rates, or an entry under hardware in the table.',
  },
  'takeoff/unknown-operation': {
    title: 'nothing in a table counts an operation of the shop rates',
    explain: 'The keys of the operations say what is counted. Work of another kind is written under work in the table, with its hours.',
  },
  'takeoff/operation-unit': {
    title: 'an operation of the shop rates is in another unit than it is counted in',
    explain: 'Hours per panel can not be multiplied by square metres. Write the unit that the operation is counted in.',
  },
  'takeoff/uncounted-work': {
    title: 'the table has work for which the shop rates have no hours',
    explain: 'The work is done but not paid. Add the operation to the shop rates.',
  },
  'takeoff/finishing-share': {
    title: 'preparing and finishing the surfaces takes an unusual share of the hours',
    explain:
      'A fifth to a third is usual (common practice). Far less or far more often means that an operation was forgotten or counted twice.',
  },
  'takeoff/hours-differ': {
    title: 'the hours counted from the table are far from your own estimate',
    explain: 'More than a fifth apart, one of the two is wrong: the estimate, the shop rates, or work that nothing counts.',
  },
};
