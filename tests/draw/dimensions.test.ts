import { describe, expect, test } from 'vitest';
import type { Sheet } from '../../src/draw/index.ts';
import { draw, linesOf, specShown, textsOf } from './drawn.ts';
import { legTable, roundTable, slabTable } from './tables.ts';

/** Lengths of the measured lines of a sheet in mm of the table: each runs between two ticks. */
function measuredMm(sheet: Sheet): number[] {
  const lines = linesOf(sheet.marks);
  const ticks = lines.filter((l) => l.class === 'tick').map((l) => [(l.from[0] + l.to[0]) / 2, (l.from[1] + l.to[1]) / 2] as const);
  const hasTick = ([x, y]: readonly [number, number]): boolean => ticks.some(([tx, ty]) => Math.hypot(tx - x, ty - y) < 1.5);
  return lines
    .filter((l) => l.class === 'dimension' && hasTick(l.from) && hasTick(l.to))
    .map((l) => Math.hypot(l.to[0] - l.from[0], l.to[1] - l.from[1]) * (sheet.scale ?? Number.NaN));
}

const figures = (sheet: Sheet): number[] =>
  textsOf(sheet.marks)
    .filter((t) => t.class === 'lettering' && /^Ø?[\d.]+$/.test(t.text))
    .map((t) => Number(t.text.replace('Ø', '')));

describe('a figure is the length of its line times the scale', () => {
  const cases = { legs: legTable(), splayed: legTable(1800, 850, 741.5, 40), round: roundTable(), slabs: slabTable() };
  test.each(Object.entries(cases))('%s', (_, table) => {
    const { front, side, plan, underside, sheet, small } = draw(table);
    let checked = 0;
    for (const one of [front, side, plan, underside, sheet, small]) {
      const lengths = measuredMm(one).sort((a, b) => a - b);
      const written = figures(one).sort((a, b) => a - b);
      expect(written.length).toBe(lengths.length);
      for (const [i, mm] of written.entries()) expect(Math.abs(mm - (lengths[i] ?? 0))).toBeLessThanOrEqual(0.0501);
      checked += written.length;
    }
    expect(checked).toBeGreaterThan(10);
  });
});

describe('measures of a table worked out by hand', () => {
  // Top 2100 x 820 x 28 at 745; legs 62 at the head set in 320 and 70, feet 42 on the outer faces; aprons 60 high.
  const { front, side, underside } = draw(legTable());
  test('front: overhang, foot, clear width, length, heights', () => {
    expect(figures(front).sort((a, b) => a - b)).toEqual([28, 42, 60, 320, 657, 745, 2100 - 2 * (320 + 42), 2100].sort((a, b) => a - b));
  });
  test('end: overhang, foot, clear width, width, height', () => {
    expect(figures(side).sort((a, b) => a - b)).toEqual([42, 70, 745, 820, 820 - 2 * (70 + 42)].sort((a, b) => a - b));
  });
  test('underside: heads of the legs both ways', () => {
    expect(figures(underside).sort((a, b) => a - b)).toEqual([62, 62, 70, 320, 820 - 2 * 132, 2100 - 2 * 382].sort((a, b) => a - b));
  });
  test('inches are proper fractions of the nearest sixteenth', () => {
    const texts = textsOf(draw(legTable(70.875 * 25.4, 33.4375 * 25.4, 29.3125 * 25.4), specShown('in', 'letter')).small.marks).map(
      (t) => t.text,
    );
    expect(texts.sort()).toEqual(['29\u20095\u204416\u2033', '33\u20097\u204416\u2033', '70\u20097\u20448\u2033'].sort());
  });
});
