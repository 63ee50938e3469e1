/** Every size that can be measured on a table has words of its own on the papers: none is told by its path. */
import { describe, expect, test } from 'vitest';
import { measurablePaths } from '../../src/cli/handing/as-built.ts';
import { sizeName } from '../../src/client/papers.ts';
import { wordsOf } from '../../src/client/words.ts';
import { tables } from '../design/tables.ts';
import { textsOf } from './commission.ts';

const words = wordsOf('en-GB', textsOf('en-GB'));

/** What a path would be told by without a text: its own words. */
const byPath = (path: string): string =>
  path
    .replaceAll('.', ' ')
    .replaceAll(/[A-Z-]/g, ' ')
    .toLowerCase();

/**
 * Lengths of the file format that are one number: read off the tables of its reference by hand, so that a key that is added there and
 * not here is seen.
 * @source templates/file-format.md, "Table"
 */
const byHand: readonly string[] = [
  'height',
  ...['length', 'width', 'diameter', 'thickness', 'boardWidth', 'underChamfer.in', 'underChamfer.up'].map((key) => `top.${key}`),
  ...['size', 'footSize', 'straightFor', 'endOverhang', 'sideOverhang', 'footEndOverhang', 'footSideOverhang'].map(
    (key) => `base.legs.${key}`,
  ),
  ...['height', 'thickness', 'setBack', 'below'].map((key) => `base.aprons.${key}`),
  ...['height', 'thickness', 'at'].flatMap((key) => [`base.stretchers.${key}`, `base.stretcher.${key}`]),
  ...['width', 'thickness', 'endOverhang', 'footWidth', 'boardWidth'].map((key) => `base.slabs.${key}`),
  ...['size', 'footSize'].map((key) => `base.post.${key}`),
  ...['diameter', 'thickness', 'topDiameter', 'span', 'width', 'height', 'tipHeight'].map((key) => `base.foot.${key}`),
  ...['span', 'width', 'height', 'diameter', 'thickness'].map((key) => `base.head.${key}`),
  ...['diameter', 'thickness'].map((key) => `base.ballast.${key}`),
  ...['height', 'diameter', 'topDiameter'].map((key) => `parts.round-plate.${key}`),
];

describe('a size is told in words', () => {
  test.each(byHand)('%s', (path) => {
    const says = sizeName(path, words);
    expect(says).toMatch(/^[A-Z][a-z ,]+$/);
    expect(says.toLowerCase().replaceAll(',', '')).not.toBe(path === 'height' ? '' : byPath(path));
  });

  test('and no two by the same words', () => {
    expect(new Set(byHand.map((path) => sizeName(path, words))).size).toBe(byHand.length);
  });

  test('none of a table of any kind is missing from the list', () => {
    const found = Object.values(tables).flatMap(({ table }) => measurablePaths(table));
    const known = new Set(byHand.map((path) => path.replace('parts.round-plate.', 'parts.*.')));
    expect(found.length).toBeGreaterThan(100);
    expect([...new Set(found.map((path) => path.replace(/^parts\.[^.]+\./, 'parts.*.')))].filter((path) => !known.has(path))).toEqual([]);
  });

  test('a part by its own name, a size that is no more by its path', () => {
    expect(sizeName('parts.round-plate.topDiameter', words)).toBe('Diameter of the round plate, at its upper end');
    expect(sizeName('base.legs.formerSize', words)).toBe('Base, legs, former size');
  });
});
