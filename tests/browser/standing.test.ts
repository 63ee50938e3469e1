import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { makeClientFiles, openTools } from '../../src/cli/draft/produce.ts';
import { fillState } from '../../src/cli/make/publish.ts';
import { clientView } from '../../src/client/index.ts';
import { computeProposal } from '../../src/compute.ts';
import { figuresOf } from '../../src/figures/index.ts';
import { readDemo } from '../demos/load.ts';
import { isLeftOut, looseIn, openBrowser } from './browser.ts';

/** A page whose slot says that it takes no answer any more, and one whose names are of a script that runs from right to left. */
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const tools = openTools();
const folder = mkdtempSync(join(tmpdir(), 'leafwright-standing-'));
const filling = (marks: string): string =>
  `<div class="standing" ${marks}><p>How it stands.</p><p><a href="../x/index.html">Open the change</a></p></div>`;

/** Invented; the strings are Hebrew for table, maker and client. */
const turned = {
  Reed: 'שולחן',
  'Runa Stavely': 'נגר',
  'Maren Tollefsen': 'לקוחה',
  'Our son hoists himself onto the end': 'הבן שלנו (11) יושב על הקצה',
};

async function write(name: string, edit: (text: string) => string, fill: (html: string) => string): Promise<void> {
  const { input } = readDemo('tollefsen-quill', 'r2');
  const { computed } = input === undefined ? {} : computeProposal(input, { measure: tools.fonts.measure });
  if (computed === undefined) throw new Error('the demo can not be computed');
  const view = clientView(computed, figuresOf(computed), { fingerprint: '3f9a0b12c4'.repeat(7).slice(0, 64) });
  for (const { path, bytes } of await makeClientFiles(JSON.parse(edit(JSON.stringify(view))), tools)) {
    const file = join(folder, name, path);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, path === 'index.html' ? fill(Buffer.from(bytes).toString('utf8')) : bytes);
  }
}

describe.skipIf(isLeftOut)('how a page stands, in a browser', () => {
  let browser: Browser;
  beforeAll(async () => {
    const same = (text: string): string => text;
    for (const answers of ['open', 'shut'] as const)
      await write(answers, same, (html) => fillState(html, filling(`data-answers="${answers}"`)));
    await write('agreed', same, (html) => fillState(html, filling('data-answers="shut" data-yes')));
    await write(
      'turned',
      (text) => Object.entries(turned).reduce((left, [from, to]) => left.replaceAll(from, to), text),
      (html) => html,
    );
    browser = await openBrowser();
  }, 120_000);
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  async function open(name: string, options: BrowserContextOptions = {}): Promise<Page> {
    const context = await browser.newContext({ viewport: { width: 390, height: 844 }, ...options });
    const page = await context.newPage();
    await page.goto(pathToFileURL(join(folder, name, 'index.html')).href);
    return page;
  }

  /** What a reader can see of what asks for an answer. */
  const invites = async (page: Page): Promise<readonly string[]> => {
    const all = [
      '#answer',
      '#letter',
      '.paper-letter',
      'a[href="#answer"]',
      '.mail-links a',
      'button',
      'textarea',
      'text=/answer by/',
      'text=/Valid until/',
    ];
    const seen = await Promise.all(all.map(async (one) => ((await page.locator(`${one} >> visible=true`).count()) > 0 ? [one] : [])));
    return seen.flat();
  };

  test.each([
    [390, true, 'screen'],
    [1280, true, 'screen'],
    [390, false, 'screen'],
    [1280, true, 'print'],
    [1280, false, 'print'],
  ] as const)(
    'at %i px, script %s, on %s: a page that is shut invites no answer, one that is open does',
    async (width, javaScriptEnabled, media) => {
      const options = { viewport: { width, height: 844 }, javaScriptEnabled };
      const [shut, still] = [await open('shut', options), await open('open', options)];
      await Promise.all([shut.emulateMedia({ media }), still.emulateMedia({ media })]);
      expect(await invites(shut)).toEqual([]);
      expect(await invites(still)).toContain('#answer');
      expect(await invites(still)).toContain(javaScriptEnabled && media === 'screen' ? '#letter' : '.paper-letter');
      for (const part of ['#designs', '#terms', '.standing']) expect(await shut.locator(part).first().isVisible(), part).toBe(true);
      // How a yes is said belongs to a page that asks for one, and to the record of one that was given.
      const agreed = await open('agreed', options);
      await agreed.emulateMedia({ media });
      expect(await invites(agreed)).toEqual([]);
      const tells = [shut, still, agreed].map((page) => page.locator('#consent').isVisible());
      expect(await Promise.all(tells)).toEqual([false, true, true]);
      for (const page of [shut, still, agreed]) await page.context().close();
    },
  );

  test('the keyboard reaches nothing of the letter, and axe finds nothing to mend', async () => {
    const page = await open('shut');
    const reached: string[] = [];
    for (let i = 0; i < 80; i += 1) {
      await page.keyboard.press('Tab');
      reached.push(await page.evaluate(() => document.activeElement?.closest('#answer, .standing')?.className ?? ''));
    }
    expect([reached.includes('standing'), reached.some((one) => one.includes('reply'))]).toEqual([true, false]);
    await page.evaluate(axe);
    expect(await page.evaluate('axe.run().then((r) => r.violations.map((v) => v.id))')).toEqual([]);
    const box = await page.locator('.standing a').boundingBox();
    expect(box?.height).toBeGreaterThanOrEqual(44);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(390);
    await page.context().close();
  });

  test('names and words from right to left keep to themselves: none stands loose in a line of the page', async () => {
    const page = await open('turned');
    const { loose, count } = await looseIn(page);
    expect(loose).toEqual([]);
    expect(count).toBeGreaterThan(10);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(390);
    await page.context().close();
  });
});
