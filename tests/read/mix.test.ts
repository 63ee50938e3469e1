import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { editYaml, mixVariant, patchBetween, readProposal, type YamlEdit } from '../../src/read/index.ts';
import type { TableSpec } from '../../src/spec/index.ts';

const repository = fileURLToPath(new URL('../..', import.meta.url));
const workspace = mkdtempSync(join(tmpdir(), 'leafwright-mix-'));
afterAll(() => rmSync(workspace, { recursive: true, force: true }));
cpSync(join(repository, 'tests', 'demos', 'revisions', 'tollefsen-quill', 'r1'), join(workspace, 'proposals', 'quill'), {
  recursive: true,
});

describe('a patch between two groups', () => {
  // RFC 7396, appendix A, rows whose patch is the least one; lists and scalars are replaced, gone keys are null.
  test.each([
    [{ a: 'b' }, { a: 'c' }, { a: 'c' }],
    [{ a: 'b' }, { a: 'b', b: 'c' }, { b: 'c' }],
    [{ a: 'b' }, {}, { a: null }],
    [{ a: 'b', b: 'c' }, { b: 'c' }, { a: null }],
    [{ a: ['b'] }, { a: 'c' }, { a: 'c' }],
    [{ a: 'c' }, { a: ['b'] }, { a: ['b'] }],
    [{ a: { b: 'c' } }, { a: { b: 'd' } }, { a: { b: 'd' } }],
    [{ e: 'x' }, { e: 'x' }, {}],
  ])('%j -> %j', (from, to, patch) => {
    expect(patchBetween(from, to)).toEqual(patch);
  });
  test('a group whose kind changes is written whole', () => {
    expect(patchBetween({ base: { kind: 'legs', size: '60' } }, { base: { kind: 'parts', size: '60' } })).toEqual({
      base: { kind: 'parts', size: '60' },
    });
  });
});

describe('the top of one design on the base of another', () => {
  const before = readProposal(workspace, 'quill');
  const tableIn = (read: typeof before, id: string): TableSpec => {
    const found = read.input?.variants.find(({ variant }) => variant.id === id);
    const table = found?.combinations.find(({ choice }) => choice.length === 0)?.table;
    if (table === undefined) throw new Error(`no table ${id}`);
    return table;
  };
  test.each([
    ['A', 'B', 'C'],
    ['B', 'A', 'A'],
    ['C', 'B', 'A'],
    ['A', 'C', 'B'],
    ['B', 'C', 'C'],
    ['C', 'A', 'B'],
  ])('top of %s, base of %s, finish of %s: read back, each part is that of its design', (top, base, finish) => {
    const mix = mixVariant(before.sources, { top, base, finish }, { name: 'A mix', why: 'Because.\n' });
    const file = join(workspace, 'proposals', 'quill', 'variants', 'd.yaml');
    writeFileSync(file, mix.text);
    const after = readProposal(workspace, 'quill');
    rmSync(file);
    expect(after.problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    const mixed = tableIn(after, 'D');
    const { base: foot, parts, joints, fixing, hardware, work, height, wood } = tableIn(before, base);
    expect(mixed.top).toEqual(tableIn(before, top).top);
    expect(mixed).toMatchObject({ base: foot, parts, joints, fixing, hardware, work, height, wood });
    expect([mixed.finish, mixed.baseFinish]).toEqual([tableIn(before, finish).finish, tableIn(before, finish).baseFinish]);
  });
});

describe('what a mix takes along', () => {
  const mixed = mkdtempSync(join(tmpdir(), 'leafwright-mix-'));
  afterAll(() => rmSync(mixed, { recursive: true, force: true }));
  const folder = join(mixed, 'proposals', 'quill');
  cpSync(join(workspace, 'proposals', 'quill'), folder, { recursive: true });
  const board = (wood: string) => `{ wood: ${wood}, length: 2400 mm, width: 200 mm, thickness: 40 mm }`;
  const plain = (says: string) => `{ says: ${says}, default: false, price: "10.00" }`;
  const edits: Readonly<Record<string, readonly YamlEdit[]>> = {
    a: [
      { path: ['table', 'wood'], value: 'ash-white' },
      { path: ['table', 'stock', 'own-ash'], value: board('ash-white') },
      { path: ['options', 'crate'], value: plain('A crate') },
    ],
    b: [
      { path: ['table', 'stock', 'own-oak'], value: board('oak-european') },
      { path: ['options', 'plaque'], value: plain('A plaque') },
    ],
    c: [],
  };
  for (const [id, all] of Object.entries(edits)) {
    const path = join(folder, 'variants', `${id}.yaml`);
    writeFileSync(path, editYaml(readFileSync(path, 'utf8'), all));
  }
  const mix = mixVariant(readProposal(mixed, 'quill').sources, { top: 'A', base: 'B', finish: 'C' }, { name: 'A mix', why: 'Because.' });
  const { table, options } = parse(mix.text, { schema: 'failsafe' }) as {
    table: Record<string, unknown>;
    options: Record<string, unknown>;
  };

  test('a top keeps the wood of its design, and the boards of top and base come along', () => {
    expect(table['top']).toMatchObject({ wood: 'ash-white' });
    expect(table['wood']).toBeUndefined();
    expect(Object.keys(table['stock'] as object).sort()).toEqual(['own-ash', 'own-oak']);
  });
  test('an option without a patch goes with the base, the others are named as left', () => {
    expect(Object.keys(options)).toContain('plaque');
    expect(Object.keys(options)).not.toContain('crate');
    expect(mix.left).toContainEqual({ design: 'A', option: 'crate' });
  });
});
