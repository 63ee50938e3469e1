import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { runIn } from './run.ts';

/** A demo commission as it lies in the project; one file of its record is touched at a time. People and prices are invented. */
const demo = fileURLToPath(new URL('../../proposals/farrant', import.meta.url));
let workspace = '';
const build = () => runIn(workspace, ['build', '--as-of', '2026-02-20']);
const at = (...parts: readonly string[]): string => join(workspace, 'proposals', 'farrant', ...parts);
const headers = (): string => readFileSync(join(workspace, 'dist', 'headers.txt'), 'utf8');

describe('what was touched since it was issued is not built', () => {
  beforeAll(async () => {
    workspace = mkdtempSync(join(tmpdir(), 'leafwright-proven-'));
    cpSync(demo, at(), { recursive: true });
    const { status, stderr } = await build();
    expect([status, stderr]).toEqual([0, expect.not.stringContaining('record/')]);
    writeFileSync(join(workspace, 'dist', 'headers.txt'), 'as it was');
  });
  afterAll(() => rmSync(workspace, { recursive: true, force: true }));

  test.each([
    [
      'a price on an issued page',
      ['issued', 'r1', 'out', 'index.html'],
      (text: string) => text.replace(/\$\d/, '$0'),
      'issued/r1/out/index.html was changed',
    ],
    [
      'the data behind it',
      ['issued', 'r1', 'data', 'offer.json'],
      (text: string) => text.replace(/"netMinor":\d/, '"netMinor":0'),
      'issued/r1/data/offer.json was changed',
    ],
    [
      'a line of the chain taken out',
      ['decisions.jsonl'],
      (text: string) => text.split('\n').slice(1).join('\n'),
      'decisions.jsonl:1 is the first entry and points to one before it',
    ],
  ] as const)('%s: told as verify tells it, and dist/ stays as it was', async (_, parts, edit, says) => {
    const path = at(...parts);
    const before = readFileSync(path);
    const text = before.toString('utf8');
    expect(edit(text)).not.toBe(text);
    writeFileSync(path, edit(text));
    const { status, stdout, stderr } = await build();
    expect([status, stdout]).toEqual([1, '']);
    expect(stderr).toContain(says);
    expect(stderr).toContain('Nothing was written.');
    expect(headers()).toBe('as it was');
    writeFileSync(path, before);
  });

  test('put back as it was, it is built', async () => {
    expect((await build()).status).toBe(0);
    expect(headers()).not.toBe('as it was');
  });
});
