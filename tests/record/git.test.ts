import { execFileSync, spawnSync } from 'node:child_process';
import { copyFileSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { type Addition, type AnyBody, addEntry, issueRevision, sha256Hex } from '../../src/record/index.ts';
import { verifyWorkspace } from '../../src/record/proof/verify.ts';
import { add, heldAs, makeWorkspace, offered, place, tellAll } from './workshop.ts';

/** Git as it comes, without the settings of who runs the tests. */
const alone = {
  ...process.env,
  GIT_CONFIG_GLOBAL: '/dev/null',
  GIT_CONFIG_SYSTEM: '/dev/null',
  ...Object.fromEntries(
    ['AUTHOR', 'COMMITTER'].flatMap((who) => [
      [`GIT_${who}_NAME`, 'Maker'],
      [`GIT_${who}_EMAIL`, 'maker@workshop.invalid'],
    ]),
  ),
};
const git = (at: string, ...words: readonly string[]): string =>
  execFileSync('git', words, { cwd: at, env: alone, encoding: 'utf8', stdio: 'pipe' });

const look = (workspace: string) => {
  const [verified] = verifyWorkspace(workspace, ['tarrow']);
  if (verified === undefined) throw new Error('nothing verified');
  return verified;
};
const short = (text: string | undefined): string => (text ?? '').replaceAll('proposals/tarrow/', '');
const linesOf = (folder: string): readonly string[] => readFileSync(join(folder, 'decisions.jsonl'), 'utf8').split('\n');

/** A workspace under git, with the attributes that this project's own has. */
function underGit(): { readonly workspace: string; readonly folder: string } {
  const made = makeWorkspace();
  copyFileSync(fileURLToPath(new URL('../../.gitattributes', import.meta.url)), join(made.workspace, '.gitattributes'));
  git(made.workspace, 'init', '-q', '-b', 'main');
  return made;
}

function commit(workspace: string, says: string): void {
  git(workspace, 'add', '-A');
  git(workspace, 'commit', '-q', '-m', says);
}

describe('a record under git', () => {
  test.each(['true', 'input', 'false'])('a clone with core.autocrlf=%s is proven, to the byte', async (setting) => {
    const { workspace, folder } = underGit();
    await tellAll(folder);
    /** Line ends of another system, in what the maker wrote and in what was attached: nothing may turn them. */
    const windows = Buffer.from('title: A table\r\nwidth: 850 mm\r\n');
    const inputs = [{ path: 'proposals/tarrow/proposal.yaml', bytes: windows }];
    expect((await issueRevision(offered(folder, 'r3', { at: '2027-03-05T09:30:00Z', inputs }))).problems).toEqual([]);
    const letter = heldAs('records/files/19-letter.txt', windows);
    await add(folder, { kind: 'attached', on: '2027-03-06', to: 1, what: 'letter', file: letter }, undefined, [
      { path: letter.path, bytes: windows },
    ]);
    commit(workspace, 'the record');
    const copy = makeWorkspace();
    rmSync(copy.workspace, { recursive: true });
    git(workspace, 'clone', '-q', '-c', `core.autocrlf=${setting}`, '-c', 'core.eol=crlf', workspace, copy.workspace);
    expect(look(copy.workspace)).toEqual(look(workspace));
    expect(look(copy.workspace).problems).toEqual([]);
    expect(readFileSync(join(copy.folder, 'decisions.jsonl'))).toEqual(readFileSync(join(folder, 'decisions.jsonl')));
  });

  /** The desk and the laptop add one entry each to the same record; the desk then merges the laptop's branch. */
  async function parted(onDesk: (folder: string) => Promise<unknown>, onLaptop: (folder: string) => Promise<unknown>, style = 'merge') {
    const { workspace, folder } = underGit();
    await issueRevision(offered(folder, 'r1'));
    commit(workspace, 'first');
    git(workspace, 'checkout', '-q', '-b', 'laptop');
    await onLaptop(folder);
    commit(workspace, 'on the laptop');
    git(workspace, 'checkout', '-q', 'main');
    await onDesk(folder);
    commit(workspace, 'at the desk');
    const { status } = spawnSync('git', ['-c', `merge.conflictStyle=${style}`, 'merge', '-q', 'laptop'], { cwd: workspace, env: alone });
    return { workspace, folder, status };
  }
  const said = (folder: string, on: string, seed: number, body: AnyBody, words: string, files: Addition['files'] = []) =>
    addEntry(place(folder, `${on}T10:00:00Z`), () => ({
      body,
      sealed: { data: { person: 'maren', words }, random: new Uint8Array(16).fill(seed) },
      files,
    }));
  const atDesk = (folder: string) =>
    said(folder, '2027-02-12', 0xdd, { kind: 'note', on: '2027-02-12', how: 'visit', person: 'maren' }, 'thinner legs');
  const photograph = Buffer.from('a photograph');
  const picture = heldAs('records/files/2-sample.jpg', photograph);
  const onLaptop = (folder: string) =>
    said(
      folder,
      '2027-02-13',
      0xaa,
      { kind: 'sample', on: '2027-02-13', person: 'maren', sample: 'S-041', of: 'sample', verdict: 'yes', keeps: 'maker', picture },
      'lighter',
      [{ path: picture.path, bytes: photograph }],
    );

  /** @source git, git-merge(1), "How conflicts are presented": the marks of both styles */
  test.each([
    ['merge', '2, 4, 6'],
    ['diff3', '2, 4, 5, 7'],
  ])('two branches with an entry each (marks in the manner %s): one message, and after mending all is content', async (style, marks) => {
    const { workspace, folder, status } = await parted(atDesk, onLaptop, style);
    expect(status).toBe(1);
    const merged = look(workspace);
    expect(merged.problems.map(({ code, title, found, mend }) => [code, short(title), found, mend])).toEqual([
      [
        'record/merged',
        `decisions.jsonl:3 and :${style === 'merge' ? 5 : 6} are both entry 2: two copies of the record were put into one`,
        `line 3: note of 2027-02-12 with records/2-dddddddd.json; against line ${style === 'merge' ? 5 : 6}: sample of 2027-02-13 with records/files/2-sample.jpg and records/2-aaaaaaaa.json`,
        `keep the lines of one copy, delete those of the other and git's marks (lines ${marks}), then record again what these said; what lies beside the deleted lines goes as well, once it is recorded again`,
      ],
    ]);
    const [first = ''] = linesOf(folder);
    expect([merged.entries, merged.head]).toEqual([1, sha256Hex(first)]);

    const ours = linesOf(folder)[2] ?? '';
    writeFileSync(join(folder, 'decisions.jsonl'), `${first}\n${ours}\n`);
    const left = look(workspace).problems.map(({ code, title, mend }) => [code, short(title), short(mend)]);
    const leftOver = (path: string): readonly string[] => [
      'record/file-added',
      `${path} is named by no entry`,
      `if its line was deleted after git merged two copies: record again what it holds, then delete ${path}; else take decisions.jsonl back from your copy`,
    ];
    expect(left).toEqual([leftOver('records/2-aaaaaaaa.json'), leftOver('records/files/2-sample.jpg')]);

    const again = heldAs('records/files/3-sample.jpg', photograph);
    const added = await said(
      folder,
      '2027-02-14',
      0xab,
      { kind: 'sample', on: '2027-02-13', person: 'maren', sample: 'S-041', of: 'sample', verdict: 'yes', keeps: 'maker', picture: again },
      'lighter',
      [{ path: again.path, bytes: photograph }],
    );
    expect([added.entry?.n, added.problems]).toEqual([3, []]);
    for (const path of ['records/2-aaaaaaaa.json', 'records/files/2-sample.jpg']) rmSync(join(folder, path));
    expect([look(workspace).problems, look(workspace).entries]).toEqual([[], 3]);
    commit(workspace, 'merged');
    expect(look(workspace).problems).toEqual([]);
  });

  test('both issued the next revision: one message, whatever git made of its files', async () => {
    const { workspace, folder } = await parted(
      (at) => issueRevision(offered(at, 'r2')),
      (at) => issueRevision(offered(at, 'r2', { at: '2027-02-13T09:30:00Z', random: new Uint8Array(16).fill(7) })),
    );
    const [problem, ...more] = look(workspace).problems;
    expect(more).toEqual([]);
    expect([problem?.code, problem?.found]).toEqual([
      'record/merged',
      'line 3: issued of 2027-02-12 with issued/r2; against line 5: issued of 2027-02-13 with issued/r2',
    ]);
    git(workspace, 'checkout', '-q', '--ours', '--', 'proposals/tarrow');
    expect(look(workspace).problems).toEqual([]);
    expect(look(workspace).entries).toBe(2);
    expect(linesOf(folder)).toHaveLength(3);
  });

  test('lines put one after the other, as merge=union does: the same message, and only what both have is counted', async () => {
    const { workspace, folder } = await parted(atDesk, onLaptop);
    const lines = linesOf(folder).filter((line) => line.startsWith('{'));
    expect(lines).toHaveLength(3);
    writeFileSync(join(folder, 'decisions.jsonl'), `${lines.join('\n')}\n`);
    expect(look(workspace).problems.map(({ code }) => code)).toEqual(['record/merged']);
    expect(look(workspace).entries).toBe(1);
  });
});
