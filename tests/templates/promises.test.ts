import { globSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { promisesIn } from './promises.ts';

const files = ['templates', 'proposals', 'tests/demos/revisions'].flatMap((folder) => globSync(`${folder}/**/*.{yaml,md}`));

/** All texts in a YAML value, folded lines joined: a promise may be broken over two lines of the file. */
function textsOf(value: unknown): readonly string[] {
  if (typeof value === 'string') return [value.replaceAll(/\s+/g, ' ')];
  if (Array.isArray(value)) return value.flatMap(textsOf);
  if (typeof value === 'object' && value !== null) return Object.values(value).flatMap(textsOf);
  return [];
}

describe('words that promise', () => {
  it.each([
    'A heatproof finish.',
    'It is heat-proof and Water proof.',
    'Childproof corners',
    'food-safe oil',
    'food safe',
    'a lifetime of use',
    'Maintenance-free!',
    'We guarantee it.',
    'non-toxic',
    'FDA approved',
  ])('%s', (text) => {
    expect(promisesIn(text).length).toBeGreaterThan(0);
  });

  it.each(['It slows water.', 'Safety glass.', 'A proof of the page.', 'No heat, no food.', 'EN 12720 is the test to ask for.'])(
    'lets plain words pass: %s',
    (text) => {
      expect(promisesIn(text)).toEqual([]);
    },
  );

  it('finds the files it has to read', () => {
    expect(files.length).toBeGreaterThan(30);
    expect(files.some((file) => file.includes('texts'))).toBe(true);
  });

  it.each(files)('%s promises nothing', (file) => {
    const text = readFileSync(file, 'utf8');
    expect(promisesIn(text)).toEqual([]);
    if (!file.endsWith('.yaml')) return;
    for (const one of textsOf(parse(text))) expect(promisesIn(one)).toEqual([]);
  });
});
