import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { makeClientFiles, openTools } from '../../src/cli/draft/produce.ts';
import { clientView } from '../../src/client/index.ts';
import { figuresOf } from '../../src/figures/index.ts';
import { computed, planted } from '../client/commission.ts';
import { amountsIn, wordsOf } from './page-words.ts';

/**
 * The wall: what a client is given is searched, every byte of it, for what must stay in the workshop. PDF streams are
 * decompressed with qpdf and their words read with pdftotext, since letters in a stream are numbers of glyphs.
 */

const source = computed();
const figures = figuresOf(source);
const tools = openTools();

async function searchable(audience: 'payer' | 'no-price'): Promise<ReadonlyMap<string, string>> {
  const view = clientView(source, figures, { audience, fingerprint: 'ab'.repeat(32) });
  const folder = mkdtempSync(join(tmpdir(), 'leafwright-wall-'));
  const found = new Map<string, string>();
  for (const { path, bytes } of await makeClientFiles(view, tools)) {
    if (path.endsWith('.pdf')) {
      const file = join(folder, path);
      const open = join(folder, `open-${path}`);
      writeFileSync(file, bytes);
      execFileSync('qpdf', ['--qdf', '--object-streams=disable', '--stream-data=uncompress', file, open]);
      found.set(path, readFileSync(open, 'latin1') + execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }));
    } else if (!path.endsWith('.woff2')) found.set(path, Buffer.from(bytes).toString('utf8'));
  }
  rmSync(folder, { recursive: true });
  return found;
}

const files = await searchable('payer');
const page = wordsOf(files.get('index.html') ?? '');

const secretPatterns = ((): readonly RegExp[] => {
  const minor = (amount: number): string => (amount / 100).toFixed(2);
  const variants = Object.values(figures.variants);
  const shown = new Set(amountsIn(page).map(minor));
  /** Small lines are left out: an amount of a few units may stand on a page by chance. */
  const lines = variants.flatMap(({ price }) =>
    price.build.filter((line) => line.amountMinor > 1000).map((line) => minor(line.amountMinor)),
  );
  const secrets = [
    ...lines.filter((amount) => !shown.has(amount)),
    ...variants.map(({ price }) => minor(price.costMinor)),
    ...planted.rates.map((rate) => rate.toFixed(2)),
    ...planted.percents.map((percent) => `${percent} ?%`),
    planted.ownHours.toFixed(2),
  ];
  return secrets.map((text) => new RegExp(`(?<![\\d.,])${text.replace('.', '[.,]')}(?!\\d)`));
})();

/** Secret figures in a file, without the commas that group thousands. */
function secretsIn(path: string, text: string): readonly string[] {
  const words = path.endsWith('.html') ? wordsOf(text) : text.slice(Math.max(0, text.lastIndexOf('%%EOF')));
  const said = words.replaceAll(/[\u00a0\u2009\u202f]/g, ' ').replaceAll(/(\d),(?=\d{3})/g, '$1');
  return secretPatterns.filter((pattern) => pattern.test(said)).map(String);
}

describe('the wall between workshop and client', () => {
  test('all kinds of files were searched', () => {
    const kinds = [...files.keys()].map((path) => path.split('.').at(-1)).toSorted();
    expect(new Set(kinds)).toEqual(new Set(['html', 'svg', 'pdf']));
    expect(files.get('scope-a.pdf')).toContain('Reed');
    expect(page).toContain('Reed');
  });

  test('no planted word is in any of them', () => {
    for (const [path, text] of files)
      for (const word of planted.words) expect([path, word, text.includes(word)]).toEqual([path, word, false]);
  });

  test('no cost, rate, margin or hour is in any of them', () => {
    expect(secretPatterns.length).toBeGreaterThan(20);
    for (const [path, text] of files) if (!path.endsWith('.svg')) expect([path, secretsIn(path, text)]).toEqual([path, []]);
  });

  test('no mark-up can be divided out of two amounts that are shown', () => {
    const amounts = [...new Set(amountsIn(page))].filter((minor) => minor > 0);
    expect(amounts.length).toBeGreaterThan(10);
    const factors = planted.percents.flatMap((percent) => [1 + percent / 100, 1 / (1 - percent / 100)]);
    const found = amounts.flatMap((a) =>
      amounts.flatMap((b) =>
        factors.filter((factor) => b < a && Math.abs(a / b - factor) * b < 1).map((factor) => `${a} / ${b} = ${factor}`),
      ),
    );
    expect(found).toEqual([]);
  });

  test('no rate can be divided out of an amount and a quantity that are shown', () => {
    const amounts = [...new Set(amountsIn(page))].filter((minor) => minor > 0);
    const quantities = [
      ...new Set([...page.matchAll(/(?<![\d.])(\d+(?:\.\d+)?) ?(?:m³|×|h\b|l\b)/g)].map(([, digits]) => Number(digits))),
    ].filter((n) => n > 0);
    expect(quantities.length).toBeGreaterThan(5);
    const rates = planted.rates.flatMap((rate) => [rate, ...planted.percents.map((percent) => rate * (1 + percent / 100))]);
    const found = amounts.flatMap((minor) =>
      quantities.flatMap((quantity) =>
        rates.filter((rate) => Math.abs(rate * quantity * 100 - minor) < 1).map((rate) => `${minor} / ${quantity} = ${rate}`),
      ),
    );
    expect(found).toEqual([]);
  });

  test('who sees no price finds no amount of money in any file', async () => {
    const free = await searchable('no-price');
    for (const [path, text] of free) {
      const said = path.endsWith('.pdf') ? text.slice(text.lastIndexOf('%%EOF')) : wordsOf(text);
      expect([path, said.match(/€|EUR|\b(?:40|60) %/g) ?? []]).toEqual([path, []]);
      for (const word of planted.words) expect([path, word, text.includes(word)]).toEqual([path, word, false]);
    }
  });

  test('the wall has no hole that hides a find: a planted word is found where it does stand', () => {
    const workshop = JSON.stringify(figures);
    expect(planted.words.filter((word) => workshop.includes(word)).length).toBeGreaterThan(2);
    expect(secretsIn('figures.html', `<p>It costs 61.37 an hour, with 23.7 % on the timber.</p>`).length).toBe(2);
    expect(amountsIn('from €1,234.50 to €12')).toEqual([123450, 1200]);
  });
});
