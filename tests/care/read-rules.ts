import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { type CareBook, checkSpec, type FinishSpec, SCHEMAS, type WoodSpec } from '../../src/spec/index.ts';

const failsafe = (file: string): unknown => parse(readFileSync(file, 'utf8'), { schema: 'failsafe' });

function checked<T>(schema: Parameters<typeof checkSpec<T>>[0], file: string): T {
  const { value, problems } = checkSpec(schema, failsafe(file), []);
  if (value === undefined) throw new Error(`${file}: ${JSON.stringify(problems, null, 1)}`);
  return value;
}

/** What the program brings along, through its schemas. */
export const book: CareBook = checked(SCHEMAS.care, 'templates/care.yaml');
export const finishes: Readonly<Record<string, FinishSpec>> = checked(SCHEMAS.finishes, 'templates/finishes.yaml');
export const woods: Readonly<Record<string, WoodSpec>> = checked(SCHEMAS.woods, 'templates/woods.yaml');
export const texts: Readonly<Record<string, string>> = checked(SCHEMAS.texts, 'templates/texts/en-GB.yaml');
