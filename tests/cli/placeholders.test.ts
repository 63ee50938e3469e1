import { expect, test } from 'vitest';
import { placeholders, placeholdersLeft } from '../../src/cli/draft/placeholders.ts';
import type { ComputedProposal } from '../../src/compute.ts';
import { computed } from '../client/commission.ts';

/** Where what a starter wrote for somebody is found, place by place. The commission is invented, and held here as a real one. */
const plain = computed();

/** The same, as somebody's own, with words put into its proposal, and into the spec of one design. */
function real(proposal: object, of = '', spec: object = {}): ComputedProposal {
  const { input, variants } = plain;
  return {
    ...plain,
    input: { ...input, proposal: { ...input.proposal, invented: false, ...proposal } },
    variants: variants.map((one) =>
      one.id === of ? { ...one, standard: { ...one.standard, spec: { ...one.standard.spec, ...spec } } } : one,
    ),
  };
}
const spec = (id: string) => {
  const found = plain.variants.find((one) => one.id === id)?.standard.spec;
  if (found === undefined) throw new Error(`no design ${id}`);
  return found;
};
const found = (of: ComputedProposal) =>
  placeholdersLeft(of).map(({ severity, path, found: what, variant, also = [] }) => [severity, path.join('.'), what, variant, also.length]);

test('a commission in which everybody has a name has none', () => {
  expect(plain.variants.map(({ id }) => id)).toContain('C');
  expect(found(real({}))).toEqual([]);
});

test('a name, an address and somebody in a sentence or a list are one error, at the first of them', () => {
  const { client } = plain.input.proposal;
  expect(found(real({ client: { ...client, name: placeholders.client } }))).toEqual([
    ['error', 'proposal.client.name', placeholders.client, undefined, 0],
  ]);
  const words = { understood: ['It is for six.', `${placeholders.inText(2)} reads here`, 'Person 3 and Person 3'] };
  expect(found(real({ client: { ...client, address: placeholders.address }, zwords: words }))).toEqual([
    ['error', 'proposal.client.address', placeholders.address, undefined, 2],
  ]);
  // A word that only begins alike is nobody.
  expect(found(real({ words: 'Personal 2, Persons 3' }))).toEqual([]);
});

test('in a design or its table it is told with the design, and of one that is not offered not at all', () => {
  const inTable = { table: { ...spec('A').table, says: 'for Person 1' } };
  expect(found(real({}, 'A', inTable))).toEqual([['error', 'table.says', 'Person 1', 'A', 0]]);
  const inVariant = { variant: { ...spec('B').variant, why: 'Person 2 asked' } };
  expect(found(real({}, 'B', inVariant))).toEqual([['error', 'variant.why', 'Person 2', 'B', 0]]);
  expect(found(real({}, 'C', { variant: { ...spec('C').variant, why: 'Person 2 asked' } }))).toEqual([]);
});

test('an invented commission may keep them', () => {
  expect(placeholdersLeft(real({ invented: true, words: 'Person 1' }))).toEqual([]);
});
