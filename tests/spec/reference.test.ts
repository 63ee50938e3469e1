import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { checkSpec, DOCUMENTS, jsonSchemaOf } from '../../src/spec/index.ts';
import { NOTES } from '../../src/spec/leaf.ts';
import { GROUPS } from '../../src/spec/shape.ts';
import { unwrapped } from '../../src/spec/walk.ts';
import { reference } from './generated.ts';

test.each(reference())('$path.pathname is up to date (else: npx node tests/spec/write-reference.ts)', ({ path, text }) => {
  expect(readFileSync(path, 'utf8')).toBe(text);
});

/** Every schema inside the schemas of the files, once. */
function everySchema(): ReadonlySet<z.core.$ZodType> {
  const seen = new Set<z.core.$ZodType>();
  const visit = (schema: z.core.$ZodType): void => {
    const inner = unwrapped(schema);
    if (seen.has(inner)) return;
    seen.add(inner);
    if (inner instanceof z.ZodObject) Object.values(inner.def.shape).forEach(visit);
    if (inner instanceof z.ZodDiscriminatedUnion) inner.def.options.forEach(visit);
    if (inner instanceof z.ZodRecord) visit(inner.def.valueType);
    if (inner instanceof z.ZodArray) visit(inner.def.element);
    if (inner instanceof z.ZodTuple) inner.def.items.forEach(visit);
  };
  DOCUMENTS.forEach(({ schema }) => {
    visit(schema);
  });
  return seen;
}

/** Scalars as `read/` hands them over: texts. */
function asTexts(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(asTexts);
  if (typeof value !== 'object' || value === null) return value === null ? null : String(value);
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, asTexts(one)]));
}

describe('what the reference page shows is accepted', () => {
  const schemas = [...everySchema()];

  test('every example of a field', () => {
    let count = 0;
    for (const schema of schemas) {
      for (const example of NOTES.get(schema)?.examples ?? []) {
        count += 1;
        const inRange = z.safeParse(schema, example);
        const refusal = inRange.error?.issues[0];
        const code = refusal?.code === 'custom' ? (refusal.params?.['refusal'] as { code: string } | undefined)?.code : undefined;
        expect(code === undefined || code === 'out-of-range', `${NOTES.get(schema)?.noun}: ${example}`).toBe(true);
      }
    }
    expect(count).toBeGreaterThan(100);
  });

  test('every example of a group', () => {
    let count = 0;
    for (const schema of schemas) {
      const example = GROUPS.get(schema)?.example;
      if (example === undefined) continue;
      count += 1;
      const whole: unknown = asTexts(parse(example));
      const inside = typeof whole === 'object' && whole !== null ? Object.values(whole) : [];
      const deeper = inside.flatMap((one) => (typeof one === 'object' && one !== null ? Object.values(one) : []));
      const accepted = [whole, ...inside, ...deeper].some((one) => z.safeParse(schema, one).success);
      expect(accepted, example).toBe(true);
    }
    expect(count).toBeGreaterThan(15);
  });

  test('every group and field has its noun', () => {
    for (const schema of schemas) {
      if (schema instanceof z.ZodLiteral || schema instanceof z.ZodTuple || schema instanceof z.ZodUnknown) continue;
      expect(NOTES.get(schema)?.noun ?? GROUPS.get(schema)?.noun, schema._zod.def.type).toBeTypeOf('string');
    }
  });
});

describe('JSON Schemas', () => {
  test('name the dialect, every key and nothing that reading refuses', () => {
    for (const document of DOCUMENTS) {
      const json = jsonSchemaOf(document);
      expect(json['$schema']).toBe('https://json-schema.org/draft/2020-12/schema');
      const inner = unwrapped(document.schema);
      if (!(inner instanceof z.ZodObject)) continue;
      expect(Object.keys(json['properties'] as object)).toEqual(Object.keys(inner.def.shape));
      expect(json['additionalProperties']).toBe(false);
      const { problems } = checkSpec(document.schema as z.ZodType, {}, []);
      expect([...(json['required'] as string[])].sort(), document.id).toEqual(problems.map(({ path }) => String(path[0])).sort());
    }
  });

  test('patches need no key and may take one away', () => {
    const variant = DOCUMENTS.find(({ id }) => id === 'variant');
    const text = JSON.stringify(variant === undefined ? {} : (jsonSchemaOf(variant)['$defs'] as object));
    expect(text).toContain('{"type":"null"}');
    expect(text).not.toContain('"required"');
    expect(text).not.toContain('"default":');
  });
});
