import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test, vi } from 'vitest';
import { replaceText } from '../../src/cli/draft/own-files.ts';

/** A disk that takes no more than so many bytes: less than asked for, then an error, as `write` does it. */
const disk = vi.hoisted(() => ({ left: Number.POSITIVE_INFINITY }));
vi.mock('node:fs', async (load) => {
  const fs = await load<typeof import('node:fs')>();
  const full = () => Object.assign(new Error('ENOSPC: no space left on device, write'), { code: 'ENOSPC' });
  const writeSync = (handle: number, bytes: Uint8Array, from = 0): number => {
    const taken = bytes.subarray(from, from + disk.left);
    if (taken.length === 0) throw full();
    disk.left -= taken.length;
    return fs.writeSync(handle, taken);
  };
  return { ...fs, writeSync };
});

const folderWith = (text: string): string => {
  const folder = mkdtempSync(join(tmpdir(), 'leafwright-own-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  writeFileSync(join(folder, 'proposal.yaml'), text);
  return folder;
};

test('a disk that fills up in the middle leaves the file as it was, and nothing beside it', () => {
  const folder = folderWith('title: as it was\n');
  disk.left = 10;
  expect(() => replaceText(join(folder, 'proposal.yaml'), 'title: as it is to be\n')).toThrow('ENOSPC');
  disk.left = Number.POSITIVE_INFINITY;
  expect([readdirSync(folder), readFileSync(join(folder, 'proposal.yaml'), 'utf8')]).toEqual([['proposal.yaml'], 'title: as it was\n']);
  replaceText(join(folder, 'proposal.yaml'), 'title: as it is to be\n');
  expect([readdirSync(folder), readFileSync(join(folder, 'proposal.yaml'), 'utf8')]).toEqual([
    ['proposal.yaml'],
    'title: as it is to be\n',
  ]);
});

test('a place that can not be taken leaves nothing beside it', () => {
  const folder = folderWith('');
  mkdirSync(join(folder, 'a-folder', 'within'), { recursive: true });
  expect(() => replaceText(join(folder, 'a-folder'), 'x')).toThrow();
  expect(readdirSync(folder).sort()).toEqual(['a-folder', 'proposal.yaml']);
});
