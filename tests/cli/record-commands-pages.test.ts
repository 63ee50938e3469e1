import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { whatWasSaid } from '../../src/cli/draft/what-was-said.ts';
import { publishRevisions } from '../../src/cli/make/publish.ts';
import { recordShown } from '../../src/cli/on-record/workshop-record.ts';
import { readProposal } from '../../src/read/index.ts';
import { issuedRevisions, issueRevision, readEntries } from '../../src/record/index.ts';
import { makeCode } from '../../src/reply/index.ts';
import { stateSlot } from '../../src/site/client/index.ts';
import { makeWorkspace, request } from '../record/workshop.ts';
import { letterText, letterTo } from './answers.ts';
import { openRecordBench } from './record-bench.ts';

const utf8 = (text: string): Uint8Array => Buffer.from(text, 'utf8');
const today = { 'state.open': 'Open until {date}, says today.', 'state.run-out': 'Over since {date}.', 'state.closed': 'Closed.' };

/** A revision with one page whose slot is empty, and the texts of its day. */
async function issueWith(texts: Readonly<Record<string, string>>) {
  const { folder } = makeWorkspace();
  const view = { language: 'en-GB', texts, revision: { ordinal: 'First proposal', date: '11 February 2027', validUntil: '20 March 2027' } };
  const offer = {
    format: 'leafwright/offer/1',
    proposal: 'tarrow',
    revision: 'r1',
    language: 'en-GB',
    currency: 'EUR',
    date: '2027-02-11',
    validUntil: '2027-03-20',
    level: 'full',
    rule: 'all',
    people: [{ id: 'maren', audience: 'payer' }],
    terms: {},
    designs: [],
    instalments: [],
  };
  const page = `<p>r1</p>${stateSlot.open}${stateSlot.close}<p>end</p>`;
  await issueRevision(
    request(folder, 'r1', {
      data: [
        { path: 'client.json', bytes: utf8(JSON.stringify(view)) },
        { path: 'offer.json', bytes: utf8(JSON.stringify(offer)) },
      ],
      make: async () => [{ path: 'index.html', bytes: utf8(page) }],
    }),
  );
  return {
    folder,
    published: (day: string): string =>
      Buffer.from(publishRevisions(folder, issuedRevisions(folder, day), today)[0]?.bytes ?? []).toString(),
  };
}

test("the slot speaks in the words of the revision's own day, and in today's where it has none", async () => {
  const own = await issueWith({ 'state.open': 'I hold it open until {date}.' });
  expect(own.published('2027-03-01')).toBe(
    `<p>r1</p>${stateSlot.open}<div class="standing" data-answers="open"><p>I hold it open until 20 March 2027.</p></div>${stateSlot.close}<p>end</p>`,
  );
  expect(own.published('2027-03-21')).toContain('<p>Over since 20 March 2027.</p>');
  const bare = await issueWith({});
  expect(bare.published('2027-03-01')).toContain('<p>Open until 20 March 2027, says today.</p>');
});

test('a sentence of the slot is filled in with what its own page tells, and with no amount but its total', () => {
  const { input } = readProposal(new URL('../..', import.meta.url).pathname, 'tollefsen-quill');
  const sentences = Object.entries(input?.library.texts ?? {}).filter(([key]) => key.startsWith('state.'));
  const withAmount = sentences.filter(([, text]) => /\{(?:total|now)\}/.test(text)).map(([key]) => key);
  expect(withAmount.sort()).toEqual(['state.change-price', 'state.change-row', 'state.chosen-total']);
  for (const [, text] of sentences) expect(text).not.toMatch(/instalment|€|\$/);
  const kinds = ['approved', 'cancelled', 'closed', 'delivered', 'open', 'ordered', 'run-out', 'superseded', 'superseded-shut'];
  expect(kinds.filter((kind) => !sentences.some(([key]) => key === `state.${kind}`))).toEqual([]);
});

test("the workshop's page opens what is sealed; what was erased is said to be", async () => {
  const bench = openRecordBench();
  await bench.ordered();
  await bench.run(['note', 'tarrow', 'A little lower?', '--who', 'maren', '--how', 'visit']);
  const { input } = readProposal(bench.workspace, 'tarrow');
  if (input === undefined) throw new Error('not read');
  const { record, line } = recordShown(bench.folder, input, '2027-03-02T12:00:00Z');
  expect(record.entries.map(({ n, what, by }) => [n, what, by])).toEqual([
    [1, 'r1 issued', undefined],
    [2, 'yes to design A with ceramic of r1, €6,348.00', 'Maren Tollefsen'],
    [3, 'yes to design A with ceramic of r1, €6,348.00', 'Idris Quill'],
    [4, 'confirmed design A with ceramic of r1, €6,348.00; held until 2027-03-15', undefined],
    [5, '€2,539.20 paid for instalment 1', undefined],
    [6, 'note, visit', 'Maren Tollefsen'],
  ]);
  expect(record.openNotes).toEqual([{ n: 6, on: '2027-03-01', who: 'Maren Tollefsen', words: 'A little lower?' }]);
  expect(record.account).toMatchObject({ currency: 'EUR', paidMinor: 253_920, openMinor: 380_880 });
  expect(line).toMatchObject({ stage: 'ordered', openNotes: 1, next: 'answer note 6' });
  await bench.run('erase tarrow --person maren --yes');
  const after = recordShown(bench.folder, input, '2027-03-02T12:00:00Z').record;
  expect(after.openNotes[0]?.words).toBe('(erased)');
  expect(JSON.stringify(after.entries)).not.toContain('A little lower?');
});

test('an answer whose code came alone is by the name of its person; words beside a letter are shown, and stand in the next draft', async () => {
  const bench = openRecordBench();
  const r1 = await bench.issue('r1');
  const letter = letterText(letterTo(r1, 'maren', { remark: 'Oiled below too.' }));
  await bench.record(makeCode(letterTo(r1, 'idris')));
  await bench.record(`An inch lower, please.\n\n> ${letter.replaceAll('\n', '\n> ')}`);
  const { input } = readProposal(bench.workspace, 'tarrow');
  if (input === undefined) throw new Error('not read');
  const { record } = recordShown(bench.folder, input, '2027-03-02T12:00:00Z');
  expect(record.entries.map(({ by, words }) => [by, words])).toEqual([
    [undefined, undefined],
    ['Idris Quill', undefined],
    ['Maren Tollefsen', 'Oiled below too.\nbeside the letter: An inch lower, please.'],
  ]);
  const people = input.proposal.deciders.people;
  expect(whatWasSaid(bench.folder, readEntries(bench.folder), (person) => people[person]?.name ?? person)).toEqual([
    'Idris Quill, 2027-03-01, yes to A with ceramic',
    'Maren Tollefsen, 2027-03-01, yes to A with ceramic: “Oiled below too.”, and beside it “An inch lower, please.”',
  ]);
});

test('status says that a record with a line taken out can not be relied on, and tells it once', async () => {
  const bench = openRecordBench();
  await bench.ordered();
  expect((await bench.run('status tarrow')).code).toBe(0);
  const path = join(bench.folder, 'decisions.jsonl');
  const lines = readFileSync(path, 'utf8').split('\n');
  writeFileSync(path, lines.filter((_, i) => i !== 2).join('\n'));
  const { code, out, err } = await bench.run('status tarrow');
  expect([code, out]).toEqual([1, expect.stringContaining('tarrow')]);
  expect([...err.matchAll(/decisions\.jsonl:(\d+ [^\n]*)/g)].map(([, told]) => told)).toEqual([
    '3 counts itself as entry 4 and is the 3.',
    '3 does not fit entry 2: one of the two was changed',
  ]);
  expect(err).toContain('2 errors. What is told above can not be relied on.');
  expect(JSON.parse((await bench.run('status tarrow --json')).out).problems).toHaveLength(2);
});
