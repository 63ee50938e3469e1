import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { makeClientFiles, makeWorkshopFiles, openTools, proposalLine } from '../../src/cli/draft/produce.ts';
import { type ClientOptions, clientView } from '../../src/client/index.ts';
import { figuresOf } from '../../src/figures/index.ts';
import { fontFiles } from '../../src/site/index.ts';
import type { WorkshopRecord } from '../../src/site/workshop/index.ts';
import { computed } from '../client/commission.ts';
import { isLeftOut, openBrowser } from './browser.ts';

/** Pages in a browser, opened from disk: accessible, within the screen, asking nobody for anything. Pictures go to tests/out. */

const out = new URL('../out/pages/', import.meta.url).pathname;
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const source = computed();
const figures = figuresOf(source);
const american = computed({ language: 'en-US', show: 'in' });
const tools = openTools();
const folder = mkdtempSync(join(tmpdir(), 'leafwright-pages-'));

function write(name: string, files: readonly { readonly path: string; readonly bytes: Uint8Array }[]): void {
  for (const { path, bytes } of files) {
    const file = join(folder, name, path);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, bytes);
  }
}

/** A record with something of every kind: invented. */
const record: WorkshopRecord = {
  standing: {
    stage: 'ordered',
    until: 'held until 2027-03-30, over',
    hasRunOut: true,
    disagree: false,
    waitingFor: [{ name: 'Ada Quayle', since: '2027-03-02' }],
    open: { currency: 'EUR', minor: 380_880 },
    openNotes: 1,
    next: 'answer note 7',
  },
  entries: [
    { n: 1, on: '2027-03-01', what: 'r1 issued' },
    { n: 7, on: '2027-03-09', what: 'note, telephone', by: 'Ada Quayle', words: 'Could it be a little lower?' },
  ],
  openNotes: [{ n: 7, on: '2027-03-09', who: 'Ada Quayle', words: 'Could it be a little lower?' }],
  samples: [
    {
      sample: 'S-7',
      of: 'sample',
      verdict: 'yes',
      keeps: 'half each',
      by: 'Ada Quayle',
      on: '2027-03-04',
      picture: 'records/files/3-sample.jpg',
    },
  ],
  account: {
    currency: 'EUR',
    instalments: [
      {
        instalment: 1,
        when: 'with your yes',
        amountMinor: 253_920,
        paidMinor: 253_920,
        openMinor: 0,
        requested: 'q-1, due 2027-03-20',
        paidOn: '2027-03-18',
      },
      { instalment: 2, when: 'on delivery', amountMinor: 380_880, paidMinor: 0, openMinor: 380_880 },
    ],
    elsewhereMinor: 0,
    paidMinor: 253_920,
    returnedMinor: 0,
    openMinor: 380_880,
  },
};

const client = (options: ClientOptions) => makeClientFiles(clientView(source, figures, options), tools);

async function writePages(): Promise<void> {
  write('client-full', await client({ fingerprint: 'ab'.repeat(32) }));
  write('client-sketch', await client({ level: 'sketch' }));
  write('client-no-price', await client({ audience: 'no-price', fingerprint: 'ab'.repeat(32) }));
  write('client-inches', await makeClientFiles(clientView(american, figuresOf(american)), tools));
  const problem = {
    code: 'price/margin-low',
    severity: 'warning',
    title: 'the price leaves less margin than you wanted at least',
    path: ['library', 'rates'],
    found: '11.5 %',
    allowed: 'at least 14.7 %',
    mend: 'raise a mark-up',
  } as const;
  write('workshop/garden-room', await makeWorkshopFiles(source, [problem], [], { record, claims: [] }, tools));
  write('workshop', fontFiles());
  const line = proposalLine(source, [problem], [], record.standing);
  const index = await tools.pages.renderWorkshopIndex({
    maker: 'Runa Stavely',
    language: 'en-GB',
    proposals: [line],
    rates: [],
    fonts: 'fonts',
  });
  write('workshop', [{ path: 'index.html', bytes: Buffer.from(index) }]);
}

const pages = [
  ['client-full', 'client-full/index.html'],
  ['client-sketch', 'client-sketch/index.html'],
  ['client-no-price', 'client-no-price/index.html'],
  ['client-inches', 'client-inches/index.html'],
  ['workshop-proposal', 'workshop/garden-room/index.html'],
  ['workshop-index', 'workshop/index.html'],
] as const;
const address = (path: string): string => pathToFileURL(join(folder, path)).href;

interface Seen {
  readonly requests: readonly string[];
  readonly complaints: readonly string[];
}

describe.skipIf(isLeftOut)('pages in a browser', () => {
  let browser: Browser;
  beforeAll(async () => {
    mkdirSync(out, { recursive: true });
    await writePages();
    browser = await openBrowser();
  });
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true });
  });

  async function withPage<T>(path: string, width: number, dark: boolean, use: (page: Page, seen: Seen) => Promise<T>): Promise<T> {
    const context = await browser.newContext({ viewport: { width, height: 844 }, colorScheme: dark ? 'dark' : 'light', bypassCSP: false });
    const page = await context.newPage();
    const seen = { requests: [] as string[], complaints: [] as string[] };
    page.on('request', (request) => seen.requests.push(request.url()));
    page.on('console', (message) => seen.complaints.push(message.text()));
    page.on('requestfailed', (request) => seen.complaints.push(`not loaded: ${request.url()}`));
    await page.goto(address(path));
    await page.evaluate(() => document.fonts.ready);
    const result = await use(page, seen);
    await context.close();
    return result;
  }

  describe.each(pages)('%s', (name, path) => {
    test.each([
      [320, false],
      [390, false],
      [1280, false],
      [390, true],
    ] as const)('at %i px (dark: %s): no sideways scrolling, own fonts, nobody asked, nothing complained of', async (width, dark) => {
      await withPage(path, width, dark, async (page, { requests, complaints }) => {
        const size = await page.evaluate(() => [document.documentElement.scrollWidth, document.documentElement.clientWidth]);
        expect(size[0]).toBeLessThanOrEqual(size[1] ?? 0);
        const loaded = await page.evaluate(() => [...document.fonts].filter((font) => font.status === 'loaded').map((font) => font.family));
        expect(loaded.some((family) => family.includes('Source Serif 4'))).toBe(true);
        expect(loaded.some((family) => family.includes('Source Sans 3'))).toBe(true);
        expect(requests.filter((url) => !url.startsWith('file:') && !url.startsWith('data:'))).toEqual([]);
        expect(complaints).toEqual([]);
        await page.screenshot({ path: join(out, `${name}-${width}${dark ? '-dark' : ''}.png`), fullPage: true });
      });
    });

    test.each([
      [390, false],
      [1280, true],
    ] as const)('at %i px (dark: %s): nothing that axe would mend', async (width, dark) => {
      await withPage(path, width, dark, async (page) => {
        await page.evaluate(() => {
          for (const details of document.querySelectorAll('details')) details.open = true;
        });
        await page.evaluate(axe);
        const violations = await page.evaluate(async () => {
          const run = (
            globalThis as unknown as {
              axe: { run: (options: object) => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
            }
          ).axe;
          const { violations: found } = await run.run({
            runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
          });
          return found.map((one) => `${one.id}: ${one.nodes.map((node) => node.html.slice(0, 120)).join(' | ')}`);
        });
        expect(violations).toEqual([]);
      });
    });
  });

  test('the first screen of a telephone shows who it is for, each design and each price', async () => {
    await withPage('client-full/index.html', 390, false, async (page) => {
      const bottoms = await page.evaluate(() =>
        [...document.querySelectorAll('h1, .for, .panel h3, .panel .price, .panel svg')].map(
          (element) => element.getBoundingClientRect().bottom,
        ),
      );
      expect(bottoms.length).toBe(2 + 2 * 3);
      expect(Math.max(...bottoms)).toBeLessThanOrEqual(844);
    });
  });

  test('pictures of the designs share a scale and a floor line', async () => {
    await withPage('client-full/index.html', 1280, false, async (page) => {
      const boxes = await page.evaluate(() =>
        [...document.querySelectorAll('.panel svg')].map((svg) => {
          const box = svg.getBoundingClientRect();
          return { bottom: box.bottom, perMm: box.width / Number(svg.getAttribute('viewBox')?.split(' ')[2]) };
        }),
      );
      expect(boxes.length).toBe(2);
      expect(boxes[0]?.bottom).toBeCloseTo(boxes[1]?.bottom ?? 0, 1);
      expect(boxes[0]?.perMm).toBeCloseTo(boxes[1]?.perMm ?? 0, 3);
    });
  });

  test('drawings on a telephone have no lettering under 12 px', async () => {
    await withPage('client-full/index.html', 390, false, async (page) => {
      const sizes = await page.evaluate(() =>
        [...document.querySelectorAll('.small-sheet svg text')].map((text) => {
          const svg = text.closest('svg');
          const perMm = (svg?.getBoundingClientRect().width ?? 0) / Number(svg?.getAttribute('viewBox')?.split(' ')[2]);
          return Number(text.getAttribute('font-size')) * perMm;
        }),
      );
      expect(sizes.length).toBeGreaterThan(3);
      expect(Math.min(...sizes)).toBeGreaterThanOrEqual(11.99);
    });
  });

  test('what is folded away on the screen is open on paper', async () => {
    await withPage('client-full/index.html', 1280, false, async (page) => {
      const terms = page.locator('.terms details').first().locator('p').first();
      expect(await terms.isVisible()).toBe(false);
      await page.emulateMedia({ media: 'print' });
      expect(await terms.isVisible()).toBe(true);
    });
  });

  test('the keyboard reaches every link and fold, in the order of the page, with a mark where it stands', async () => {
    await withPage('client-full/index.html', 1280, false, async (page) => {
      /** One stop for the radio buttons of the letter, of which none is chosen. */
      const count = (await page.locator('a[href]:visible, summary').count()) + 1;
      const tops: number[] = [];
      for (let i = 0; i < count; i += 1) {
        await page.keyboard.press('Tab');
        const at = await page.evaluate(() => {
          const element = document.activeElement;
          const box = element?.getBoundingClientRect();
          return {
            top: (box?.top ?? 0) + scrollY,
            tag: element?.tagName ?? '',
            outline: element === null ? '' : getComputedStyle(element).outlineStyle,
          };
        });
        expect(['A', 'SUMMARY', 'INPUT']).toContain(at.tag);
        expect(at.outline).not.toBe('none');
        tops.push(at.top);
      }
      expect(tops.slice(1).toSorted((a, b) => a - b)).toEqual(tops.slice(1));
    });
  });

  test('targets are high enough for a thumb', async () => {
    await withPage('client-full/index.html', 390, false, async (page) => {
      const low = await page.evaluate(() =>
        [...document.querySelectorAll('summary, .document a, .sheet-link a, .line')]
          .filter((element) => element.checkVisibility())
          .map((element) => [element.textContent?.trim().slice(0, 40), element.getBoundingClientRect().height] as const)
          .filter(([, height]) => height < 43.9),
      );
      expect(low).toEqual([]);
    });
  });
});
