import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { openBundle, programDigest } from '../../src/site/compile.ts';

const cache = mkdtempSync(join(tmpdir(), 'leafwright-bundles-'));
afterAll(() => rmSync(cache, { recursive: true }));

const textOf = (folder: string): string =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => readFileSync(join(entry.parentPath, entry.name), 'utf8'))
    .join('\n');

test('templates are compiled once for a state of the program, and no half-made folder stays behind', async () => {
  await openBundle('client', cache, 'one');
  const entry = join(cache, 'client-one', 'server', 'entry.mjs');
  const made = statSync(entry).mtimeMs;
  await openBundle('client', cache, 'one');
  expect(statSync(entry).mtimeMs).toBe(made);
  expect(readdirSync(cache)).toEqual(['client-one']);
});

test('the bundle of the client holds nothing of the workshop', async () => {
  await openBundle('client', cache, 'one');
  await openBundle('workshop', cache, 'one');
  const words = ['For the workshop alone', 'How the price came about', 'marginPercent', 'costMinor'];
  const workshop = textOf(join(cache, 'workshop-one'));
  const client = textOf(join(cache, 'client-one'));
  for (const word of words) expect([word, workshop.includes(word), client.includes(word)]).toEqual([word, true, false]);
});

test('the digest of the program is a digest and stays the same while nothing changes', () => {
  expect(programDigest()).toMatch(/^[0-9a-f]{32}$/);
  expect(programDigest()).toBe(programDigest());
});
