import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { makeClientFiles, openTools } from '../../src/cli/produce.ts';
import { clientView } from '../../src/client/index.ts';
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
    const addresses = [...page.matchAll(/(?:(?:href|src)=|url\()["']?([^"')\s>]+)/g)].map(([, address = '']) => address);
    expect(addresses.length).toBeGreaterThan(10);
    expect(addresses.filter((address) => !/^(#|mailto:|data:,|fonts\/|scope-|drawing-)/.test(address))).toEqual([]);
    expect(page.match(/https?:\/\/(?!www\.w3\.org)/g)).toBeNull();
  });

  test('has no script, no style attribute, no handler, and a policy that knows its one style by digest', () => {
    expect(page).not.toMatch(/<script|\sstyle=|\son[a-z]+=/i);
    const styles = [...page.matchAll(/<style>([\s\S]*?)<\/style>/g)].map(([, text = '']) => text);
    expect(styles.length).toBe(1);
    const digest = createHash('sha256')
      .update(styles[0] ?? '')
      .digest('base64');
    expect(page).toContain(`default-src 'none'; style-src 'sha256-${digest}'`.replaceAll("'", '&#39;').replaceAll('&#39;', "'"));
  });

  test('has one empty slot for its state', () => {
    expect(page.split(stateSlot.open + stateSlot.close).length).toBe(2);
  });

  test('every id is there once, every link inside the page leads somewhere, every label names something', () => {
    const ids = [...page.matchAll(/\sid="([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
    const named = [...page.matchAll(/(?:href="#|aria-labelledby=")([^"]+)"/g)].flatMap(([, found = '']) => found.split(' '));
    expect(named.length).toBeGreaterThan(10);
    expect(named.filter((id) => !ids.includes(id))).toEqual([]);
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
      .replaceAll(/<style>[\s\S]*?<\/style>|<!--[\s\S]*?-->/g, '')
      .matchAll(/<(\/?)([a-z!][a-z0-9]*)\b[^>]*?(\/?)>/gi)) {
      const tag = name.toLowerCase();
      if (slash === '/') expect(open.pop()).toBe(tag);
      else if (selfClosed !== '/' && !voids.has(tag)) open.push(tag);
    }
    expect(open).toEqual([]);
  });

  test('words of a maker can not become tags', async () => {
    const sly = { ...view, title: '<img src=x onerror=alert(1)>', supplied: ['</li><script>alert(1)</script>'] };
    const files = await makeClientFiles(sly, tools);
    const text = Buffer.from(files.find((file) => file.path === 'index.html')?.bytes ?? []).toString('utf8');
    expect(text).not.toMatch(/<script|<img/);
    expect(text).toContain('&lt;img src=x onerror=alert(1)&gt;');
  });
});

test('digests of styles and scripts go into the policy', () => {
  // SHA-256 of the empty text, FIPS 180-4 example value in base64
  const done = withPolicy('<meta content="leafwright-policy"><style></style><script></script>');
  expect(done).toContain("style-src 'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='");
  expect(done).toContain("script-src 'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='");
});

test('signs that the fonts lack are composed of ones that they have', () => {
  expect(withFontsCharacters('1⅜″ and ⅞″, 2\u20093⁄16″, 41\u202fkg')).toBe('1\u00a03⁄8″ and 7⁄8″, 2\u00a03⁄16″, 41\u00a0kg');
});
