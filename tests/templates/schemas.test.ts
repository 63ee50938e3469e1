import { globSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { checkSpec, SCHEMAS } from '../../src/spec/index.ts';

/** Every scalar as its text, as the reader sees a file. */
const read = (file: string): unknown => parse(readFileSync(file, 'utf8'), { schema: 'failsafe' });

const single = [
  ['templates/woods.yaml', SCHEMAS.woods],
  ['templates/materials.yaml', SCHEMAS.materials],
  ['templates/finishes.yaml', SCHEMAS.finishes],
  ['templates/load-cases.yaml', SCHEMAS.loadCases],
  ['templates/maker.yaml', SCHEMAS.maker],
] as const;
const kinds = [
  ['terms', SCHEMAS.terms],
  ['rates', SCHEMAS.rates],
  ['texts', SCHEMAS.texts],
] as const;

describe('what the program brings along', () => {
  it.each(single)('%s is a file as the schema wants it', (file, schema) => {
    expect(checkSpec<unknown>(schema, read(file), []).problems).toEqual([]);
  });

  it.each(kinds)('so is each of templates/%s', (folder, schema) => {
    const files = globSync(`templates/${folder}/*.yaml`);
    expect(files.length).toBeGreaterThanOrEqual(2);
    for (const file of files) expect(checkSpec<unknown>(schema, read(file), []).problems, file).toEqual([]);
  });

  it('a slip in one of them is found', () => {
    const woods = {
      oak: { ...(read('templates/woods.yaml') as Record<string, object>)['oak-european'], densityKgM3: 'heavy', colour: {} },
    };
    const paths = checkSpec<unknown>(SCHEMAS.woods, woods, []).problems.map((p) => p.path.join('.'));
    expect(paths).toContain('oak.densityKgM3');
    expect(paths.some((path) => path.startsWith('oak.colour'))).toBe(true);
  });
});
