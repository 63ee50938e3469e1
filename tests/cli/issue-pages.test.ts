import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import PostalMime from 'postal-mime';
import { beforeAll, describe, expect, test } from 'vitest';
import { openSeal, readEntries } from '../../src/record/index.ts';
import { ownTemplate, workspaceOf } from './issue-workspace.ts';

/** A designer's desk: one page with trade prices for her, one without for her client, under her name. */
const workspace = workspaceOf('desk', 'lindqvaar-wren/r1');
const { at, change, read, run } = workspace;
const proposal = 'proposals/desk/proposal.yaml';
const issued = (...parts: string[]): string => at('proposals/desk/issued/r1', ...parts);

interface Message {
  readonly page: string;
  readonly link: string;
  readonly subject: string;
  readonly text: string;
  readonly draft: string;
}
let outcome: {
  readonly fingerprint: string;
  readonly token: string;
  readonly insisted: readonly string[];
  readonly pages: readonly { readonly page: string; readonly token: string; readonly made: number }[];
  readonly messages: readonly Message[];
};

/** Unpacks the streams of a PDF, then reads its text, its structure and its metadata: three views of the same bytes. */
function pdfText(path: string): string {
  const unpacked = execFileSync('qpdf', ['--qdf', '--object-streams=disable', path, '-'], { encoding: 'latin1', maxBuffer: 1e8 });
  const tools = [
    ['pdftotext', '-layout', path, '-'],
    ['pdfinfo', '-struct-text', path],
    ['pdfinfo', path],
  ].map(([name = '', ...args]) => execFileSync(name, args, { encoding: 'utf8', maxBuffer: 1e8 }));
  return [unpacked, ...tools].join('\n');
}

const folders = new Map<string, ReadonlyMap<string, string>>();

/** All that a page's folder says, file by file, read once; fonts are the same for all. */
function bytesOf(folder: string): ReadonlyMap<string, string> {
  const known = folders.get(folder);
  if (known !== undefined) return known;
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(
    (name) => /\.[a-z0-9]+$/.test(name) && !name.startsWith('fonts'),
  );
  const files = new Map(
    names.map((name) => [name, name.endsWith('.pdf') ? pdfText(join(folder, name)) : readFileSync(join(folder, name), 'utf8')] as const),
  );
  folders.set(folder, files);
  return files;
}
const holding = (files: ReadonlyMap<string, string>, what: RegExp): readonly string[] =>
  [...files].flatMap(([name, text]) => (what.test(text) ? [name] : []));

beforeAll(async () => {
  ownTemplate(workspace, 'maker.yaml', 'maker.yaml');
  ownTemplate(workspace, 'rates/runa-trade.yaml', 'rates/runa-trade.yaml');
  change('templates/maker.yaml', /^site:.*$/m, 'site: https://tables.example.invalid/p');
  change('templates/rates/runa-trade.yaml', /^leastMargin: .*$/m, 'leastMargin: 40 %');
  const { status, stdout, stderr } = await run(
    'issue',
    'desk',
    '--as-of',
    '2026-03-02',
    '--insist',
    'Petra brings me the next three desks',
    '--json',
  );
  expect([status, stderr]).toEqual([0, '']);
  outcome = JSON.parse(stdout);
});

describe('two pages of one revision', () => {
  test('each has its own link and its own folder; the lists hold both, the record both pages and what was insisted', async () => {
    expect(outcome.pages.map(({ page }) => page)).toEqual(['payer', 'viewer']);
    expect(new Set(outcome.pages.map(({ token }) => token)).size).toBe(2);
    expect(outcome.token).toBe(outcome.pages[0]?.token);
    const content = JSON.parse(readFileSync(issued('content.json'), 'utf8'));
    expect([content.pages, content.insisted, 'because' in content]).toEqual([['payer', 'viewer'], ['cli/price-below-floor'], false]);
    expect(readEntries(at('proposals/desk'))[0]?.sealed).toEqual(content.sealed);
    expect(openSeal(at('proposals/desk'), content.sealed)).toEqual({ data: { reason: 'Petra brings me the next three desks' } });
    const made = JSON.parse(readFileSync(issued('files.json'), 'utf8')).files.map(({ path }: { path: string }) => path);
    for (const folder of ['out', 'out-viewer']) expect(made).toContain(`${folder}/index.html`);
    expect(JSON.parse(readFileSync(issued('link.json'), 'utf8'))).toEqual({
      format: 'leafwright/link/2',
      made: '2026-03-02T12:00:00Z',
      tokens: Object.fromEntries(outcome.pages.map(({ page, token }) => [page, token])),
    });
    expect(await run('verify', 'desk')).toMatchObject({
      status: 0,
      stdout: expect.stringContaining('Nothing that was issued has changed.'),
    });
  });

  test("the viewer's files hold no price, no maker, no address of the payer, no way to the other page", () => {
    const viewer = bytesOf(issued('out-viewer'));
    const payer = bytesOf(issued('out'));
    expect([...viewer.keys()].sort()).toEqual([...payer.keys()].sort());
    const [own, other] = [outcome.pages[1]?.token ?? '', outcome.pages[0]?.token ?? ''];
    const totals = Object.values(JSON.parse(readFileSync(issued('data/figures.json'), 'utf8')).variants).flatMap((variant) => {
      const { price } = variant as {
        price: { combinations: { netMinor: number; totalMinor: number }[]; lines: { amountMinor: number }[] };
      };
      const minor = [
        ...price.combinations.flatMap(({ netMinor, totalMinor }) => [netMinor, totalMinor]),
        ...price.lines.map(({ amountMinor }) => amountMinor),
      ];
      return minor.map((value) => new Intl.NumberFormat('en-GB', { minimumFractionDigits: 2 }).format(value / 100));
    });
    expect(totals.length).toBeGreaterThan(9);
    const amounts = new RegExp(`(?<![\\d,.])(?:${[...new Set(totals)].join('|')})(?![\\d])`);
    // What is looked for is there to be found: each stands on the payer's page.
    for (const pattern of [amounts, /€\s?\d/, /Runa Stavely/, /Slipway Lane/, /bench@stavely-tables/, /At most 4,000 at trade/])
      expect([pattern.source, holding(payer, pattern).length]).not.toEqual([pattern.source, 0]);
    for (const pattern of [
      amounts,
      /€\s?\d|\d\s?€|EUR\b/,
      /Stavely|Slipway|bench@|\+000/i,
      /At most 4,000 at trade/,
      new RegExp(other),
      /out-viewer|client-viewer/,
      /Petra brings me/,
    ])
      expect([pattern.source, holding(viewer, pattern)]).toEqual([pattern.source, []]);
    expect(holding(payer, new RegExp(`${own}|Petra brings me`))).toEqual([]);
  });

  test("the designer's name stands in every place where the maker's stood", () => {
    const viewer = bytesOf(issued('out-viewer'));
    expect(holding(viewer, /Petra Lindqvaar/).length).toBe(viewer.size - holding(viewer, /<svg/).length + 1);
    const page = viewer.get('index.html') ?? '';
    expect(page).toMatch(
      /<header class="page masthead">\s*<p><bdi>Petra Lindqvaar<\/bdi><span class="wide">, <bdi>Lindqvaar Rooms<\/bdi><\/span><\/p>/,
    );
    expect(page).toContain('mailto:petra@lindqvaar-rooms.example.invalid');
    expect(page).toContain('For Tobiah Wren');
    expect(page).not.toContain('The maker<');
    expect(viewer.get('scope-a.pdf')).toMatch(/Author:\s+Petra Lindqvaar/);
  });

  test('sections of parts and joints are not for the level agreed', () => {
    const viewer = bytesOf(issued('out-viewer'));
    const payer = bytesOf(issued('out'));
    for (const pattern of [/705 × 55 × 55/, /cross dowel/, /Back rail 90 × 24|90 × 24/]) {
      expect([pattern.source, holding(payer, pattern).length > 0]).toEqual([pattern.source, true]);
      expect([pattern.source, holding(viewer, pattern)]).toEqual([pattern.source, []]);
    }
  });

  test('each page is published below its own link, and neither folder names the other', async () => {
    const { status, stderr } = await run('build', '--as-of', '2026-03-03');
    expect([status, stderr.match(/^error/m)]).toEqual([0, null]);
    const published = readdirSync(at('dist/client')).sort();
    expect(published).toEqual(outcome.pages.map(({ token }) => token).sort());
    for (const [i, folder] of ['out', 'out-viewer'].entries()) {
      const token = outcome.pages[i]?.token ?? '';
      const other = outcome.pages[1 - i]?.token ?? '';
      expect(readFileSync(at('dist/client', token, 'scope-a.pdf'))).toEqual(readFileSync(issued(folder, 'scope-a.pdf')));
      expect(readFileSync(at('dist/client', token, 'index.html'), 'utf8')).not.toContain(other);
    }
    expect(existsSync(at('dist/workshop/desk/draft-viewer/index.html'))).toBe(true);
  });

  test('a link that is gone, doubled or of another page is told, and nothing of it is published', async () => {
    const link = readFileSync(issued('link.json'), 'utf8');
    const { tokens, ...rest } = JSON.parse(link);
    const broken = [{ payer: tokens.payer }, { payer: tokens.payer, viewer: tokens.payer }, { payer: tokens.payer, guest: tokens.viewer }];
    for (const each of broken) {
      writeFileSync(issued('link.json'), `${JSON.stringify({ ...rest, tokens: each })}\n`);
      expect(await run('verify', 'desk')).toMatchObject({ status: 1, stderr: expect.stringContaining('record/link-broken') });
    }
    writeFileSync(issued('link.json'), link);
    expect((await run('verify', 'desk')).status).toBe(0);
  });
});

describe('the message that goes with a link', () => {
  test('names what the page holds, the day, who decides and how to answer; the link below the site', () => {
    const [payer, viewer] = outcome.messages;
    expect(payer?.link).toBe(`https://tables.example.invalid/p/${outcome.token}/`);
    expect(payer?.subject).toBe('First proposal: Desk for the attic study');
    expect(payer?.text.replace(outcome.token, 'TOKEN')).toMatchInlineSnapshot(`
      "Dear Petra Lindqvaar,

      Your page on “Desk for the attic study” is ready to be read. On it you find designs A, B and C with drawings and prices, what became of each of your wishes, how steady each stands, how to look after them, and the terms.

      https://tables.example.invalid/p/TOKEN/

      This link is for you alone. Whoever has it can read the page.

      Please answer by 4 April 2026; prices hold until then. Petra Lindqvaar and Tobiah Wren decide together: it is agreed when each of them has said yes to the same revision and design.

      At the foot of the page is a letter that you complete: which design you choose, or what is not right yet. It makes a mail that you send as it is. If you prefer paper, print the scope of work, sign its last page and give or send it to me. What you tell me on the telephone I write down and send you to confirm.

      A picture of what is on the page is attached. Boards differ in colour and grain; the sample governs.

      The people, places, prices and tax rates in this proposal are invented.

      Runa Stavely
      Tables to commission
      3 Slipway Lane, Tarrowby
      +000 55 0147
      "
    `);
    // Who stands behind the designer is not named to her client, so neither is the maker's site.
    expect(viewer?.link).toBe(`[put here the address under which this folder is uploaded:] ${outcome.pages[1]?.token}/`);
    expect(viewer?.text).not.toMatch(/Stavely|tables\.example|€/);
    expect(viewer?.text).toMatch(/^Dear Tobiah Wren,\n\n[\s\S]*It holds no prices\.[\s\S]*\nPetra Lindqvaar\nLindqvaar Rooms\n/);
  });

  test('each draft is read back by a mail reader, with the picture of the designs', async () => {
    for (const { page, subject, text, draft } of outcome.messages) {
      expect(draft).toBe(`proposals/desk/outbox/r1-${page}.eml`);
      const mail = await PostalMime.parse(readFileSync(at(draft)));
      expect([mail.subject, mail.date]).toEqual([subject, '2026-03-02T12:00:00.000Z']);
      expect(mail.text?.replaceAll('\r\n', '\n').trimEnd()).toBe(text.trimEnd());
      expect([mail.from?.address, mail.to?.[0]?.address]).toEqual(
        page === 'payer'
          ? ['bench@stavely-tables.example.invalid', 'petra@lindqvaar-rooms.example.invalid']
          : ['petra@lindqvaar-rooms.example.invalid', 'tobiah.wren@example.invalid'],
      );
      const [picture] = mail.attachments;
      expect([picture?.filename, picture?.mimeType]).toEqual(['designs-r1.png', 'image/png']);
      const bytes = Buffer.from(picture?.content as ArrayBuffer);
      // PNG (third edition), 5.2 and 11.2.1: signature, then IHDR with the width.
      expect(bytes.subarray(0, 8).toString('hex')).toBe('89504e470d0a1a0a');
      expect(bytes.readUInt32BE(16)).toBe(1200);
    }
  });

  test('as text: what is frozen, the links, the message of each page, and what to do next', async () => {
    const other = at('proposals/table');
    cpSync(at('proposals/desk'), other, { recursive: true, filter: (path) => !/issued|outbox|decisions|records/.test(path) });
    const { status, stdout } = await run('issue', 'table', '--as-of', '2026-03-02', '--insist', 'Petra brings me the next three desks');
    expect(status).toBe(0);
    expect(stdout).toMatch(/^table r1 is issued and frozen: proposals\/table\/issued\/r1, \d+ files for the client\n {2}fingerprint/);
    expect(stdout).toMatch(
      /\n {2}link payer {4}[a-z2-7]{26}\/ {2}\(a key: whoever knows it sees the page\)\n {2}link viewer {3}[a-z2-7]{26}\//,
    );
    expect(stdout).toContain('\n  insisted      cli/price-below-floor; the reason is sealed in the record, in the workshop alone\n');
    expect(stdout).toContain(
      [
        '',
        'Message for Petra Lindqvaar to send to Tobiah Wren',
        '<tobiah.wren@example.invalid>, with a picture of the designs:',
        '  proposals/table/outbox/r1-viewer.eml',
        '',
      ].join('\n'),
    );
    const message = stdout.slice(stdout.indexOf('Message for Petra')).split('\n');
    expect(message.filter((line) => line.length > 80)).toEqual([]);
    expect(stdout).not.toContain('three desks');
    expect(stdout.trimEnd().split('\n').at(-1)).toBe('Next: leafwright build, then upload dist/client and send the message');
  });
});

describe("the maker's own words", () => {
  test('that tell on a page what its reader may not see stop the issue', async () => {
    const draft = at('proposals/shelf');
    cpSync(at('proposals/desk'), draft, { recursive: true, filter: (path) => !/issued|outbox|decisions|records/.test(path) });
    change('proposals/shelf/proposal.yaml', 'Tobiah translates at this desk', 'At €3,200 Runa Stavely builds what Tobiah translates at');
    const { status, stderr } = await run('issue', 'shelf', '--as-of', '2026-03-02', '--insist', 'x');
    expect(status).toBe(1);
    const blocks = stderr.split('\n\n').filter((block) => block.startsWith('error[cli/page-tells]'));
    expect(blocks).toMatchInlineSnapshot(`
      [
        "error[cli/page-tells]: the page viewer would tell who makes it
        proposals/shelf/proposal.yaml:25:3  pages.viewer
          24 |   payer: { audience: payer }
        > 25 |   viewer:
             |   ^^^^^^ found “At €3,200 Runa Stavely builds what Tobiah tran…”
        to mend: write it without the name: the page stands under that of Petra Lindqvaar",
        "error[cli/page-tells]: the page viewer would tell a price
        proposals/shelf/proposal.yaml:25:3  pages.viewer
          24 |   payer: { audience: payer }
        > 25 |   viewer:
             |   ^^^^^^ found “At €3,200 Runa Stavely builds…”
        to mend: take it out, or out of the proposal, and write it where only the payer reads",
      ]
    `);
    expect(spawnSync('ls', [draft]).stdout.toString()).not.toContain('issued');
    expect(read(proposal)).toContain('viewer');
  });
});
