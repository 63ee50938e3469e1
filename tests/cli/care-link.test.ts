/**
 * Whoever has the table reads its care: every byte of that, and of its label, is searched for the client, the price and the way back.
 * PDF files are unpacked by general tools (qpdf, poppler). People, prices and places are invented.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readProposal } from '../../src/read/index.ts';
import { careEditions, issuedOffers, issuedRevisions, readEntries } from '../../src/record/index.ts';
import { promisesIn } from '../templates/promises.ts';
import { filledIn } from './hand-over-bench.ts';
import { runIn } from './run.ts';

const slug = 'tollefsen-quill';
const root = fileURLToPath(new URL('../../', import.meta.url));
const workspace = mkdtempSync(join(tmpdir(), 'leafwright-care-link-'));
const folder = join(workspace, 'proposals', slug);
const run = (day: string, ...args: readonly string[]) => runIn(workspace, [...args, ...(day === '' ? [] : ['--as-of', day])]);
const careOf = (edition: string): string => join(folder, 'handed-over', edition);
const linkOf = (): string =>
  (JSON.parse(readFileSync(join(folder, 'handed-over', 'link.json'), 'utf8')) as { readonly token: string }).token;

const filesBelow = (at: string): readonly string[] =>
  readdirSync(at, { recursive: true, encoding: 'utf8' })
    .filter((path) => statSync(join(at, path)).isFile())
    .toSorted();

/** All readings of a file: its bytes, and of a PDF what is packed in it, its words and its metadata. */
function searchable(path: string): string {
  if (!path.endsWith('.pdf')) return readFileSync(path, path.endsWith('.woff2') ? 'latin1' : 'utf8');
  const unpacked = execFileSync('qpdf', ['--qdf', '--object-streams=disable', path, '-'], { encoding: 'latin1', maxBuffer: 1e8 });
  return [
    unpacked,
    ...['pdftotext', 'pdfinfo'].map((tool) => execFileSync(tool, tool === 'pdftotext' ? [path, '-'] : [path], { encoding: 'utf8' })),
  ].join('\n');
}

beforeAll(async () => {
  cpSync(join(root, 'proposals', slug), folder, { recursive: true });
  cpSync(join(root, 'templates', 'maker.yaml'), join(workspace, 'templates', 'maker.yaml'), { recursive: true });
  const maker = join(workspace, 'templates', 'maker.yaml');
  writeFileSync(maker, readFileSync(maker, 'utf8').replace(/^site:.*$/m, 'site: https://tables.example.invalid/p'));
  await run('2027-07-02', 'hand-over', slug, '--on', '2027-07-01');
  const sheet = join(folder, 'hand-over.yaml');
  let text = readFileSync(sheet, 'utf8');
  for (const [from, to] of filledIn) text = text.replaceAll(from, to);
  writeFileSync(sheet, text.replace('top.width: { built: 82 cm }', 'top.width: { built: 801 }'));
  const { status, stderr } = await run('2027-07-02', 'hand-over', slug);
  expect([status, stderr]).toEqual([0, expect.not.stringContaining('error[')]);
  expect((await run('2027-07-02', 'build')).status).toBe(0);
}, 120_000);
afterAll(() => rmSync(workspace, { recursive: true, force: true }));

describe('the care of a table that was handed over', () => {
  test('is published below its own link as it was frozen, and its label is not', () => {
    const published = join(workspace, 'dist', 'client', linkOf());
    const frozen = filesBelow(join(careOf('1'), 'care'));
    expect(frozen.filter((path) => !path.endsWith('.woff2'))).toEqual(['care.ics', 'care.pdf', 'index.html']);
    expect(filesBelow(published)).toEqual(frozen);
    for (const path of frozen) expect(readFileSync(join(published, path)).equals(readFileSync(join(careOf('1'), 'care', path)))).toBe(true);
    expect(filesBelow(join(careOf('1'), 'label'))).toEqual(['label-74x52.pdf', 'label-74x52.svg', 'label-90x60.pdf', 'label-90x60.svg']);
    expect(filesBelow(join(workspace, 'dist', 'client')).filter((path) => /label-/.test(path))).toEqual([]);
    const page = readFileSync(join(published, 'index.html'), 'utf8');
    expect(page).toMatch(/<meta name="robots" content="noindex, ?nofollow, ?noarchive"/);
    expect(page).toMatch(/<meta name="referrer" content="no-referrer"/);
    // Ways lead to its own files and to the maker's mail and telephone, never up or out.
    const ways = [...page.matchAll(/\b(?:href|src)="([^"]*)"/g)].map(([, to = '']) => to);
    expect(ways.length).toBeGreaterThan(1);
    expect(ways.filter((to) => !/^(?:#|mailto:|tel:|data:|(?:fonts\/)?[\w.-]+\.(?:pdf|ics|woff2|css|svg)$)/.test(to))).toEqual([]);
  });

  test("leads nowhere from the maker's page: that leads to the care, the client's papers and the labels, which are not the client's", async () => {
    const workshop = join(workspace, 'dist', 'workshop', slug);
    const page = readFileSync(join(workshop, 'index.html'), 'utf8');
    const ordered = issuedRevisions(folder, '2027-07-02').at(-1);
    const ways = [...page.matchAll(/<a href="([^"]*)">(Care of the table|The client(?:'|&#39;)s papers|Label, [^<]*)<\/a>/g)];
    expect(ways.map(([, href]) => href)).toEqual([
      `../../client/${linkOf()}/index.html`,
      `../../client/${ordered?.token}/papers/index.html`,
      'label/label-74x52.pdf',
      'label/label-90x60.pdf',
    ]);
    expect(ways.slice(2).map(([, , says]) => says)).toEqual(['Label, 74 × 52 mm', 'Label, 90 × 60 mm']);
    for (const [, href = ''] of ways) expect([href, existsSync(join(workshop, href))]).toEqual([href, true]);
    for (const name of ['label-74x52.pdf', 'label-90x60.pdf'])
      expect(readFileSync(join(workshop, 'label', name)).equals(readFileSync(join(careOf('1'), 'label', name)))).toBe(true);
    const { stdout } = await run('2027-07-02', 'build');
    expect(stdout.split('\n').find((row) => row.includes('care of'))).toMatch(
      new RegExp(`^ {2,}care of RS-2027-01 +edition 1 +client/${linkOf()}/$`),
    );
    const told = JSON.parse((await run('2027-07-02', 'build', '--json')).stdout) as { readonly proposals: readonly object[] };
    expect(told.proposals).toMatchObject([{ slug, care: { piece: 'RS-2027-01', edition: 1, token: linkOf() } }]);
  });

  test('holds in no byte and in no file name a client, a price, a page of the proposal, its name or its title', () => {
    const { input } = readProposal(workspace, slug);
    if (input === undefined) throw new Error(`${slug} can not be read`);
    const { client, deciders, title, understood, wishes } = input.proposal;
    const names = [client, ...Object.values(deciders.people)]
      .flatMap(({ name }) => name.split(/[ ,]+/))
      .filter((word) => /^\p{Lu}/u.test(word));
    const tokens = readdirSync(join(folder, 'issued')).flatMap((revision) =>
      readFileSync(join(folder, 'issued', revision, 'link.json'), 'utf8').match(/\b[a-z2-7]{26}\b/g),
    );
    const offers = issuedOffers(folder);
    const said = [
      ...[...new Set(names)].filter((name) => name.length > 2),
      ...[slug, title, understood.slice(0, 60), ...Object.values(wishes).map(({ says }) => says)],
      ...tokens.flatMap((token) => token ?? []),
      ...offers.flatMap(({ fingerprint }) => [fingerprint, fingerprint.slice(0, 20)]),
      ...[client.address ?? [], ...[client, ...Object.values(deciders.people)].map(({ email }) => email ?? [])].flat(),
    ];
    expect(said.length).toBeGreaterThan(15);
    const totals = offers.flatMap(({ designs }) => designs.flatMap(({ combinations }) => combinations.map(({ totalMinor }) => totalMinor)));
    const price = /[€£$]\s?\d|\d\s?[€£$]|\b(?:EUR|GBP|USD)\b/;
    const wanted = [...new Set(totals)].map(
      (minor) =>
        new RegExp(`(?<![\\d.])${Math.floor(minor / 100 / 1000)},?${String(Math.floor(minor / 100) % 1000).padStart(3, '0')}(?![\\d])`),
    );
    let read = 0;
    for (const part of ['care', 'label'])
      for (const path of filesBelow(join(careOf('1'), part))) {
        const all = `${path}\n${searchable(join(careOf('1'), part, path))}`;
        read += 1;
        expect([path, said.filter((word) => all.includes(word))]).toEqual([path, []]);
        expect([path, said.filter((word) => all.includes(word.toUpperCase()))]).toEqual([path, []]);
        // What a PDF draws with is numbers, and a font is any bytes.
        if (!/\.(?:pdf|svg|woff2)$/.test(path))
          expect([path, price.exec(all)?.[0], wanted.filter((one) => one.test(all))]).toEqual([path, undefined, []]);
      }
    expect(read).toBeGreaterThan(6);
    // They would be found: the client's own papers do name the client.
    expect(searchable(join(careOf('1'), 'papers', 'index.html'))).toContain(names[0]);
  });

  test('promises nothing, and says the sizes as they were built', () => {
    for (const path of ['index.html', 'care.pdf', 'care.ics']) {
      const words = path.endsWith('.pdf')
        ? execFileSync('pdftotext', [join(careOf('1'), 'care', path), '-'], { encoding: 'utf8' })
        : readFileSync(join(careOf('1'), 'care', path), 'utf8').replaceAll(/<style[\s\S]*?<\/style>|<[^>]+>/g, ' ');
      expect([path, promisesIn(words)]).toEqual([path, []]);
    }
    const { size } = JSON.parse(readFileSync(join(careOf('1'), 'data', 'care.json'), 'utf8')) as { readonly size: string };
    // As the sheet has them: 2,100 × 800 × 745 mm were agreed.
    expect(size.replaceAll(/[\u00a0\u202f]/g, ' ')).toBe('2,103 × 801 × 744 mm');
  });

  test('keeps the files that it was made of, and none of a person', () => {
    const kept = filesBelow(join(careOf('1'), 'in'));
    expect(kept).toEqual([
      'program/templates/care.yaml',
      'program/templates/finishes.yaml',
      'program/templates/texts/en-GB.yaml',
      'program/templates/woods.yaml',
      'templates/maker.yaml',
    ]);
    expect(kept.filter((path) => /Tollefsen|Quill/.test(readFileSync(join(careOf('1'), 'in', path), 'utf8')))).toEqual([]);
  });

  test.each(['Pacific/Kiritimati', 'Pacific/Pago_Pago', 'America/St_Johns'])(
    "says the same days on a machine in %s: the maker's zone alone counts",
    (TZ) => {
      // 14 hours before and 11 behind UTC: for one of the two instants the machine's day is another.
      for (const at of ['2027-07-02T00:30:00Z', '2027-07-02T22:30:00Z']) {
        const args = [join(root, 'src/cli/main.ts'), 'care', slug, '--as-of', at, '--workspace', workspace];
        const { status, stdout, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8', env: { ...process.env, TZ } });
        expect([status, stdout], stderr).toEqual([0, expect.stringContaining('says the same, so none was made')]);
      }
    },
    30_000,
  );

  test('made again says the same with no edition more; its rules changed make the next one below the same link', async () => {
    const before = linkOf();
    const same = await run('2027-07-03', 'care', slug);
    expect([same.status, same.stdout]).toEqual([0, expect.stringContaining('edition 1 of 2027-07-02 says the same, so none was made')]);
    expect(careEditions(folder)).toHaveLength(1);
    writeFileSync(join(workspace, 'templates', 'care.yaml'), 'rules: {}\n');
    const again = await run('2027-07-03', 'care', slug, '--again');
    expect([again.status, again.stdout], again.stderr).toEqual([0, expect.stringContaining('edition 2')]);
    expect([careEditions(folder).length, linkOf()]).toEqual([2, before]);
    // A day and its number are all that differs.
    const [one, two] = ['1', '2'].map((edition) => JSON.parse(readFileSync(join(careOf(edition), 'data', 'care.json'), 'utf8')));
    expect({ ...two, edition: 1, date: one.date, dateIso: one.dateIso }).toEqual(one);
    expect((await run('', 'verify', slug)).status).toBe(0);
    expect(readEntries(folder).slice(-2)).toMatchObject([
      { kind: 'care', edition: 1 },
      { kind: 'care', edition: 2 },
    ]);
  });

  test('a link that is taken away is made anew, on page, label and in dist, and the old one is gone', async () => {
    const before = linkOf();
    rmSync(join(folder, 'handed-over', 'link.json'));
    expect((await run('', 'verify', slug)).stdout + (await run('', 'verify', slug)).stderr).toContain('holds no link');
    expect((await run('2027-07-04', 'care', slug, '--again')).status).toBe(0);
    expect(linkOf()).not.toBe(before);
    expect((await run('', 'verify', slug)).status).toBe(0);
    expect((await run('2027-07-04', 'build')).status).toBe(0);
    expect([
      existsSync(join(workspace, 'dist', 'client', before)),
      existsSync(join(workspace, 'dist', 'client', linkOf(), 'index.html')),
    ]).toEqual([false, true]);
  });

  test('--renew-link gives it another link, with a label for it, and says what becomes of the old one', async () => {
    const before = linkOf();
    const editions = careEditions(folder).length;
    const label = (edition: number): string => readFileSync(join(careOf(String(edition)), 'label', 'label-90x60.svg'), 'utf8');
    const renewed = await run('2027-07-05', 'care', slug, '--renew-link');
    expect(renewed.status, renewed.stderr).toBe(0);
    expect(linkOf()).not.toBe(before);
    expect(renewed.stdout).toContain(`https://tables.example.invalid/p/${linkOf()}/`);
    expect(renewed.stdout).toContain(
      `${before}/ leads nowhere once build was uploaded, and neither does the code on the label under the top`,
    );
    expect(renewed.stdout).toContain('print the label anew');
    expect(careEditions(folder)).toHaveLength(editions + 1);
    expect(label(editions + 1)).not.toBe(label(editions));
    expect((await run('', 'verify', slug)).status).toBe(0);
    const { oldToken, token } = JSON.parse((await run('2027-07-05', 'care', slug, '--renew-link', '--json')).stdout) as Record<
      string,
      string
    >;
    expect([oldToken === before, token]).toEqual([false, linkOf()]);
    expect((await run('2027-07-05', 'build')).status).toBe(0);
    const published = readdirSync(join(workspace, 'dist', 'client'));
    expect([published.includes(before), published.includes(oldToken ?? ''), published.includes(linkOf())]).toEqual([false, false, true]);
  });
});
