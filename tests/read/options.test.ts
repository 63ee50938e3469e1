import { expect, test } from 'vitest';
import { combine } from '../../src/read/options.ts';
import { parseFile } from '../../src/read/parse.ts';
import { childAt, toPlain } from '../../src/read/tree.ts';
import { checkSpec, SCHEMAS, variantOf } from '../../src/spec/index.ts';

function choices(options: string) {
  const { tree } = parseFile({ path: 'a.yaml', text: `name: A\nwhy: b\noptions:\n${options}` });
  if (tree === undefined) throw new Error('the row can not be read');
  const { value, problems } = checkSpec(SCHEMAS.variant, toPlain(tree), []);
  if (value === undefined) throw new Error(problems.map(({ title }) => title).join());
  expect(childAt(tree, 'options')).toBeDefined();
  return combine(variantOf('A', value).options, tree, 'A');
}

const shown = (options: string) =>
  choices(options).combinations.map(({ choice, isDefault }) => `${choice.join('+')}${isDefault ? '*' : ''}`);

test('no options: one combination, the default', () => {
  expect(
    combine({}, { is: 'map', entries: new Map(), origin: { source: { path: '', text: '' }, start: 0, end: 0 } }, 'A').combinations,
  ).toEqual([{ choice: [], isDefault: true }]);
});

test('on and off, the default first', () => {
  expect(shown('  b: { says: b }\n  a: { says: a }')).toEqual(['*', 'a', 'b', 'a+b']);
  expect(shown('  a: { says: a, default: true }')).toEqual(['a*', '']);
});

test('one of a group, always; excluded ones never together', () => {
  const group = '  thin: { says: t, group: g }\n  usual: { says: u, group: g, default: true }\n';
  expect(shown(group).sort()).toEqual(['thin', 'usual*']);
  expect(shown(`${group}  oil: { says: o, excludes: [thin] }`).sort()).toEqual(['oil+usual', 'thin', 'usual*']);
});

test('counted by hand: two groups of three and two, two switches that exclude each other: 3 x 2 x 3 = 18', () => {
  const text = ['x', 'y', 'z']
    .map((id, i) => `  g${id}: { says: s, group: g, default: ${i === 0} }`)
    .concat(['p', 'q'].map((id, i) => `  h${id}: { says: s, group: h, default: ${i === 0} }`))
    .concat(['  on: { says: s }', '  off: { says: s, excludes: [on] }'])
    .join('\n');
  expect(shown(text)).toHaveLength(18);
  expect(new Set(shown(text)).size).toBe(18);
  expect(shown(text)[0]).toBe('gx+hp*');
});

test('sixty-four are allowed, one switch more is not, and thirty do not take for ever', () => {
  const switches = (count: number) => Array.from({ length: count }, (_, i) => `  o${i}: { says: s }`).join('\n');
  expect(shown(switches(6))).toHaveLength(64);
  expect(choices(switches(7)).problems.map(({ code }) => code)).toEqual(['read/too-many-combinations']);
  const start = performance.now();
  expect(choices(switches(30)).problems.map(({ code }) => code)).toEqual(['read/too-many-combinations']);
  expect(performance.now() - start).toBeLessThan(1_000);
});
