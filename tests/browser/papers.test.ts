import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { issuedRevisions } from '../../src/record/index.ts';
import { deliver } from '../cli/delivered.ts';
import { runIn } from '../cli/run.ts';
import { isLeftOut, looseIn, openBrowser, turnedName } from './browser.ts';

/** The papers of the first demo's table, opened from disk as they are published: without script, within the screen, accessible. */
const root = fileURLToPath(new URL('../../', import.meta.url));
const out = fileURLToPath(new URL('../out/pages/', import.meta.url));
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const slug = 'tollefsen-quill';
const home = mkdtempSync(join(tmpdir(), 'leafwright-papers-page-'));
afterAll(() => rmSync(home, { recursive: true, force: true }));
let address = '';
let browser: Browser;

beforeAll(async () => {
  if (isLeftOut) return;
  mkdirSync(join(home, 'templates'), { recursive: true });
  mkdirSync(out, { recursive: true });
  cpSync(join(root, 'proposals', slug), join(home, 'proposals', slug), { recursive: true });
  await deliver({ workspace: home, slug, on: '2026-06-18' });
  expect((await runIn(home, ['build', '--as-of', '2026-06-18'])).status).toBe(0);
  const token = issuedRevisions(join(home, 'proposals', slug), '2026-06-18').at(-1)?.token ?? '';
  address = pathToFileURL(join(home, 'dist', 'client', token, 'papers', 'index.html')).href;
  browser = await openBrowser();
}, 120_000);
afterAll(async () => browser?.close());

async function open(width: number, more: { readonly colorScheme?: 'dark'; readonly javaScriptEnabled?: false } = {}): Promise<Page> {
  const context = await browser.newContext({ viewport: { width, height: 844 }, ...more });
  const page = await context.newPage();
  page.on('request', (request) => expect(request.url()).toMatch(/^(?:file|data):/));
  await page.goto(address);
  return page;
}

describe.skipIf(isLeftOut)('the page of a table’s papers', () => {
  test.each([
    ['telephone', 390, {}],
    ['telephone, dark', 390, { colorScheme: 'dark' }],
    ['desk', 1280, {}],
  ] as const)('%s: nothing runs over the edge, accessible by axe', async (name, width, more) => {
    const page = await open(width, more);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(width);
    await page.evaluate(axe);
    const found = (await page.evaluate('axe.run()')) as { readonly violations: readonly { readonly id: string }[] };
    expect(found.violations.map(({ id }) => id)).toEqual([]);
    await page.screenshot({ path: join(out, `papers-${name.replaceAll(/\W+/g, '-')}.png`), fullPage: true });
    await page.context().close();
  });

  test('without script every paper is a link to a file that is there, and the proposal is one step away', async () => {
    const page = await open(390, { javaScriptEnabled: false });
    const links = await page.locator('.papers-list a').evaluateAll((all) => all.map((one) => (one as unknown as { href: string }).href));
    expect(links.length).toBeGreaterThanOrEqual(5);
    for (const link of links) expect(readFileSync(fileURLToPath(link)).subarray(0, 5).toString()).toBe('%PDF-');
    await page.getByRole('link', { name: 'The proposal, as it was agreed' }).click();
    await page.getByRole('link', { name: 'Papers of your table' }).click();
    expect(page.url()).toBe(address);
    await page.context().close();
  });

  test('names from right to left keep to themselves, and nothing runs over for them', async () => {
    const file = fileURLToPath(address);
    const turned = [
      'Runa Stavely',
      'Tables to commission',
      'Maren Tollefsen',
      'Idris Quill',
      'Dining table for the flat',
      '3 Slipway Lane',
    ];
    const before = readFileSync(file, 'utf8');
    const seen = turned.filter((words) => before.includes(words));
    expect(seen).toEqual(turned);
    const beside = file.replace('index.html', 'turned.html');
    writeFileSync(
      beside,
      turned.reduce((left, words) => left.replaceAll(words, turnedName), before),
    );
    const page = await open(390);
    await page.goto(pathToFileURL(beside).href);
    const { loose, count } = await looseIn(page);
    expect(loose).toEqual([]);
    expect(count).toBeGreaterThanOrEqual(turned.length - 1);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(390);
    await page.context().close();
  });

  test('every paper is high enough for a thumb', async () => {
    const page = await open(390);
    const heights = await page
      .locator('.papers-list a, .ways a')
      .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().height));
    expect(Math.min(...heights)).toBeGreaterThanOrEqual(44);
    await page.context().close();
  });

  test('printed it is one page', async () => {
    const page = await open(1280);
    const pdf = (await page.pdf({ path: join(out, 'papers.pdf'), format: 'A4' })).toString('latin1');
    expect(pdf.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
    await page.context().close();
  });
});
