import { expect, test } from 'vitest';
import { editDistance, nearestName } from '../../src/problem/index.ts';

/** Distances by hand; "kitten" and "sitting" is the textbook pair of the Levenshtein distance. */
test.each([
  ['kitten', 'sitting', 3],
  ['oak', 'oak', 0],
  ['', 'oak', 3],
  ['wdith', 'width', 1],
  ['thicknes', 'thickness', 1],
  ['ca', 'abc', 3],
])('%s to %s takes %i', (a, b, edits) => {
  expect(editDistance(a, b)).toBe(edits);
  expect(editDistance(b, a)).toBe(edits);
});

const keys = ['thickness', 'width', 'end-overhang'];

test.each([
  ['thicknes', keys, 'thickness'],
  ['wdith', keys, 'width'],
  ['end_overhang', keys, 'end-overhang'],
  ['Width', keys, 'width'],
  ['colour', keys, undefined],
  ['x', keys, undefined],
  ['over', ['overhang-x', 'overhang-y', 'end-overhang'], undefined],
  ['walnut', ['european-oak', 'black-walnut'], 'black-walnut'],
  ['oak', ['european-oak', 'white-oak'], undefined],
])('%s among %j', (written, names, expected) => {
  expect(nearestName(written, names)).toBe(expected);
});
