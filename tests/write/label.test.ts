import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import jsqr from 'jsqr';
import { afterAll, describe, expect, test } from 'vitest';
import { openDocumentFonts } from '../../src/cli/draft/fonts.ts';
import {
  type LabelContent,
  type LabelLayout,
  type LabelSize,
  labelPdf,
  labelSvg,
  layOutLabel,
  measureWith,
} from '../../src/write/client/index.ts';
import { LEAST_MODULE_MM, labelCode } from '../../src/write/client/label-code.ts';
import { textsOf } from '../client/commission.ts';

/**
 * Labels are rasterised by poppler and by resvg and scanned by two readers that know nothing of ours: jsQR, and zbar where it is
 * installed. People, town and addresses are invented.
 */
const folder = mkdtempSync(join(tmpdir(), 'leafwright-label-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const fonts = openDocumentFonts();
const measure = measureWith(fonts);
const careLink = 'https://care.stavely-tables.example.invalid/abcdefghij234567klmnopqrst/';
const content: LabelContent = {
  piece: 'RS-2026-07',
  wood: 'European oak',
  finish: 'Hardwax oil, two coats, with a ceramic coat over it',
  made: { year: 2026, month: 7, day: 14 },
  maker: { name: 'Runa Stavely', trade: 'Tables to commission', address: '3 Slipway Lane, Tarrowby', telephone: '+000 55 0147' },
  careLink,
  care: ['Dust it dry. Wipe up what is spilt within minutes.', 'Wash with a wrung cloth and a drop of mild soap, then dry.'],
  texts: textsOf('en-GB'),
  language: 'en-GB',
};
const sizes: readonly LabelSize[] = ['large', 'small'];
function laidOut(size: LabelSize, more: Partial<LabelContent> = {}): LabelLayout {
  const layout = layOutLabel({ ...content, ...more }, size, measure);
  if ('fault' in layout) throw new Error(layout.fault);
  return layout;
}
const codeOf = (layout: LabelLayout) => {
  const item = layout.items.find(({ kind }) => kind === 'code');
  if (item?.kind !== 'code') throw new Error('no code');
  return item;
};

interface Raster {
  readonly width: number;
  readonly height: number;
  readonly rgba: Uint8ClampedArray;
  readonly perMm: number;
}
let count = 0;
/** A PDF's page in pixels by poppler, as PPM: `P6 width height 255` and three bytes a pixel. */
async function rasterOf(layout: LabelLayout, dpi: number): Promise<Raster> {
  const name = join(folder, String(count++));
  writeFileSync(`${name}.pdf`, await labelPdf(layout, fonts, '2026-07-14'));
  execFileSync('pdftoppm', ['-r', String(dpi), '-singlefile', `${name}.pdf`, name]);
  const bytes = readFileSync(`${name}.ppm`);
  const head = /^P6\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.subarray(0, 40).toString('latin1'));
  if (head === null) throw new Error('no PPM');
  const [width, height] = [Number(head[1]), Number(head[2])];
  const rgba = new Uint8ClampedArray(width * height * 4).fill(255);
  const pixels = bytes.subarray(head[0].length);
  for (let i = 0; i < width * height; i += 1) rgba.set(pixels.subarray(i * 3, i * 3 + 3), i * 4);
  return { width, height, rgba, perMm: dpi / 25.4 };
}
const scan = ({ rgba, width, height }: Raster): string | undefined => jsqr(rgba, width, height)?.data;

/** Modules, told by row and column, become the opposite of what they are: a scratch, a drop of glue. */
function damaged(raster: Raster, layout: LabelLayout, modules: readonly (readonly [row: number, column: number])[]): Raster {
  const { code, leftMm, topMm } = codeOf(layout);
  const rgba = Uint8ClampedArray.from(raster.rgba);
  const px = (mm: number): number => Math.round(mm * raster.perMm);
  for (const [row, column] of modules) {
    const grey = code.rows[row]?.[column] === true ? 255 : 20;
    for (let y = px(topMm + row * code.moduleMm); y < px(topMm + (row + 1) * code.moduleMm); y += 1)
      for (let x = px(leftMm + column * code.moduleMm); x < px(leftMm + (column + 1) * code.moduleMm); x += 1)
        rgba.set([grey, grey, grey], (y * raster.width + x) * 4);
  }
  return { ...raster, rgba };
}

const hasZbar = spawnSync('zbarimg', ['--version']).status === 0;
const zbar = (raster: Raster): string => {
  const file = join(folder, `${count++}.ppm`);
  const rgb = Buffer.alloc(raster.width * raster.height * 3);
  for (let i = 0; i < raster.width * raster.height; i += 1) rgb.set(raster.rgba.subarray(i * 4, i * 4 + 3), i * 3);
  writeFileSync(file, Buffer.concat([Buffer.from(`P6\n${raster.width} ${raster.height}\n255\n`), rgb]));
  return spawnSync('zbarimg', ['-q', '--raw', file], { encoding: 'utf8' }).stdout.trim();
};

describe.each(sizes)('the %s label', (size) => {
  const layout = laidOut(size);

  test.each([150, 300])('is scanned from its PDF at %i dpi, whole and with damaged modules', async (dpi) => {
    const raster = await rasterOf(layout, dpi);
    expect(scan(raster)).toBe(careLink);
    const last = codeOf(layout).code.rows.length - 1;
    // One module of the data; a row of nine; a patch of four by four: each by far below what level Q restores.
    const one = damaged(raster, layout, [[12, 20]]);
    const scratch = damaged(
      raster,
      layout,
      Array.from({ length: 9 }, (_, i) => [15, 12 + i] as const),
    );
    const patch = damaged(
      raster,
      layout,
      Array.from({ length: 16 }, (_, i) => [last - 14 + (i >> 2), 16 + (i & 3)] as const),
    );
    expect([one, scratch, patch].map(scan)).toEqual([careLink, careLink, careLink]);
    if (hasZbar) expect([raster, one, scratch, patch].map(zbar)).toEqual([careLink, careLink, careLink, careLink]);
    // The damage is real: a finder that is gone is not read.
    const gone = Array.from({ length: 49 }, (_, i) => [Math.floor(i / 7), i % 7] as const);
    expect(scan(damaged(raster, layout, gone))).not.toBe(careLink);
  });

  test('is scanned from its SVG, whose letters need no font', () => {
    const svg = labelSvg(layout, fonts);
    expect(svg).not.toMatch(/<text|font-family|href/);
    const { width, height, pixels } = new Resvg(svg, {
      fitTo: { mode: 'width', value: 700 },
      background: '#ffffff',
      font: { loadSystemFonts: false },
    }).render();
    expect(jsqr(Uint8ClampedArray.from(pixels), width, height)?.data).toBe(careLink);
  });

  test('says everything in words too, in reading order; checked by general PDF tools', async () => {
    const name = join(folder, `${size}.pdf`);
    writeFileSync(name, await labelPdf(layout, fonts, '2026-07-14'));
    expect(execFileSync('qpdf', ['--check', name], { encoding: 'utf8' })).toContain('No syntax or stream encoding errors found');
    const info = execFileSync('pdfinfo', [name], { encoding: 'utf8' });
    expect(info).toMatch(/Tagged:\s+yes/);
    const [widthPt = 0, heightPt = 0] = (/Page size:\s+([\d.]+) x ([\d.]+)/.exec(info) ?? []).slice(1).map(Number);
    expect([widthPt, heightPt].map((pt) => Math.round((pt * 25.4) / 72))).toEqual(size === 'large' ? [90, 60] : [74, 52]);
    const words = execFileSync('pdftotext', ['-raw', name, '-'], { encoding: 'utf8' }).replaceAll(/\s+/g, ' ');
    const whole = [
      'RUNA STAVELY',
      'Tables to commission',
      'No. RS-2026-07',
      'European oak',
      'Hardwax oil, two coats, with a ceramic coat over it',
      'Made in July 2026',
      ...content.care,
      '3 Slipway Lane, Tarrowby · +000 55 0147',
    ];
    for (const part of whole) expect(words).toContain(part);
    expect(words.replaceAll(' ', '')).toContain('care.stavely-tables.example.invalid/abcdefghij234567klmnopqrst/');
    const places = whole.map((part) => words.indexOf(part));
    expect(places).toEqual(places.toSorted((a, b) => a - b));
  });

  test('keeps words apart from each other, inside the frame, and off the quiet zone of four modules', () => {
    const { code, leftMm, topMm } = codeOf(layout);
    const quietMm = 4 * code.moduleMm;
    expect(code.moduleMm).toBeGreaterThanOrEqual(0.4);
    const zone = {
      left: leftMm - quietMm,
      top: topMm - quietMm,
      right: leftMm + code.sideMm + quietMm,
      bottom: topMm + code.sideMm + quietMm,
    };
    const frames = layout.items.filter((item) => item.kind === 'frame');
    const inner = frames.at(-1);
    if (inner === undefined) throw new Error('no frame');
    const boxes = layout.items.flatMap((item) =>
      item.kind === 'text'
        ? [
            {
              what: item.text,
              left: item.leftMm,
              right: item.leftMm + item.widthMm,
              top: item.baselineMm - item.sizeMm * 0.72,
              bottom: item.baselineMm + item.sizeMm * 0.22,
            },
          ]
        : item.kind === 'rule'
          ? [{ what: 'rule', left: item.leftMm, right: item.leftMm + item.widthMm, top: item.topMm, bottom: item.topMm + item.weightMm }]
          : [],
    );
    const meet = (a: typeof zone, b: typeof zone): boolean => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
    expect(boxes.filter((box) => meet(box, zone)).map(({ what }) => what)).toEqual([]);
    expect(
      boxes.flatMap((a, i) =>
        boxes
          .slice(i + 1)
          .filter((b) => meet(a, b))
          .map((b) => [a.what, b.what]),
      ),
    ).toEqual([]);
    const isOut = ({ left, right, top, bottom }: typeof zone): boolean =>
      left < inner.leftMm + 1 ||
      right > inner.leftMm + inner.widthMm - 1 ||
      top < inner.topMm + 1 ||
      bottom > inner.topMm + inner.heightMm - 1;
    expect(boxes.filter(isOut).map(({ what }) => what)).toEqual([]);
    expect(zone.right).toBeLessThan(inner.leftMm + inner.widthMm);
  });

  test('is the same to the byte when made again', async () => {
    expect(await labelPdf(laidOut(size), fonts, '2026-07-14')).toEqual(await labelPdf(layout, fonts, '2026-07-14'));
    expect(labelSvg(laidOut(size), fonts)).toBe(labelSvg(layout, fonts));
  });

  test('sets long words smaller, and says so where they do not fit or the address is too long', () => {
    const finish = 'Wiping varnish, three coats, satin, on top and edges; hardwax oil below';
    const longer = laidOut(size, { finish });
    const smallest = (one: LabelLayout): number => Math.min(...one.items.flatMap((item) => (item.kind === 'text' ? [item.sizeMm] : [])));
    expect(smallest(longer)).toBeGreaterThanOrEqual(1.7);
    const at = (one: LabelLayout): number =>
      one.items.flatMap((item) => (item.kind === 'text' && item.face === 'serif-semibold' ? [item.sizeMm] : []))[0] ?? 0;
    expect(at(longer)).toBeLessThanOrEqual(at(layout));
    expect(layOutLabel({ ...content, finish: finish.repeat(6) }, size, measure)).toEqual({ fault: 'words-too-long' });
    expect(layOutLabel({ ...content, careLink: `${careLink}${'x'.repeat(400)}` }, size, measure)).toEqual({ fault: 'link-too-long' });
  });
});

/** @source ISO/IEC 18004: a code of version v has 17 + 4 v modules a side; capacities in bytes of 5-Q and 5-M are 60 and 84 (from memory) */
test('a code is of level Q where its modules stay large enough, else M, else there is none', () => {
  const code = labelCode('a'.repeat(60), 45 * LEAST_MODULE_MM);
  expect([code?.level, code?.rows.length, code?.moduleMm]).toEqual(['Q', 37, 0.4]);
  expect([labelCode('a'.repeat(84), 45 * LEAST_MODULE_MM)?.level, labelCode('a'.repeat(84), 45 * LEAST_MODULE_MM)?.rows.length]).toEqual([
    'M',
    37,
  ]);
  expect(labelCode('a'.repeat(85), 45 * LEAST_MODULE_MM)).toBeUndefined();
});
