import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { parseCommandLine } from '../../src/cli/arguments.ts';
import { commands } from '../../src/cli/commands.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const read = (name: string): string => readFileSync(join(root, name), 'utf8');
const pages = ['README.md', 'DEVELOPERS.md'];

/** Lines set as code: indented by four. */
const codeLines = (name: string): readonly string[] =>
  read(name)
    .split('\n')
    .filter((line) => line.startsWith('    '))
    .map((line) => line.trim());

/** A command line as a shell splits it: words, and texts in double quotes. */
const wordsOf = (line: string): readonly string[] => [...line.matchAll(/"([^"]*)"|\S+/g)].map(([word, quoted]) => quoted ?? word);

interface Manifest {
  readonly scripts: Readonly<Record<string, string>>;
  readonly bin: Readonly<Record<string, string>>;
}
const manifest = JSON.parse(read('package.json')) as Manifest;

describe('README and DEVELOPERS', () => {
  test('name two commands that do all their set-up, and scripts that there are', () => {
    const scripts = codeLines('README.md').flatMap((line) => /^npm (?:run )?([a-z]+)/.exec(line)?.[1] ?? []);
    expect(scripts).toEqual(['demo', 'test']);
    for (const name of pages)
      for (const [, script = ''] of read(name).matchAll(/npm run (?:-s )?([a-z]+)/g))
        expect(Object.keys(manifest.scripts)).toContain(script);
    expect(manifest.scripts['demo']).toBe('node src/cli/demo.mjs');
    expect(manifest.scripts['test']).toBe('node tests/run.mjs');
    for (const script of ['src/cli/demo.mjs', 'tests/run.mjs', manifest.bin['leafwright'] ?? ''])
      expect(existsSync(join(root, script))).toBe(true);
  });

  test('show every command in a form that it takes', () => {
    const lines = codeLines('README.md').flatMap((line) => /^leafwright (.+?)(?: {3,}|$)/.exec(line)?.[1] ?? []);
    expect(new Set(lines.map((line) => line.split(' ')[0]))).toEqual(new Set(commands.map((command) => command.name)));
    for (const line of [...lines, ...commands.map((command) => command.example[0].replace('leafwright ', ''))]) {
      const [name = '', ...args] = wordsOf(line);
      const command = commands.find((one) => one.name === name);
      expect(command, line).toBeDefined();
      if (command !== undefined) expect(() => parseCommandLine(command, args), line).not.toThrow();
    }
  });

  test('the form for a clone runs as it stands', () => {
    const form = /`(npm run -s leafwright --)`/.exec(read('README.md'))?.[1] ?? '';
    const [command = '', ...args] = [...form.split(' '), '--version'];
    const { status, stdout } = spawnSync(command, args, { cwd: root, encoding: 'utf8', shell: process.platform === 'win32' });
    expect([status, stdout]).toEqual([0, `${(JSON.parse(read('package.json')) as { version: string }).version}\n`]);
  });

  test('point at files that are there', () => {
    const missing = pages.flatMap((name) => {
      const text = read(name);
      const links = [...text.matchAll(/\]\(([^)#:]+)\)/g)].map(([, to = '']) => to);
      const paths = [...text.matchAll(/`((?:src|tests|templates|proposals)\/[\w./-]*)`/g)].map(([, to = '']) => to);
      return [...links, ...paths].filter((to) => !existsSync(join(root, to))).map((to) => `${name}: ${to}`);
    });
    expect(missing).toEqual([]);
  });

  test('name every room of src/', () => {
    const text = read('DEVELOPERS.md');
    for (const room of ['read', 'design', 'assess', 'takeoff', 'price', 'draw', 'figures', 'client', 'write', 'site', 'record', 'cli'])
      expect(text).toMatch(new RegExp(`\\b${room}\\b`));
  });
});
