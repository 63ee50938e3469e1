import { execFileSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { makeSeal } from '../../src/record/chain/seal.ts';
import { canonicalJson, eraseRecords, finishInterrupted, issueRevision, openSeal, readEntries } from '../../src/record/index.ts';
import { verifyProposal } from '../../src/record/proof/verify.ts';
import { add, flipped, makeWorkspace, offered, place } from './workshop.ts';

const shown = 'proposals/tarrow';
const codes = ['cli/price-below-floor'];
const because = 'Maren paid my rent in the bad winter';
const random = new Uint8Array(16).fill(7);
const look = (folder: string) => verifyProposal(folder, shown, 'tarrow');
const chainOf = (folder: string): string => readFileSync(join(folder, 'decisions.jsonl'), 'utf8');

/** A note, and then a revision that was issued against a refusal. */
async function insistedOn() {
  const { folder } = makeWorkspace();
  await add(folder, { kind: 'note', on: '2027-02-10', how: 'visit' }, { words: 'a table' });
  const request = offered(folder, 'r1', { insisted: { codes, because, random } });
  const before = chainOf(folder);
  const { issued, problems } = await issueRevision(request);
  if (issued === undefined) throw new Error(JSON.stringify(problems));
  const entry = readEntries(folder).at(-1);
  const seal = entry?.sealed;
  if (seal === undefined) throw new Error('nothing is sealed');
  return { folder, entry, seal, before, request, content: readFileSync(join(folder, 'issued/r1/content.json'), 'utf8') };
}

describe('why the maker insisted on issuing', () => {
  test('is sealed: the revision holds codes and the digest, the entry the same digest, one file the words', async () => {
    const { folder, entry, seal, content } = await insistedOn();
    expect(JSON.parse(content)).toMatchObject({ insisted: codes, sealed: seal });
    expect(entry).toMatchObject({ kind: 'issued', revision: 'r1' });
    // SHA-256 of the 16 bytes of salt and of the data as canonical JSON, by sha256sum.
    const sum = execFileSync('sha256sum', { input: Buffer.concat([random, Buffer.from(canonicalJson({ reason: because }))]) });
    expect(seal.digest).toBe(sum.toString().slice(0, 64));
    expect(openSeal(folder, seal)).toEqual({ data: { reason: because } });
    const holding = readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((one) => one.isFile() && readFileSync(join(one.parentPath, one.name)).includes('bad winter'))
      .map((one) => join(one.parentPath, one.name).slice(folder.length + 1));
    expect(holding).toEqual([seal.file]);
    expect(look(folder).problems).toEqual([]);
  });

  test('can be erased, and the fingerprint and the chain still prove', async () => {
    const { folder, seal } = await insistedOn();
    await add(folder, { kind: 'paid', on: '2027-03-01', amountMinor: 100, currency: 'EUR', instalment: 1 }, { reason: 'Maren begged me' });
    await add(folder, { kind: 'paid', on: '2027-03-02', amountMinor: 100, currency: 'EUR', instalment: 1 }, { reason: 'cash in hand' });
    const erasure = { person: 'maren', names: ['Maren'], on: '2027-09-01' };
    const done = await eraseRecords(place(folder, '2027-09-01T09:00:00Z'), erasure);
    expect(done.files.filter((path) => path.startsWith('records/')).length).toBe(2);
    expect(readEntries(folder).map(({ sealed }) => (sealed === undefined ? undefined : openSeal(folder, sealed)))).toEqual([
      { data: { words: 'a table' } },
      'gone',
      'gone',
      { data: { reason: 'cash in hand' } },
      undefined,
    ]);
    expect([seal.file, look(folder).problems]).toEqual([expect.stringMatching(/^records\/2-07070707/), []]);
  });

  test('killed between the folder and the line: the next run gives the very line, and the words stay', async () => {
    const { folder, seal, before } = await insistedOn();
    const whole = chainOf(folder);
    writeFileSync(join(folder, 'decisions.jsonl'), before);
    writeFileSync(join(folder, 'records/adding.new-leafwright'), canonicalJson([seal.file]));
    expect(look(folder).problems.map(({ code, severity }) => [code, severity])).toEqual([
      ['record/unfinished', 'error'],
      ['record/unfinished', 'warning'],
      ['record/unfinished', 'warning'],
    ]);
    expect(finishInterrupted(folder, shown)).toEqual({ finished: ['r1'], problems: [] });
    expect([chainOf(folder), openSeal(folder, seal)]).toEqual([whole, { data: { reason: because } }]);
    expect(look(folder).problems).toEqual([]);
  });

  test('killed between the words and the folder: they go, and the same issue then succeeds', async () => {
    const { folder, seal, before, request } = await insistedOn();
    writeFileSync(join(folder, 'decisions.jsonl'), before);
    mkdirSync(join(folder, 'issued/.making-r1'));
    cpSync(join(folder, 'issued/r1'), join(folder, 'issued/.making-r1'), { recursive: true });
    rmSync(join(folder, 'issued/r1'), { recursive: true });
    writeFileSync(join(folder, 'records/adding.new-leafwright'), canonicalJson([seal.file]));
    expect(finishInterrupted(folder, shown)).toEqual({ finished: [], problems: [] });
    expect(existsSync(join(folder, seal.file))).toBe(false);
    expect((await issueRevision(request)).problems).toEqual([]);
    expect(look(folder).problems).toEqual([]);
  });

  test.each([
    ['gone', (path: string) => rmSync(path)],
    ['changed', (path: string) => writeFileSync(path, flipped(path, 60))],
  ])('words that are %s are never anchored in silence', async (_name, harm) => {
    const { folder, seal, before } = await insistedOn();
    writeFileSync(join(folder, 'decisions.jsonl'), before);
    harm(join(folder, seal.file));
    const { finished, problems } = finishInterrupted(folder, shown);
    expect([finished, problems]).toEqual([
      [],
      [
        expect.objectContaining({
          code: 'record/unfinished',
          title: 'proposals/tarrow/issued/r1 has no line in decisions.jsonl and can not be given one',
          found: `${seal.file}, the sealed reason, is gone or was changed`,
        }),
      ],
    ]);
  });

  test('other words under the same name are found; so is an entry that seals other words than its revision', async () => {
    const { folder, seal } = await insistedOn();
    const other = makeSeal(2, { reason: 'no reason at all' }, random);
    expect(other.file).toBe(seal.file);
    writeFileSync(join(folder, seal.file), other.bytes);
    expect(look(folder).problems.map(({ code }) => code)).toEqual(['record/file-changed']);
    const [first = '', last = ''] = chainOf(folder).trimEnd().split('\n');
    const forged = { ...JSON.parse(last), sealed: { file: other.file, digest: other.digest } };
    writeFileSync(join(folder, 'decisions.jsonl'), `${first}\n${canonicalJson(forged)}\n`);
    expect(look(folder).problems.map(({ title }) => title)).toEqual([
      'proposals/tarrow/issued/r1 and entry 2 of decisions.jsonl disagree about sealed',
    ]);
  });
});
