import { reply, type Step } from './step.ts';

const sunniva = { person: 'sunniva', name: 'Sunniva Marl' } as const;

/** Hours of the low table by operation and day, as they were written down; the course of it is invented like the rest. */
const hours: readonly (readonly [on: string, operation: string, hours: string, words?: string])[] = [
  ['2026-02-17', 'design', '6.5', 'Visit, drawings and letters before the order'],
  ['2026-02-20', 'buying', '3.5', 'Upright rings: turned the whole pack over'],
  ['2026-03-09', 'milling', '1.75'],
  ['2026-03-11', 'edge-joint', '2.5'],
  ['2026-03-12', 'glue-up', '3'],
  ['2026-03-17', 'panel-trim', '1.25'],
  ['2026-03-18', 'flattening', '5'],
  ['2026-03-20', 'own-work/cross', '3', 'The slot of the short board twice: first one 1 mm off square'],
  ['2026-03-24', 'shaped-part', '4'],
  ['2026-03-25', 'under-chamfer', '1.75'],
  ['2026-03-25', 'edge-shaping', '1.25'],
  ['2026-03-25', 'arris', '0.5'],
  ['2026-04-01', 'sanding', '2.5'],
  ['2026-04-08', 'wiped-coat', '2'],
  ['2026-04-08', 'between-coats', '1'],
  ['2026-04-22', 'assembly', '3.5'],
  ['2026-04-22', 'fixing', '1.5'],
  ['2026-04-24', 'hand-over', '2'],
  ['2026-04-24', 'delivery', '3.5'],
];

const workedOn = (day: string): readonly Step[] =>
  hours
    .filter(([on]) => on === day)
    .map(([on, operation, count, words]) => ({
      on,
      run: ['hours', '@', operation, count, ...(words === undefined ? [] : [words])],
    }));

/** Boards by day: what was taken from the rack, and what came back to it. */
const timber = (on: string, size: string, ...more: readonly string[]): Step => ({
  on,
  run: ['used', '@', '--wood', 'oak-european', '--size', size, ...more],
});

/** What the maker writes into the drafted sheet, standing before the table. */
const sheet: Required<Step>['fill'] = [
  ['product: TODO', 'product: Saltmarsh hardwax oil 3, Saltmarsh ceramic over it (invented)'],
  ['batch: TODO', 'batch: H-2607 and C-0114'],
  ['height: { built: TODO }', 'height: { built: 421 mm }'],
  ['top.length: { built: TODO }', 'top.length: { built: 1179 mm }'],
  ['top.width: { built: TODO }', 'top.width: { built: 701 mm }'],
  ['top.thickness: { built: TODO }', 'top.thickness: { built: 26.4 mm }'],
  ['# mass: 41.5 kg', 'mass: 25.6 kg'],
  [
    '# timber:\n#   - { wood: oak-european, origin: Where they grew, says: Who said so }\n# glue: Maker and name, as the bottle says',
    [
      'timber:',
      '  - { wood: oak-european, origin: "the woods above Tarrowby", says: "felled in the winter of 2023, said the sawyer" }',
      'glue: Slipway white glue D3 (invented)',
    ].join('\n'),
  ],
  ['# photographs: [photographs/front.jpg, photographs/underside.jpg]', 'photographs: [photographs/loaded.jpg]'],
  ['inspected: TODO', 'inspected: true'],
  ['signed: TODO', 'signed: true'],
  ['# by: bryn # who', 'by: sunniva # who'],
  [
    '  # defects:\n  #   - { says: What is wrong, by: 2027-10-15 }',
    '  defects:\n    - { says: A dull patch beside the garden edge where the last coat ran thin, by: 2026-05-15 }',
  ],
  [
    '# words: What else is to be kept.',
    'words: Shown how to wipe and how to lift it by the long board. The old curtain goes up again for the summer.',
  ],
];

/** The low table, from the visit to half a year after its delivery. People, prices and products are invented. */
export const lowTable: readonly Step[] = [
  { on: '2026-01-31', run: ['note', '@', 'Tove draws on everything, tables first.', '--how', 'visit', '--who', 'bryn'] },
  { on: '2026-02-01', run: ['note', '@', '--settle', '1', '--as', 'wish', 'Pens and juice are a wish of their own', '--wish', 'w7'] },
  { on: '2026-02-06', run: { issue: 'r1' } },
  reply(
    '2026-02-11',
    {
      ...sunniva,
      verdict: 'yes',
      design: 'B',
      options: ['ceramic'],
      remark: 'Una has chosen her stall already.',
    },
    'Dear Runa, from both of us, and from the two who will use it. Sunniva',
  ),
  { on: '2026-02-12', run: ['sample', '@', 'S-044', '--who', 'sunniva', '--yes', '--keeps', 'half-each'] },
  { on: '2026-02-12', run: ['confirm', '@', '--hold', '2026-02-26'] },
  { on: '2026-02-12', run: ['scope', '@'] },
  { on: '2026-02-12', run: ['request', '@', '--instalment', '1', '--number', '2026-008'] },
  { on: '2026-02-17', run: ['pay', '@', '--instalment', '1', '--amount', '$1', '--on', '2026-02-17'] },
  ...workedOn('2026-02-17'),
  ...workedOn('2026-02-20'),
  { on: '2026-02-20', run: ['measure', '@', 'moisture', '9.6', '9.3', '9.8', '9.1', '--at', 'delivery-of-timber'] },
  { on: '2026-02-20', run: ['stage', '@', 'timber-bought'] },
  ...workedOn('2026-03-09'),
  timber('2026-03-09', '2500x220x40', '--boards', '3'),
  timber('2026-03-09', '2400x200x54', '--boards', '2'),
  { on: '2026-03-10', run: ['stage', '@', 'cut'] },
  ...workedOn('2026-03-11'),
  ...workedOn('2026-03-12'),
  { on: '2026-03-12', run: ['measure', '@', 'moisture', '8.8', '8.6', '9.1', '8.9', '--at', 'glue-up'] },
  { on: '2026-03-12', run: ['measure', '@', 'humidity', '46', '--at', 'glue-up'] },
  { on: '2026-03-12', run: ['stage', '@', 'glued'] },
  ...['2026-03-17', '2026-03-18', '2026-03-20', '2026-03-24', '2026-03-25', '2026-04-01'].flatMap(workedOn),
  timber('2026-04-01', '640x200x54', '--offcut', '--moisture', '9'),
  timber('2026-04-01', '720x180x40', '--offcut', '--moisture', '9'),
  { on: '2026-04-08', run: ['measure', '@', 'humidity', '49', '--at', 'finish'] },
  ...workedOn('2026-04-08'),
  { on: '2026-04-08', run: ['stage', '@', 'finished'] },
  { on: '2026-04-20', run: ['request', '@', '--instalment', '2', '--number', '2026-016', '--due', '2026-04-24'] },
  ...workedOn('2026-04-22'),
  { on: '2026-04-24', run: ['pay', '@', '--instalment', '2', '--amount', '$2', '--on', '2026-04-24'] },
  { on: '2026-04-24', run: ['measure', '@', 'humidity', '42', '--at', 'delivery'] },
  { on: '2026-04-24', run: ['hand-over', '@', '--on', '2026-04-24'] },
  { on: '2026-04-24', run: ['hand-over', '@'], fill: sheet },
  ...workedOn('2026-04-24'),
  {
    on: '2026-05-09',
    run: ['service', '@', 'repair', 'Patch by the garden edge polished out, oil and ceramic coat laid on again', '--defects', '1'],
  },
  {
    on: '2026-05-11',
    run: ['lessons', '@', 'Cut both slots of a cross from one stop, and oil the underside of an oval before its rim.'],
  },
  { on: '2026-10-29', run: ['measure', '@', 'humidity', '51', '--at', 'later'] },
  {
    on: '2026-10-29',
    run: [
      'service',
      '@',
      'visit',
      'Before the heating goes on: water still stands in beads, plates free, feet flat. Pen on the rim came off with soap.',
    ],
  },
];
