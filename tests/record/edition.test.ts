import { cpSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { listTree } from '../../src/record/disk/durable.ts';
import {
  careEditions,
  eraseRecords,
  finishInterrupted,
  issueRevision,
  makeEdition,
  readEntries,
  verifyProposal,
  verifyWorkspace,
} from '../../src/record/index.ts';
import { add, flipped, makeWorkspace, offered, place, request, tellAll, tellDelivery } from './workshop.ts';

/** Papers of what was handed over, as editions: a small made-up table with two of them. */
async function delivered() {
  const made = makeWorkspace();
  await tellAll(made.folder);
  const last = offered(made.folder, 'r3', { at: '2027-03-05T09:30:00Z' });
  await issueRevision({ ...last, page: 'maren', others: [{ page: 'idris', random: new Uint8Array(16).fill(9), make: last.make }] });
  const at = await tellDelivery(made.folder);
  return { ...made, at };
}

const look = (folder: string) => verifyProposal(folder, 'proposals/tarrow', 'tarrow').problems;
const codes = (folder: string): readonly string[] => look(folder).map(({ code }) => code);

describe('editions of the papers of a table', () => {
  test('are there, with one link for all of them, and proven', async () => {
    const { folder } = await delivered();
    expect(look(folder)).toEqual([]);
    const editions = careEditions(folder);
    expect(editions.map(({ entry }) => entry.edition)).toEqual([1, 2]);
    expect(new Set(editions.map(({ token }) => token)).size).toBe(1);
    expect(editions[1]?.filesOf('care').map(({ path }) => path)).toEqual(['care.ics', 'index.html']);
    expect(Buffer.from(editions[1]?.filesOf('care')[1]?.bytes ?? []).toString('utf8')).toBe('<p>RS-2026-07, edition 2</p>');
  });

  test('every byte of every file that is turned, taken away or put there is found', async () => {
    const { folder } = await delivered();
    const handed = join(folder, 'handed-over');
    let tried = 0;
    // The link lies outside of the lists, so that it can be renewed: it is tried below.
    for (const { path } of listTree(handed).filter((one) => one.path !== 'link.json')) {
      const file = join(handed, path);
      const bytes = readFileSync(file);
      for (let at = 0; at < bytes.length; at += 1) {
        writeFileSync(file, flipped(file, at));
        expect(codes(folder), `${path} at ${at}`).not.toEqual([]);
        writeFileSync(file, bytes);
        tried += 1;
      }
      rmSync(file);
      expect(codes(folder), path).not.toEqual([]);
      writeFileSync(file, bytes);
    }
    expect(tried).toBeGreaterThan(1000);
    writeFileSync(join(handed, '1', 'care', 'more.html'), '');
    expect(look(folder).map(({ title }) => title)).toEqual([
      'proposals/tarrow/handed-over/1/care/more.html was added after the papers were made',
    ]);
    rmSync(join(handed, '1', 'care', 'more.html'));
    mkdirSync(join(handed, 'other'));
    expect(codes(folder)).toEqual(['record/file-added']);
    rmSync(join(handed, 'other'), { recursive: true });
    expect(codes(folder)).toEqual([]);
  });

  test('one put in the place of another is found; so is a link that a revision has already', async () => {
    const { workspace, folder } = await delivered();
    const handed = join(folder, 'handed-over');
    renameSync(join(handed, '1'), join(handed, '9'));
    renameSync(join(handed, '2'), join(handed, '1'));
    renameSync(join(handed, '9'), join(handed, '2'));
    expect(codes(folder)).toEqual(['record/not-anchored', 'record/not-anchored']);
    renameSync(join(handed, '1'), join(handed, '9'));
    renameSync(join(handed, '2'), join(handed, '1'));
    renameSync(join(handed, '9'), join(handed, '2'));
    const { token } = JSON.parse(readFileSync(join(folder, 'issued', 'r1', 'link.json'), 'utf8')) as { readonly token: string };
    const link = join(handed, 'link.json');
    const { token: own } = JSON.parse(readFileSync(link, 'utf8')) as { readonly token: string };
    writeFileSync(link, readFileSync(link, 'utf8').replace(own, token));
    expect(verifyWorkspace(workspace, ['tarrow'])[0]?.problems.map(({ code }) => code)).toEqual(['record/link-twice']);
    for (const broken of ['', '{}', readFileSync(link, 'utf8').trimEnd(), readFileSync(link, 'utf8').replace(token, 'short')]) {
      writeFileSync(link, broken);
      expect(codes(folder)).toEqual(['record/link-broken']);
    }
  });

  test('a run that was killed before its entry leaves nothing that counts, and the next one clears it away', async () => {
    const { folder } = await delivered();
    const handed = join(folder, 'handed-over');
    cpSync(join(handed, '2'), join(handed, '3'), { recursive: true });
    cpSync(join(handed, '2'), join(handed, '.making-4'), { recursive: true });
    writeFileSync(join(handed, 'link.json.new-leafwright'), '{');
    expect(look(folder).map(({ code, severity }) => [code, severity])).toEqual(Array(3).fill(['record/unfinished', 'warning']));
    expect(careEditions(folder)).toHaveLength(2);
    expect(finishInterrupted(folder, 'proposals/tarrow').problems).toEqual([]);
    expect(readdirSync(handed).toSorted()).toEqual(['1', '2', 'link.json']);
    expect(look(folder)).toEqual([]);
  });

  test('when making fails, what stood stands', async () => {
    const { folder, at } = await delivered();
    const before = listTree(folder).map(({ path }) => path);
    const making = makeEdition({
      ...place(folder, '2032-01-01T09:00:00Z'),
      ...{ proposal: 'tarrow', program: 'leafwright 0.1.0', on: '2032-01-01', of: at['refinish'] ?? 0, random: new Uint8Array(16) },
      make: async () => [{ path: '../escaped', bytes: new Uint8Array(1) }],
    });
    await expect(making).rejects.toThrow(RangeError);
    expect(listTree(folder).map(({ path }) => path)).toEqual(before);
    expect(look(folder)).toEqual([]);
  });

  test('belong to a hand-over or a service, and come in order', async () => {
    const { folder } = await delivered();
    const { problems } = await makeEdition({
      ...place(folder, '2032-01-01T09:00:00Z'),
      ...{ proposal: 'tarrow', program: 'leafwright 0.1.0', on: '2032-01-01', of: 1, random: new Uint8Array(16), make: async () => [] },
    });
    expect(problems.map(({ code }) => code)).toEqual(['record/not-handed-over']);
    const n = readEntries(folder).length;
    await add(folder, { kind: 'care', on: '2032-01-01', edition: 7, of: 1, files: '0'.repeat(64) });
    expect(look(folder).map(({ title }) => title)).toContain(
      `proposals/tarrow/decisions.jsonl:${n + 1} is of entry 1, which is no hand-over and no service`,
    );
  });

  test('once a client is erased, the papers are gone and the care of the table stays, proven', async () => {
    const { folder } = await delivered();
    const { files } = await eraseRecords(place(folder, '2032-01-01T09:00:00Z'), {
      person: 'maren',
      names: ['Maren Tollefsen'],
      on: '2032-01-01',
    });
    expect(files.filter((path) => path.startsWith('handed-over/'))).toEqual([
      'handed-over/1/papers-maren/',
      'handed-over/1/papers/',
      'handed-over/2/papers-maren/',
      'handed-over/2/papers/',
    ]);
    expect(look(folder)).toEqual([]);
    const [first] = careEditions(folder);
    expect([first?.filesOf('papers').length, first?.filesOf('care').length]).toEqual([0, 2]);
    const left = listTree(join(folder, 'handed-over')).map(({ path }) => readFileSync(join(folder, 'handed-over', path), 'utf8'));
    expect(left.join('\n')).not.toContain('Maren');
  });
});

test('a revision after the hand-over is told apart from editions', async () => {
  const { folder } = await delivered();
  const issued = await issueRevision(request(folder, 'r4', { at: '2032-01-01T09:30:00Z' }));
  expect([issued.problems, look(folder)]).toEqual([[], []]);
});
