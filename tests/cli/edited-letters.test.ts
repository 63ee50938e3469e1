import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, onTestFinished, test } from 'vitest';
import { frozenPage } from '../../src/cli/draft/frozen-view.ts';
import { issuedOffers, openSeal, readEntries } from '../../src/record/index.ts';
import { makeReply } from '../../src/reply/index.ts';
import { letterOf } from '../../src/site/client/answer/compose.ts';
import { answerDataOf, sentencesOf } from '../../src/site/client/answer/of-view.ts';
import { runIn } from './run.ts';

/** The first demo that is open to answers, as it lies in the project: people, prices and addresses are invented. */
const demo = fileURLToPath(new URL('../../proposals/farrant', import.meta.url));

function bench(remark = '') {
  const workspace = mkdtempSync(join(tmpdir(), 'leafwright-letters-'));
  onTestFinished(() => rmSync(workspace, { recursive: true, force: true }));
  const folder = join(workspace, 'proposals', 'farrant');
  cpSync(demo, folder, { recursive: true });
  const [offer] = issuedOffers(folder);
  const view = offer === undefined ? undefined : frozenPage(folder, offer.revision, offer.fingerprint, 'payer');
  if (view?.letter === undefined) throw new Error('the demo has no letter');
  const filled = {
    verdict: 'yes',
    design: 'A',
    options: ['steel'],
    place: 0,
    name: 'Bram Farrant',
    remark,
    agrees: true,
  } as const;
  const { sentences, label } = sentencesOf(view, view.letter, filled);
  const [greeting = '', ...rest] = sentences;
  const words = { says: `${greeting}\n\n${rest.join('\n')}`, nameLabel: label, remarkLabel: 'I would add' };
  const ofPage = { ...view.letter, fingerprint: offer?.fingerprint.slice(0, 20) ?? '' };
  const letter = makeReply(letterOf(answerDataOf(view, ofPage), filled, '2026-02-20'), words);
  const mail = (from: string, text: string): string =>
    `From: ${from}\r\nTo: bench@stavely-tables.example.invalid\r\nDate: Fri, 20 Feb 2026 09:00:00 +0000\r\nMIME-Version: 1.0\r\nContent-Type: text/plain; charset=utf-8\r\nContent-Transfer-Encoding: 8bit\r\n\r\n${text.replaceAll('\n', '\r\n')}`;
  return {
    folder,
    letter,
    entries: () => readEntries(folder).length,
    record: async (text: string, from: string, ...args: readonly string[]) => {
      const file = join(workspace, 'reply.eml');
      writeFileSync(file, mail(from, text));
      return runIn(workspace, ['record', 'farrant', '--file', file, '--as-of', '2026-02-20', ...args]);
    },
  };
}
const bram = 'Bram <bram@farrant-home.example.invalid>';
const codes = (stderr: string): readonly string[] => [...stderr.matchAll(/\[(reply\/[a-z-]+)\]/g)].map(([, code = '']) => code);

/** Writes an address for the one who answers into the working file. */
function onFile(folder: string): void {
  const path = join(folder, 'proposal.yaml');
  const text = readFileSync(path, 'utf8');
  const with_ = text.replace('bram: { name: Bram Farrant', 'bram: { name: Bram Farrant, email: bram@farrant-home.example.invalid');
  expect(with_).not.toBe(text);
  writeFileSync(path, with_);
}

test('a letter as its page wrote it, from an address on file: recorded without a word', async () => {
  const { folder, letter, record } = bench();
  onFile(folder);
  const { status, stderr } = await record(letter, bram);
  expect([status, stderr]).toEqual([0, '']);
});

test('a sum that was edited above the code: refused with both, and with a reason recorded', async () => {
  const { folder, letter, record, entries } = bench();
  onFile(folder);
  const before = entries();
  const edited = letter.replace('The total is $5,958.95', 'The total is $4,958.95');
  expect(edited).not.toBe(letter);
  const refused = await record(edited, bram);
  expect([refused.status, codes(refused.stderr), entries()]).toEqual([1, ['reply/sentences-differ'], before]);
  expect(refused.stderr).toMatch(/the letter says “The total is \$4,958\.95, .*”, and its code was made for “The total is \$5,958\.95, /s);
  const held = await record(edited, bram, '--insist', 'he mistyped it, and said so');
  expect([held.status, codes(held.stderr)]).toEqual([0, ['reply/sentences-differ']]);
  expect(readEntries(folder).at(-1)).toMatchObject({ insisted: ['reply/sentences-differ'], chosen: { totalMinor: 595_895 } });
});

test('words put between the sentences: recorded, and shown', async () => {
  const { folder, letter, record } = bench();
  onFile(folder);
  const { status, stderr } = await record(letter.replace('\nWith:', '\nBut an inch lower.\nWith:'), bram);
  expect([status, codes(stderr)]).toEqual([0, ['reply/sentences-differ']]);
  expect(stderr).toContain('in the middle of the letter was written: “But an inch lower.”');
});

test('an address that nobody has on file: recorded, with a warning that names the address and who is claimed', async () => {
  const { letter, record } = bench();
  const { status, stderr } = await record(letter, 'Bram Farrant <someone@elsewhere.example.invalid>');
  expect([status, codes(stderr)]).toEqual([0, ['reply/sender-unknown']]);
  expect(stderr).toContain('the mail came from someone@elsewhere.example.invalid, which is on file with nobody');
  expect(stderr).toContain('in the name of Bram Farrant (bram)');
});

test('a letter that the maker sent on to themselves is from no stranger', async () => {
  const { letter, record } = bench();
  const { stderr } = await record(letter, 'Runa Stavely <BENCH@stavely-tables.example.invalid>');
  expect(stderr).toBe('');
});

test('the lines of a question that came back otherwise: told, and what the maker read decides', async () => {
  const workspace = mkdtempSync(join(tmpdir(), 'leafwright-question-'));
  onTestFinished(() => rmSync(workspace, { recursive: true, force: true }));
  const folder = join(workspace, 'proposals', 'farrant');
  cpSync(demo, folder, { recursive: true });
  const run = (...args: readonly string[]) => runIn(workspace, ['record', 'farrant', ...args, '--as-of', '2026-02-20']);
  expect((await run('Yes, the disc.', '--who', 'bram', '--understood', 'A steel')).status).toBe(0);
  const asked = readEntries(folder).find(({ kind }) => kind === 'asked')?.n;
  const draft = readFileSync(join(folder, 'outbox', `confirm-${asked}-bram.txt`), 'utf8');
  const quoted = (text: string): string =>
    `Yes!\n\nOn Thu, 19 Feb 2026, Runa Stavely wrote:\n\n${text.trimEnd().replaceAll(/^/gm, '> ')}\n`;
  const edited = draft.replace('total: $5,958.95', 'total: $4,958.95');
  expect(edited).not.toBe(draft);
  const told = await run(quoted(edited), '--yes');
  expect([told.status, codes(told.stderr)]).toEqual([0, ['reply/sentences-differ']]);
  expect(told.stderr).toMatch(/the letter says “total: \$4,958\.95.*code was made for “total: \$5,958\.95/s);
});

test('and as it was sent, quoted or trimmed to its last lines: without a word', async () => {
  for (const trim of [false, true]) {
    const workspace = mkdtempSync(join(tmpdir(), 'leafwright-question-'));
    onTestFinished(() => rmSync(workspace, { recursive: true, force: true }));
    const folder = join(workspace, 'proposals', 'farrant');
    cpSync(demo, folder, { recursive: true });
    const run = (...args: readonly string[]) => runIn(workspace, ['record', 'farrant', ...args, '--as-of', '2026-02-20']);
    await run('Yes, the disc.', '--who', 'bram', '--understood', 'A steel');
    const asked = readEntries(folder).find(({ kind }) => kind === 'asked')?.n;
    const draft = readFileSync(join(folder, 'outbox', `confirm-${asked}-bram.txt`), 'utf8');
    const text = trim ? draft.split('\n').slice(-5).join('\n') : draft;
    const { status, stderr } = await run(`Yes!\n\n${text.trimEnd().replaceAll(/^/gm, '> ')}\n`, '--yes');
    expect([trim, status, stderr]).toEqual([trim, 0, '']);
  }
});

test('the header fields of a copied mail over a letter are not told as words, and hide none', async () => {
  const fields =
    'Von: Bram Farrant <bram@home.example.invalid>\nGesendet: Samstag, 14. Februar 2026\nAn: Runa Stavely\nBetreff: Antwort\n\n';
  for (const top of [fields, `-----Original Message-----\n${fields}`]) {
    const { folder, letter, record } = bench();
    onFile(folder);
    const { status, stdout } = await record(`${top}Lovely! But an inch lower, please.\n\n${letter}\n\nPS: no glides.\n`, bram);
    expect(status).toBe(0);
    expect(stdout).toContain('for you to weigh:\n  | Lovely! But an inch lower, please.\n  |\n  | PS: no glides.\n');
    expect(stdout).not.toMatch(/Betreff|Von:/);
  }
});

test('words above and below an unquoted letter: shown with the answer, sealed with it, and how to keep them open is told', async () => {
  const { folder, letter, record } = bench();
  onFile(folder);
  const { status, stdout } = await record(`Lovely! But an inch lower, please.\n\n${letter}\n\nPS: no glides.\n`, bram);
  expect(status).toBe(0);
  expect(stdout).toContain(
    'beside the letter was written, and is for you to weigh:\n  | Lovely! But an inch lower, please.\n  |\n  | PS: no glides.\nwhat is asked for there is kept open by: leafwright note farrant "what it is" --who bram\n',
  );
  const sealed = readEntries(folder).at(-1)?.sealed;
  expect(sealed === undefined ? undefined : openSeal(folder, sealed)).toMatchObject({
    data: { own: 'Lovely! But an inch lower, please.\n\nPS: no glides.' },
  });
});

test('a letter whose code was recorded alone is recorded again once its words come, and only once', async () => {
  const { folder, letter, record, entries } = bench('The underside oiled too.');
  onFile(folder);
  expect((await record(letter.slice(letter.indexOf('LW1')), bram)).status).toBe(0);
  const alone = entries();
  const whole = await record(letter, bram);
  expect([whole.status, entries()]).toEqual([0, alone + 1]);
  expect(whole.stdout).toContain('with the remark:\n  | The underside oiled too.\n');
  for (const again of [letter, letter.slice(letter.indexOf('LW1'))])
    expect((await record(again, bram)).stdout).toContain(`on record already as entry ${alone + 1}`);
});

test('a remark that was changed after its letter was recorded: refused, for its code was made with another', async () => {
  const { folder, letter, record, entries } = bench('The underside oiled too.');
  onFile(folder);
  expect((await record(letter, bram)).status).toBe(0);
  const before = entries();
  const changed = await record(letter.replace('oiled too', 'left raw'), bram);
  expect([changed.status, codes(changed.stderr), entries()]).toEqual([1, ['reply/words-differ'], before]);
});
