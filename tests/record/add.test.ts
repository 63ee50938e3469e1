import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { addingName } from '../../src/record/chain/adding.ts';
import { listTree } from '../../src/record/disk/durable.ts';
import { lockName } from '../../src/record/disk/lock.ts';
import { addEntry, finishInterrupted, issueRevision, openSeal, readEntries } from '../../src/record/index.ts';
import { verifyProposal } from '../../src/record/proof/verify.ts';
import { add, heldAs, makeWorkspace, offered, place, request } from './workshop.ts';

const look = (folder: string) => verifyProposal(folder, 'proposals/tarrow', 'tarrow');
const note = { kind: 'note', on: '2027-02-11', how: 'visit' } as const;
const scan = Buffer.from('a scan');
const records = (folder: string): readonly string[] => listTree(join(folder, 'records')).map(({ path }) => path);

describe('adding an entry', () => {
  test('words apart, salted; the line holds their digest alone', async () => {
    const { folder } = makeWorkspace();
    const { entry } = await add(folder, note, { who: 'Maren', words: 'No, not that' });
    expect(readFileSync(join(folder, 'decisions.jsonl'), 'utf8')).not.toMatch(/Maren|not that/);
    if (entry?.sealed === undefined) throw new Error('no seal');
    expect(openSeal(folder, entry.sealed)).toEqual({ data: { who: 'Maren', words: 'No, not that' } });
    expect(look(folder).problems).toEqual([]);
  });

  test('a link in place of the folder of words is not followed', async () => {
    const { workspace, folder } = makeWorkspace();
    const elsewhere = join(workspace, 'elsewhere');
    mkdirSync(elsewhere);
    symlinkSync(elsewhere, join(folder, 'records'));
    const { entry, problems } = await add(folder, note, { who: 'Maren', words: 'No, not that' });
    expect([entry, problems.map(({ code, title }) => [code, title])]).toEqual([
      undefined,
      [
        [
          'record/cannot-write',
          'the records of proposals/tarrow can not be written: a link or a file stands where a folder of the record belongs',
        ],
      ],
    ]);
    expect(readdirSync(elsewhere)).toEqual([]);

    rmSync(join(folder, 'records'));
    await add(folder, note, { who: 'Maren', words: 'No, not that' });
    renameSync(join(folder, 'records'), join(elsewhere, 'records'));
    symlinkSync(join(elsewhere, 'records'), join(folder, 'records'));
    expect(look(folder).problems.map(({ code }) => code)).toContain('record/file-changed');
  });

  test('the same file twice is kept once; another file under its name is refused, and nothing is written', async () => {
    const { folder } = makeWorkspace();
    const attach = (bytes: Buffer) =>
      add(folder, { kind: 'attached', on: '2027-02-11', to: 1, what: 'letter', file: heldAs('records/files/a.png', bytes) }, undefined, [
        { path: 'records/files/a.png', bytes },
      ]);
    await add(folder, note);
    expect((await attach(scan)).problems).toEqual([]);
    expect((await attach(scan)).entry?.n).toBe(3);
    const before = readFileSync(join(folder, 'decisions.jsonl'), 'utf8');
    const { entry, problems } = await attach(Buffer.from('another'));
    expect([entry, problems.map(({ title }) => title)]).toEqual([
      undefined,
      ['proposals/tarrow/records/files/a.png is there already and is another file'],
    ]);
    expect([readFileSync(join(folder, 'decisions.jsonl'), 'utf8'), records(folder)]).toEqual([before, ['files/a.png']]);
    expect(look(folder).problems).toEqual([]);
  });

  test('a file of the record can not lie elsewhere', async () => {
    const { folder } = makeWorkspace();
    for (const path of ['issued/r1/out/index.html', 'records/../x', '/etc/x', 'records/x.new-leafwright'])
      await expect(add(folder, note, undefined, [{ path, bytes: scan }])).rejects.toThrow(`a file of the record may not be called ${path}`);
    expect(existsSync(join(folder, 'decisions.jsonl'))).toBe(false);
  });

  test('a clock that runs back: the entry, and a revision, have the date of the last one, with a warning', async () => {
    const { workspace, folder } = makeWorkspace();
    await addEntry(place(folder, '2027-06-01T09:00:00Z'), () => ({ body: note }));
    const late = await addEntry(place(folder, '2027-05-01T09:00:00Z'), () => ({ body: note }));
    expect(late.problems).toEqual([
      {
        code: 'record/clock-back',
        severity: 'warning',
        title: 'the clock says 2027-05-01T09:00:00Z, and the last entry is dated 2027-06-01T09:00:00Z',
        path: [],
        mend: 'the new entry has the date of the last one; set the clock of this machine',
      },
    ]);
    const issued = await issueRevision(request(folder, 'r1'));
    expect([issued.issued?.revision, issued.problems.map(({ code }) => code)]).toEqual(['r1', ['record/clock-back']]);
    expect(readEntries(folder).map(({ at }) => at)).toEqual(Array(3).fill('2027-06-01T09:00:00Z'));
    expect(look(folder).problems).toEqual([]);
    expect(workspace).not.toBe('');
  });

  test('two runs at once: one adds, the other is told', async () => {
    const { folder } = makeWorkspace();
    const both = await Promise.all([add(folder, note, { words: 'a' }), add(folder, note, { words: 'b' })]);
    expect(both.map(({ entry, problems }) => [entry?.n, problems[0]?.code])).toEqual([
      [1, undefined],
      [undefined, 'record/locked'],
    ]);
    expect([records(folder).length, look(folder).problems]).toEqual([1, []]);
  });

  test('a lock that another holds is one message', async () => {
    const { folder } = makeWorkspace();
    const holder = spawn(process.execPath, ['-e', 'setInterval(() => {}, 1000)']);
    writeFileSync(join(folder, lockName), JSON.stringify({ pid: holder.pid, host: hostname() }));
    const { problems } = await add(folder, note);
    holder.kill();
    await once(holder, 'exit');
    expect(problems.map(({ code, title }) => [code, title])).toEqual([
      ['record/locked', 'another run is writing the records of this proposal'],
    ]);
  });
});

describe('what a killed run leaves', () => {
  test('while it took the lock: gone with the next run, but for what a living run is about to use', async () => {
    const { folder } = makeWorkspace();
    const ended = spawnSync(process.execPath, ['-e', '0']).pid;
    for (const name of [`${ended}`, `${ended}.stale`, `${process.ppid}`, 'mine']) writeFileSync(join(folder, `${lockName}.${name}`), '{}');
    await add(folder, note);
    expect(readdirSync(folder).sort()).toEqual(['decisions.jsonl', `${lockName}.${process.ppid}`, `${lockName}.mine`].sort());
  });

  test('its own files go, and none of the maker’s', async () => {
    const { folder } = makeWorkspace();
    await add(folder, note, { words: 'kept' });
    mkdirSync(join(folder, 'records/files'));
    writeFileSync(join(folder, addingName), JSON.stringify(['records/files/2-scan.png', 'records/2-0a0a0a0a.json', '../proposal.yaml']));
    writeFileSync(join(folder, 'records/files/2-scan.png'), scan);
    writeFileSync(join(folder, 'records/2-0a0a0a0a.json.new-leafwright'), '{"da');
    writeFileSync(join(folder, 'decisions.jsonl.new-leafwright'), '{"n":1');
    writeFileSync(join(folder, 'records/files/my-photo.jpg'), 'x');
    writeFileSync(join(folder, '..', 'proposal.yaml'), 'title');
    const severities = look(folder).problems.map(({ severity, title }) => `${severity}: ${title.replaceAll('proposals/tarrow/', '')}`);
    expect(severities).toEqual([
      'warning: decisions.jsonl.new-leafwright was left by an interrupted run',
      'warning: records/2-0a0a0a0a.json.new-leafwright was left by an interrupted run',
      'warning: records/adding.new-leafwright was left by an interrupted run',
      'warning: records/files/2-scan.png was left by an interrupted run',
      'error: records/files/my-photo.jpg is named by no entry',
    ]);
    expect(finishInterrupted(folder, 'proposals/tarrow').problems).toEqual([]);
    expect(records(folder)).toEqual([expect.stringMatching(/^1-/), 'files/my-photo.jpg']);
    expect(readdirSync(folder).sort()).toEqual(['decisions.jsonl', 'records']);
    expect(existsSync(join(folder, '..', 'proposal.yaml'))).toBe(true);
  });

  test('a list that was left after the line was written takes nothing that an entry names', async () => {
    const { folder } = makeWorkspace();
    await add(folder, note, { words: 'kept' });
    const [seal = ''] = records(folder);
    writeFileSync(join(folder, addingName), JSON.stringify([`records/${seal}`]));
    await add(folder, note);
    expect(records(folder)).toEqual([seal]);
    expect(look(folder).problems).toEqual([]);
  });

  test('nothing is removed while the chain can not be read', async () => {
    const { folder } = makeWorkspace();
    await add(folder, note, { words: 'kept' });
    const before = records(folder);
    writeFileSync(join(folder, 'decisions.jsonl'), '{"n":');
    writeFileSync(join(folder, addingName), JSON.stringify(before.map((path) => `records/${path}`)));
    finishInterrupted(folder, 'proposals/tarrow');
    expect(records(folder)).toEqual([...before, 'adding.new-leafwright']);
  });
});

/** Adds an entry with words and a file, or issues a revision, in a process of its own; prints its problems. */
function elsewhere(
  folder: string,
  what: 'add' | 'issue',
  run: (script: string) => string,
): readonly { code: string; title: string; found: string; mend: string }[] {
  const script = `
    import { addEntry, issueRevision } from ${JSON.stringify(new URL('../../src/record/index.ts', import.meta.url).href)};
    const bytes = Buffer.alloc(60000, 120);
    const place = { folder: ${JSON.stringify(folder)}, shown: 'proposals/tarrow', at: '2027-03-01T09:00:00Z', zone: 'UTC' };
    const random = new Uint8Array(16).fill(7);
    const { problems } = '${what}' === 'add'
      ? await addEntry(place, () => ({ body: { kind: 'note', on: '2027-03-01', how: 'visit' }, sealed: { data: { words: 'x' }, random }, files: [{ path: 'records/files/2-a.png', bytes }] }))
      : await issueRevision({ ...place, proposal: 'tarrow', revision: 'r2', random, program: 'p', inputs: [], data: [], make: async () => [{ path: 'index.html', bytes }] });
    process.stdout.write(JSON.stringify(problems));`;
  return JSON.parse(run(script));
}
const node = (script: string, ...before: readonly string[]): string => {
  const [command = process.execPath, ...args] = [...before, process.execPath, '--input-type=module', '-e', script];
  const { stdout, stderr } = spawnSync(command, args, { encoding: 'utf8' });
  if (stdout === '') throw new Error(stderr);
  return stdout;
};
const mountSmall = (folder: string): boolean => spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', folder]).status === 0;
function canMount(): boolean {
  const folder = mkdtempSync(join(tmpdir(), 'leafwright-mount-'));
  const can = mountSmall(folder) && spawnSync('umount', [folder]).status === 0;
  rmSync(folder, { recursive: true, force: true });
  return can;
}
const isRoot = process.getuid?.() === 0;

describe.skipIf(process.platform !== 'linux')('a disk that can not be written', () => {
  async function before() {
    const { workspace, folder } = makeWorkspace();
    await issueRevision(offered(folder, 'r1'));
    return { workspace, folder, bytes: listTree(folder).map(({ path }) => [path, readFileSync(join(folder, path), 'utf8')]) };
  }
  const now = (folder: string) => listTree(folder).map(({ path }) => [path, readFileSync(join(folder, path), 'utf8')]);

  /** A process that may write no file longer than 32 KB stands in for a disk that fills on the way. */
  test.each(['add', 'issue'] as const)('full, while a file is written: one message, nothing half written (%s)', async (what) => {
    const { folder, bytes } = await before();
    const found = elsewhere(folder, what, (script) => node(script, 'sh', '-c', `trap '' XFSZ; ulimit -f 64; exec "$@"`, 'sh'));
    expect(found).toEqual([
      {
        code: 'record/cannot-write',
        severity: 'error',
        title: 'the records of proposals/tarrow can not be written: a file would be longer than this system lets it be',
        path: [],
        found: 'EFBIG',
        mend: 'make room, or lift the limit on the size of files, then run this again; nothing was recorded',
      },
    ]);
    expect(now(folder)).toEqual(bytes);
    expect(look(folder).problems).toEqual([]);
  });

  /** Rights do not bind the superuser, so the process runs as a user without any. */
  test.skipIf(!isRoot).each(['add', 'issue'] as const)('that this user may not write (%s)', async (what) => {
    const { workspace, folder, bytes } = await before();
    chmodSync(workspace, 0o755);
    const found = elsewhere(folder, what, (script) => node(script, 'setpriv', '--reuid=65534', '--regid=65534', '--clear-groups'));
    expect(found.map(({ code, found: cause, title, mend }) => [code, cause, title, mend])).toEqual([
      [
        'record/cannot-write',
        'EACCES',
        'the records of proposals/tarrow can not be written: this user may not write there',
        'give yourself the right to write to the folder, then run this again; nothing was recorded',
      ],
    ]);
    expect(now(folder)).toEqual(bytes);
  });

  /** A disk of its own, 64 KB large; where this machine lets no disk be mounted, the two above stand for it. */
  test.skipIf(!canMount()).each(['add', 'issue'] as const)('a small disk, full', async (what) => {
    const { folder } = makeWorkspace();
    expect(mountSmall(folder)).toBe(true);
    try {
      await issueRevision(request(folder, 'r1'));
      const bytes = now(folder);
      const found = elsewhere(folder, what, (script) => node(script));
      expect(found.map(({ code, found: cause }) => [code, cause])).toEqual([['record/cannot-write', 'ENOSPC']]);
      expect(now(folder)).toEqual(bytes);
      expect(spawnSync('mount', ['-o', 'remount,ro', folder]).status).toBe(0);
      expect(elsewhere(folder, what, (script) => node(script)).map(({ found: cause }) => cause)).toEqual(['EROFS']);
    } finally {
      spawnSync('umount', [folder]);
      rmSync(folder, { recursive: true, force: true });
    }
  });
});
