import { describe, expect, test } from 'vitest';
import type { Table } from '../../src/design/index.ts';
import { drawApart } from '../../src/draw/index.ts';
import type { Vec3 } from '../../src/solid/index.ts';
import { library } from '../fixtures.ts';
import { fonts, linesOf, textsOf } from './drawn.ts';
import { legTable, roundTable, slabTable } from './tables.ts';

/** Pieces drawn apart: every piece numbered once, in the order given; no lettering on lettering; pieces clear of each other. */
const words = { title: 'How it comes apart', description: 'Pieces.' };
const end = (x: number): readonly Vec3[] => [
  [x, -16, 480],
  [x, 16, 480],
  [x, 16, 590],
  [x, -16, 590],
];
const slabs: Table = {
  ...slabTable(),
  joints: (['left', 'right'] as const).map((side) => ({
    id: side,
    kind: 'bolts',
    a: `base/slab-${side}`,
    b: 'base/stretcher',
    knockDown: true,
    contact: [end(side === 'left' ? -710 : 710)],
    contactAreaMm2: 3520,
    from: ['table'],
  })),
};
const base = (table: Table): readonly string[] => table.parts.filter(({ id }) => id !== 'top').map(({ id }) => id);
const cases = [
  ['slab ends', slabs, [['top'], ['base/slab-left'], ['base/slab-right'], ['base/stretcher']]],
  ['legs', legTable(), [['top'], base(legTable())]],
  ['pedestal', roundTable(), [['top'], base(roundTable())]],
] as const satisfies readonly (readonly [string, Table, readonly (readonly string[])[]])[];

describe.each(cases)('a table on %s drawn apart', (_, table, pieces) => {
  const sheet = drawApart(
    table,
    pieces.map((parts, i) => ({ parts, mass: `${10 + i} kg (${22 + i} lb)` })),
    library,
    fonts.measure,
    words,
  );
  const texts = textsOf(sheet?.marks ?? []);

  test('numbers every piece once, and says its mass', () => {
    expect(
      texts
        .map(({ text }) => text)
        .filter((text) => /^\d$/.test(text))
        .sort(),
    ).toEqual(pieces.map((_piece, i) => String(i + 1)));
    for (const [i] of pieces.entries()) expect(texts.map(({ text }) => text)).toContain(`${10 + i} kg`);
  });

  test('lays no lettering on another, nor beyond the sheet', () => {
    for (const [i, { boxMm: a }] of texts.entries()) {
      expect(a.x).toBeGreaterThanOrEqual(0);
      expect(a.x + a.width).toBeLessThanOrEqual((sheet?.widthMm ?? 0) + 0.01);
      for (const { boxMm: b } of texts.slice(i + 1)) {
        expect(a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height).toBe(false);
      }
    }
  });

  test('lifts the top clear: no outline of the base stands as high as the lowest of the top', () => {
    const heights = (isTop: boolean): readonly number[] =>
      (sheet?.marks ?? []).flatMap((mark) =>
        mark.kind === 'face' && (mark.partId === 'top') === isTop
          ? mark.steps.flatMap((step) => (step[0] === 'Z' ? [] : [step.at(-1) as number]))
          : [],
      );
    expect(heights(true).length).toBeGreaterThan(0);
    expect(Math.max(...heights(true))).toBeLessThan(Math.min(...heights(false)));
  });

  test('draws what is seen alone', () => {
    expect(linesOf(sheet?.marks ?? []).some((line) => line.class === 'hidden')).toBe(false);
    expect(linesOf(sheet?.marks ?? []).filter((line) => line.class === 'contour').length).toBeGreaterThan(10);
  });
});

test('a table in one piece has no such picture', () => {
  const table = legTable();
  expect(drawApart(table, [{ parts: table.parts.map(({ id }) => id), mass: '47 kg' }], library, fonts.measure, words)).toBeUndefined();
});
