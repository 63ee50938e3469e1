import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type CareInput, careViewOf, composeCare, linesOf } from '../../src/care/index.ts';
import { openTools } from '../../src/cli/draft/produce.ts';
import { fontFiles } from '../../src/site/index.ts';
import { writeCare } from '../../src/write/client/index.ts';
import { sheetCss } from '../../src/write/index.ts';
import { day, finish, input } from '../care/tables.ts';
import { isLeftOut, looseIn, openBrowser, turnedName } from './browser.ts';

/** The care of a table as page and on paper: read back by a browser with axe, and by poppler and qpdf. People and places are invented. */
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const folder = mkdtempSync(join(tmpdir(), 'leafwright-care-'));
const tools = openTools();
const flat = (text: string): string => text.replaceAll(/\s+/g, ' ').trim();
const tool = (name: string, ...args: string[]): string => execFileSync(name, args, { encoding: 'utf8', cwd: folder });

const tables: readonly (readonly [string, CareInput])[] = [
  [
    'oil-leaf',
    input({
      construction: ['glued', 'moving-fixings', 'leaf', 'knock-down', 'bolts'],
      place: { humidityLowPercent: 30, humidityHighPercent: 58, facts: ['children', 'daily-spills', 'sun'] },
      carrying: {
        massKg: 60,
        longestMm: 2100,
        liftBy: 'the rails under the top',
        pieces: [
          { name: 'the top', massKg: 33 },
          { name: 'the base', massKg: 27 },
        ],
        apart: ['Clear it.', 'Undo the bolts.'],
      },
    }),
  ],
  ['ceramic', input({ finish: finish('hardwax-oil-ceramic') })],
  ['varnish-steel', input({ finish: finish('wiping-varnish'), construction: ['glued', 'moving-fixings', 'steel', 'bolts'] })],
  ['glass', input({ construction: ['glued', 'glass'] })],
];

const viewOf = (table: CareInput) =>
  careViewOf(table, composeCare(table), {
    piece: 'RS-2027-07',
    edition: 1,
    on: day('2027-05-10'),
    maker: {
      name: 'Runa Stave',
      trade: 'tables',
      address: '3 Invented Lane',
      telephone: '+44 (0)1632 960123',
      email: 'runa@example.invalid',
      isInvented: true,
    },
    paper: 'a4',
    use: 'dining',
    overallMm: { length: 2100, width: 820, height: 745 },
    isRound: false,
    botanical: { 'oak-european': 'Quercus robur' },
  });

let browser: Browser | undefined;
beforeAll(async () => {
  if (!isLeftOut) browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

describe.each(tables)('the care of a table: %s', (name, table) => {
  const view = viewOf(table);
  const write = async (): Promise<string> => {
    const page = await tools.pages.renderCarePage(view, { sheetCss: sheetCss(), links: { pdf: 'care.pdf', calendar: 'care.ics' } });
    for (const { path, bytes } of [{ path: 'index.html', bytes: Buffer.from(page) }, ...fontFiles()]) {
      const file = join(folder, name, path);
      mkdirSync(dirname(file), { recursive: true });
      writeFileSync(file, bytes);
    }
    return page;
  };

  test('has no script, asks no other host, and dials without the trunk zero', async () => {
    const page = await write();
    expect(page).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org)|\sstyle=|\son[a-z]+=/i);
    expect(page).toContain('href="tel:+441632960123"');
    const ids = new Set([...page.matchAll(/\sid="([^"]+)"/g)].map(([, id]) => id));
    const links = [...page.matchAll(/href="#([^"]+)"/g)].map(([, id]) => id);
    expect(links.length).toBeGreaterThan(20);
    expect(links.filter((id) => !ids.has(id))).toEqual([]);
    expect(ids.size).toBe([...page.matchAll(/\sid="/g)].length);
  });

  test.skipIf(isLeftOut).each([
    [390, 'light'],
    [1280, 'light'],
    [390, 'dark'],
  ] as const)('at %i px, %s: axe finds nothing, all kinds of spill are on the first screen, nothing runs over', async (width, scheme) => {
    await write();
    const page = await browser?.newPage({ viewport: { width, height: 844 }, colorScheme: scheme });
    if (page === undefined) throw new Error('no browser');
    await page.goto(pathToFileURL(join(folder, name, 'index.html')).href);
    const last = await page.locator('.to-spills li:last-child a').boundingBox();
    expect((last?.y ?? 9999) + (last?.height ?? 0)).toBeLessThanOrEqual(844);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
    const shown = flat((await page.locator('main').textContent()) ?? '');
    for (const { text } of linesOf(view.note)) expect(shown).toContain(flat(text));
    await page.evaluate(axe);
    const found = (await page.evaluate('axe.run().then((r) => r.violations.map((v) => v.id))')) as readonly string[];
    expect(found).toEqual([]);
    await page.close();
  });

  test.skipIf(isLeftOut)('names and lines from right to left keep to themselves, and nothing runs over for them', async () => {
    const page = await browser?.newPage({ viewport: { width: 390, height: 844 } });
    if (page === undefined) throw new Error('no browser');
    const names = [view.title, view.piece, view.finish.name, ...view.woods.map((wood) => wood.name), 'Runa Stave', '3 Invented Lane'];
    const lines = linesOf(view.note).map(({ text }) => text.split(' ').slice(0, 2).join(' '));
    const pieces = (view.apart?.pieces ?? []).map((piece) => piece.name);
    const turned = [...names, ...lines].filter((words) => words.length > 2);
    const html = await write();
    const file = join(folder, name, 'turned.html');
    const at = html.indexOf('<body');
    const piecesTurned = pieces.reduce(
      (left, words) => left.replaceAll(new RegExp(`${words}(?=</(?:bdi|th)>)`, 'g'), turnedName),
      html.slice(at),
    );
    const body = turned.reduce((left, words) => left.replaceAll(words, turnedName), piecesTurned);
    writeFileSync(file, html.slice(0, at) + body);
    await page.goto(pathToFileURL(file).href);
    const { loose, count } = await looseIn(page);
    expect(loose).toEqual([]);
    expect(count).toBeGreaterThan(20);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(390);
    await page.close();
  });

  test('on paper has every line of the note, tags, an outline, a language, and at most four pages', async () => {
    const file = `${name}.pdf`;
    writeFileSync(join(folder, file), await writeCare(view, tools.documents));
    expect(tool('qpdf', '--check', file)).toContain('No syntax or stream encoding errors found');
    expect(tool('pdfinfo', file)).toMatch(/Tagged:\s+yes/);
    expect(Number(/Pages:\s+(\d+)/.exec(tool('pdfinfo', file))?.[1])).toBeLessThanOrEqual(4);
    const plain = tool('qpdf', '--qdf', '--object-streams=disable', file, '-');
    expect(plain).toMatch(/\/Lang \(en-GB\)/);
    expect(plain).toMatch(/\/Outlines /);
    expect(tool('pdfinfo', '-struct-text', file)).toContain('H2');
    const says = flat(tool('pdfinfo', '-struct-text', file).replaceAll(/^\s*"(.*)"$/gm, '$1'));
    const read = says.replaceAll(/[^\p{L}\p{N}]/gu, '');
    for (const { text } of linesOf(view.note)) expect(read).toContain(text.replaceAll(/[^\p{L}\p{N}]/gu, ''));
  });
});
