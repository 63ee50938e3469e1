import { execFileSync } from 'node:child_process';
import { readFileSync, statSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { scanFile, scanWords } from './scan.ts';

const root = new URL('../..', import.meta.url).pathname;
/** Tracked files and new ones that are not ignored. */
const files = execFileSync('git', ['ls-files', '-co', '--exclude-standard', '-z'], { cwd: root, encoding: 'utf8' })
  .split('\0')
  .filter((path) => path !== '' && statSync(root + path, { throwIfNoEntry: false })?.isFile() === true);
const read = (path: string): string => readFileSync(root + path, 'utf8');
/** What was issued or handed over is frozen and made from texts that are looked at here. */
const isText = (path: string): boolean => !/\/(?:issued|handed-over)\/|\.(png|jpg|pdf|woff2|ttf|glb|wasm|ico)$/.test(path);

describe('the house', () => {
  test('rooms import only what their row allows, through doors; pure rooms stay pure; no file is longer than a room', () => {
    const source = files.filter((path) => path.startsWith('src/') && /\.(ts|astro)$/.test(path));
    expect(source.length).toBeGreaterThan(20);
    expect(source.flatMap((path) => scanFile(path, read(path)))).toEqual([]);
  });

  test('no text tells how it was made or where', () => {
    const texts = files.filter((path) => isText(path) && path !== 'package-lock.json');
    expect(texts.flatMap((path) => scanWords(path, read(path)))).toEqual([]);
  });

  test('file names are in kebab-case and say what is inside', () => {
    const odd = files.filter(
      (path) =>
        (path.startsWith('src/') || path.startsWith('tests/')) &&
        (/(^|\/)(utils?|helpers?|misc|common)\.\w+$/.test(path) ||
          (/\.(ts|mjs|astro)$/.test(path) && !/^[a-z0-9.-]+$/.test(path.split('/').at(-1) ?? '') && !path.startsWith('src/site/'))),
    );
    expect(odd).toEqual([]);
  });
});

describe('the scan itself finds', () => {
  const finds = (path: string, text: string): string => scanFile(path, text).join('\n');

  test.each([
    ['src/units/a.ts', "import { x } from '../problem/index.ts';", 'src/units/a.ts:1  units/ may not import problem/'],
    ['src/spec/a.ts', "\nimport { x } from '../units/money.ts';", 'src/spec/a.ts:2  imports src/units/money.ts; only the door'],
    ['src/price/a.ts', "import type { S } from '../solid/index.ts';", 'price/ may not import solid/'],
    ['src/client/a.ts', "import { p } from '../price/index.ts';", 'client/ may not import price/'],
    ['src/write/client/a.ts', "import { f } from '../../figures/index.ts';", 'write/client/ may not import figures/'],
    ['src/site/client/a.astro', "---\nimport { f } from '../../figures/index.ts';\n---\n<p />", 'a.astro:2  site/client/ may not import'],
    ['src/record/chain/a.ts', "import { verify } from '../proof/verify.ts';", 'record/chain/ may not import record/proof/'],
    ['src/cli/order/a.ts', "import { run } from '../make/build.ts';", 'cli/order/ may not import cli/make/'],
    ['src/units/a.ts', "import { readFileSync } from 'node:fs';", 'may not import node:fs'],
    ['src/design/a.ts', "import { z } from 'zod';", 'may not use the package zod'],
    ['src/units/a.ts', 'const n = Date.now();', 'Date.now'],
    ['src/units/a.ts', 'const n = new Date();', 'new Date()'],
    ['src/units/a.ts', 'const n = Math.random();', 'Math.random'],
    ['src/units/a.ts', 'const n = process.env.HOME;', 'process.env'],
    ['src/units/a.ts', 'console.log(1);', 'console.log'],
    ['src/units/a.ts', "['b'].sort((a, b) => a.localeCompare(b));", 'localeCompare'],
    ['src/units/a.ts', 'new Intl.NumberFormat();', 'without a stated locale'],
    ['src/units/a.ts', 'new Intl.NumberFormat(undefined, {});', 'without a stated locale'],
    ['src/units/index.ts', "export * from './money.ts';", 'exports by name'],
    ['src/units/a.ts', 'x;\n'.repeat(401), '401 lines'],
    ['src/attic/a.ts', '', 'stands in no room'],
    ['src/units/a.ts', "const x = await import('../read/index.ts');", 'units/ may not import read/'],
  ])('%s, case %#', (path, text, expected) => {
    expect(finds(path, text)).toContain(expected);
  });

  test('and lets pass what is allowed', () => {
    expect(
      finds('src/units/a.ts', "// Date.now() is not used\nconst s = 'process.exit';\nnew Date(0);\nnew Intl.NumberFormat('en-GB');"),
    ).toBe('');
    expect(finds('src/read/files.ts', "import { readFileSync } from 'node:fs';")).toBe('');
    expect(finds('src/assess/a.ts', "import type { Price } from '../price/index.ts';")).toBe('');
    expect(finds('src/assess/a.ts', "import { priceTable } from '../price/index.ts';")).toContain('may not import price/');
  });

  test('refused words', () => {
    const word = ['seed', 'document'].join(' ');
    expect(scanWords('a.md', `one\nmade from the ${word}`)).toEqual([`a.md:2  holds a word that has no place here: ${word}`]);
    expect(scanWords('a.md', 'the User-Agent header; the agency')).toEqual([]);
  });
});
