import { execFileSync } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { addEntry, issuedOffers, saltBytes } from '../../src/record/index.ts';
import { type Ended, runIn } from './run.ts';

/**
 * Somebody chooses other options than those that stand by default: the scope is then of the table with these, not of the standard one. It
 * is held against the figures of a proposal in which a hand made the same choice the standard one, and against its own sums.
 * PDF text is read by poppler. People and prices are invented.
 */
const root = fileURLToPath(new URL('../../', import.meta.url));
const slug = 'tollefsen-quill';
const shorter = `  shorter:
    says: 150 mm shorter
    patch:
      top: { length: 1950 }
`;
let home = '';

const folder = (bench: string): string => join(home, bench, 'proposals', slug);
const run = (bench: string, ...args: string[]): Promise<Ended> => runIn(join(home, bench), args, { XDG_CONFIG_HOME: join(home, 'config') });

function change(bench: string, file: string, from: string | RegExp, to: string): void {
  const path = join(folder(bench), file);
  const before = readFileSync(path, 'utf8');
  const after = before.replace(from, to);
  if (after === before) throw new Error(`${file} does not hold ${from}`);
  writeFileSync(path, after);
}

interface Figured {
  readonly overallMm: { readonly length: number; readonly width: number; readonly height: number };
  readonly massKg: number;
  readonly price: {
    readonly netMinor: number;
    readonly totalMinor: number;
    readonly lines: readonly { readonly says: string; readonly amountMinor: number }[];
  };
}

async function figuresOf(bench: string): Promise<Figured> {
  const { stdout } = await run(bench, 'figures', slug, '--variant', 'A', '--json');
  const { variants } = JSON.parse(stdout) as { readonly variants: Readonly<Record<string, Figured>> };
  const { A: figured } = variants;
  if (figured === undefined) throw new Error('no design A');
  return figured;
}

beforeAll(async () => {
  home = mkdtempSync(join(tmpdir(), 'leafwright-chosen-'));
  for (const bench of ['offered', 'by-hand']) {
    mkdirSync(join(home, bench, 'templates'), { recursive: true });
    for (const name of ['proposal.yaml', 'table.yaml', 'variants'])
      cpSync(join(root, 'proposals', slug, name), join(folder(bench), name), { recursive: true });
  }
  change('offered', 'variants/a.yaml', /^options:\n/m, `options:\n${shorter}`);
  change('by-hand', 'variants/a.yaml', /^options:\n/m, `options:\n${shorter.replace('    patch:', '    default: true\n    patch:')}`);
  change('by-hand', 'variants/a.yaml', '    default: true\n    # A price', '    # A price');
  expect((await run('offered', 'issue', slug, '--as-of', '2026-03-27')).status).toBe(0);
  const offer = issuedOffers(folder('offered')).at(-1);
  const combination = offer?.designs[0]?.combinations.find(({ options }) => options.join() === 'shorter');
  if (offer === undefined || combination === undefined) throw new Error('the choice is not on offer');
  const { revision, fingerprint, currency } = offer;
  const chosen = { revision, fingerprint, design: 'A', options: ['shorter'], totalMinor: combination.totalMinor, currency };
  for (const [person, name] of [
    ['maren', 'Maren Tollefsen'],
    ['idris', 'Idris Quill'],
  ] as const)
    await addEntry({ folder: folder('offered'), shown: slug, at: '2026-03-29T09:00:00Z', zone: 'Europe/Dublin' }, () => ({
      body: { kind: 'answer', on: '2026-03-29', person, verdict: 'yes', revision, fingerprint, chosen, by: 'code' },
      sealed: { data: { person, name, remark: '', text: '' }, random: randomBytes(saltBytes) },
    }));
});
afterAll(() => rmSync(home, { recursive: true, force: true }));

test('the scope of what was chosen has its sizes, mass, finish, lines and sums', async () => {
  const [standard, byHand] = [await figuresOf('offered'), await figuresOf('by-hand')];
  expect([standard.overallMm.length, byHand.overallMm.length]).toEqual([2100, 1950]);
  const made = await run('offered', 'scope', slug, '--unsigned', '--as-of', '2026-03-31');
  expect(made.stderr).toBe('');
  const path = join(folder('offered'), 'records', 'scope-r3-a.pdf');
  const text = execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' }).replaceAll(/[\u00a0\u2009\u202f]/g, ' ');
  const flat = text.replaceAll(/\s+/g, ' ');
  const { length, width, height } = byHand.overallMm;
  const sizes = (long: number): string => `${new Intl.NumberFormat('en-GB').format(long)} × ${width} × ${height} mm`;
  expect(flat).toContain(sizes(length));
  expect(flat).not.toContain(sizes(standard.overallMm.length));
  expect(flat).toContain(`about ${Math.ceil(byHand.massKg)} kg`);
  // What is still open to choose names the coat; nothing before it does.
  expect(flat.split('Still to choose')[0]).not.toMatch(/ceramic/i);
  expect(flat).not.toContain('as standard');
  const euro = (minor: number): string => new Intl.NumberFormat('en-GB', { style: 'currency', currency: 'EUR' }).format(minor / 100);
  for (const line of byHand.price.lines) expect(flat).toContain(euro(line.amountMinor));
  expect(byHand.price.lines.reduce((sum, line) => sum + line.amountMinor, 0)).toBe(byHand.price.netMinor);
  expect(flat).toContain(euro(byHand.price.netMinor));
  expect(flat).toContain(euro(byHand.price.totalMinor));
  expect(flat).not.toContain(euro(standard.price.totalMinor));
});

test('a scope that was made before there was a key is made once more, signed; a key that came too late is told, and it stands', async () => {
  const before = readFileSync(join(folder('offered'), 'records', 'scope-r3-a.pdf'));
  const scope = (config: string, ...args: readonly string[]): Promise<Ended> =>
    runIn(join(home, 'offered'), args.includes('--as-of') ? args : [...args, '--as-of', '2026-03-31'], {
      XDG_CONFIG_HOME: join(home, config),
    });
  await scope('late', 'key', 'new', '--name', 'Runa Stavely', '--as-of', '2026-03-30');
  const late = await scope('late', 'scope', slug);
  expect([late.status, late.stdout]).toEqual([
    0,
    expect.stringMatching(
      /^The scope stands as it was made .*scope-r3-a\.pdf\n[\s\S]*none: the certificate of your key does not hold on the day/,
    ),
  ]);
  await scope('early', 'key', 'new', '--name', 'Runa Stavely', '--as-of', '2026-03-29');
  expect((await scope('early', 'scope', slug, '--unsigned')).stdout).toMatch(/^The scope stands as it was made .*scope-r3-a\.pdf/);
  const signed = await scope('early', 'scope', slug);
  expect([signed.status, signed.stderr, signed.stdout]).toEqual([
    0,
    '',
    expect.stringMatching(/scope-r3-a-2\.pdf\n[\s\S]*signature {5}by certificate/),
  ]);
  const path = join(folder('offered'), 'records', 'scope-r3-a-2.pdf');
  expect(execFileSync('pdfsig', ['-nocert', path], { encoding: 'utf8' })).toContain('Signature is Valid');
  expect((await scope('early', 'scope', slug)).stdout).toMatch(/^The scope stands as it was made .*scope-r3-a-2\.pdf/);
  expect(readFileSync(join(folder('offered'), 'records', 'scope-r3-a.pdf')).equals(before)).toBe(true);
  expect((await run('offered', 'verify', slug)).status).toBe(0);
});

test('what was frozen of a choice is held by the fingerprint', async () => {
  const path = join(folder('offered'), 'issued/r3/data/choices.json');
  const before = readFileSync(path);
  writeFileSync(path, before.toString('utf8').replace('1,950', '1,951'));
  const { status, stderr } = await run('offered', 'verify', slug);
  expect([status, stderr]).toEqual([1, expect.stringContaining('issued/r3/data/choices.json was changed after it was issued')]);
  writeFileSync(path, before);
});
