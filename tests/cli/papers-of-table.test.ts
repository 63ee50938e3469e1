import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { issuedRevisions } from '../../src/record/index.ts';
import { papersSlots, stateSlot } from '../../src/site/client/index.ts';
import { wordsOf } from '../site/page-words.ts';
import { deliver } from './delivered.ts';
import { runIn } from './run.ts';

/**
 * The first demo is delivered with its record as it stands, and its papers are read by general tools (poppler). Figures of the hand-over
 * are set here and invented; sums are worked out beside them.
 */
const root = fileURLToPath(new URL('../../', import.meta.url));
const slug = 'tollefsen-quill';
const on = '2026-06-18';
const home = mkdtempSync(join(tmpdir(), 'leafwright-papers-'));
afterAll(() => rmSync(home, { recursive: true, force: true }));
const folder = join(home, 'proposals', slug);
const edition = join(folder, 'handed-over', '1');

const spaced = (text: string): string => text.replaceAll(/[\u00a0\u2009\u202f]/g, ' ').replaceAll(/\s+/g, ' ');
const pdfWords = (path: string): string => spaced(execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' }));
const paper = (name: string): string => pdfWords(join(edition, 'papers', name));

function filesBelow(path: string): ReadonlyMap<string, Buffer> {
  const names = readdirSync(path, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  return new Map(
    names.map((entry) => {
      const whole = join(entry.parentPath, entry.name);
      return [whole.slice(path.length + 1).replaceAll('\\', '/'), readFileSync(whole)] as const;
    }),
  );
}

let before: ReadonlyMap<string, Buffer>;
let after: ReadonlyMap<string, Buffer>;

beforeAll(async () => {
  mkdirSync(join(home, 'templates'), { recursive: true });
  cpSync(join(root, 'proposals', slug), folder, { recursive: true });
  expect((await runIn(home, ['build', '--as-of', on])).status).toBe(0);
  before = filesBelow(join(home, 'dist', 'client'));
  await deliver({
    workspace: home,
    slug,
    on,
    handOver: {
      finishedOn: '2026-05-28',
      product: 'Harbour hard oil',
      batch: '26-118',
      moisturePercent: [8.5, 9, 9.4, 8.8],
      humidityPercent: { glueUp: 48, delivery: 54 },
      person: 'maren',
      asBuilt: [
        { what: 'top.length', agreed: 2100, built: 2099, tolerance: 3, unit: 'mm' },
        { what: 'height', agreed: 745, built: 749.5, tolerance: 3, unit: 'mm', yes: 12 },
        { what: 'base.legs.someSize', agreed: 42, built: 42, tolerance: 1, unit: 'mm' },
      ],
    },
    sealed: {
      words: 'the-maker-keeps-this',
      timber: [{ wood: 'oak-european', origin: 'the upper Tarrow', says: 'felled in 2023', certificate: 'TW-11' }],
      glue: 'White glue, D3',
    },
  });
  expect((await runIn(home, ['build', '--as-of', on])).status).toBe(0);
  after = filesBelow(join(home, 'dist', 'client'));
}, 120_000);

describe('papers of a delivered table', () => {
  test('are a page with its fonts, care, drawings, materials, scope and statement', () => {
    const made = [...filesBelow(join(edition, 'papers')).keys()].filter((name) => !name.startsWith('fonts/'));
    expect(made.toSorted()).toEqual([
      'care.pdf',
      'drawings-as-built.pdf',
      'index.html',
      'materials-and-origin.pdf',
      'scope.pdf',
      'statement.pdf',
    ]);
    const page = spaced(wordsOf(readFileSync(join(edition, 'papers', 'index.html'), 'utf8')));
    const order = ['Care', 'Drawings as built', 'Materials and origin', 'Scope of work', 'Statement'].map((name) =>
      page.indexOf(`${name} PDF`),
    );
    expect(order.every((at, i) => at > 0 && at > (order[i - 1] ?? 0))).toBe(true);
    expect(page).toContain('RS-2026-07');
    expect(page).toContain('28 May 2026');
    expect(page).toContain('18 June 2026');
    expect(page).toContain('Size as built 2,099 × 800 × 750 mm Agreed size 2,100 × 800 × 745 mm Weight 41 kg, calculated');
  });

  test('drawings: what was agreed beside what was built, and who said yes to what is beyond its tolerance', () => {
    const words = paper('drawings-as-built.pdf');
    expect(words).toContain('Length of the top 2,100 mm 2,099 mm −1 mm ± 3 mm within');
    // 749.5 - 745 = 4.5; entry 12 is Maren Tollefsen's yes of 30 March 2026.
    expect(words).toMatch(/Height 745 mm 749.5 mm \+4.5 mm ± 3 mm Maren Tollefsen, 30 March/);
    expect(words).toContain('Base, legs, some size 42 mm 42 mm none');
    expect(words).toContain('The drawings show the table as it was agreed');
    // The frozen sheet itself, as real lettering.
    expect(words).toMatch(/Scale 1:\d+/i);
  });

  test('materials: botanical names, what was stated of the boards and by whom it is not claimed, finish and batch, the baseline', () => {
    const words = paper('materials-and-origin.pdf');
    expect(words).toContain('Quercus robur');
    expect(words).toMatch(/European oak the upper Tarrow felled in 2023 TW-11/);
    expect(words).toContain('it certifies their timber, and nothing about this table');
    expect(words).toContain('Harbour hard oil; batch 26-118');
    expect(words).toContain('8.5 to 9.4 % of dry mass, 4 boards measured');
    expect(words).toContain('Humidity of the air at glue-up 48 %');
    expect(words).not.toContain('Humidity at finishing');
    expect(words).toContain('As measured by the maker');
    expect(words).toContain('White glue, D3');
    expect(words).toMatch(/Source: .*DIN 68100/);
  });

  test('the scope is the very file of the record; the statement is as of the day', () => {
    expect(readFileSync(join(edition, 'papers', 'scope.pdf')).equals(readFileSync(join(folder, 'records', 'scope-r3-a.pdf')))).toBe(true);
    const words = paper('statement.pdf');
    expect(words).toContain('As of 18 June 2026');
    // 6,258.00 in three instalments, of which two of 2,503.20 are paid.
    expect(words).toMatch(/Total €6,258.00 €5,006.40 €1,251.60/);
  });

  test('the same record gives the same bytes', async () => {
    const again = mkdtempSync(join(tmpdir(), 'leafwright-papers-again-'));
    cpSync(join(root, 'proposals', slug), join(again, 'proposals', slug), { recursive: true });
    mkdirSync(join(again, 'templates'));
    await deliver({ workspace: again, slug, on });
    const first = filesBelow(join(again, 'proposals', slug, 'handed-over', '1', 'papers'));
    rmSync(join(again, 'proposals', slug), { recursive: true });
    cpSync(join(root, 'proposals', slug), join(again, 'proposals', slug), { recursive: true });
    await deliver({ workspace: again, slug, on });
    const second = filesBelow(join(again, 'proposals', slug, 'handed-over', '1', 'papers'));
    expect([...first.keys()]).toEqual([...second.keys()]);
    for (const [name, bytes] of first) expect([name, second.get(name)?.equals(bytes)]).toEqual([name, true]);
    rmSync(again, { recursive: true, force: true });
  }, 60_000);
});

describe('publication of papers', () => {
  const between = (html: string, slot: { readonly open: string; readonly close: string }): string =>
    html.slice(html.indexOf(slot.open) + slot.open.length, html.indexOf(slot.close));
  const withEmpty = (html: string, slot: { readonly open: string; readonly close: string }): string =>
    html.replace(between(html, slot), '');

  test('before a hand-over nothing is there, and nothing leads to it', () => {
    expect([...before.keys()].filter((path) => path.includes('papers'))).toEqual([]);
    expect([...before].filter(([path, bytes]) => path.endsWith('.html') && bytes.toString().includes('papers/'))).toEqual([]);
  });

  test('they stand below the link of the ordered revision alone, whose page differs in its slot alone', () => {
    const [r1, r2, r3] = issuedRevisions(folder, on);
    if (r1 === undefined || r2 === undefined || r3 === undefined) throw new Error('three revisions were issued');
    expect(r3.state).toEqual({ kind: 'delivered', on });
    const below = [...after.keys()].filter((path) => path.includes('/papers/')).map((path) => path.split('/')[0]);
    expect(new Set(below)).toEqual(new Set([r3.token]));
    for (const { token } of [r1, r2]) {
      const page = after.get(`${token}/index.html`)?.toString() ?? '';
      expect(page).not.toContain('papers/index.html');
      expect(between(page, stateSlot)).toContain('A newer proposal has taken the place');
    }
    const page = after.get(`${r3.token}/index.html`)?.toString() ?? '';
    const slot = between(page, stateSlot);
    expect(slot).toContain('<p>What was agreed here was delivered on 18 June 2026. This page stays as it was issued.');
    expect(slot).toMatch(/<p><a href="papers\/index\.html">Papers of your table<\/a><\/p><\/div>$/);
    const frozen = readFileSync(join(folder, 'issued', 'r3', 'out', 'index.html'), 'utf8');
    expect(withEmpty(page, stateSlot)).toBe(frozen);
    for (const [path, bytes] of before)
      if (path !== `${r3.token}/index.html`) expect([path, after.get(path)?.equals(bytes)]).toEqual([path, true]);
  });

  test('what is published is what was frozen, but for the ways to the care of the table and to the proposal', () => {
    const token = issuedRevisions(folder, on).at(-1)?.token ?? '';
    const { token: care } = JSON.parse(readFileSync(join(folder, 'handed-over', 'link.json'), 'utf8')) as { readonly token: string };
    for (const [path, bytes] of filesBelow(join(edition, 'papers')))
      if (path !== 'index.html') expect([path, after.get(`${token}/papers/${path}`)?.equals(bytes)]).toEqual([path, true]);
    const page = after.get(`${token}/papers/index.html`)?.toString() ?? '';
    expect(between(page, papersSlots.care)).toContain(`href="../../${care}/index.html"`);
    expect(between(page, papersSlots.proposal)).toContain('href="../index.html"');
    expect(withEmpty(withEmpty(page, papersSlots.care), papersSlots.proposal)).toBe(
      readFileSync(join(edition, 'papers', 'index.html'), 'utf8'),
    );
    expect([...after].filter(([, bytes]) => bytes.includes('the-maker-keeps-this'))).toEqual([]);
  });
});
