import { z } from 'zod';
import { DOCUMENTS, type DocumentKind } from './documents.ts';
import { NOTES } from './leaf.ts';
import { GROUPS } from './shape.ts';

type Json = { [key: string]: unknown };

/** JSON Schema (draft 2020-12) of a kind of file, for completion in editors: what may be written, before it is read. */
export function jsonSchemaOf(document: DocumentKind): Json {
  const schema = plainSchema(document);
  if (document.id !== 'variant') return schema;
  const table = DOCUMENTS.find(({ id }) => id === 'table');
  if (table === undefined) return schema;
  const { $schema: _dialect, title: _title, ...shape } = plainSchema(table);
  return { ...pointToPatch(schema), $defs: { patch: patchOf(shape) } };
}

function plainSchema({ schema, title, about }: DocumentKind): Json {
  const json = z.toJSONSchema(schema, {
    io: 'input',
    target: 'draft-2020-12',
    unrepresentable: 'any',
    override: ({ zodSchema, jsonSchema }) => describe(zodSchema, jsonSchema),
  });
  const { $schema, ...rest } = withoutReadOnly(json);
  return { $schema, title, ...rest, description: about };
}

function describe(schema: z.core.$ZodType, json: Json): void {
  const note = NOTES.get(schema);
  if (note !== undefined) {
    const choices = Array.isArray(note.json['enum']) || note.json['type'] === 'boolean';
    json['description'] = sentences([note.noun, choices || note.wants === 'words' ? undefined : note.wants, note.more]);
    Object.assign(json, note.json);
    if (note.examples.length > 0) json['examples'] = note.examples;
  }
  const group = GROUPS.get(schema);
  if (group !== undefined) json['description'] = sentences([group.noun, group.more]);
}

/** `The height of the table. 300 to 1300 mm. Overall.` */
export function sentences(parts: readonly (string | undefined)[]): string {
  return parts
    .flatMap((part) => (part === undefined ? [] : [`${part.slice(0, 1).toUpperCase()}${part.slice(1)}${/[.!?]$/.test(part) ? '' : '.'}`]))
    .join(' ');
}

function isJson(value: unknown): value is Json {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** A copy in which every object has gone through `change`, innermost first. */
function mapped(value: unknown, change: (json: Json) => Json): unknown {
  if (Array.isArray(value)) return value.map((one) => mapped(one, change));
  if (!isJson(value)) return value;
  return change(Object.fromEntries(Object.entries(value).map(([key, one]) => [key, mapped(one, change)])));
}

function withoutReadOnly(json: Json): Json {
  const result = mapped(json, ({ readOnly, ...rest }) =>
    readOnly === true ? rest : { ...rest, ...(readOnly === undefined ? {} : { readOnly }) },
  );
  return isJson(result) ? result : json;
}

/** A schema of patches: no key is needed, and null takes one away. */
function patchOf(shape: Json): Json {
  const result = mapped(shape, (json) => {
    const { required: _required, oneOf, default: _default, ...rest } = json;
    const loose: Json = { ...rest, ...(oneOf === undefined ? {} : { anyOf: oneOf }) };
    if (loose['type'] !== 'object') return loose;
    const { properties, additionalProperties } = loose;
    const keys = isJson(properties)
      ? { properties: Object.fromEntries(Object.entries(properties).map(([key, one]) => [key, orNull(one)])) }
      : {};
    const ids = isJson(additionalProperties) ? { additionalProperties: orNull(additionalProperties) } : {};
    return { ...loose, ...keys, ...ids };
  });
  return isJson(result) ? result : shape;
}

function orNull(schema: unknown): unknown {
  if (!isJson(schema) || 'const' in schema) return schema;
  const { description, ...rest } = schema;
  return { ...(description === undefined ? {} : { description }), anyOf: [rest, { type: 'null' }] };
}

/** The two places of a variant's file that hold patches. */
function pointToPatch(schema: Json): Json {
  const result = mapped(schema, (json) => {
    const properties = json['properties'];
    if (!isJson(properties)) return json;
    const patches = Object.entries(properties).map(([key, one]) => [
      key,
      isPatch(key, one) ? { ...(isJson(one) ? { description: one['description'] } : {}), $ref: '#/$defs/patch' } : one,
    ]);
    return { ...json, properties: Object.fromEntries(patches) };
  });
  return isJson(result) ? result : schema;
}

function isPatch(key: string, schema: unknown): boolean {
  return (key === 'table' || key === 'patch') && isJson(schema) && 'additionalProperties' in schema;
}
