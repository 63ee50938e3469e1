import { describe, expect, test } from 'vitest';
import type { Sheet } from '../../src/draw/index.ts';
import { openFonts, sheetCss, sheetToPng, sheetToSvg } from '../../src/write/index.ts';
import { pathData, svgNumber } from '../../src/write/svg.ts';
import { draw } from '../draw/drawn.ts';
import { legTable, roundTable } from '../draw/tables.ts';

const fonts = openFonts();
const drawings = draw(legTable());
const sheets = Object.values(drawings);

describe('SVG for pages', () => {
  const svg = sheets.map((s) => sheetToSvg(s, { idPrefix: 'a' })).join('\n');

  test('no style attribute, no script, nothing from elsewhere', () => {
    expect(svg).not.toMatch(/ style=|<script|<style|href=|url\(|https?:/);
  });

  test('every id stands once and carries the prefix', () => {
    const ids = [...svg.matchAll(/ id="([^"]*)"/g)].map((m) => m[1]);
    expect(ids.length).toBe(2 * sheets.length);
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) expect(id).toMatch(/^a-/);
  });

  test('at most three decimals', () => {
    expect(svg.match(/\d\.\d{4,}/g)).toBeNull();
  });

  test('an accessible name and description', () => {
    expect(svg).toContain('role="img"');
    expect(svg).toContain('<title id="a-picture-t">A Reed: Picture</title>');
    expect(svg).toContain('2,100');
  });

  test('every class of the marks has a rule, and no mark has a colour of ink of its own', () => {
    const css = sheetCss();
    for (const [, names] of svg.matchAll(/class="([^"]*)"/g)) {
      for (const name of (names ?? '').split(' ')) {
        if (!['lw-own', 'lw-face', 'lw-lettering'].includes(name)) expect(css).toContain(`.${name}`);
      }
    }
    expect(svg).not.toContain('#1D1C1A');
  });

  test('same sheet, same bytes', () => {
    const again = Object.values(draw(legTable())).map((s) => sheetToSvg(s, { idPrefix: 'a' }));
    expect(again.join('\n')).toBe(svg);
  });

  test('names of people and of parts are escaped', () => {
    const odd: Sheet = { ...drawings.small, title: `"A" & <B>'s`, marks: [] };
    expect(sheetToSvg(odd, { idPrefix: 'a' })).toContain('&quot;A&quot; &amp; &lt;B&gt;&#39;s');
  });
});

describe('numbers and paths', () => {
  test.each([
    [1, '1'],
    [-0.0001, '0'],
    [0.12345, '0.123'],
    [-2.5, '-2.5'],
  ])('%f is %s', (value, text) => expect(svgNumber(value)).toBe(text));

  test('a chain of a thousand relative steps ends where it should, to 0.005 mm', () => {
    const points = Array.from({ length: 1000 }, (_, i) => [10 * Math.sin(i * 0.37), i * 0.1234] as const);
    const d = pathData(points.map(([x, y], i) => [i === 0 ? 'M' : 'L', x, y]));
    const numbers = [...d.matchAll(/-?\d*\.?\d+/g)].map((m) => Number(m[0]));
    let [x, y] = [0, 0];
    for (let i = 0; i < numbers.length; i += 2) [x, y] = [x + (numbers[i] ?? 0), y + (numbers[i + 1] ?? 0)];
    const last = points.at(-1) ?? [0, 0];
    expect(Math.abs(x - last[0])).toBeLessThan(0.0051);
    expect(Math.abs(y - last[1])).toBeLessThan(0.0051);
  });
});

describe('fonts', () => {
  // Source Sans 3, release 3.052: units per em 1000, advance of figures 497 (hmtx of the regular face; the figures are tabular).
  test('figures have the width that the font gives them', () => {
    expect(fonts.measure('0', 1000, 'sans')).toBeCloseTo(497, 0);
    expect(fonts.measure('2100', 10, 'sans')).toBeCloseTo(19.88, 1);
  });

  test('a composed fraction is narrower than its digits in a row, in measure and in outline', () => {
    expect(fonts.measure('5\u204416', 10, 'sans')).toBeLessThan(fonts.measure('5/16', 10, 'sans'));
  });

  test('outlines keep inside the measured box', () => {
    const text = drawings.small.marks.find((m) => m.kind === 'text' && m.angleDeg === 0);
    if (text?.kind !== 'text') throw new Error('no text on the small drawing');
    const xs = [...fonts.outline(text).matchAll(/-?[\d.]+/g)].map((m) => Number(m[0])).filter((_, i) => i % 2 === 0);
    expect(Math.min(...xs)).toBeGreaterThanOrEqual(text.boxMm.x - 0.1);
    expect(Math.max(...xs)).toBeLessThanOrEqual(text.boxMm.x + text.boxMm.width + 0.1);
  });
});

describe('PNG', () => {
  const png = Buffer.from(sheetToPng(draw(roundTable()).small, 350, fonts.outline));

  test('is a PNG of the width asked for', () => {
    // @source W3C PNG specification: signature, then IHDR with width and height
    expect(png.subarray(0, 8).toString('hex')).toBe('89504e470d0a1a0a');
    expect(png.readUInt32BE(16)).toBe(350);
  });

  test('same sheet, same bytes', () => {
    expect(Buffer.from(sheetToPng(draw(roundTable()).small, 350, fonts.outline)).equals(png)).toBe(true);
  });

  test('letters are outlines: the file names no font and holds no text', () => {
    const svg = sheetToSvg(drawings.sheet, { idPrefix: 'p', mode: 'file', outlineText: fonts.outline, paper: true });
    expect(svg).not.toMatch(/<text|font-/);
  });
});
