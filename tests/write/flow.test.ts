import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/write/client/blocks.ts';
import { plain } from '../../src/write/client/blocks.ts';
import type { Layout } from '../../src/write/client/flow.ts';
import { layOut } from '../../src/write/client/flow.ts';
import type { MeasurePt } from '../../src/write/client/type.ts';
import { settings } from '../../src/write/client/type.ts';
import { wrap } from '../../src/write/client/wrap.ts';

/** Every character half a size wide: layouts that can be worked out by hand. */
const even: MeasurePt = (text, _face, sizePt) => text.length * sizePt * 0.5;

const page = { widthPt: 300, heightPt: 220, marginPt: 20, footPt: 10 };

const paragraph = (words: number): Block => ({
  kind: 'paragraph',
  runs: plain(Array.from({ length: words }, (_, i) => `word${i}`).join(' ')),
  style: 'body',
});

interface SetLine {
  readonly page: number;
  readonly node: number;
  readonly y: number;
  readonly text: string;
}

function linesOf(layout: Layout): SetLine[] {
  return layout.pages.flatMap((p, i) =>
    p.items.flatMap((item) =>
      item.kind === 'line' ? [{ page: i, node: item.node, y: item.yPt, text: item.line.segments.map((s) => s.text).join('') }] : [],
    ),
  );
}

describe('wrap', () => {
  it('breaks at spaces, never inside a figure held together by a no-break space', () => {
    const lines = wrap(plain('about 1\u00a0800\u00a0mm long and so on'), 60, settings.body, even).map((l) =>
      l.segments.map((s) => s.text).join(''),
    );
    expect(lines).toEqual(['about', '1\u00a0800\u00a0mm', 'long and so', 'on']);
  });

  it('cuts a word that is wider than the column', () => {
    const lines = wrap(plain('abcdefghijklmnop'), 50, settings.body, even);
    expect(lines.map((l) => l.widthPt <= 50)).toEqual([true, true]);
    expect(lines.map((l) => l.segments.map((s) => s.text).join('')).join('')).toBe('abcdefghijklmnop');
  });

  it('keeps words of two faces apart by a real space, and joined where none was written', () => {
    const runs = [
      { text: 'I choose ', strong: false, emphasis: false },
      { text: 'B', strong: true, emphasis: false },
      { text: ', oiled', strong: false, emphasis: false },
    ];
    const [line] = wrap(runs, 500, settings.body, even);
    expect(line?.segments.map((s) => [s.text, s.face])).toEqual([
      ['I choose ', 'serif'],
      ['B', 'serif-semibold'],
      [', oiled', 'serif'],
    ]);
  });
});

describe('layOut', () => {
  it('loses no word and keeps reading order', () => {
    const layout = layOut([paragraph(200), { kind: 'heading', level: 2, text: 'Next' }, paragraph(90)], page, even);
    const words = linesOf(layout).flatMap((l) => l.text.split(' '));
    expect(words).toEqual([
      ...Array.from({ length: 200 }, (_, i) => `word${i}`),
      'Next',
      ...Array.from({ length: 90 }, (_, i) => `word${i}`),
    ]);
  });

  it('leaves no lone heading at a foot, no lone line on either side of a break, and stays inside the margins', () => {
    for (let before = 1; before < 90; before++) {
      const layout = layOut(
        [paragraph(before), { kind: 'heading', level: 2, text: 'Next' }, paragraph(60), paragraph(3), paragraph(70)],
        page,
        even,
      );
      const lines = linesOf(layout);
      for (const [i, line] of lines.entries()) {
        expect(line.y).toBeLessThanOrEqual(page.heightPt - page.marginPt - page.footPt);
        const next = lines[i + 1];
        if (next === undefined || next.page === line.page) continue;
        const node = layout.structure[line.node];
        expect(node?.tag, `${before} words before`).not.toBe('H2');
        if (next.node !== line.node) continue;
        const same = lines.filter((l) => l.node === line.node);
        expect(same.filter((l) => l.page === line.page).length, `${before} words before`).toBeGreaterThan(1);
        expect(same.filter((l) => l.page === next.page).length, `${before} words before`).toBeGreaterThan(1);
      }
    }
  });

  it('breaks a table between rows and sets its head again', () => {
    const rows = Array.from({ length: 30 }, (_, i) => ({ cells: [`row ${i}`, String(i)], strong: false }));
    const layout = layOut(
      [
        {
          kind: 'table',
          showHead: true,
          columns: [
            { head: 'Part', share: 0.7, align: 'left' },
            { head: 'Count', share: 0.3, align: 'right' },
          ],
          rows,
        },
      ],
      page,
      even,
    );
    const lines = linesOf(layout);
    expect(layout.pages.length).toBeGreaterThan(2);
    for (let p = 0; p < layout.pages.length; p++) {
      const here = lines.filter((l) => l.page === p);
      expect(here[0]?.text).toBe('Part');
      expect(here.filter((l) => l.text.startsWith('row')).length).toBeGreaterThan(1);
    }
    // Set again as an artifact: the structure has one head row only.
    expect(lines.filter((l) => l.text === 'Part' && l.node !== -1)).toHaveLength(1);
    expect(lines.filter((l) => l.text.startsWith('row')).map((l) => l.text)).toEqual(rows.map((r) => r.cells[0]));
  });

  it('right-aligns figures on one edge', () => {
    const layout = layOut(
      [
        {
          kind: 'table',
          showHead: false,
          columns: [
            { head: '', share: 0.5, align: 'left' },
            { head: '', share: 0.5, align: 'right' },
          ],
          rows: ['1', '12,345'].map((n) => ({ cells: ['a', n], strong: false })),
        },
      ],
      page,
      even,
    );
    const ends = layout.pages.flatMap((p) =>
      p.items.flatMap((i) => (i.kind === 'line' && /\d/.test(i.line.segments[0]?.text ?? '') ? [i.xPt + i.line.widthPt] : [])),
    );
    expect(ends).toEqual([280, 280]);
  });

  it('gives a drawing sheet a page of its own size, after the page that leads to it is filled', () => {
    const sheet = { id: 's', title: 's', description: '', widthMm: 297, heightMm: 210, marks: [] };
    const widths = (blocks: readonly Block[]) => layOut(blocks, page, even).pages.map((p) => [Math.round(p.widthPt), p.isSheet]);
    const drawing: Block = { kind: 'sheet-page', sheet };
    expect(widths([paragraph(5), drawing, paragraph(5)])).toEqual([
      [300, false],
      [842, true],
    ]);
    expect(widths([paragraph(5), drawing, ...Array.from({ length: 12 }, () => paragraph(5))]).slice(0, 3)).toEqual([
      [300, false],
      [842, true],
      [300, false],
    ]);
    expect(widths([drawing, paragraph(5)])).toEqual([
      [842, true],
      [300, false],
    ]);
  });
});
