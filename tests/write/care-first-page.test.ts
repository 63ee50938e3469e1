/** What an owner needs tonight stands on the first page of the care note, whatever the finish and the paper. Read back by poppler. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { careViewOf, composeCare } from '../../src/care/index.ts';
import { openDocumentFonts } from '../../src/cli/draft/fonts.ts';
import { writeCare } from '../../src/write/client/index.ts';
import { finishes } from '../care/read-rules.ts';
import { day, finish, input, wood } from '../care/tables.ts';
import { textsOf } from '../client/commission.ts';

const folder = mkdtempSync(join(tmpdir(), 'leafwright-first-page-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const fonts = openDocumentFonts();
const letters = (text: string): string => text.replaceAll(/[^\p{L}\p{N}]/gu, '');

/** Brought the day after its last coat in the month with the longest name, in a wood of a long name, its first days all to be told. */
const tableOf = (id: string, language: 'en-GB' | 'en-US') =>
  input({
    ...{ finish: finish(id), language, texts: textsOf(language), woods: [wood('hickory-shagbark')] },
    ...{ finishedOn: day('2027-09-23'), deliveredOn: day('2027-09-24') },
    place: { humidityLowPercent: 25, humidityHighPercent: 70, facts: ['daily-spills', 'children'] },
  });

const frame = {
  ...{ piece: 'RS-2027-07', edition: 1, on: day('2027-09-24'), use: 'dining', isRound: false, botanical: {} },
  maker: {
    name: 'Runa Stave',
    trade: 'tables',
    address: '3 Invented Lane',
    telephone: '+000 55 0147',
    email: 'r@example.invalid',
    isInvented: true,
  },
  overallMm: { length: 2100, width: 820, height: 745 },
} as const;

describe.each([
  ['a4', 'en-GB'],
  ['letter', 'en-US'],
] as const)('on %s', (paper, language) => {
  test.each(Object.keys(finishes))('%s: every kind of spill, whom to call and the first days', async (id) => {
    const table = tableOf(id, language);
    const view = careViewOf(table, composeCare(table), { ...frame, paper });
    const file = join(folder, `${id}-${paper}.pdf`);
    writeFileSync(file, await writeCare(view, fonts));
    const first = execFileSync('pdftotext', ['-l', '1', file, '-'], { encoding: 'utf8' });
    const [spills, days] = view.note.sections;
    expect([spills?.id, days?.id, spills?.spills?.length]).toEqual(['spills', 'first-days', 6]);
    const needed = [
      ...(spills?.lines ?? []),
      ...(spills?.spills ?? []).flatMap(({ steps, stop }) => [...steps, ...stop]),
      ...(days?.lines ?? []),
    ];
    expect(needed.length).toBeGreaterThan(20);
    const read = letters(first);
    // The number stands in every foot too: what is asked for here is whom to call in doubt.
    expect(read).toContain(letters('Not sure? Stop, and call me: +000 55 0147'));
    expect(needed.filter(({ text }) => !read.includes(letters(text))).map(({ rule }) => rule)).toEqual([]);
  });
});
