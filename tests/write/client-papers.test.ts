import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { openDocumentFonts } from '../../src/cli/draft/fonts.ts';
import type { ClientView } from '../../src/client/index.ts';
import {
  type ApprovedScope,
  type PaymentRequest,
  type Statement,
  writePaymentRequest,
  writeScope,
  writeStatement,
} from '../../src/write/client/index.ts';
import { textsOf } from '../client/commission.ts';
import { viewFixture } from './view-fixture.ts';

/** Papers are read back by general PDF tools (poppler, qpdf). Amounts are worked by hand beside them. */
const folder = mkdtempSync(join(tmpdir(), 'leafwright-client-papers-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const fonts = openDocumentFonts();
const tool = (name: string, ...args: string[]): string => execFileSync(name, args, { encoding: 'utf8', cwd: folder });
const plain = (text: string): string => text.replaceAll(/[\u00a0\u2009\u202f]/g, ' ');

let count = 0;
async function text(bytes: Promise<Uint8Array>): Promise<string> {
  const file = `${count++}.pdf`;
  writeFileSync(join(folder, file), await bytes);
  expect(tool('qpdf', '--check', file)).toContain('No syntax or stream encoding errors found');
  expect(tool('pdfinfo', file)).toMatch(/Tagged:\s+yes/);
  return plain(tool('pdftotext', '-layout', file, '-'));
}

const view: ClientView = {
  ...viewFixture(),
  texts: textsOf('en-GB'),
  sample: 'Sample S-1: oak, oiled',
  rounds: { sentence: 'Two rounds are in the price; the next one costs €120.' },
  letter: {
    terms: '0'.repeat(64),
    people: [],
    instalments: [],
    designs: [
      {
        ...{ id: 'A', name: 'Reed', options: [{ id: 'ceramic', says: 'A ceramic coat over the oil' }] },
        combinations: [
          { options: [], isDefault: true },
          { options: ['ceramic'], isDefault: false },
        ],
      },
    ],
  },
  consent: {
    version: '1',
    sentence: 'I have read it.',
    ground: { says: 'Made to your measures.', rows: [{ says: 'Room', value: '5,150 × 2,680 mm' }], presets: 'Presets may not count.' },
    rows: [{ says: 'On paper instead', value: 'Paper is as good.' }],
    law: [{ says: 'Right to withdraw', value: 'Fourteen days, generally.' }],
    note: 'No legal advice.',
  },
};

/** Oil at 4,900.00 net is the standard; ceramic adds 240.00 net: 5,140.00 and 20 % tax of 1,028.00 give 6,168.00. */
const approved: ApprovedScope = {
  options: ['ceramic'],
  currency: 'EUR',
  isAsChosen: false,
  standardNetMinor: 490_000,
  netMinor: 514_000,
  totalMinor: 616_800,
  instalmentsMinor: [246_720, 246_720, 123_360],
  answers: [
    { name: 'Maud Lamm', on: '2027-02-20', by: 'form', n: 4, digest: '0123456789abcdef'.repeat(4), insisted: false },
    { on: '2027-02-22', by: 'paper', n: 6, digest: 'fedcba9876543210'.repeat(4), insisted: true, remark: 'As the sample.' },
  ],
  fingerprint: 'ab'.repeat(32),
};

describe('a scope before approval', () => {
  test('is an answer on paper, with rounds, ground, consent; a sample that is named is no approval of it', async () => {
    const says = await text(writeScope(view, 'A', fonts));
    expect(says).toMatch(/☐ +With a ceramic coat/);
    expect(says).toContain('Place, date');
    for (const part of [
      'Two rounds are in the price',
      '5,150 × 2,680 mm',
      'Presets may not count.',
      '“I have read it.”',
      'Fourteen days, generally.',
      'No legal advice.',
    ])
      expect(says).toContain(part);
    expect(says.replaceAll(/\s+/g, ' ')).toContain(
      'Sample S-1: oak, oiled. Until your yes to it is in my record, this scope is subject to sample.',
    );
    expect(says).toMatch(/Overall size, design A +2,100 × 820 × 745 mm/);
    expect(says).not.toContain('What was agreed');
  });

  test('says subject to sample where none is named', async () => {
    const { sample: _, ...unnamed } = view;
    expect((await text(writeScope(unnamed, 'A', fonts))).replaceAll(/\s+/g, ' ')).toContain('Subject to sample: colour, figure and sheen');
  });

  test('of a revision frozen before there was consent is made as it was', async () => {
    const { consent: _, rounds: __, ...old } = view;
    expect(await text(writeScope(old, 'A', fonts))).not.toMatch(/What I make it from|How you say yes|Rounds of drawing/);
  });
});

describe('a scope with its approval', () => {
  test('adds up to what was agreed, and says what it shows where that is not the standard', async () => {
    const says = await text(writeScope(view, 'A', fonts, approved));
    for (const row of [
      /Before tax, as standard +€4,900\.00/,
      /Options chosen: A ceramic coat over the oil +\+€240\.00/,
      /Before tax +€5,140\.00/,
      /Home goods tax, 20 % +€1,028\.00/,
      /Total +€6,168\.00/,
      /40 % +when you sign +€2,467\.20/,
      /20 % +at delivery +€1,233\.60/,
    ])
      expect(says).toMatch(row);
    expect(says.replaceAll(/\s+/g, ' ')).toContain('show the design as standard. Chosen was: A ceramic coat over the oil.');
    expect(says).not.toMatch(/☐|Place, date/);
  });

  test('of the standard choice repeats its lines and taxes and adds no note', async () => {
    const standard = { ...approved, options: [], netMinor: 490_000, totalMinor: 588_000, instalmentsMinor: [235_200, 235_200, 117_600] };
    const says = await text(writeScope(view, 'A', fonts, standard));
    expect(says).toMatch(/Home goods tax, 20 % +€980\.00/);
    expect(says).toMatch(/☑ +none of the options/);
    expect(says).not.toMatch(/as standard|Options chosen/);
  });

  test('names who answered, when and how; an erased name stays erased, what was insisted on is said', async () => {
    const says = await text(writeScope(view, 'A', fonts, approved));
    expect(says).toMatch(/Maud Lamm +20 February 2027 +by the form of the page +4, 01234 56789 abcde f0123/);
    expect(says).toMatch(/\(name erased\) +22 February 2027 +on paper, signed +6, fedcb a9876 54321 0fedc/);
    expect(says).toContain('Recorded although something did not fit');
    expect(says).toContain('(name erased) wrote: “As the sample.”');
    expect(says).toContain('It identifies nobody.');
  });

  test('a sample counts once it is approved: the one that was named, or another', async () => {
    const sample = { id: 'S-1', name: 'Maud Lamm', on: '2027-02-21', keeps: 'half-each' } as const;
    const named = await text(writeScope(view, 'A', fonts, { ...approved, sample }));
    expect(named.replaceAll(/\s+/g, ' ')).toContain(
      'Sample S-1: oak, oiled. Approved by Maud Lamm on 21 February 2027; each of us keeps one half.',
    );
    const other = await text(writeScope(view, 'A', fonts, { ...approved, sample: { ...sample, id: 'S-2', keeps: 'client' } }));
    expect(other).toContain('Sample S-2, approved by Maud Lamm on 21 February 2027; you keep it.');
    expect((await text(writeScope(view, 'A', fonts, approved))).replaceAll(/\s+/g, ' ')).toContain('this scope is subject to sample');
  });

  test('for those who were shown no price holds the approval without an amount and without remarks', async () => {
    const { price: _, ...design } = view.designs[0] as ClientView['designs'][number];
    const unpriced: ClientView = { ...view, audience: 'no-price', designs: [design] };
    const says = await text(
      writeScope(unpriced, 'A', fonts, { ...approved, answers: approved.answers.map((one) => ({ ...one, remark: 'Not over €6,000.' })) }),
    );
    expect(says).toMatch(/Maud Lamm +20 February 2027/);
    expect(says).toMatch(/Options +A ceramic coat over the oil/);
    expect(says).not.toMatch(/€|Agreed total|wrote:/);
  });

  test('has room for a signature only where a key signs, and is the same to the byte', async () => {
    const signature = { certificateSha256: '0f'.repeat(32), at: '2027-02-22T10:00:00Z' };
    const bytes = await writeScope(view, 'A', fonts, { ...approved, signature });
    expect(Buffer.compare(await writeScope(view, 'A', fonts, { ...approved, signature }), bytes)).toBe(0);
    expect(Buffer.from(bytes).toString('latin1')).toContain('/SubFilter /ETSI.CAdES.detached');
    expect(Buffer.from(await writeScope(view, 'A', fonts, approved)).toString('latin1')).not.toContain('/SubFilter');
  });
});

const request: PaymentRequest = {
  number: '2027-014',
  on: '2027-05-12',
  due: '2027-05-26',
  instalments: [{ instalment: 2, when: 'when the top is glued up', amountMinor: 246_720, paidMinor: 50_000 }],
  of: 3,
  design: 'A',
  currency: 'EUR',
  totalMinor: 616_800,
  paidInAllMinor: 296_720,
  payment: ['Harbour Bank (invented)'],
};

describe('a payment request', () => {
  // 2,467.20 - 500.00 = 1,967.20 now; 6,168.00 - 2,967.20 - 1,967.20 = 1,233.60 after it.
  test('asks for what is open of the instalment and says what is left after it', async () => {
    const says = await text(writePaymentRequest(view, request, fonts));
    for (const row of [
      /To pay now +€1,967\.20/,
      /Open after this payment +€1,233\.60/,
      /Paid of it so far +€500\.00/,
      /This instalment +€2,467\.20/,
    ])
      expect(says).toMatch(row);
    for (const part of [
      'Harbour Bank (invented)',
      'Please quote 2027-014.',
      'Maud and Piet Lamm, Harbour House, Tarrowby',
      'not an invoice for tax',
    ])
      expect(says).toContain(part);
  });

  test('two instalments in one paper: each by itself, and one amount to pay', async () => {
    const first = { instalment: 1, when: 'with your yes', amountMinor: 280_000, paidMinor: 246_720 };
    const says = await text(writePaymentRequest(view, { ...request, instalments: [first, ...request.instalments] }, fonts));
    // 2,800.00 - 2,467.20 = 332.80, and 1,967.20: 2,300.00; 6,168.00 - 2,967.20 - 2,300.00 = 900.80.
    for (const row of [
      /Instalment 1 of 3: with your yes +€2,800\.00\n+ *Paid of it so far +€2,467\.20/,
      /Instalment 2 of 3: when the top is glued up +€2,467\.20\n+ *Paid of it so far +€500\.00/,
      /To pay now +€2,300\.00/,
      /Open after this payment +€900\.80/,
    ])
      expect(says).toMatch(row);
    expect(says).not.toContain('This instalment');
  });

  test('without bank details says whom to ask', async () => {
    expect(await text(writePaymentRequest(view, { ...request, payment: [] }, fonts))).toContain('Ask me for the bank details: 000 0000.');
  });

  test('on letter paper, in American words', async () => {
    const bytes = writePaymentRequest({ ...view, paper: 'letter', language: 'en-US', texts: textsOf('en-US') }, request, fonts);
    const says = await text(bytes);
    expect(says).toContain('Installment 2 of 3');
    expect(says).toMatch(/Due +May 26, 2027/);
    expect(tool('pdfinfo', `${count - 1}.pdf`)).toContain('612 x 792 pts (letter)');
  });
});

describe('a statement', () => {
  const statement: Statement = {
    on: '2027-05-20',
    design: 'A',
    confirmedOn: '2027-03-01',
    currency: 'EUR',
    firstTotalMinor: 616_800,
    instalments: [
      { instalment: 1, when: 'when you sign', amountMinor: 246_720, paidMinor: 246_720, openMinor: 0, due: '2027-03-15' },
      { instalment: 2, when: 'when the top is glued up', amountMinor: 246_720, paidMinor: 50_000, openMinor: 196_720, due: '2027-05-26' },
      { instalment: 3, when: 'at delivery', amountMinor: 123_360, paidMinor: 0, openMinor: 123_360 },
    ],
    movements: [
      { kind: 'requested', on: '2027-03-01', instalment: 1, number: '2027-011', due: '2027-03-15', amountMinor: 246_720 },
      { kind: 'paid', on: '2027-03-09', instalment: 1, amountMinor: 250_000 },
      { kind: 'paid', on: '2027-03-10', instalment: 1, amountMinor: -3_280 },
      { kind: 'paid', on: '2027-05-18', instalment: 2, amountMinor: 50_000 },
    ],
    elsewhereMinor: 0,
    entry: 19,
  };

  // 6,168.00 - 2,500.00 = 3,668.00; + 32.80 = 3,700.80; - 500.00 = 3,200.80 = 1,967.20 + 1,233.60.
  test('adds up by instalment and by date, money that went back included', async () => {
    const says = await text(writeStatement(view, statement, fonts));
    expect(says).toMatch(/Total +€6,168\.00 +€2,967\.20 +€3,200\.80/);
    expect(says).toMatch(/9 March 2027 +Payment for instalment 1 +€2,500\.00 +€3,668\.00/);
    expect(says).toMatch(/10 March 2027 +Returned, of instalment 1 +−€32\.80 +€3,700\.80/);
    expect(says).toMatch(/18 May 2027 +Payment for instalment 2 +€500\.00 +€3,200\.80/);
    expect(says).toMatch(/3 +at delivery +– +€1,233\.60 +€0\.00 +€1,233\.60/);
    expect(says).toContain('up to entry 19');
  });

  // 5,000.00 first, 2,500.00 paid: 2,500.00 open; + 1,168.00 of the change: 3,668.00; + 32.80; - 500.00 = 3,200.80.
  test('a change takes the place of the order on its day, from the total before', async () => {
    const [asked, paid, back, last] = statement.movements;
    if (asked === undefined || paid === undefined || back === undefined || last === undefined) throw new Error('movements');
    const changed = { kind: 'changed', on: '2027-03-09', revision: 'r4', totalMinor: 616_800 } as const;
    const says = await text(
      writeStatement(view, { ...statement, firstTotalMinor: 500_000, movements: [asked, paid, changed, back, last] }, fonts),
    );
    expect(says).toMatch(/1 March 2027 .*€5,000\.00/);
    expect(says).toMatch(/Payment for instalment 1 +€2,500\.00 +€2,500\.00/);
    expect(says).toMatch(/The change of r4 takes the place of the +€3,668\.00/);
    expect(says).toMatch(/18 May 2027 +Payment for instalment 2 +€500\.00 +€3,200\.80/);
  });

  test('a change that waits is told, and the order stands as it was', async () => {
    const waits = { revision: 'r4', confirmedOn: '2027-05-19', totalMinor: 700_000 };
    const says = (await text(writeStatement(view, { ...statement, waits }, fonts))).replaceAll(/\s+/g, ' ');
    expect(says).toContain('The change of r4, confirmed on 19 May 2027, comes to €7,000.00 in all. The order stands as it was until');
  });

  test('before anything was asked or paid says so', async () => {
    expect(await text(writeStatement(view, { ...statement, movements: [] }, fonts))).toContain(
      'Nothing has been requested or paid so far.',
    );
  });

  // 2,967.20 paid, 600.00 due by the stage reached: 2,367.20 goes back.
  test('after a cancellation says what is due by the stage reached, and what goes back', async () => {
    const closed = {
      kind: 'cancelled',
      on: '2027-05-19',
      dueMinor: 60_000,
      paidMinor: 296_720,
      returnedMinor: 3_280,
      openMinor: -236_720,
    } as const;
    const says = await text(writeStatement(view, { ...statement, closed }, fonts));
    // 2,500.00 + 500.00 came, 32.80 of it went back before.
    expect(says).toMatch(/Paid +€3,000\.00\s+Returned to you so far +−€32\.80/);
    expect(says).toMatch(/Due by the stage reached, cancelled on 19 May 2027 +€600\.00/);
    expect(says).toMatch(/To be returned to you +€2,367\.20/);
    // By date: the total of the instalments gives way to what is due, less what was paid.
    expect(says).toMatch(/The order was cancelled: €600\.00/);
    expect(says).toMatch(/-€2,367\.20|−€2,367\.20/);
    const owed = await text(writeStatement(view, { ...statement, closed: { ...closed, dueMinor: 300_000, openMinor: 3_280 } }, fonts));
    expect(owed).toMatch(/Open +€32\.80/);
  });

  // The payment of 500.00 came for an instalment 4: 2,467.20 of 6,168.00 for those that there are, 500.00 beside.
  test('money for an instalment that there is not stands beside them, and the rows come to the total', async () => {
    const [one, two, three] = statement.instalments;
    if (one === undefined || two === undefined || three === undefined) throw new Error('instalments');
    const instalments = [one, { ...two, paidMinor: 0, openMinor: 246_720 }, three];
    const says = await text(writeStatement(view, { ...statement, instalments, elsewhereMinor: 50_000 }, fonts));
    expect(says).toMatch(/Paid beside the instalments +€0\.00 +€500\.00 +−€500\.00/);
    expect(says).toMatch(/Total +€6,168\.00 +€2,967\.20 +€3,200\.80/);
  });

  test('what was lost before it was an order leaves nothing due', async () => {
    const closed = {
      kind: 'lost',
      on: '2027-05-19',
      dueMinor: 0,
      paidMinor: 296_720,
      returnedMinor: 3_280,
      openMinor: -296_720,
    } as const;
    const says = await text(writeStatement(view, { ...statement, closed }, fonts));
    expect(says).toMatch(/Due, closed on 19 May 2027 +€0\.00/);
    expect(says).toMatch(/To be returned to you +€2,967\.20/);
    expect(says).toMatch(/It came to no order: €0\.00 is due +−€2,967\.20/);
  });
});
