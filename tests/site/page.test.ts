import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { makeClientFiles, openTools } from '../../src/cli/draft/produce.ts';
import { type ClientView, clientView, type LetterView } from '../../src/client/index.ts';
import { figuresOf } from '../../src/figures/index.ts';
import { stateSlot } from '../../src/site/client/index.ts';
import { withFontsCharacters, withPolicy } from '../../src/site/policy-meta.ts';
import { computed } from '../client/commission.ts';

const source = computed();
const view = clientView(source, figuresOf(source), { fingerprint: 'ab'.repeat(32) });
const tools = openTools();
const html = async (): Promise<string> => {
  const files = await makeClientFiles(view, tools);
  return Buffer.from(files.find((file) => file.path === 'index.html')?.bytes ?? []).toString('utf8');
};
const pageOf = (shown: ClientView): Promise<string> =>
  tools.pages.renderClientPage(shown, { svg: {}, sheetCss: '', links: { scope: {}, sheet: {} } });
const page = await html();

describe('a client page', () => {
  test('is the same to the byte each time', async () => {
    expect(await html()).toBe(page);
  });

  test('has one first heading and no level left out', () => {
    const levels = [...page.matchAll(/<h([1-6])[\s>]/g)].map(([, level]) => Number(level));
    expect(levels.filter((level) => level === 1).length).toBe(1);
    expect(levels.length).toBeGreaterThan(20);
    for (const [i, level] of levels.entries()) expect(level - (levels[i - 1] ?? 0)).toBeLessThanOrEqual(1);
  });

  test('keeps from search engines, sends no referrer, asks no other host for anything', () => {
    expect(page).toContain('<meta name="robots" content="noindex, nofollow, noarchive">');
    expect(page).toContain('<meta name="referrer" content="no-referrer">');
    const still = page.replaceAll(/<script>[\s\S]*?<\/script>/g, '');
    const addresses = [...still.matchAll(/(?:(?:href|src)=|url\()["']?([^"')\s>]+)/g)].map(([, address = '']) => address);
    expect(addresses.length).toBeGreaterThan(10);
    expect(addresses.filter((address) => !/^(#|mailto:|data:,|fonts\/|scope-|drawing-)/.test(address))).toEqual([]);
    expect(page.match(/https?:\/\/(?!www\.w3\.org)/g)).toBeNull();
  });

  test('has one script and one style that its policy knows by digest, one block of data, no style attribute, no handler', () => {
    const tags = page.replaceAll(/(<script[^>]*>)[\s\S]*?<\/script>/g, '$1');
    expect(tags).not.toMatch(/\sstyle=|\son[a-z]+=/i);
    expect(tags.match(/<script[^>]*>/g)).toEqual(['<script type="application/json" id="letter-data">', '<script>']);
    const digestOf = (pattern: RegExp): readonly string[] =>
      [...page.matchAll(pattern)].map(([, text = '']) => createHash('sha256').update(text).digest('base64'));
    const [style, ...otherStyles] = digestOf(/<style>([\s\S]*?)<\/style>/g);
    const [script, ...otherScripts] = digestOf(/<script>([\s\S]*?)<\/script>/g);
    expect([otherStyles, otherScripts]).toEqual([[], []]);
    expect(page).toContain(`default-src 'none'; style-src 'sha256-${style}'; script-src 'sha256-${script}'; img-src`);
    expect(page).toContain("form-action 'none'");
  });

  test('its script is below 15 KB, and holds nothing of this proposal: it is the same on every page', async () => {
    const [, script = ''] = /<script>([\s\S]*?)<\/script>/.exec(page) ?? [];
    expect(Buffer.byteLength(script)).toBeGreaterThan(5_000);
    expect(Buffer.byteLength(script)).toBeLessThan(15_000);
    const other = await pageOf(clientView(source, figuresOf(source), { audience: 'no-price' }));
    expect(other).toContain(`<script>${script}</script>`);
    expect(script).not.toMatch(/fetch\(|XMLHttpRequest|sendBeacon|localStorage|document\.cookie|https?:/);
  });

  test('may be sent to the form of the maker and nowhere else, where there is one; from a draft not at all', async () => {
    const formed = { ...view, letter: { ...(view.letter as LetterView), form: 'https://forms.example.invalid/answers?to=runa' } };
    const html = await pageOf(formed);
    expect(html).toContain('form-action https://forms.example.invalid"');
    expect(html).toContain('method="post" action="https://forms.example.invalid/answers?to=runa"');
    const { fingerprint: _none, ...draft } = formed.letter;
    const drafted = await pageOf({ ...formed, letter: draft });
    expect(drafted).toContain("form-action 'none'");
    expect(drafted).not.toContain('forms.example.invalid/answers?to=runa" ');
    expect(drafted).not.toContain('method="post"');
    expect(drafted).toContain('This is a draft. The letter can be tried; it gets no code and is no answer.');
  });

  test('has one empty slot for its state', () => {
    expect(page.split(stateSlot.open + stateSlot.close).length).toBe(2);
  });

  test('every id is there once, every link inside the page leads somewhere, every label names something', () => {
    const ids = [...page.matchAll(/\sid="([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
    const named = [...page.matchAll(/(?:href="#|aria-labelledby="|aria-describedby="|<label for=")([^"]+)"/g)].flatMap(([, found = '']) =>
      found.split(' '),
    );
    expect(named.length).toBeGreaterThan(10);
    expect(named.filter((id) => !ids.includes(id))).toEqual([]);
  });

  test('an index leads to each design, the wishes, what else belongs to it and the answer, in the order of the page', () => {
    const index = /<nav[^>]*>[\s\S]*?<\/nav>/.exec(page)?.[0] ?? '';
    const places = [...index.matchAll(/href="#([^"]+)"/g)].map(([, id = '']) => id);
    expect(places).toEqual([
      'changed',
      'understood',
      'wishes',
      ...view.designs.map(({ id }) => `design-${id.toLowerCase()}`),
      'rest',
      'answer',
    ]);
    const at = places.map((id) => page.indexOf(`id="${id}"`));
    expect(at.toSorted((a, b) => a - b)).toEqual(at);
    expect(Math.min(...at)).toBeGreaterThan(page.indexOf('</nav>'));
  });

  test('folds lines and parts, never a total, an instalment, a caution or what does not fit', () => {
    const spaced = (text: string): string => text.replaceAll(/[\u00a0\u2009\u202f]/g, ' ');
    const open = spaced(page.replaceAll(/<details[\s\S]*?<\/details>/g, '').replaceAll(/<script[\s\S]*?<\/script>/g, ''));
    const escaped = (text: string): string =>
      text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;').replaceAll("'", '&#39;');
    for (const { price, care, fit, steadiness, notes, movement } of view.designs) {
      const kept = [
        price?.net,
        price?.total,
        ...(price?.taxes.map(({ amount }) => amount) ?? []),
        ...(price?.instalments.map(({ amount }) => amount) ?? []),
        ...(price?.options.map(({ says }) => says) ?? []),
        ...care.cautions,
        ...fit,
        ...notes,
        steadiness.sentence,
        movement[0],
      ].flatMap((text) => (text === undefined ? [] : spaced(text)));
      expect(kept.length).toBeGreaterThan(8);
      expect(kept.filter((text) => !open.includes(text) && !open.includes(escaped(text)))).toEqual([]);
    }
    for (const text of [...view.exclusions, ...view.cautions, ...view.assumptions].map(spaced))
      expect([text, open.includes(text) || open.includes(escaped(text))]).toEqual([text, true]);
  });

  test('names and words that somebody typed have a direction of their own', async () => {
    const name = 'שולחן ארוך';
    const turned: ClientView = {
      ...view,
      title: name,
      client: { ...view.client, name },
      designs: view.designs.map((design) => ({ ...design, name })),
      wishes: view.wishes.map((wish) => ({ ...wish, says: name })),
    };
    const shown = (await pageOf(turned)).replaceAll(/<script[\s\S]*?<\/script>|<title>[^<]*<\/title>/g, '');
    const bare = [...shown.matchAll(/<([a-z0-9]+)((?:\s[^<>]*)?)>([^<>]*שולחן[^<>]*)</g)].filter(
      ([, tag, attributes = '']) => tag !== 'bdi' && !attributes.includes('dir="auto"'),
    );
    expect(shown.match(/שולחן/g)?.length).toBeGreaterThan(15);
    expect(bare.map(([all]) => all.slice(0, 100))).toEqual([]);
  });

  test('says what must be said: invented, fingerprint, date, calculated, who decides, by when', () => {
    for (const words of [
      'are invented',
      'ababa babab ababa babab',
      '20 February 2026',
      'calculated, not tested',
      'Maren Tollefsen and Idris Quill decide together',
      'Please answer by 20 March 2026',
      'Not included',
      'Taking the old table away',
      'S-041',
    ])
      expect(page).toContain(words);
  });

  test('every tag is closed in order', () => {
    const open: string[] = [];
    const voids = new Set(['meta', 'link', 'br', 'hr', 'img', 'input', 'path', 'rect', 'circle', 'line', '!doctype']);
    for (const [, slash, name = '', selfClosed] of page
      .replaceAll(/<style>[\s\S]*?<\/style>|<!--[\s\S]*?-->|(?<=<script[^>]*>)[\s\S]*?(?=<\/script>)/g, '')
      .matchAll(/<(\/?)([a-z!][a-z0-9]*)\b[^>]*?(\/?)>/gi)) {
      const tag = name.toLowerCase();
      if (slash === '/') expect(open.pop()).toBe(tag);
      else if (selfClosed !== '/' && !voids.has(tag)) open.push(tag);
    }
    expect(open).toEqual([]);
  });

  test('words of a maker can not become tags', async () => {
    const { letter } = view as { letter: LetterView };
    const end = '</script><script>alert(1)</script>';
    const sly = {
      ...view,
      title: '<img src=x onerror=alert(1)>',
      supplied: ['</li><script>alert(1)</script>'],
      letter: {
        ...letter,
        people: [{ id: 'maren', place: 0, name: `<!--${end}` }],
        designs: letter.designs.map((design) => ({ ...design, name: end })),
      },
    };
    const text = await pageOf(sly);
    expect(text).not.toMatch(/<script>alert|<img/);
    expect(text.match(/<script/g)?.length).toBe(2);
    expect(text).toContain('&lt;img src=x onerror=alert(1)&gt;');
    const [, block = ''] = /<script type="application\/json"[^>]*>([\s\S]*?)<\/script>/.exec(text) ?? [];
    expect(block).not.toContain('<');
    expect((JSON.parse(block) as { letter: LetterView }).letter.designs[0]?.name).toBe(end);
  });
});

test('digests of styles and scripts go into the policy, those of data do not', () => {
  // SHA-256 of the empty text, FIPS 180-4 example value in base64
  const done = withPolicy('<meta content="leafwright-policy"><style></style><script></script>');
  expect(done).toContain("style-src 'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='");
  expect(done).toContain("script-src 'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='");
  expect(withPolicy('<meta content="leafwright-policy"><script type="application/json">{}</script>')).not.toContain('script-src');
});

test('signs that the fonts lack are composed of ones that they have', () => {
  expect(withFontsCharacters('1⅜″ and ⅞″, 2\u20093⁄16″, 41\u202fkg')).toBe('1\u00a03⁄8″ and 7⁄8″, 2\u00a03⁄16″, 41\u00a0kg');
});
