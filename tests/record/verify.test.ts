import { copyFileSync, cpSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { listTree } from '../../src/record/disk/durable.ts';
import { canonicalJson, issueRevision, sha256Hex } from '../../src/record/index.ts';
import { verifyProposal, verifyWorkspace } from '../../src/record/proof/verify.ts';
import { flipped, makeWorkspace, request } from './workshop.ts';

async function twoRevisions() {
  const made = makeWorkspace();
  await issueRevision(request(made.folder, 'r1'));
  await issueRevision(request(made.folder, 'r2'));
  return made;
}
const look = (folder: string) => verifyProposal(folder, 'proposals/tarrow', 'tarrow');
const titles = (folder: string): readonly string[] => look(folder).problems.map((problem) => problem.title);

describe('verify', () => {
  test('says what stands where nothing was touched', async () => {
    const { folder } = await twoRevisions();
    const verified = look(folder);
    expect(verified.problems).toEqual([]);
    expect(verified.entries).toBe(2);
    expect(verified.revisions.map(({ revision, files }) => [revision, files])).toEqual([
      ['r1', 8],
      ['r2', 8],
    ]);
    expect(verified.head).toBe(sha256Hex(readFileSync(join(folder, 'decisions.jsonl'), 'utf8').trim().split('\n').at(-1) ?? ''));
  });

  test('finds every single byte that is changed, in every file', async () => {
    const { folder } = await twoRevisions();
    const files = ['decisions.jsonl', ...listTree(join(folder, 'issued/r2')).map(({ path }) => `issued/r2/${path}`)].filter(
      (path) => !path.endsWith('link.json'),
    );
    const missed: string[] = [];
    for (const path of files) {
      const full = join(folder, path);
      const before = readFileSync(full);
      for (let at = 0; at < before.length; at += 1) {
        writeFileSync(full, flipped(full, at));
        if (look(folder).problems.length === 0) missed.push(`${path} byte ${at}`);
        writeFileSync(full, before);
      }
    }
    expect(missed).toEqual([]);
    expect(look(folder).problems).toEqual([]);
  });

  test.each([
    ['out/index.html', 'was changed'],
    ['in/templates/woods.yaml', 'was changed'],
    ['data/figures.json', 'was changed'],
  ])('names the file: %s', async (path, what) => {
    const { folder } = await twoRevisions();
    const full = join(folder, 'issued/r1', path);
    writeFileSync(full, flipped(full, 0));
    expect(titles(folder)).toEqual([`proposals/tarrow/issued/r1/${path} ${what} after it was issued`]);
  });

  test('names a file that is gone, one that was added, and a link in its place', async () => {
    const { folder } = await twoRevisions();
    const out = join(folder, 'issued/r1/out');
    copyFileSync(join(out, 'index.html'), join(out, 'index-2.html'));
    rmSync(join(out, 'files/scope-a.pdf'));
    symlinkSync('/etc/hostname', join(folder, 'issued/r1/in/hostname'));
    rmSync(join(folder, 'issued/r2/data/figures.json'));
    symlinkSync(join(out, 'index.html'), join(folder, 'issued/r2/data/figures.json'));
    expect(titles(folder)).toEqual([
      'proposals/tarrow/issued/r1/out/files/scope-a.pdf was issued and is gone',
      'proposals/tarrow/issued/r1/in/hostname was added after the revision was issued',
      'proposals/tarrow/issued/r1/out/index-2.html was added after the revision was issued',
      'proposals/tarrow/issued/r2/data/figures.json was issued as a file and is something else now',
    ]);
  });

  test('a revision exchanged for a whole other one that agrees with itself', async () => {
    const { folder } = await twoRevisions();
    const other = makeWorkspace();
    await issueRevision(request(other.folder, 'r1'));
    await issueRevision(request(other.folder, 'r2', { data: [{ path: 'figures.json', bytes: Buffer.from('{"massKg":14}') }] }));
    rmSync(join(folder, 'issued/r2'), { recursive: true });
    cpSync(join(other.folder, 'issued/r2'), join(folder, 'issued/r2'), { recursive: true });
    expect(titles(folder)).toEqual(['proposals/tarrow/issued/r2/content.json is not the one that entry 2 anchors']);
  });

  test('a revision that is gone, or folders that are none', async () => {
    const { folder } = await twoRevisions();
    rmSync(join(folder, 'issued/r1'), { recursive: true });
    mkdirSync(join(folder, 'issued/old'));
    expect(titles(folder)).toEqual(['proposals/tarrow/issued/old is no revision', 'proposals/tarrow/issued/r1 was issued and is gone']);
  });

  test('a line taken out of the chain, put in, exchanged, cut, or written by hand', async () => {
    const { folder } = await twoRevisions();
    const path = join(folder, 'decisions.jsonl');
    const [one = '', two = ''] = readFileSync(path, 'utf8').trim().split('\n');
    const tried = (text: string): string => {
      writeFileSync(path, text);
      return titles(folder).join('; ');
    };
    expect(tried(`${two}\n`)).toContain('proposals/tarrow/decisions.jsonl:1 is the first entry and points to one before it');
    expect(tried(`${two}\n${one}\n`)).toContain('decisions.jsonl:1 counts itself as entry 2');
    expect(tried(`${one}\n${one}\n${two}\n`)).toContain('decisions.jsonl:2 counts itself as entry 1');
    expect(tried(`${one}\n${two.slice(0, 60)}`)).toContain('ends in the middle of a line');
    expect(tried(`${one}\n${two.replace('{', '{ ')}\n`)).toContain('decisions.jsonl:2 is no entry as it was written');
    expect(tried(`${one.replace('09:30', '09:31')}\n${two}\n`)).toContain('decisions.jsonl:2 does not fit entry 1');
    expect(tried(`${one}\n${canonicalJson({ ...JSON.parse(two), at: '2020-01-01T00:00:00Z' })}\n`)).toContain('before the entry above it');
    expect(tried(`${one}\n`)).toContain('proposals/tarrow/issued/r2 has no line in decisions.jsonl');
    expect(tried(`${one}\n${two}\n`)).toBe('');
    rmSync(path);
    expect(titles(folder)).toHaveLength(2);
  });

  test('a link.json that is not as it was written: cut, lengthened, another date that is none, more keys', async () => {
    const { folder } = await twoRevisions();
    const path = join(folder, 'issued/r1/link.json');
    const text = readFileSync(path, 'utf8');
    const others = [
      text.trim(),
      `${text}\n`,
      text.replace('T09:30', 'T99:30'),
      text.replace('{', '{"also":1,'),
      text.replace('-02-', '-0-'),
    ];
    for (const other of others) {
      writeFileSync(path, other);
      expect(titles(folder), other).toEqual(['proposals/tarrow/issued/r1/link.json is not as it was written']);
    }
    writeFileSync(path, text.replace(/"token":"./, '"token":"!'));
    expect(titles(folder)).toEqual(['proposals/tarrow/issued/r1/link.json holds no link']);
    writeFileSync(path, text);
    expect(titles(folder)).toEqual([]);
  });

  test('two revisions with one link', async () => {
    const { workspace, folder } = await twoRevisions();
    copyFileSync(join(folder, 'issued/r1/link.json'), join(folder, 'issued/r2/link.json'));
    expect(verifyWorkspace(workspace, ['tarrow'])[0]?.problems.map((problem) => problem.title)).toEqual([
      'proposals/tarrow/issued/r2 has the same link as proposals/tarrow/issued/r1',
    ]);
  });
});
