import { describe, expect, test } from 'vitest';
import type { Drawings } from '../../src/draw/index.ts';
import { draw, entersBox, linesOf, specShown, textsOf } from './drawn.ts';
import { legTable, roundTable, slabTable } from './tables.ts';

const tables = [
  ...[
    [2100, 820, 745],
    [900, 700, 735],
    [1400, 1400, 760],
    [3200, 1000, 740],
    [600, 400, 450],
    [1733.5, 811.3, 741.7],
  ].map(([l, w, h]) => ({ name: `legs ${l} x ${w} x ${h}`, table: () => legTable(l, w, h) })),
  ...[25, 60, 90].map((s) => ({ name: `legs splayed by ${s}`, table: () => legTable(2100, 800, 745, s) })),
  ...[700, 1219, 1500].map((d) => ({ name: `round ${d}`, table: () => roundTable(d) })),
  { name: 'slab ends', table: slabTable },
];
const shows = ['mm', 'in', 'mm+in'] as const;

const sheetsOf = (drawings: Drawings) => Object.values(drawings);

describe.each(tables)('$name', ({ table }) => {
  test.each(shows)('%s: no text on a line, on another text, or off the sheet', (show) => {
    const faults: string[] = [];
    for (const sheet of sheetsOf(draw(table(), specShown(show, show === 'in' ? 'letter' : 'a4')))) {
      const texts = textsOf(sheet.marks);
      const lines = linesOf(sheet.marks);
      texts.forEach((t, i) => {
        const b = t.boxMm;
        if (b.x < 0 || b.y < 0 || b.x + b.width > sheet.widthMm || b.y + b.height > sheet.heightMm)
          faults.push(`${sheet.id}: ${t.text} leaves the sheet`);
        const line = lines.find((l) => entersBox(l, b));
        if (line !== undefined) faults.push(`${sheet.id}: ${t.text} on a line of class ${line.class}`);
        for (const other of texts.slice(i + 1)) {
          const o = other.boxMm;
          if (b.x < o.x + o.width && o.x < b.x + b.width && b.y < o.y + o.height && o.y < b.y + b.height)
            faults.push(`${sheet.id}: ${t.text} on ${other.text}`);
        }
      });
    }
    expect(faults).toEqual([]);
  });
});

test('the check itself finds a text on a line', () => {
  const box = { x: 0, y: 0, width: 4, height: 2 };
  expect(entersBox({ class: 'edge', from: [-1, 1], to: [5, 1] }, box)).toBe(true);
  expect(entersBox({ class: 'edge', from: [-1, 3], to: [5, 3] }, box)).toBe(false);
});

test('lettering on the telephone is at least 12 px when the drawing is 350 px wide', () => {
  for (const { table } of tables) {
    const { small } = draw(table());
    expect(textsOf(small.marks).length).toBeGreaterThanOrEqual(2);
    for (const text of textsOf(small.marks)) expect((text.sizeMm * 350) / small.widthMm).toBeGreaterThanOrEqual(12);
  }
});
