import { cpSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { listTree } from '../../src/record/disk/durable.ts';
import {
  eraseRecords,
  finishInterrupted,
  frozenInputs,
  frozenOut,
  issuedOffers,
  issuedRevisions,
  issueRevision,
  readEntries,
  standingOf,
} from '../../src/record/index.ts';
import { verifyProposal } from '../../src/record/proof/verify.ts';
import { add, flipped, heldAs, makeWorkspace, offered, place, request, tellAll } from './workshop.ts';

const look = (folder: string) => verifyProposal(folder, 'proposals/tarrow', 'tarrow');
const erase = (folder: string, person: string, names: readonly string[]) =>
  eraseRecords(place(folder, '2027-09-01T09:00:00Z'), { person, names, on: '2027-09-01' });
const all = (folder: string): string =>
  listTree(folder)
    .map(({ path }) => `${path}\n${readFileSync(join(folder, path), 'utf8')}`)
    .join('\n');

async function told() {
  const { folder } = makeWorkspace();
  await tellAll(folder);
  return folder;
}

describe('erasing a person', () => {
  test('takes the person’s words and files and what was issued; the rest still proves', async () => {
    const folder = await told();
    expect(all(folder)).toMatch(/Maren Tollefsen/);
    const done = await erase(folder, 'maren', ['Maren', 'Maren Tollefsen']);
    expect(done.problems).toEqual([]);
    expect(done.files).toEqual([
      'issued/r1/data/client.json',
      'issued/r1/in/proposals/',
      'issued/r1/out/',
      'issued/r2/data/client.json',
      'issued/r2/in/proposals/',
      'issued/r2/out/',
      expect.stringMatching(/^records\/1-/),
      'records/10-scope.pdf',
      expect.stringMatching(/^records\/15-/),
      expect.stringMatching(/^records\/6-/),
      expect.stringMatching(/^records\/9-/),
    ]);
    expect(all(folder)).not.toMatch(/Tollefsen|not like a school|less yellow|move house/);
    const verified = look(folder);
    expect(verified.problems).toEqual([]);
    expect(verified.erased.map(({ path, n }) => [path, n])).toEqual(done.files.map((path) => [path, 18]));
    expect(done.mentions).toEqual([7]);
  });

  test('what stays: offers, figures, lists, chain, and the words of the other; how it stands does not change', async () => {
    const folder = await told();
    const before = standingOf(readEntries(folder), issuedOffers(folder), '2027-09-01');
    await erase(folder, 'maren', []);
    expect(standingOf(readEntries(folder), issuedOffers(folder), '2027-09-01')).toEqual(before);
    expect(all(folder)).toContain('Idris Quill');
    expect(existsSync(join(folder, 'issued/r1/in/templates/woods.yaml'))).toBe(true);
    expect(existsSync(join(folder, 'records/8-signature.png'))).toBe(true);
    await erase(folder, 'idris', []);
    expect(all(folder)).not.toContain('Idris Quill');
    expect([existsSync(join(folder, 'records/8-signature.png')), look(folder).problems]).toEqual([false, []]);
  });

  test('a note without id, told by name, is the person’s; a name in another’s words is only named', async () => {
    const { folder } = makeWorkspace();
    const note = { kind: 'note', on: '2027-02-10', how: 'telephone' } as const;
    await add(folder, note, { who: 'bram', words: 'cards for five' });
    await add(folder, note, { who: 'Odile', words: 'Bram sits at the stove' });
    await add(folder, note, { who: 'Odile', words: 'no bollard' });
    const done = await erase(folder, 'bram', ['Bram']);
    expect([done.files.length, done.mentions]).toEqual([1, [2]]);
    expect(done.files[0]).toMatch(/^records\/1-/);
  });

  test('a page that was erased is published no more, nor is its link; a later one is', async () => {
    const folder = await told();
    await erase(folder, 'maren', []);
    expect(issuedRevisions(folder)).toEqual([]);
    expect([frozenOut(folder, 'r1'), frozenInputs(folder, 'r1').map(({ path }) => path)]).toEqual([[], ['templates/woods.yaml']]);
    await issueRevision(offered(folder, 'r3', { at: '2027-09-02T09:30:00Z' }));
    expect(issuedRevisions(folder).map(({ revision }) => revision)).toEqual(['r3']);
    expect(look(folder).problems).toEqual([]);
  });

  test('every page of a revision goes, of whatever reader', async () => {
    const { folder } = makeWorkspace();
    const make = async () => [{ path: 'index.html', bytes: Buffer.from('<p>Petra Lindqvaar</p>') }];
    const others = [{ page: 'wren', random: new Uint8Array(16).fill(9), make }];
    await issueRevision({ ...request(folder, 'r1'), page: 'lindqvaar', others });
    const done = await erase(folder, 'wren', []);
    expect(done.files).toEqual(['issued/r1/in/proposals/', 'issued/r1/out-wren/', 'issued/r1/out/']);
    expect(all(folder)).not.toContain('Petra Lindqvaar');
    expect(look(folder).problems).toEqual([]);
  });

  test('of somebody of whom there is nothing', async () => {
    const { folder } = makeWorkspace();
    await add(folder, { kind: 'lost', on: '2027-02-10', reason: 'price' });
    const done = await erase(folder, 'nobody', ['Nobody']);
    expect(done).toEqual({
      files: [],
      mentions: [],
      problems: [
        {
          code: 'record/nothing-to-erase',
          severity: 'error',
          title: 'the records of proposals/tarrow hold nothing more of nobody',
          path: [],
          mend: 'check the id with status; proposal.yaml and what stands in your mail are yours to clear',
        },
      ],
    });
    expect(readEntries(folder)).toHaveLength(1);
  });
});

describe('erased is not lost', () => {
  test('a sealed file that is gone without an entry is an error still, and so is a change in what stays', async () => {
    const folder = await told();
    await erase(folder, 'maren', []);
    const seal = listTree(join(folder, 'records')).find(({ path }) => path.startsWith('7-'))?.path ?? '';
    rmSync(join(folder, 'records', seal));
    writeFileSync(join(folder, 'issued/r1/data/offer.json'), flipped(join(folder, 'issued/r1/data/offer.json'), 9));
    expect(look(folder).problems.map(({ code }) => code)).toEqual(['record/file-changed', 'record/file-missing']);
  });

  test('killed between entry and removal, or brought back from a copy: verify tells, the next run finishes', async () => {
    const folder = await told();
    const copy = makeWorkspace();
    cpSync(folder, copy.folder, { recursive: true });
    const { files } = await erase(folder, 'maren', []);
    for (const path of ['issued/r1/out/index.html', 'issued/r2/data/client.json', files.at(-1) ?? '']) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      cpSync(join(copy.folder, path), join(folder, path));
    }
    const { problems } = look(folder);
    expect(problems.map(({ severity, code }) => [severity, code])).toEqual(Array(3).fill(['warning', 'record/unfinished']));
    expect(problems[0]?.title).toBe('proposals/tarrow/issued/r1/out/ was erased by entry 18 and is still there');
    expect(finishInterrupted(folder, 'proposals/tarrow').problems).toEqual([]);
    expect(look(folder).problems).toEqual([]);
    expect(existsSync(join(folder, 'issued/r1/out'))).toBe(false);
  });

  test('a scan that is recorded anew after it was erased stays', async () => {
    const { folder } = makeWorkspace();
    const bytes = Buffer.from('a scan');
    const attach = () =>
      add(
        folder,
        { kind: 'attached', on: '2027-02-11', to: 1, what: 'letter', person: 'maren', file: heldAs('records/files/a.png', bytes) },
        undefined,
        [{ path: 'records/files/a.png', bytes }],
      );
    await add(folder, { kind: 'note', on: '2027-02-10', how: 'visit' });
    await attach();
    await erase(folder, 'maren', []);
    expect(existsSync(join(folder, 'records/files/a.png'))).toBe(false);
    await attach();
    finishInterrupted(folder, 'proposals/tarrow');
    expect(existsSync(join(folder, 'records/files/a.png'))).toBe(true);
    expect(look(folder).problems).toEqual([]);
  });
});
