import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { IssuedOffer } from '../../src/record/index.ts';
import { type Letter, makeCode } from '../../src/reply/index.ts';
import { letterText, letterTo, openBench, terms } from '../cli/answers.ts';

/** Codes of what was refused or warned of, in order. */
const codes = (err: string): readonly string[] =>
  [...err.matchAll(/^(?:error|warning)\[reply\/([a-z-]+)\]/gm)].map(([, code = '']) => code);
const people = [
  { id: 'idris', audience: 'no-price' },
  { id: 'maren', audience: 'payer' },
] as const;

/** A letter as its page makes it, whose code was taken apart, altered and made anew with a right check: the check stops slips alone. */
type Forgery = (issued: IssuedOffer, older: IssuedOffer) => Letter;
/** Found by the name that is typed under a letter; a code that came alone has none. */
const underName = 'name-of-another';
const fair: Forgery = (issued) => letterTo(issued, 'maren', { remark: 'Soon, please.' });
const forged: readonly (readonly [string, Forgery, readonly string[]])[] = [
  ['a lower total', (r) => ({ ...fair(r, r), total: { minor: 534_800, currency: 'EUR' } }), ['total-differs']],
  ['a total in other money', (r) => ({ ...fair(r, r), total: { minor: 634_800, currency: 'USD' } }), ['total-differs']],
  ['no total', (r) => ({ ...fair(r, r), total: undefined }) as Letter, ['total-missing']],
  ['an option put off at the price with it', (r) => ({ ...fair(r, r), options: [false, false, false] }), ['total-differs']],
  [
    'an option put on at the price without it',
    (r) => letterTo(r, 'maren', { on: ['pale'], options: [true, false, false] }),
    ['total-differs'],
  ],
  ['two options that are not offered together', (r) => ({ ...fair(r, r), options: [true, true, false] }), ['unknown-options']],
  ['another design with the options of the first', (r) => ({ ...fair(r, r), design: 'B' }), ['options-differ']],
  ['another design at the price of the first', (r) => ({ ...fair(r, r), design: 'B', options: [] }), ['total-differs']],
  ['a design that there is not', (r) => ({ ...fair(r, r), design: 'C' }), ['unknown-design']],
  ['an older revision', (_, older) => fair(older, older), ['superseded']],
  [
    'the fingerprint of the newest under the total of an older one',
    (r) => ({ ...fair(r, r), total: { minor: 600_000, currency: 'EUR' } }),
    ['total-differs'],
  ],
  ['a fingerprint of nothing', (r) => ({ ...fair(r, r), fingerprint: '0'.repeat(20) }), ['unknown-revision']],
  ['other terms', (r) => ({ ...fair(r, r), terms: terms['no-price'].slice(0, 8) }), ['terms-differ']],
  ['no terms', (r) => ({ ...fair(r, r), terms: undefined }) as Letter, ['terms-differ']],
  ['somebody who does not decide', (r) => ({ ...fair(r, r), decider: 2 }), ['unknown-decider']],
  [
    'the code of one who sees no price, made the payer’s',
    (r) => ({ ...letterTo(r, 'idris'), decider: 1 }),
    ['total-missing', 'terms-differ', underName],
  ],
  ['the code of the payer, made that of one who sees no price', (r) => ({ ...fair(r, r), decider: 0 }), ['terms-differ', underName]],
  ['an answer to a question that was never asked', (r) => ({ ...fair(r, r), after: 1 }), ['unknown-question']],
];

describe('a forged letter, whose code has a right check', () => {
  test.each(forged)('%s: refused, and nothing is written', async (_name, forge, expected) => {
    const bench = openBench();
    const older = await bench.issue('r1', { people });
    const r2 = await bench.issue('r2', { people, date: '2027-02-12' });
    for (const given of [letterText(forge(r2, older)), makeCode(forge(r2, older))]) {
      const { code, err, out } = await bench.record(given, '--yes');
      const isAlone = !given.includes('\n');
      expect([code, out, codes(err)]).toEqual([1, '', expected.filter((one) => !(isAlone && one === underName))]);
      expect(bench.entries()).toHaveLength(2);
    }
    expect(bench.problems()).toEqual([]);
    expect((await bench.record(letterText(fair(r2, older)))).code).toBe(0);
  });
});

/** A question that the maker drafted, and the letter that its code holds. */
async function asked() {
  const bench = openBench();
  const r1 = await bench.issue('r1');
  expect((await bench.record('Yes, the thick one', '--who', 'maren', '--understood', 'A ceramic')).code).toBe(0);
  const question = bench.entries().find(({ kind }) => kind === 'asked');
  return { bench, r1, letter: letterTo(r1, 'maren', { after: question?.n ?? 0 }) };
}

describe('the code of a question', () => {
  test.each<[string, Partial<Letter>]>([
    ['answered no in the code itself', { verdict: 'no', options: [], total: undefined, terms: undefined } as Partial<Letter>],
    ['made a mix', { verdict: 'mix', base: 'B', options: [], total: undefined, terms: undefined } as Partial<Letter>],
    ['with another design', { design: 'B', options: [], total: { minor: 645_000, currency: 'EUR' } }],
    ['with another option', { options: [false, true, false], total: { minor: 618_000, currency: 'EUR' } }],
    ['of another who decides', { decider: 0 }],
    ['of another question', { after: 2 }],
  ])('%s: refused, though the maker says yes and insists', async (_name, over) => {
    const { bench, letter } = await asked();
    const before = bench.entries().length;
    const { code, err } = await bench.record(letterText({ ...letter, ...over }), '--yes', '--insist', 'they said so');
    expect([code, codes(err)]).toEqual([1, ['unknown-question']]);
    expect(bench.entries()).toHaveLength(before);
  });
});

describe('what a forger can do, and what then is told', () => {
  test('words edited under an untouched code: refused; with a reason it is recorded that they differ', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    const text = letterText(letterTo(r1, 'maren', { remark: 'With the oak feet.' })).replace('oak', 'steel');
    const refused = await bench.record(text);
    expect([refused.code, codes(refused.err), bench.entries().length]).toEqual([1, ['words-differ'], 1]);
    const held = await bench.record(text, '--insist', 'she read it to me');
    expect([held.code, codes(held.err)]).toEqual([0, ['words-differ']]);
    expect(bench.entries()[1]).toMatchObject({ insisted: ['reply/words-differ'] });
  });

  test('a sum edited in the sentence above an untouched code: the code counts, its total is told, and the sentence is kept', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    const text = letterText(letterTo(r1, 'maren')).replace('My answer.', 'My answer: design A for 5,348.00.');
    const { code, out } = await bench.record(text);
    expect([code, out.split('\n')[0]]).toEqual([0, 'entry 2: maren says yes to design A of r1 with ceramic, €6,348.00']);
    expect(bench.entries()[1]).toMatchObject({ chosen: { totalMinor: 634_800 } });
    expect(bench.sealed(bench.entries()[1])).toMatchObject({ data: { text: expect.stringContaining('5,348.00') } });
  });

  test('one payer’s letter made another’s: the name under it and the sender of a mail give it away; with a reason it is recorded as the code says', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    const text = letterText({ ...letterTo(r1, 'maren'), decider: 0 });
    const said = await bench.record(text, '--who', 'maren');
    expect([said.code, codes(said.err), bench.entries().length]).toEqual([1, ['person-differs'], 1]);
    const file = join(bench.workspace, 'reply.eml');
    const fields = [
      'From: Maren <maren.tollefsen@example.invalid>',
      'To: bench@stavely-tables.example.invalid',
      'Content-Type: text/plain; charset=utf-8',
    ];
    writeFileSync(file, `${fields.join('\r\n')}\r\n\r\n${text}`);
    const mailed = await bench.record('--file', file);
    expect([mailed.code, codes(mailed.err), bench.entries().length]).toEqual([1, ['name-of-another'], 1]);
    const held = await bench.record('--file', file, '--insist', 'they answer for each other');
    expect([held.code, codes(held.err)]).toEqual([0, ['sender-differs', 'name-of-another']]);
    expect(held.out).toMatch(/^entry 2: idris says yes/);
    expect(bench.entries()[1]).toMatchObject({ insisted: ['reply/name-of-another'] });
    expect(bench.sealed(bench.entries()[1])).toMatchObject({ data: { person: 'idris', name: 'Maren Tollefsen' } });
  });
});

test('a paper answer whose run was killed before its scan: verify says so, and the same command adds the scan alone', async () => {
  const bench = openBench();
  const r1 = await bench.issue('r1');
  const scan = join(bench.workspace, 'signed.pdf');
  writeFileSync(scan, '%PDF-1.4\n%%EOF\n');
  const given = ['--paper', scan, '--who', 'maren', '--design', 'A', '--revision', 'r1', '--fingerprint', r1.fingerprint.slice(0, 10)];
  expect((await bench.record(...given)).code).toBe(0);
  const kept = bench.entries().flatMap((entry) => (entry.kind === 'attached' ? [entry.file.path] : []));
  for (const path of kept) rmSync(join(bench.folder, path));
  const [issued = '', answer = ''] = bench.read('decisions.jsonl').split('\n');
  writeFileSync(join(bench.folder, 'decisions.jsonl'), `${issued}\n${answer}\n`);
  expect(bench.problems().map(({ code, severity }) => [code, severity])).toEqual([['record/scan-missing', 'warning']]);
  const again = await bench.record(...given);
  expect([again.code, bench.entries().map(({ kind }) => kind)]).toEqual([0, ['issued', 'answer', 'attached']]);
  expect(bench.problems()).toEqual([]);
});
