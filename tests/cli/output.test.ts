import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { openCache } from '../../src/cli/make/cache.ts';
import { replaceOutput, shownBytes, totalOf } from '../../src/cli/make/output.ts';
import { fillState } from '../../src/cli/make/publish.ts';
import type { NamedBytes } from '../../src/record/index.ts';
import { stateSlot } from '../../src/site/client/index.ts';

function folder(): string {
  const made = mkdtempSync(join(tmpdir(), 'leafwright-output-'));
  onTestFinished(() => rmSync(made, { recursive: true, force: true }));
  return made;
}
const file = (path: string, text: string): NamedBytes => ({ path, bytes: Buffer.from(text) });
const treeOf = (at: string): readonly string[] =>
  readdirSync(at, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(at.length + 1))
    .sort();

describe('the output', () => {
  test('is replaced whole: nothing stale stays, nothing is left beside', () => {
    const at = folder();
    replaceOutput(at, [file('client/a/index.html', 'one'), file('old.txt', 'x')]);
    replaceOutput(at, [file('client/b/index.html', 'two')]);
    expect(treeOf(at)).toEqual(['dist/client/b/index.html']);
  });

  test('stays as it was when writing fails', () => {
    const at = folder();
    replaceOutput(at, [file('client/a/index.html', 'one')]);
    expect(() => replaceOutput(at, [file('x', '1'), file('x', '2')])).toThrow('EEXIST');
    expect(readFileSync(join(at, 'dist/client/a/index.html'), 'utf8')).toBe('one');
    expect(treeOf(at), 'nothing half made takes up the disk').toEqual(['dist/client/a/index.html']);
  });

  test('cut off between its two renames, the next run begins from what stood', () => {
    const at = folder();
    replaceOutput(at, [file('a', 'one')]);
    renameSync(join(at, 'dist'), join(at, 'dist.old.new-leafwright'));
    mkdirSync(join(at, 'dist.new-leafwright'));
    writeFileSync(join(at, 'dist.new-leafwright/half'), '');
    replaceOutput(at, [file('b', 'two')]);
    expect(treeOf(at)).toEqual(['dist/b']);
  });

  test('is counted for the report', () => {
    expect(totalOf([file('client/a', '1234'), file('workshop/b', '1')], 'client/')).toEqual({ count: 1, bytes: 4 });
    expect([shownBytes(312_400), shownBytes(1_449_000), shownBytes(3)]).toEqual(['313 KB', '1.4 MB', '1 KB']);
  });
});

describe('the cache', () => {
  const files = [file('index.html', '<p>'), { path: 'scope.pdf', bytes: Uint8Array.from([0, 10, 255, 10]) }];

  test('gives back what was put, for the same stage, input and program alone', () => {
    const at = folder();
    const cache = openCache(at, 'digest-1');
    expect(cache.get('drafts', { a: 1 })).toBeUndefined();
    cache.put('drafts', { a: 1, b: [2] }, files);
    const got = cache.get('drafts', { b: [2], a: 1 });
    expect(got?.map(({ path, bytes }) => [path, [...bytes]])).toEqual(files.map(({ path, bytes }) => [path, [...bytes]]));
    expect(cache.get('drafts', { a: 2, b: [2] })).toBeUndefined();
    expect(cache.get('index', { a: 1, b: [2] })).toBeUndefined();
    expect(openCache(at, 'digest-2').get('drafts', { a: 1, b: [2] })).toBeUndefined();
  });

  test('takes a damaged entry for none', () => {
    const at = folder();
    const cache = openCache(at, 'd');
    cache.put('drafts', 'x', files);
    const kept = join(at, treeOf(at)[0] ?? '');
    const bytes = readFileSync(kept);
    for (const damaged of [
      bytes.subarray(0, bytes.length - 1),
      Buffer.concat([bytes, Buffer.from('x')]),
      Buffer.from('{'),
      Buffer.alloc(0),
    ]) {
      writeFileSync(kept, damaged);
      expect(cache.get('drafts', 'x')).toBeUndefined();
    }
  });

  test('sweeps what a run did not use', () => {
    const at = folder();
    openCache(at, 'd').put('drafts', 'old', files);
    const later = openCache(at, 'd');
    later.put('drafts', 'new', files);
    later.sweep();
    expect(treeOf(at)).toHaveLength(1);
    expect(existsSync(at) && later.get('drafts', 'new')).toHaveLength(2);
  });
});

describe('the state of a frozen page', () => {
  const page = `<body><div>${stateSlot.open}${stateSlot.close}</div><p>frozen</p></body>`;
  test('goes into its one slot and changes nothing else', () => {
    const filled = fillState(page, '<p>A newer one $& stands</p>');
    expect(filled).toBe(`<body><div>${stateSlot.open}<p>A newer one $& stands</p>${stateSlot.close}</div><p>frozen</p></body>`);
    expect(fillState(page, '')).toBe(page);
  });
  test('a page without a slot, or with two, is refused', () => {
    expect(() => fillState('<body></body>', 'x')).toThrow('one empty slot');
    expect(() => fillState(page + page, 'x')).toThrow('one empty slot');
  });
});
