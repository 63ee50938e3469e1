/** A demo commission as it was issued and ordered, handed over in a copy: from its draft to what erasing leaves. */
import { spawn } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, onTestFinished, test } from 'vitest';
import { readEntries } from '../../src/record/index.ts';
import { filledIn } from './hand-over-bench.ts';
import { runIn } from './run.ts';

const slug = 'tollefsen-quill';
const root = fileURLToPath(new URL('../../', import.meta.url));

/** A copy of the demo, and its sheet filled in. */
async function withSheet() {
  const workspace = mkdtempSync(join(tmpdir(), 'leafwright-handed-'));
  onTestFinished(() => rmSync(workspace, { recursive: true, force: true }));
  const folder = join(workspace, 'proposals', slug);
  cpSync(join(root, 'proposals', slug), folder, { recursive: true });
  const run = (day: string, ...args: readonly string[]) => runIn(workspace, [...args, ...(day === '' ? [] : ['--as-of', day])]);
  const sheet = join(folder, 'hand-over.yaml');
  expect((await run('2027-07-02', 'hand-over', slug, '--on', '2027-07-01')).status).toBe(0);
  let text = readFileSync(sheet, 'utf8');
  for (const [from, to] of filledIn) text = text.replaceAll(from, to);
  writeFileSync(sheet, text.replace('top.width: { built: 82 cm }', 'top.width: { built: 800 }'));
  return { workspace, folder, run };
}

test('is recorded with the papers of its table, proven, and shown; erasing a person leaves the care', async () => {
  const { folder, run } = await withSheet();
  const recorded = await run('2027-07-02', 'hand-over', slug);
  expect(recorded.status, recorded.stderr).toBe(0);
  expect(recorded.stdout).toMatch(/ papers {8}proposals\/tollefsen-quill\/handed-over\/1, edition 1, \d+ files\n/);
  const [handOver, care] = readEntries(folder).slice(-2);
  expect(handOver).toMatchObject({
    kind: 'hand-over',
    finish: 'hardwax-oil-ceramic',
    asBuilt: [{}, { agreed: 2100 }, { agreed: 800 }, {}],
  });
  expect(care).toMatchObject({ kind: 'care', edition: 1, of: handOver?.n });
  expect((await run('', 'verify', slug)).status).toBe(0);
  expect((await run('2027-07-02', 'status', slug)).stdout).toContain('RS-2027-01: left unsigned');

  const papers = join(folder, 'handed-over', '1', 'papers');
  expect(existsSync(papers)).toBe(true);
  const erased = await run('2027-09-01', 'erase', slug, '--person', 'maren', '--yes');
  expect(erased.stdout).toMatch(/ 1 +folder of the client's papers of the table; its care, label and care link name nobody and stay\n/);
  expect([existsSync(papers), existsSync(join(folder, 'handed-over', '1', 'care', 'index.html'))]).toEqual([false, true]);
  expect((await run('', 'verify', slug)).stdout).toContain('What was erased is gone on purpose.');
});

test('killed while it makes the papers: the hand-over stands, the next run makes them, and nothing is recorded twice', async () => {
  const { workspace, folder, run } = await withSheet();
  const chain = join(folder, 'decisions.jsonl');
  const before = readEntries(folder).length;
  const args = [join(root, 'src/cli/main.ts'), 'hand-over', slug, '--as-of', '2027-07-02', '--workspace', workspace];
  const child = spawn(process.execPath, args, { stdio: 'ignore' });
  const ended = new Promise<NodeJS.Signals | null>((resolve) => child.once('exit', (_code, signal) => resolve(signal)));
  const watch = setInterval(() => {
    if (readFileSync(chain, 'utf8').includes('"kind":"hand-over"')) child.kill('SIGKILL');
  }, 2);
  expect(await ended).toBe('SIGKILL');
  clearInterval(watch);
  expect(readEntries(folder).slice(before)).toMatchObject([{ kind: 'hand-over' }]);
  expect((await run('2027-07-02', 'status', slug)).stdout).toContain('next: make the papers of RS-2027-01');
  const again = await run('2027-07-02', 'hand-over', slug);
  expect([again.status, again.stdout.split('\n')[0]]).toEqual([0, `on record already as entry ${before + 1}`]);
  expect(readEntries(folder).slice(before)).toMatchObject([{ kind: 'hand-over' }, { kind: 'care', edition: 1, of: before + 1 }]);
  expect((await run('', 'verify', slug)).status).toBe(0);
});
