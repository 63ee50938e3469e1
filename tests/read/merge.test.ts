import { describe, expect, test } from 'vitest';
import { mergeTrees, overlapOf } from '../../src/read/merge.ts';
import { parseFile } from '../../src/read/parse.ts';
import { childAt, type Tree, toPlain } from '../../src/read/tree.ts';
import published from '../published/merge-patch.json' with { type: 'json' };

function tree(text: string, path = 'x.yaml'): Tree {
  const { tree: read, problems } = parseFile({ path, text });
  if (read === undefined) throw new Error(problems.map(({ title }) => title).join());
  return read;
}

/** JSON is YAML. */
const json = (value: unknown) => tree(JSON.stringify(value));

test.each(published.rows)('RFC 7396: $original with $patch', ({ original, patch, result }) => {
  expect(toPlain(mergeTrees(json(original), json(patch)))).toEqual(result);
});

describe('a group whose kind changes is replaced', () => {
  const base = tree('base: { kind: legs, legs: { size: "62" }, aprons: { height: "60" } }');
  test('and keeps nothing of the old one', () => {
    const merged = mergeTrees(base, tree('base: { kind: slab-ends, slabs: { width: "600" } }'));
    expect(toPlain(merged)).toEqual({ base: { kind: 'slab-ends', slabs: { width: '600' } } });
  });
  test('the same kind, or none, merges', () => {
    expect(toPlain(mergeTrees(base, tree('base: { kind: legs, aprons: null }')))).toEqual({ base: { kind: 'legs', legs: { size: '62' } } });
    expect(toPlain(mergeTrees(base, tree('base: { legs: { size: "50" } }')))).toMatchObject({
      base: { legs: { size: '50' }, aprons: { height: '60' } },
    });
  });
});

test('every value keeps the file and stretch where it was written', () => {
  const shared = tree('top:\n  width: 820\n  thickness: 28\n', 'table.yaml');
  const patch = tree('top: { width: 800 }\n', 'b.yaml');
  const top = childAt(mergeTrees(shared, patch), 'top');
  const width = childAt(top, 'width');
  const thickness = childAt(top, 'thickness');
  expect([width?.origin.source.path, width?.origin.start]).toEqual(['b.yaml', 14]);
  expect([thickness?.origin.source.path, thickness?.origin.start]).toEqual(['table.yaml', 31]);
});

test('merging leaves both sides as they were', () => {
  const [base, patch] = [json({ a: { b: 'c' } }), json({ a: { b: null, d: 'e' } })];
  mergeTrees(base, patch);
  expect(toPlain(base)).toEqual({ a: { b: 'c' } });
  expect(toPlain(patch)).toEqual({ a: { b: null, d: 'e' } });
});

test.each([
  [{ finish: 'oil' }, { top: { thickness: '25' } }, undefined],
  [{ top: { width: '800' } }, { top: { thickness: '25' } }, undefined],
  [{ finish: 'oil' }, { finish: 'varnish' }, 'finish'],
  [{ top: { width: '800' } }, { top: { width: '800' } }, 'top.width'],
  [{ base: { kind: 'parts' } }, { base: { legs: { size: '40' } } }, 'base'],
  [{ parts: { tray: null } }, { parts: { tray: { size: ['1'] } } }, 'parts.tray'],
  [{}, { finish: 'oil' }, undefined],
])('patches %j and %j overlap at %s', (a, b, path) => {
  expect(overlapOf(json(a), json(b))?.path.join('.')).toBe(path);
  expect(overlapOf(json(b), json(a))?.path.join('.')).toBe(path);
});
