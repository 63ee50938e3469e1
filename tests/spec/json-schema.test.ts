import { readdirSync, readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { DOCUMENTS, jsonSchemaOf } from '../../src/spec/index.ts';

/** An independent validator of draft 2020-12: what editors tell a maker must agree with what reading tells. */
const ajv = new Ajv2020({ strict: true, allowUnionTypes: true, validateFormats: false });
const validators = new Map(DOCUMENTS.map((document) => [document.id, ajv.compile(jsonSchemaOf(document))]));

function errorsOf(id: string, value: unknown): readonly string[] {
  const validate = validators.get(id);
  if (validate === undefined) throw new Error(`no schema ${id}`);
  return validate(value) ? [] : (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`);
}

const ROOT = new URL('../../', import.meta.url).pathname;
const under = (folder: string) => readdirSync(`${ROOT}${folder}`).filter((name) => !name.startsWith('.') && name !== 'issued');
const files: readonly (readonly [id: string, path: string])[] = [
  ...under('proposals').flatMap((slug) => [
    ['proposal', `proposals/${slug}/proposal.yaml`] as const,
    ['table', `proposals/${slug}/table.yaml`] as const,
    ...under(`proposals/${slug}/variants`).map((name) => ['variant', `proposals/${slug}/variants/${name}`] as const),
  ]),
  ...['woods', 'materials', 'finishes', 'load-cases', 'maker'].map((id) => [id, `templates/${id}.yaml`] as const),
  ...['rates', 'terms', 'texts'].flatMap((id) => under(`templates/${id}`).map((name) => [id, `templates/${id}/${name}`] as const)),
];

test.each(files)('%s: %s, which reading accepts, is valid', (id, path) => {
  expect(errorsOf(id, parse(readFileSync(`${ROOT}${path}`, 'utf8')))).toEqual([]);
});

describe('what reading refuses is not valid', () => {
  const table = {
    wood: 'oak',
    height: 745,
    top: { kind: 'round', diameter: 1200, thickness: '28 mm' },
    base: { kind: 'parts' },
    finish: 'oil',
  };
  test('the table itself is', () => {
    expect(errorsOf('table', table)).toEqual([]);
  });
  test.each([
    ['an unknown key', { ...table, colour: 'red' }],
    ['a missing key', { ...table, finish: undefined }],
    ['an unknown kind', { ...table, top: { ...table.top, kind: 'rond' } }],
    ['a group for a value', { ...table, height: { mm: 745 } }],
    ['a bad id', { ...table, parts: { 'Front Tray': { kind: 'box', size: [1, 1, 1], at: [0, 0, 0] } } }],
    ['two of three', { ...table, parts: { tray: { kind: 'box', size: [1, 1], at: [0, 0, 0] } } }],
  ])('%s', (_what, value) => {
    expect(errorsOf('table', JSON.parse(JSON.stringify(value)))).not.toEqual([]);
  });
  test('a patch may leave out, take away and not invent', () => {
    const variant = (patch: object) => errorsOf('variant', { name: 'A', why: 'b', table: patch });
    expect(variant({ top: { thickness: 30 }, parts: { tray: null }, baseFinish: null })).toEqual([]);
    expect(variant({ topp: { thickness: 30 } })).not.toEqual([]);
    expect(variant({ top: { thicknes: 30 } })).not.toEqual([]);
  });
});
