import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { lockName } from '../../src/record/disk/lock.ts';
import {
  canonicalJson,
  finishInterrupted,
  frozenOut,
  issuedRevisions,
  issueRevision,
  sha256Hex,
  shortFingerprint,
} from '../../src/record/index.ts';
import { verifyWorkspace } from '../../src/record/proof/verify.ts';
import { makeWorkspace, request } from './workshop.ts';

const chainOf = (folder: string): string => readFileSync(join(folder, 'decisions.jsonl'), 'utf8');

describe('issuing a revision', () => {
  test('freezes inputs, data, pages and link, and anchors them in the chain', async () => {
    const { workspace, folder } = makeWorkspace();
    const { issued, problems } = await issueRevision(request(folder, 'r1'));
    expect(problems).toEqual([]);
    const at = join(folder, 'issued', 'r1');
    expect(readdirSync(at).sort()).toEqual(['content.json', 'data', 'files.json', 'in', 'link.json', 'out']);
    const content = readFileSync(join(at, 'content.json'));
    expect(issued?.fingerprint).toBe(sha256Hex(content));
    expect(readFileSync(join(at, 'out/index.html'), 'utf8')).toContain(shortFingerprint(sha256Hex(content)));
    const entry = JSON.parse(chainOf(folder));
    expect(entry).toEqual({
      n: 1,
      prev: '0'.repeat(64),
      at: '2027-02-11T09:30:00Z',
      zone: 'Europe/London',
      kind: 'issued',
      revision: 'r1',
      fingerprint: issued?.fingerprint,
      files: sha256Hex(readFileSync(join(at, 'files.json'))),
    });
    expect(JSON.parse(readFileSync(join(at, 'link.json'), 'utf8')).token).toBe(issued?.token);
    expect(verifyWorkspace(workspace, ['tarrow'])[0]?.problems).toEqual([]);
  });

  test('the link lies outside both lists, so that it can be renewed', async () => {
    const { workspace, folder } = makeWorkspace();
    await issueRevision(request(folder, 'r1'));
    const at = join(folder, 'issued/r1');
    const lists = readFileSync(join(at, 'content.json'), 'utf8') + readFileSync(join(at, 'files.json'), 'utf8');
    const link = JSON.parse(readFileSync(join(at, 'link.json'), 'utf8'));
    expect(lists).not.toContain(link.token);
    writeFileSync(join(at, 'link.json'), `${canonicalJson({ ...link, token: `b${link.token.slice(1)}` })}\n`);
    expect(verifyWorkspace(workspace, ['tarrow'])[0]?.problems).toEqual([]);
  });

  test('gives the same bytes for the same input, clock and chance', async () => {
    const [one, two] = [makeWorkspace(), makeWorkspace()];
    const [a, b] = [await issueRevision(request(one.folder, 'r1')), await issueRevision(request(two.folder, 'r1'))];
    expect(a.issued).toEqual(b.issued);
    expect(chainOf(one.folder)).toBe(chainOf(two.folder));
  });

  test('refuses the same revision again, an older one, and a name that is none', async () => {
    const { folder } = makeWorkspace();
    await issueRevision(request(folder, 'r2'));
    const before = chainOf(folder);
    for (const [revision, code] of [
      ['r2', 'record/already-issued'],
      ['r1', 'record/already-issued'],
      ['r0', 'record/not-a-revision'],
      ['2', 'record/not-a-revision'],
    ] as const) {
      const { issued, problems } = await issueRevision(request(folder, revision));
      expect([issued, problems.map((problem) => problem.code)]).toEqual([undefined, [code]]);
    }
    expect(chainOf(folder)).toBe(before);
    expect(readdirSync(join(folder, 'issued'))).toEqual(['r2']);
  });

  test('a later revision supersedes the one before and follows it in the chain', async () => {
    const { folder } = makeWorkspace();
    await issueRevision(request(folder, 'r1'));
    await issueRevision(request(folder, 'r2'));
    const [first, second] = chainOf(folder).trim().split('\n');
    expect(JSON.parse(second ?? '').prev).toBe(sha256Hex(first ?? ''));
    expect(issuedRevisions(folder).map(({ revision, state }) => [revision, state])).toEqual([
      ['r1', { kind: 'superseded', by: 'r2', isOpen: true }],
      ['r2', { kind: 'open' }],
    ]);
    expect(frozenOut(folder, 'r1').map(({ path }) => path)).toEqual(['files/scope-a.pdf', 'index.html']);
  });

  test('does not add to a broken chain', async () => {
    const { folder } = makeWorkspace();
    await issueRevision(request(folder, 'r1'));
    writeFileSync(join(folder, 'decisions.jsonl'), chainOf(folder).replace('"n":1', '"n":7'));
    const { problems } = await issueRevision(request(folder, 'r2'));
    expect(problems[0]?.code).toBe('record/chain-broken');
    expect(existsSync(join(folder, 'issued/r2'))).toBe(false);
  });
});

describe('a crash leaves the old state or the new one', () => {
  test('pages that can not be made: nothing is there', async () => {
    const { folder } = makeWorkspace();
    const fails = request(folder, 'r1', { make: () => Promise.reject(new Error('no fonts')) });
    await expect(issueRevision(fails)).rejects.toThrow('no fonts');
    expect(existsSync(join(folder, 'issued'))).toBe(false);
    expect(existsSync(join(folder, 'decisions.jsonl'))).toBe(false);
    expect((await issueRevision(request(folder, 'r1'))).problems).toEqual([]);
  });

  test('files that can not be written: nothing half made is left', async () => {
    const { folder } = makeWorkspace();
    const same = { path: 'index.html', bytes: Buffer.from('<p>') };
    await expect(issueRevision(request(folder, 'r1', { make: async () => [same, same] }))).rejects.toThrow('EEXIST');
    expect(readdirSync(join(folder, 'issued'))).toEqual([]);
    expect(existsSync(join(folder, lockName))).toBe(false);
    expect((await issueRevision(request(folder, 'r1'))).problems).toEqual([]);
  });

  test('a folder half made is removed by the next run', async () => {
    const { workspace, folder } = makeWorkspace();
    mkdirSync(join(folder, 'issued/.making-r1/in'), { recursive: true });
    writeFileSync(join(folder, 'issued/.making-r1/in/half.yaml'), 'title: ');
    expect(verifyWorkspace(workspace, ['tarrow'])[0]?.problems.map((problem) => problem.severity)).toEqual(['warning']);
    expect((await issueRevision(request(folder, 'r1'))).problems).toEqual([]);
    expect(readdirSync(join(folder, 'issued'))).toEqual(['r1']);
  });

  test('a whole folder without its line gets the very line it would have had', async () => {
    const { workspace, folder } = makeWorkspace();
    await issueRevision(request(folder, 'r1'));
    const before = chainOf(folder);
    await issueRevision(request(folder, 'r2'));
    const after = chainOf(folder);
    writeFileSync(join(folder, 'decisions.jsonl'), before);
    expect(verifyWorkspace(workspace, ['tarrow'])[0]?.problems[0]?.code).toBe('record/unfinished');
    expect(finishInterrupted(folder, 'proposals/tarrow')).toEqual({ finished: ['r2'], problems: [] });
    expect(chainOf(folder)).toBe(after);
  });

  test('a folder without its line that was touched is reported, not anchored', async () => {
    const { folder } = makeWorkspace();
    await issueRevision(request(folder, 'r1'));
    rmSync(join(folder, 'decisions.jsonl'));
    writeFileSync(join(folder, 'issued/r1/out/index.html'), 'another price');
    const { finished, problems } = finishInterrupted(folder, 'proposals/tarrow');
    expect(finished).toEqual([]);
    expect(problems.map((problem) => problem.code)).toEqual(['record/unfinished', 'record/file-changed']);
    expect(existsSync(join(folder, 'decisions.jsonl'))).toBe(false);
  });

  test('a process killed at any moment', async () => {
    const { workspace, folder } = makeWorkspace();
    const script = `
      import { issueRevision } from ${JSON.stringify(new URL('../../src/record/index.ts', import.meta.url).href)};
      const bytes = (text) => new TextEncoder().encode(text);
      const many = Array.from({ length: 300 }, (_, i) => ({ path: 'page-' + i + '.html', bytes: bytes('x'.repeat(2000) + i) }));
      process.stdout.write('ready');
      await issueRevision({ folder: ${JSON.stringify(folder)}, shown: 'proposals/tarrow', proposal: 'tarrow', revision: process.argv[1],
        at: '2027-02-15T09:30:00Z', zone: 'UTC', random: new Uint8Array(16).fill(Number(process.argv[1].slice(1))), program: 'p', inputs: [], data: [],
        make: async () => many });
      process.stdout.write('done');`;
    let issued = 0;
    for (let i = 1; i <= 12; i += 1) {
      const child = spawn(process.execPath, ['--input-type=module', '-e', script, `r${i}`], { stdio: ['ignore', 'pipe', 'inherit'] });
      await once(child.stdout, 'data');
      setTimeout(() => child.kill('SIGKILL'), i * 12);
      await once(child, 'exit');
      finishInterrupted(folder, 'proposals/tarrow');
      const verified = verifyWorkspace(workspace, ['tarrow'])[0];
      expect(verified?.problems).toEqual([]);
      const now = verified?.revisions.length ?? 0;
      expect([issued, issued + 1]).toContain(now);
      issued = now;
    }
  });
});

describe('the lock', () => {
  test('keeps a second run out while the first lives', async () => {
    const { folder } = makeWorkspace();
    const holder = spawn(process.execPath, ['-e', 'setInterval(() => {}, 1000)']);
    try {
      writeFileSync(join(folder, lockName), JSON.stringify({ pid: holder.pid, host: hostname() }));
      const { problems } = await issueRevision(request(folder, 'r1'));
      expect(problems.map((problem) => problem.code)).toEqual(['record/locked']);
      expect(problems[0]?.found).toBe(`process ${holder.pid} on ${hostname()}`);
    } finally {
      holder.kill();
      await once(holder, 'exit');
    }
    expect((await issueRevision(request(folder, 'r1'))).problems).toEqual([]);
    expect(existsSync(join(folder, lockName))).toBe(false);
  });

  /** A process that may write no byte to any file stands in for a full disk. */
  test.skipIf(process.platform === 'win32')('that can not be written down is not left behind, empty and for good', async () => {
    const { folder } = makeWorkspace();
    const script = `
      import { withLock } from ${JSON.stringify(new URL('../../src/record/index.ts', import.meta.url).href)};
      await withLock(${JSON.stringify(folder)}, 'x', async () => 'done').catch((error) => process.stdout.write(error.code));`;
    const full = `trap '' XFSZ; ulimit -f 0; exec "$0" --input-type=module -e "$1"`;
    expect(spawnSync('sh', ['-c', full, process.execPath, script], { encoding: 'utf8' }).stdout).toBe('EFBIG');
    expect(readdirSync(folder)).toEqual([]);
  });

  test('of another machine is never taken away', async () => {
    const { folder } = makeWorkspace();
    writeFileSync(join(folder, lockName), JSON.stringify({ pid: 1, host: 'another-bench' }));
    expect((await issueRevision(request(folder, 'r1'))).problems[0]?.mend).toContain(lockName);
  });

  test('two runs at once: one issues, the other is told', async () => {
    const { folder } = makeWorkspace();
    const slow = request(folder, 'r1', {
      make: (f) => new Promise((done) => setTimeout(() => done([{ path: 'a', bytes: Buffer.from(f) }]), 50)),
    });
    const both = await Promise.all([issueRevision(slow), issueRevision(request(folder, 'r1'))]);
    expect(both.map(({ issued, problems }) => [issued?.revision, problems[0]?.code])).toEqual([
      ['r1', undefined],
      [undefined, 'record/locked'],
    ]);
  });

  test('a copied proposal keeps its proof', async () => {
    const { workspace, folder } = makeWorkspace();
    await issueRevision(request(folder, 'r1'));
    const copy = makeWorkspace();
    cpSync(folder, copy.folder, { recursive: true });
    expect(verifyWorkspace(copy.workspace, ['tarrow'])).toEqual(verifyWorkspace(workspace, ['tarrow']));
  });
});
