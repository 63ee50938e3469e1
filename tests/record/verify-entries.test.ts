import { appendFileSync, copyFileSync, cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { nextEntry, readChain } from '../../src/record/chain/chain.ts';
import { listTree } from '../../src/record/disk/durable.ts';
import { canonicalJson, type Json, sha256Hex } from '../../src/record/index.ts';
import { checkBeside } from '../../src/record/proof/check-beside.ts';
import { checkChain } from '../../src/record/proof/check-chain.ts';
import { verifyProposal } from '../../src/record/proof/verify.ts';
import { add, flipped, heldAs, makeWorkspace, offered, tellAll } from './workshop.ts';

const look = (folder: string) => verifyProposal(folder, 'proposals/tarrow', 'tarrow');
const said = (folder: string): readonly string[] => look(folder).problems.map(({ title }) => title.replaceAll('proposals/tarrow/', ''));
const chainPath = (folder: string): string => join(folder, 'decisions.jsonl');
const linesOf = (folder: string): readonly string[] => readFileSync(chainPath(folder), 'utf8').trimEnd().split('\n');

/** Adds a line that fits the chain and says what no command would. */
function forge(folder: string, body: Readonly<Record<string, Json>>): void {
  const { head } = readChain(folder);
  const entry = nextEntry(head, { at: '2027-04-01T09:00:00Z', zone: 'Europe/London', kind: 'note', ...body });
  appendFileSync(chainPath(folder), `${canonicalJson(entry)}\n`);
}

/** The part of verify that is nearest to a file is asked first, and the whole of it where that finds nothing. */
function isFound(folder: string, path: string): boolean {
  const chain = readChain(folder);
  const near = path === 'decisions.jsonl' ? checkChain(chain, path) : checkBeside(folder, 'x', chain);
  return [...near, ...(near.length > 0 ? [] : look(folder).problems)].some(({ severity }) => severity === 'error');
}

async function whole(): Promise<{ readonly folder: string; readonly at: Readonly<Record<string, number>> }> {
  const { folder } = makeWorkspace();
  return { folder, at: await tellAll(folder) };
}

describe('verify, of every kind of entry', () => {
  test('says what stands, where the record ends, and what nothing anchors', async () => {
    const { folder } = await whole();
    writeFileSync(join(folder, 'proposal.yaml'), 'title: the next draft\n');
    const verified = look(folder);
    expect(verified.problems).toEqual([]);
    expect([verified.entries, verified.anchoredTo]).toEqual([17, 17]);
    expect(verified.unanchored).toEqual(['proposal.yaml', 'issued/r1/link.json', 'issued/r2/link.json']);
    await add(folder, { kind: 'note', on: '2027-03-05', how: 'visit' });
    expect([look(folder).entries, look(folder).anchoredTo]).toEqual([18, 17]);
  });

  test('proves a copy elsewhere', async () => {
    const { folder } = await whole();
    const copy = makeWorkspace();
    cpSync(folder, copy.folder, { recursive: true });
    expect(look(copy.folder)).toEqual(look(folder));
  });

  test('finds every byte that is changed, in every file of the record, by any one bit', async () => {
    const { folder } = await whole();
    const files = listTree(folder).filter(({ path }) => path === 'decisions.jsonl' || path.startsWith('records/'));
    expect(files).toHaveLength(13);
    const missed: string[] = [];
    for (const { path } of files) {
      const full = join(folder, path);
      const before = readFileSync(full);
      for (let at = 0; at < before.length; at += 1) {
        const bytes = Buffer.from(before);
        bytes[at] = (before[at] ?? 0) ^ (1 << (at % 8));
        writeFileSync(full, bytes);
        if (!isFound(folder, path)) missed.push(`${path} byte ${at}`);
      }
      writeFileSync(full, before);
    }
    expect(missed).toEqual([]);
    expect(look(folder).problems).toEqual([]);
  });

  test('finds a letter of a salt whose case was turned: the same number, other bytes', async () => {
    const { folder } = await whole();
    const seal = listTree(join(folder, 'records')).find(({ path }) => /^1-/.test(path))?.path ?? '';
    const path = join(folder, 'records', seal);
    const text = readFileSync(path, 'utf8');
    writeFileSync(
      path,
      text.replace(/"salt":"(\w+)"/, (all) => all.toUpperCase().replace('SALT', 'salt')),
    );
    expect(said(folder)).toEqual([`records/${seal}, the sealed words of entry 1, was changed`]);
  });

  test('finds every line that is taken out, but the last', async () => {
    const { folder } = await whole();
    const lines = linesOf(folder);
    for (let out = 0; out < lines.length - 1; out += 1) {
      writeFileSync(chainPath(folder), `${lines.filter((_, i) => i !== out).join('\n')}\n`);
      expect(said(folder)[0], `line ${out + 1}`).toMatch(
        out === 0 ? /points to one before it|counts itself/ : /counts itself|does not fit/,
      );
    }
  });

  test('names a file of the record that is gone, changed, or that nothing names', async () => {
    const { folder } = await whole();
    rmSync(join(folder, 'records/8-signature.png'));
    writeFileSync(join(folder, 'records/10-scope.pdf'), flipped(join(folder, 'records/10-scope.pdf'), 3));
    writeFileSync(join(folder, 'records/photo.jpg'), 'x');
    expect(said(folder)).toEqual([
      'records/8-signature.png, the file of entry 8, is gone',
      'records/10-scope.pdf, the file of entry 10, was changed',
      'records/photo.jpg is named by no entry',
    ]);
  });

  test.each<[string, Readonly<Record<string, Json>>, string]>([
    [
      'a kind to come',
      { kind: 'warranty', on: '2027-04-01' },
      'decisions.jsonl:18 is of the kind "warranty", which this program does not know',
    ],
    [
      'the name of something else',
      { kind: 'constructor' },
      'decisions.jsonl:18 is of the kind "constructor", which this program does not know',
    ],
    [
      'a field too many',
      { on: '2027-04-01', how: 'visit', mood: 'glad' },
      'decisions.jsonl:18 does not hold what belongs to the kind note',
    ],
    ['a field too few', { on: '2027-04-01' }, 'decisions.jsonl:18 does not hold what belongs to the kind note'],
    ['a note that is none', { kind: 'note-settled', note: 2, as: 'dropped' }, 'decisions.jsonl:18 points to entry 2, which is not a note'],
    [
      'a later note',
      { kind: 'note-settled', note: 19, as: 'dropped' },
      'decisions.jsonl:18 points to entry 19, which does not come before it',
    ],
    [
      'seals out of the folder',
      { on: '2027-04-01', how: 'visit', sealed: { file: '../x.json', digest: 'f'.repeat(64) } },
      'proposals/tarrow/../x.json',
    ],
    [
      'erasing the proof',
      { kind: 'erased', on: '2027-04-01', person: 'maren', files: ['issued/r1/content.json'] },
      'decisions.jsonl:18 erases issued/r1/content.json, which the proof needs',
    ],
    [
      'erasing elsewhere',
      { kind: 'erased', on: '2027-04-01', person: 'maren', files: ['records/../../../x'] },
      'decisions.jsonl:18 erases records/../../../x, which the proof needs',
    ],
  ])('an entry that fits the chain and can not be: %s', async (_name, body, title) => {
    const { folder } = await whole();
    forge(folder, body);
    expect(
      look(folder)
        .problems.map((problem) => problem.title)
        .join('; '),
    ).toContain(title);
  });

  test('an entry that points to a later one, or speaks of a revision that was issued after it', async () => {
    const { folder } = await whole();
    forge(folder, { kind: 'note-settled', note: 19, as: 'dropped' });
    forge(folder, { kind: 'note', on: '2027-04-01', how: 'visit' });
    expect(said(folder)).toEqual(['decisions.jsonl:18 points to entry 19, which does not come before it']);
    const early = makeWorkspace();
    forge(early.folder, { kind: 'evidence', on: '2027-04-01', how: 'visit', revision: 'r1' });
    const { issueRevision } = await import('../../src/record/index.ts');
    expect((await issueRevision(offered(early.folder, 'r1', { at: '2027-04-02T09:30:00Z' }))).problems).toEqual([]);
    expect(said(early.folder)).toEqual(['decisions.jsonl:1 names r1, which was not issued before it']);
  });

  test('an answer to what was never issued, or never offered', async () => {
    const { folder } = await whole();
    const { fingerprint } = look(folder).revisions[0] ?? { fingerprint: '' };
    const answer = (more: Readonly<Record<string, Json>>, of: Readonly<Record<string, Json>> = {}): string => {
      const before = readFileSync(chainPath(folder));
      const chosen = { revision: 'r1', fingerprint, design: 'A', options: ['ceramic'], totalMinor: 634_800, currency: 'EUR', ...of };
      forge(folder, {
        kind: 'answer',
        on: '2027-04-01',
        person: 'maren',
        verdict: 'yes',
        revision: 'r1',
        fingerprint,
        chosen,
        by: 'code',
        ...more,
      });
      const found = said(folder).join('; ');
      writeFileSync(chainPath(folder), before);
      return found;
    };
    expect(answer({})).toBe('');
    expect(answer({ fingerprint: 'a'.repeat(64) })).toBe('decisions.jsonl:18 answers r1 by a fingerprint that was not issued before it');
    expect(answer({}, { design: 'D' })).toBe('decisions.jsonl:18 names design D, which r1 does not offer');
    expect(answer({}, { options: ['gold'] })).toBe('decisions.jsonl:18 names design A with gold, which r1 does not offer');
    expect(answer({}, { totalMinor: 1 })).toBe('decisions.jsonl:18 names a total of 1, and r1 offers it at 634800 (in minor units)');
    expect(answer({ insisted: ['reply/total-differs'] }, { totalMinor: 1 })).toBe('');
    expect(answer({ verdict: 'no', design: 'Z' }, {})).toBe('');
  });
});

/** @source git, gitattributes(5): `merge=union` puts both sides' lines one after the other; else its marks of conflict */
describe('two copies that git merged', () => {
  async function forked(): Promise<{ readonly folder: string; readonly ours: readonly string[]; readonly theirs: readonly string[] }> {
    const { folder } = makeWorkspace();
    const { issueRevision } = await import('../../src/record/index.ts');
    await issueRevision(offered(folder, 'r1'));
    const other = makeWorkspace();
    cpSync(folder, other.folder, { recursive: true });
    await add(folder, { kind: 'note', on: '2027-02-12', how: 'visit' });
    await add(folder, { kind: 'stage', on: '2027-02-13', stage: 'cut' });
    await add(other.folder, { kind: 'lost', on: '2027-02-14', reason: 'price' });
    return { folder, ours: linesOf(folder), theirs: linesOf(other.folder).slice(1) };
  }

  test('line by line: one message with both lines, what each is, and how to mend', async () => {
    const { folder, ours, theirs } = await forked();
    writeFileSync(chainPath(folder), `${[...ours, ...theirs].join('\n')}\n`);
    expect(look(folder).problems).toEqual([
      {
        code: 'record/merged',
        severity: 'error',
        title: 'proposals/tarrow/decisions.jsonl:2 and :4 are both entry 2: two copies of the record were put into one',
        path: [],
        found: 'line 2: note of 2027-02-12, line 3: stage of 2027-02-13; against line 4: lost of 2027-02-14',
        mend: 'keep the lines of one copy, delete those of the other, then record again what these said',
      },
    ]);
    expect((await add(folder, { kind: 'note', on: '2027-02-15', how: 'visit' })).problems.map(({ code }) => code)).toEqual([
      'record/merged',
    ]);
  });

  test('with marks of conflict', async () => {
    const { folder, ours, theirs } = await forked();
    const [first, ...rest] = ours;
    writeFileSync(chainPath(folder), `${[first, '<<<<<<< HEAD', ...rest, '=======', ...theirs, '>>>>>>> laptop'].join('\n')}\n`);
    const [problem, ...more] = look(folder).problems;
    expect(more).toEqual([]);
    expect(problem?.title).toBe('proposals/tarrow/decisions.jsonl:3 and :6 are both entry 2: two copies of the record were put into one');
    expect(problem?.mend).toBe(
      "keep the lines of one copy, delete those of the other and git's marks (lines 2, 5, 7), then record again what these said",
    );
    writeFileSync(chainPath(folder), `${ours.join('\n')}\n`);
    expect(look(folder).problems).toEqual([]);
  });

  test('marks alone, where one side took lines out', async () => {
    const { folder, ours } = await forked();
    writeFileSync(chainPath(folder), `${['<<<<<<< HEAD', ...ours, '=======', '>>>>>>> laptop'].join('\n')}\n`);
    expect(said(folder)).toEqual(["decisions.jsonl:1 holds git's mark of a conflict: two copies of the record were put into one"]);
  });
});

/** What the maker reads, whole. */
test.each<[Readonly<Record<string, Json>>, object]>([
  [
    { kind: 'warranty' },
    {
      code: 'record/kind-unknown',
      title: 'proposals/tarrow/decisions.jsonl:1 is of the kind "warranty", which this program does not know',
      mend: 'a newer version wrote it: use that version or a later one',
    },
  ],
  [
    { on: 'today', how: 'visit' },
    {
      code: 'record/entry-invalid',
      title: 'proposals/tarrow/decisions.jsonl:1 does not hold what belongs to the kind note',
      found: 'on is missing, or not what it may be',
      mend: 'take decisions.jsonl back from your copy or from git; entries are only ever written by this program',
    },
  ],
  [
    { kind: 'note-settled', note: 7, as: 'dropped' },
    {
      code: 'record/entry-astray',
      title: 'proposals/tarrow/decisions.jsonl:1 points to entry 7, which does not come before it',
      mend: 'take decisions.jsonl back from your copy or from git',
    },
  ],
  [
    { kind: 'evidence', on: '2027-04-01', how: 'visit', revision: 'r7' },
    {
      code: 'record/not-offered',
      title: 'proposals/tarrow/decisions.jsonl:1 names r7, which was not issued before it',
      mend: 'take decisions.jsonl back from your copy or from git',
    },
  ],
])('one message, with how to mend: %j', (body, problem) => {
  const { folder } = makeWorkspace();
  forge(folder, body);
  expect(look(folder).problems).toEqual([{ severity: 'error', path: [], ...problem }]);
});

test('an answer on paper without its scan is told, and is proven all the same; with the scan all is content', async () => {
  const { folder } = makeWorkspace();
  const { issueRevision } = await import('../../src/record/index.ts');
  const fingerprint = (await issueRevision(offered(folder, 'r1'))).issued?.fingerprint ?? '';
  const chosen = { revision: 'r1', fingerprint, design: 'A', options: [], totalMinor: 606_000, currency: 'EUR' };
  const answer = { kind: 'answer', on: '2027-02-12', person: 'maren', verdict: 'yes', revision: 'r1', fingerprint, chosen } as const;
  await add(folder, { ...answer, by: 'code' });
  await add(folder, { ...answer, by: 'paper' });
  expect(look(folder).problems).toEqual([
    {
      code: 'record/scan-missing',
      severity: 'warning',
      title: 'proposals/tarrow/decisions.jsonl:3 is an answer on paper, and no scan of the paper is attached to it',
      path: [],
      mend: 'run the same record --paper again, which adds the scan alone, or attach it: --to 3 --what paper-signature',
    },
  ]);
  const scan = Buffer.from('a scan');
  const attach = (to: number, path: string) =>
    add(folder, { kind: 'attached', on: '2027-02-13', to, what: 'paper-signature', file: heldAs(path, scan) }, undefined, [
      { path, bytes: scan },
    ]);
  await attach(2, 'records/files/4-paper-signature.png');
  expect(look(folder).problems.map(({ code }) => code)).toEqual(['record/scan-missing']);
  await attach(3, 'records/files/5-paper-signature.png');
  expect(look(folder).problems).toEqual([]);
});

test('the head that verify names is the digest of the last line', async () => {
  const { folder } = await whole();
  expect(look(folder).head).toBe(sha256Hex(linesOf(folder).at(-1) ?? ''));
  mkdirSync(join(folder, 'variants'));
  copyFileSync(chainPath(folder), join(folder, 'variants', 'a.yaml'));
  expect(look(folder).unanchored[0]).toBe('variants/');
});
