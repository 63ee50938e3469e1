import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { makeClientFiles, openTools } from '../../src/cli/draft/produce.ts';
import { type ClientOptions, type ClientView, clientView, offerOf } from '../../src/client/index.ts';
import { computeProposal } from '../../src/compute.ts';
import { figuresOf } from '../../src/figures/index.ts';
import { checkReply, type Letter, readReply } from '../../src/reply/index.ts';
import { readDemo } from '../demos/load.ts';
import { isLeftOut, openBrowser } from './browser.ts';

/** The letter of answer, filled in in a browser on a page from disk, and read again. Pictures go to tests/out. */

const out = new URL('../out/answer/', import.meta.url).pathname;
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const tools = openTools();
const folder = mkdtempSync(join(tmpdir(), 'leafwright-answer-'));
const fingerprint = '3f9a0b12c4'.repeat(7).slice(0, 64);

function demo() {
  const { input } = readDemo('tollefsen-quill', 'r2');
  const result = input === undefined ? undefined : computeProposal(input, { measure: tools.fonts.measure });
  if (result?.computed === undefined) throw new Error('the demo can not be computed');
  return result.computed;
}
const source = demo();
const figures = figuresOf(source);
const offer = { ...offerOf(source, figures), fingerprint };
/** The day on which the letters are written: the last on which a yes is in time. */
const today = offer.validUntil;
const designs = offer.designs.map(({ id }) => id);

async function write(name: string, view: ClientView): Promise<void> {
  for (const { path, bytes } of await makeClientFiles(view, tools)) {
    const file = join(folder, name, path);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, bytes);
  }
}
const viewOf = (options: ClientOptions): ClientView => clientView(source, figures, options);

function heard(text: string): Letter {
  const { letter, problems } = readReply(text);
  expect(problems).toEqual([]);
  if (letter === undefined) throw new Error('no letter');
  expect(letter.date).toBe(today);
  expect(checkReply(letter, [offer], letter.date).mismatches).toEqual([]);
  return letter;
}

describe.skipIf(isLeftOut)('the letter of answer in a browser', () => {
  let browser: Browser;
  beforeAll(async () => {
    mkdirSync(out, { recursive: true });
    const view = viewOf({ fingerprint });
    await write('payer', view);
    await write('no-price', viewOf({ fingerprint, audience: 'no-price' }));
    await write('draft', viewOf({}));
    const { letter } = view;
    if (letter === undefined) throw new Error('the view has no letter');
    await write('form', { ...view, letter: { ...letter, form: 'https://forms.example.invalid/answers' } });
    browser = await openBrowser();
  });
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true });
  });

  interface Seen {
    readonly requests: readonly string[];
    readonly complaints: readonly string[];
  }

  async function withPage<T>(name: string, options: BrowserContextOptions, use: (page: Page, seen: Seen) => Promise<T>): Promise<T> {
    const context = await browser.newContext({ viewport: { width: 390, height: 844 }, ...options });
    const page = await context.newPage();
    const seen = { requests: [] as string[], complaints: [] as string[] };
    page.on('request', (request) => seen.requests.push(request.url()));
    page.on('console', (message) => seen.complaints.push(message.text()));
    page.on('pageerror', (error) => seen.complaints.push(error.message));
    await page.clock.setFixedTime(new Date(`${today}T12:00:00`));
    await page.goto(`${pathToFileURL(join(folder, name, 'index.html')).href}#answer`);
    if (options.javaScriptEnabled !== false) await page.evaluate(() => document.fonts.ready);
    try {
      return await use(page, seen);
    } finally {
      await context.close();
    }
  }

  const letterOn = async (page: Page): Promise<string> => (await page.locator('#letter-done pre').textContent()) ?? '';
  /** What has the keyboard, as name and value. */
  const focused = (page: Page): Promise<string> =>
    page.evaluate(() => {
      const at = document.activeElement;
      if (at instanceof HTMLInputElement) return at.type === 'text' ? at.name : `${at.name}=${at.value}`;
      return at instanceof HTMLTextAreaElement || at instanceof HTMLSelectElement ? at.name : (at?.textContent?.trim().slice(0, 30) ?? '');
    });

  async function tabTo(page: Page, name: string): Promise<void> {
    for (let i = 0; i < 200; i += 1) {
      if ((await focused(page)).startsWith(name)) return;
      await page.keyboard.press('Tab');
    }
    throw new Error(`the keyboard does not reach ${name}`);
  }

  /** Chooses one of a set of radio buttons with the arrow keys. */
  async function arrowTo(page: Page, value: string): Promise<void> {
    await page.keyboard.press('Space');
    for (let i = 0; i < 10 && (await focused(page)) !== value; i += 1) await page.keyboard.press('ArrowDown');
    expect(await focused(page)).toBe(value);
  }

  async function sign(page: Page, agrees: boolean): Promise<void> {
    await tabTo(page, 'person=');
    await arrowTo(page, 'person=1');
    if (agrees) {
      await tabTo(page, 'agrees=');
      await page.keyboard.press('Space');
    }
    await tabTo(page, 'name');
    await page.keyboard.type('Maren Tollefsen');
    await page.keyboard.press('Enter');
  }

  describe.each([390, 1280])('by keyboard alone at %i px', (width) => {
    const combinations = offer.designs.flatMap(({ id, combinations: all }) =>
      all.map(({ options, totalMinor }) => ({ id, options, totalMinor })),
    );

    test.each(combinations)('yes to $id with $options', async ({ id, options, totalMinor }) => {
      await withPage('payer', { viewport: { width, height: 844 } }, async (page, { requests, complaints }) => {
        await tabTo(page, 'verdict=');
        await arrowTo(page, 'verdict=yes');
        await tabTo(page, 'design=');
        await arrowTo(page, `design=${id}`);
        for (const option of options) {
          await tabTo(page, `option-${id}=${option}`);
          await page.keyboard.press('Space');
        }
        await sign(page, true);
        expect(await focused(page)).toBe('Your letter');
        const letter = heard(await letterOn(page));
        expect(letter).toMatchObject({
          verdict: 'yes',
          design: id,
          decider: 1,
          name: 'Maren Tollefsen',
          total: { minor: totalMinor, currency: 'EUR' },
        });
        expect(letter.options).toEqual(offer.designs.find((design) => design.id === id)?.options.map((option) => options.includes(option)));
        expect(requests.filter((url) => !url.startsWith('file:') && !url.startsWith('data:'))).toEqual([]);
        expect(complaints).toEqual([]);
      });
    });

    test('no, because; to one design and to all', async () => {
      for (const [not, design] of [
        [`not=${designs[1]}`, designs[1]],
        ['not=all', ''],
      ] as const)
        await withPage('payer', { viewport: { width, height: 844 } }, async (page) => {
          await tabTo(page, 'verdict=');
          await arrowTo(page, 'verdict=no');
          await tabTo(page, 'not=');
          await arrowTo(page, not);
          await tabTo(page, 'because');
          await page.keyboard.type('Idris kicks the rail,');
          await page.keyboard.press('Enter');
          await page.keyboard.type('and it is over budget.');
          await sign(page, false);
          expect(heard(await letterOn(page))).toMatchObject({
            verdict: 'no',
            design,
            remark: 'Idris kicks the rail,\nand it is over budget.',
          });
        });
    });

    test('the top of one with the base of another', async () => {
      await withPage('payer', { viewport: { width, height: 844 } }, async (page) => {
        await tabTo(page, 'verdict=');
        await arrowTo(page, 'verdict=mix');
        await tabTo(page, 'top');
        await page.keyboard.press('ArrowDown');
        await tabTo(page, 'base');
        await page.keyboard.press('ArrowDown');
        await page.keyboard.press('ArrowDown');
        await sign(page, false);
        expect(heard(await letterOn(page))).toMatchObject({ verdict: 'mix', design: designs[0], base: designs[1] });
      });
    });
  });

  /** Fills a letter in with the mouse, for pictures and for what comes after. */
  async function fill(page: Page, verdict: 'yes' | 'no' | 'mix'): Promise<void> {
    await page.check(`[name=verdict][value=${verdict}]`);
    if (verdict === 'yes') {
      await page.check(`[name=design][value=${designs[0]}]`);
      await page.locator(`[data-options="${designs[0]}"] input`).first().check();
      await page.check('[name=agrees]');
      await page.fill('[name=remark]', 'Could the feet be as light as on the sample?');
    } else if (verdict === 'no') {
      await page.check('[name=not][value=all]');
      await page.fill('[name=because]', 'Our arms hit it, and the ends are school desks.');
    } else {
      await page.selectOption('[name=top]', designs[0] ?? '');
      await page.selectOption('[name=base]', designs[1] ?? '');
    }
    await page.check('[name=person][value="0"]');
    await page.fill('[name=name]', 'Idris Quill');
    await page.click('#letter button[type=submit]');
  }

  test.each([
    [390, false],
    [1280, false],
    [390, true],
    [1280, true],
  ] as const)('at %i px (dark: %s): each answer within the screen, nothing that axe would mend', async (width, dark) => {
    const options = { viewport: { width, height: 844 }, colorScheme: dark ? 'dark' : 'light' } as const;
    await withPage('payer', options, async (page) => {
      await page.evaluate(axe);
      for (const verdict of ['yes', 'no', 'mix'] as const) {
        await fill(page, verdict);
        const size = await page.evaluate(() => [document.documentElement.scrollWidth, document.documentElement.clientWidth]);
        expect(size[0]).toBeLessThanOrEqual(size[1] ?? 0);
        await page.locator('#answer').screenshot({ path: join(out, `${verdict}-${width}${dark ? '-dark' : ''}.png`) });
        const violations = await page.evaluate(async () => {
          const { axe: checker } = globalThis as unknown as {
            axe: { run: (root: string, options: object) => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
          };
          const run = { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] };
          const { violations: found } = await checker.run('#answer', run);
          return found.map((one) => `${one.id}: ${one.nodes.map((node) => node.html.slice(0, 120)).join(' | ')}`);
        });
        expect(violations).toEqual([]);
        const low = await page.evaluate(() =>
          [...document.querySelectorAll('#answer :is(.line, button, select, input[type=text], textarea, .ways a, .beside a)')]
            .filter((element) => element.checkVisibility())
            .map((element) => [element.textContent?.trim().slice(0, 40), element.getBoundingClientRect().height] as const)
            .filter(([, height]) => height < 43.9),
        );
        expect(low).toEqual([]);
      }
    });
  });

  test('what is missing is said beside each field, and the keyboard goes to the first', async () => {
    await withPage('payer', {}, async (page) => {
      await page.check('[name=verdict][value=yes]');
      await page.click('#letter button[type=submit]');
      expect(await focused(page)).toBe(`design=${designs[0]}`);
      expect(await page.locator('.fault:visible').allTextContents()).toEqual(
        expect.arrayContaining(['Choose a design.', 'Say who you are.', 'Type your name.']),
      );
      const described = await page.locator('[name=name]').getAttribute('aria-describedby');
      expect(await page.locator(`#${described}`).textContent()).toBe('Type your name.');
      expect(await page.locator('#letter-done').isVisible()).toBe(false);
    });
  });

  test('a letter is taken back as soon as something else is chosen', async () => {
    await withPage('payer', {}, async (page) => {
      await fill(page, 'yes');
      const first = await letterOn(page);
      await page.locator(`[data-options="${designs[0]}"] input`).first().uncheck();
      expect(await page.locator('#letter-done').isVisible()).toBe(false);
      expect(await page.locator('[data-notice]').textContent()).toBe('You changed something: write the letter again.');
      await page.click('#letter button[type=submit]');
      expect(heard(await letterOn(page)).total?.minor).not.toBe(heard(first).total?.minor);
    });
  });

  test('a yes after the last day says that it is late', async () => {
    await withPage('payer', {}, async (page) => {
      await page.clock.setFixedTime(new Date('2026-12-01T12:00:00'));
      await fill(page, 'no');
      expect(await page.locator('#letter-done [role=status]').textContent()).toBe('');
      await fill(page, 'yes');
      expect(await page.locator('#letter-done [role=status]').textContent()).toContain('The last day for a yes was 15 April 2026.');
    });
  });

  test('the total that is shown is the one of the table of totals, for each combination', async () => {
    await withPage('payer', {}, async (page) => {
      await page.check('[name=verdict][value=yes]');
      for (const { id, price } of viewOf({ fingerprint }).designs) {
        await page.check(`[name=design][value=${id}]`);
        for (const one of price?.combinations ?? []) {
          for (const control of await page.locator(`[data-options="${id}"] input`).all())
            await control.setChecked(one.options.includes((await control.inputValue()) ?? ''));
          const said = (await page.locator('.sum dd').first().textContent()) ?? '';
          expect(said.replaceAll(/\s/g, ' ')).toBe(one.total.replaceAll(/\s/g, ' '));
        }
      }
    });
  });

  test('ways to send: mail, clipboard, a file, a print of the letter alone', async () => {
    await withPage('payer', { acceptDownloads: true }, async (page, { requests, complaints }) => {
      await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
      await fill(page, 'yes');
      const text = await letterOn(page);
      const href = (await page.locator('[data-way=mail]').getAttribute('href')) ?? '';
      expect(href.length).toBeLessThanOrEqual(1800);
      expect(heard(new URL(href).searchParams.get('body') ?? '')).toEqual(heard(text));
      await page.click('[data-way=copy]');
      await page.locator('#letter-done [role=status]', { hasText: 'Copied' }).waitFor();
      expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(text);
      const [download] = await Promise.all([page.waitForEvent('download'), page.click('[data-way=save]')]);
      expect(download.suggestedFilename()).toBe('tollefsen-quill-r2-answer.txt');
      expect(readFileSync(await download.path(), 'utf8')).toBe(text);
      await page.evaluate(() => {
        document.documentElement.dataset['print'] = 'letter';
      });
      await page.emulateMedia({ media: 'print' });
      expect(await page.locator('#letter-done pre').isVisible()).toBe(true);
      for (const hidden of ['h1', '#designs', '.colophon', '#letter', '[data-way=copy]'])
        expect(await page.locator(hidden).first().isVisible()).toBe(false);
      expect(requests.filter((url) => !/^(?:file|data|blob):/.test(url))).toEqual([]);
      expect(complaints).toEqual([]);
    });
  });

  test('a letter that is too long for a mail link is to be copied', async () => {
    await withPage('payer', {}, async (page) => {
      await page.check('[name=verdict][value=no]');
      await page.fill('[name=because]', 'The ends are school desks. '.repeat(80));
      await fill(page, 'mix');
      await page.check('[name=verdict][value=no]');
      await page.check('[name=not][value=all]');
      await page.click('#letter button[type=submit]');
      expect(await page.locator('[data-way=mail]').isVisible()).toBe(false);
      expect(await page.locator('#letter-done [role=status]').textContent()).toContain('too long for a mail link');
      heard(await letterOn(page));
    });
  });

  test("posts the fields to the maker's form, and the policy lets it", async () => {
    await withPage('form', {}, async (page, { complaints }) => {
      let posted = '';
      await page.context().route('https://forms.example.invalid/**', async (route) => {
        posted = route.request().postData() ?? '';
        await route.fulfill({ status: 200, contentType: 'text/plain', body: 'thank you' });
      });
      await fill(page, 'yes');
      const text = await letterOn(page);
      const [answer] = await Promise.all([page.context().waitForEvent('page'), page.click('#letter-done form button')]);
      await answer.waitForLoadState();
      const fields = new URLSearchParams(posted);
      expect([...fields.keys()]).toEqual(['proposal', 'revision', 'person', 'name', 'letter']);
      expect([fields.get('proposal'), fields.get('revision'), fields.get('person'), fields.get('name')]).toEqual([
        'tollefsen-quill',
        'r2',
        'idris',
        'Idris Quill',
      ]);
      expect(heard(fields.get('letter') ?? '')).toEqual(heard(text));
      expect(complaints).toEqual([]);
    });
  });

  test('who sees no price finds no amount, and answers all the same', async () => {
    await withPage('no-price', {}, async (page) => {
      await fill(page, 'yes');
      const text = await letterOn(page);
      expect(text).not.toMatch(/€|total/);
      expect(await page.locator('#answer').textContent()).not.toMatch(/€|EUR|\d,\d{3}/);
      expect(readReply(text).letter).toMatchObject({ verdict: 'yes', design: designs[0] });
      expect(readReply(text).letter).not.toHaveProperty('total');
    });
  });

  test('a draft says so, and its letter has no code and no way out', async () => {
    await withPage('draft', {}, async (page) => {
      expect(await page.locator('.live-letter').textContent()).toContain('This is a draft.');
      await fill(page, 'yes');
      const text = await letterOn(page);
      expect(text).toContain('A draft: no code, and no answer.');
      expect(readReply(text).problems.map(({ code }) => code)).toEqual(['reply/no-code']);
      expect(await page.locator('[data-way]').count()).toBe(0);
    });
  });

  test('without a script the letter has blanks and mail links; on paper lines to sign on', async () => {
    await withPage('payer', { javaScriptEnabled: false }, async (page) => {
      expect(await page.locator('.live-letter').isVisible()).toBe(false);
      expect(await page.locator('.mail-links a').count()).toBe(designs.length);
      expect(await page.locator('.paper-letter').isVisible()).toBe(true);
    });
    await withPage('payer', { viewport: { width: 1280, height: 844 } }, async (page) => {
      expect(await page.locator('.paper-letter').isVisible()).toBe(false);
      await page.emulateMedia({ media: 'print' });
      expect(await page.locator('#letter').isVisible()).toBe(false);
      expect(await page.locator('.signatures dt').allTextContents()).toEqual(['Idris Quill', 'Maren Tollefsen']);
      expect(await page.locator('.paper-letter .only-print').textContent()).toContain('scope-a.pdf, scope-b.pdf, scope-c.pdf');
    });
  });
});
