import { describe, expect, test } from 'vitest';
import { parseFile } from '../../src/read/parse.ts';
import { toPlain } from '../../src/read/tree.ts';

function plain(text: string): unknown {
  const { tree, problems } = parseFile({ path: 'x.yaml', text });
  return tree === undefined ? problems.map(({ code }) => code) : toPlain(tree);
}

describe('every scalar is the text of the file', () => {
  test.each([
    ['a: 0745', '0745'],
    ['a: 1e3', '1e3'],
    ['a: .inf', '.inf'],
    ['a: yes', 'yes'],
    ['a: 2027-02-14', '2027-02-14'],
    ['a: 70 7/8"', '70 7/8"'],
    ['a: 5\' 10 7/8"', '5\' 10 7/8"'],
    ['a: "null"', 'null'],
    ['a: ""', ''],
    ['a: 12:30', '12:30'],
    ['a: |\n  two\n  lines\n', 'two\nlines\n'],
    ['a: # note\n  b', 'b'],
    ['\u{feff}a: b', 'b'],
    ['a: b\r\n', 'b'],
  ])('%j', (text, value) => {
    expect(plain(text)).toEqual({ a: value });
  });

  test('null and ~ alone are null', () => {
    expect(plain('a: null\nb: ~\nc: Null')).toEqual({ a: null, b: null, c: 'Null' });
  });

  test('an alias repeats its anchor', () => {
    expect(plain('a: &x { b: c }\nd: *x')).toEqual({ a: { b: 'c' }, d: { b: 'c' } });
  });
});

test('forty levels are read, one more is not', () => {
  const nested = (levels: number) => `${'{a: '.repeat(levels - 1)}x${'}'.repeat(levels - 1)}`;
  expect(plain(nested(40))).toBeTypeOf('object');
  expect(Array.isArray(plain(nested(40)))).toBe(false);
  expect(plain(nested(41))).toEqual(['read/too-deep']);
});

/** Heaps of one sign or line, just under 1 MB and just under the limits of lines and signs. */
const MB = 999_000;
const fill = (unit: string, bytes = MB) => unit.repeat(Math.floor(bytes / unit.length));
const lines = (line: string) => `${line}\n`.repeat(4_900);
const LAUGHS = [
  'a: &a [x, x, x, x, x, x, x, x, x, x]',
  ...[...'bcdefghij'].map((c, i) => `${c}: &${c} [${Array(10).fill(`*${'abcdefghi'[i]}`).join(', ')}]`),
];
const heaps: readonly (readonly [name: string, text: string])[] = [
  ['brackets', fill('[')],
  ['braces', fill('{a: ')],
  ['hyphens', fill('- ')],
  ['question marks', fill('? ')],
  ['colons', fill('a: ')],
  ['tabs', fill('\ta: 1\n')],
  ['quotes', fill('"')],
  ['one long text', `a: ${fill('x')}`],
  ['one long key', `${fill('k')}: 1`],
  ['spaces', fill(' ')],
  ['stairs', Array.from({ length: 1300 }, (_, i) => `${' '.repeat(i)}a:`).join('\n')],
  ['aliases of aliases', LAUGHS.join('\n')],
  ['an anchor in itself', 'a: &a [*a]'],
  ['keys', Array.from({ length: 4_900 }, (_, i) => `k${i}: 1`).join('\n')],
  ['the same key', lines('a: 1')],
  ['lists in lists', lines('- - - - x')],
  ['tabs at every line', lines('\ta: 1')],
  ['anchors', lines('- &a a')],
  ['commas', `[${'a,'.repeat(19_000)}]`],
  ['empty items', lines('-')],
  ['tags', lines('- !!x a')],
  ['two keys on every line', lines('a: b: c')],
  ['stars', `a: ${'*'.repeat(19_000)}`],
];

test.each(heaps)('a heap of %s is read or refused within two seconds and 200 MB', (_name, text) => {
  const memory = process.memoryUsage().rss;
  // Time of this thread alone: the machine may be busy with other tests.
  const start = process.threadCpuUsage();
  const { tree, problems } = parseFile({ path: 'x.yaml', text });
  expect(process.threadCpuUsage(start).user / 1_000).toBeLessThan(2_000);
  expect(process.memoryUsage().rss - memory).toBeLessThan(200e6);
  expect(tree === undefined ? problems.length : 1).toBeGreaterThan(0);
  expect(problems.length).toBeLessThanOrEqual(50);
});
