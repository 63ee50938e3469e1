/** Every package that a user has to fetch is used by the program, and its version is exact. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));

interface Manifest {
  readonly dependencies: Readonly<Record<string, string>>;
  readonly devDependencies: Readonly<Record<string, string>>;
  readonly optionalDependencies: Readonly<Record<string, string>>;
}
const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as Manifest;

const sources = readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.(?:ts|mjs|astro)$/.test(name))
  .map((name) => readFileSync(join(root, 'src', name), 'utf8'));
const text = [...sources, readFileSync(join(root, 'astro.config.mjs'), 'utf8')].join('\n');

/** Named whole, or with what follows its slash; the families of the pages' letters are put together from their names. */
const isUsed = (name: string): boolean =>
  [`'${name}'`, `'${name}/`, `"${name}"`].some((said) => text.includes(said)) ||
  (name.startsWith('@fontsource/') && text.includes(['`@fontsource/', '{id}`'].join('$')));

test('no package is fetched for nothing', () => {
  expect(Object.keys(manifest.dependencies).filter((name) => !isUsed(name))).toEqual([]);
  expect(isUsed('no-such-package')).toBe(false);
});

test('versions are exact', () => {
  const all = { ...manifest.dependencies, ...manifest.devDependencies, ...manifest.optionalDependencies };
  expect(Object.entries(all).filter(([, version]) => !/^\d+\.\d+\.\d+$/.test(version))).toEqual([]);
});
