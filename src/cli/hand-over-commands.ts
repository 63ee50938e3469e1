import { asOfOption, type Command, jsonOption, workspaceOption } from './command.ts';

/* Commands of the hand-over, and what it is measured by. */

const common = { ...workspaceOption, ...asOfOption, ...jsonOption } as const;

export const measureCommand: Command = {
  name: 'measure',
  says: 'record what meter and hygrometer show',
  words: 'PROPOSAL WHAT PERCENT...',
  count: [3, 200],
  options: {
    at: { says: 'delivery-of-timber, glue-up, finish, delivery or later', value: 'WHEN' },
    on: { says: 'the day on which it was measured (default: today)', value: 'DATE' },
    ...common,
  },
  more: 'WHAT is moisture, of each board in percent of dry mass, or humidity, of the air. The sheet of the hand-over takes it over.',
  example: [
    'leafwright measure harbour-house moisture 8.9 9.2 9.4 --at glue-up',
    'keeps the moisture of three boards as they are glued up',
  ],
  run: async (given, terminal) => (await import('./handing/measure.ts')).runMeasure(given, terminal),
};

export const handOverCommand: Command = {
  name: 'hand-over',
  says: 'hand the table over: draft its sheet, then record it',
  words: 'PROPOSAL [WORDS]',
  count: [1, 2],
  options: {
    failed: { says: 'it failed: nobody-there, no-way-in, damaged, refused, weather or other', value: 'WHY' },
    on: { says: 'the day of a delivery that failed, or for the draft (default: today)', value: 'DATE' },
    piece: { says: 'the piece number (default: initials, year, next number)', value: 'NUMBER' },
    finished: { says: 'with --failed: the day of the last coat', value: 'DATE' },
    stored: { says: 'with --failed: the table is kept from that day' },
    'stored-until': { says: 'with --failed: the last day of storage', value: 'DATE' },
    ...common,
  },
  more: 'Without proposals/PROPOSAL/hand-over.yaml it writes that sheet and records nothing. Filled in, it is checked, recorded with its photographs, and the papers of the table are made. A difference beyond tolerance, or another finish, needs the number of the entry with a yes.',
  example: ['leafwright hand-over harbour-house', 'drafts proposals/harbour-house/hand-over.yaml; once that is filled in, records it'],
  run: async (given, terminal) => (await import('./handing/hand-over.ts')).runHandOver(given, terminal),
};
