import { lowTable } from './low-table.ts';
import { reply, type Step } from './step.ts';

const maren = { person: 'maren', name: 'Maren Tollefsen' } as const;
const idris = { person: 'idris', name: 'Idris Quill' } as const;

/**
 * What happened in the invented commissions, day by day; `tests/demos/stories.test.ts` plays them, and the records that lie
 * in `proposals/` come from them.
 */
export const stories: Readonly<Record<string, readonly Step[]>> = {
  'marl-ockley': lowTable,
  'tollefsen-quill': [
    {
      on: '2026-02-14',
      run: ['note', '@', 'Our son hoists himself onto the end. He is eleven and will not stop.', '--how', 'visit', '--who', 'maren'],
    },
    {
      on: '2026-02-16',
      run: ['note', '@', '--settle', '1', '--as', 'wish', 'The end is to carry him at rest, and the table stays a table', '--wish', 'w6'],
    },
    { on: '2026-02-23', run: { issue: 'r1' } },
    reply(
      '2026-03-02',
      {
        ...maren,
        verdict: 'no',
        remark: 'A: the arms of our chairs hit it, and the ends are school desks. C is an altar; we want to see the floor.',
      },
      'Dear Runa, here is our answer. Maren',
    ),
    reply('2026-03-02', {
      ...idris,
      verdict: 'no',
      design: 'B',
      remark: 'I kick the rail. And it is over what we can spend.',
    }),
    { on: '2026-03-03', run: ['note', '@', "Could we have C's weight with A's air?", '--how', 'telephone', '--who', 'idris'] },
    {
      on: '2026-03-04',
      run: [
        'note',
        '@',
        '--settle',
        '6',
        '--as',
        'answered',
        'No table can be that heavy and that open; C2 is narrower and lighter instead',
      ],
    },
    { on: '2026-03-16', run: { issue: 'r2' } },
    reply('2026-03-20', {
      ...maren,
      verdict: 'no',
      design: 'A',
      remark: 'This is the one, if its end carries our thousand newtons.',
    }),
    reply('2026-03-21', {
      ...idris,
      verdict: 'no',
      design: 'A',
      remark: 'As Maren says. With the ceramic coat.',
    }),
    { on: '2026-03-27', run: { issue: 'r3' } },
    reply(
      '2026-03-30',
      {
        ...maren,
        verdict: 'yes',
        design: 'A',
        options: ['ceramic'],
        remark: 'We look forward to it.',
      },
      'Here it is!',
    ),
    {
      on: '2026-03-31',
      run: ['sample', '@', 'S-041', '--who', 'maren', '--yes', '--keeps', 'half-each'],
    },
    {
      on: '2026-03-31',
      run: ['sample', '@', 'S-041', '--who', 'idris', '--yes', '--keeps', 'half-each'],
    },
    reply('2026-03-31', { ...idris, verdict: 'yes', design: 'A', options: ['ceramic'] }),
    { on: '2026-04-02', run: ['confirm', '@', '--hold', '2026-04-16'] },
    { on: '2026-04-02', run: ['scope', '@'] },
    { on: '2026-04-02', run: ['request', '@', '--instalment', '1', '--number', '2026-014'] },
    { on: '2026-04-08', run: ['pay', '@', '--instalment', '1', '--amount', '$1', '--on', '2026-04-08'] },
    { on: '2026-04-14', run: ['stage', '@', 'timber-bought'] },
    { on: '2026-04-28', run: ['stage', '@', 'cut'] },
    { on: '2026-05-12', run: ['stage', '@', 'glued'] },
    { on: '2026-05-12', run: ['request', '@', '--instalment', '2', '--number', '2026-019'] },
    { on: '2026-05-15', run: ['pay', '@', '--instalment', '2', '--amount', '$2', '--on', '2026-05-15'] },
  ],
  farrant: [
    {
      on: '2026-01-28',
      run: ['note', '@', 'Odile gets up by pushing on the rim. Her stick leans wherever she sits.', '--how', 'visit', '--who', 'bram'],
    },
    {
      on: '2026-01-30',
      run: ['note', '@', '--settle', '1', '--as', 'wish', 'Her hand and her stick are wishes of their own', '--wish', 'w3'],
    },
    { on: '2026-02-05', run: { issue: 'r1' } },
    reply(
      '2026-02-14',
      {
        person: 'odile',
        name: 'Odile Farrant',
        verdict: 'no',
        remark: 'B would catch my stick. C: we said knees.',
      },
      'Dear Ms Stavely, with our thanks.',
    ),
    reply('2026-02-14', {
      person: 'bram',
      name: 'Bram Farrant',
      verdict: 'no',
      design: 'A',
      remark: 'The disc, yes. The post is a bollard.',
    }),
  ],
  'lindqvaar-wren': [
    { on: '2026-03-05', run: { issue: 'r1' } },
    reply('2026-03-17', {
      person: 'petra',
      name: 'Petra Lindqvaar',
      verdict: 'no',
      design: 'B',
      remark: 'A site office.',
    }),
    reply('2026-03-18', { person: 'tobiah', name: 'Tobiah Wren', verdict: 'yes', design: 'B' }),
    {
      on: '2026-03-19',
      run: ['note', '@', 'My knees hit the drawer of A. A tray would do.', '--how', 'telephone', '--who', 'tobiah', '--design', 'A'],
    },
    { on: '2026-03-23', run: ['note', '@', '--settle', '4', '--as', 'draft', 'C gets a tray in place of the drawer'] },
  ],
};
