import { execFileSync } from 'node:child_process';
import { cpSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import PostalMime from 'postal-mime';
import { beforeAll, describe, expect, test } from 'vitest';
import { issuedOffers } from '../../src/record/index.ts';
import { amountsIn, wordsOf } from '../site/page-words.ts';
import { letterText, letterTo } from './answers.ts';
import { carePaper } from './delivered.ts';
import { ownTemplate, workspaceOf } from './issue-workspace.ts';

/**
 * The wall over a whole commission: private values are planted in a workspace, the desk of the demos with its two pages is issued,
 * answered, confirmed, paid, changed, handed over; then all that leaves the workshop is searched. PDF files are unpacked by general
 * tools (qpdf, poppler), mails by a general reader. People, prices and places are invented.
 */
const workspace = workspaceOf('desk', 'lindqvaar-wren/r1');
const { at, change, read, run } = workspace;
const proposal = 'proposals/desk/proposal.yaml';
const rates = 'templates/rates/runa-trade.yaml';

/** Each stands in one place that is the maker's alone. */
const planted = [
  'quiet-kiln-line',
  'private-wish-note',
  'slope-gossip',
  'Wedgewort Sawmill',
  'Zirconium handling',
  'insisted-for-three-desks',
  'note-about-the-divorce',
  'evidence-she-hums-yes',
  'cash-in-an-envelope',
  'hummed-at-the-door',
  'Unrelated Griffin',
  'griffin@unrelated.example.invalid',
] as const;
/** Odd on purpose, so that no honest ratio of two amounts equals 1 + one of them. */
const percents = [16.7, 18.3, 19.9, 11.3, 6.9] as const;
const hour = '61.37';
const ownHours = '52.35';

/** The sheet of the hand-over; `yes`: the entry in which Petra agreed to the height. */
const handOver = (yes: number): string => `
piece: RS-2026-01
finished: 2026-03-15
delivered: 2026-03-16
finish: { is: hardwax-oil, product: Harbour hard oil, batch: 26-118 }
glueUp: { moisture: [8.5 %, 9 %], humidity: 48 % }
asBuilt:
  height: { built: 741 mm, yes: ${yes} }
timber:
  - { wood: ash-european, says: blown down in his garden }
acceptance: { inspected: true, signed: true, by: petra, paper: signed.pdf }
words: hummed-at-the-door
`;

/** A file that leaves: every reading of its bytes (as they are, unpacked, words, metadata), and what its reader sees of it. */
interface Left {
  readonly all: string;
  readonly said: string;
}
const spaced = (text: string): string => text.replaceAll(/[\u00a0\u2009\u202f]/g, ' ');

async function searchable(path: string): Promise<Left> {
  if (path.endsWith('.pdf')) {
    const unpacked = execFileSync('qpdf', ['--qdf', '--object-streams=disable', path, '-'], { encoding: 'latin1', maxBuffer: 1e8 });
    const said = spaced(execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' }));
    return { all: [unpacked, said, execFileSync('pdfinfo', [path], { encoding: 'utf8' })].join('\n'), said };
  }
  if (path.endsWith('.eml')) {
    const bytes = readFileSync(path);
    const { text = '', subject = '', from, to, attachments } = await PostalMime.parse(bytes);
    const files = attachments.map(({ filename, content }) => `${filename} ${Buffer.from(content as ArrayBuffer).toString('latin1')}`);
    const said = [subject, text, JSON.stringify([from, to])].join('\n');
    return { all: [bytes.toString('utf8'), said, ...files].join('\n'), said: spaced(said) };
  }
  const all = readFileSync(path, 'utf8');
  // Figures in a drawing's paths are coordinates; its words are those of the page and the scope.
  return { all, said: path.endsWith('.svg') ? '' : path.endsWith('.html') ? wordsOf(all) : spaced(all) };
}

const filesBelow = (folder: string): readonly string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((name) => join(folder, name))
    .filter((path) => statSync(path).isFile() && !path.endsWith('.woff2'))
    .toSorted();

/** Path below the workspace -> what can be read in it. */
const left = new Map<string, Left>();
/** Links of the pages with prices, and of those without. */
const priced: string[] = [];
const unpriced: string[] = [];

/** A command that has to succeed. */
async function done(...args: string[]): Promise<string> {
  const { status, stdout, stderr } = await run(...args);
  expect([args.join(' ').slice(0, 60), status, stderr.replaceAll(/^warning[\s\S]*?(?:\n\n|$)/gm, '')]).toEqual([
    args.join(' ').slice(0, 60),
    0,
    expect.not.stringContaining('error['),
  ]);
  return stdout;
}

async function answered(person: string, name: string, day: string): Promise<void> {
  const offer = issuedOffers(at('proposals/desk')).at(-1);
  if (offer === undefined) throw new Error('nothing is issued');
  const text = letterText(letterTo(offer, person, { on: [], name, remark: 'As drawn.', date: day }));
  await done('record', 'desk', text, '--as-of', day);
}

async function issue(day: string): Promise<void> {
  const { pages } = JSON.parse(await done('issue', 'desk', '--as-of', day, '--insist', 'insisted-for-three-desks', '--json'));
  for (const { page, token } of pages) (page === 'payer' ? priced : unpriced).push(token);
}

beforeAll(async () => {
  ownTemplate(workspace, 'maker.yaml', 'maker.yaml');
  ownTemplate(workspace, 'rates/runa-trade.yaml', 'rates/runa-trade.yaml');
  change('templates/maker.yaml', /^site:.*$/m, 'site: https://tables.example.invalid/p');
  change(rates, 'hour: "57.93"', `hour: "${hour}" # Wedgewort Sawmill sends its bill in May`);
  change(rates, /^markUp: .*$/m, `markUp: { timber: 16.7 %, hardware: 18.3 %, finish: 19.9 %, labour: 11.3 % }`);
  change(rates, /^contingency: .*$/m, 'contingency: 6.9 %');
  change(rates, /^leastMargin: .*$/m, 'leastMargin: 40 %');
  change(rates, 'says: Wooden button with screw', 'says: Zirconium handling');
  change(proposal, 'S6 in my kiln until it is ready', 'quiet-kiln-line');
  change(proposal, 'Height and depth of the knee space after IS 13896 for office desks', 'private-wish-note');
  change(proposal, 'Radiator 300 from the left end of the desk.', 'slope-gossip');
  change('proposals/desk/variants/a.yaml', 'hours: 52', `hours: ${ownHours}`);
  cpSync(at('proposals/desk'), at('proposals/other'), { recursive: true });
  change('proposals/other/proposal.yaml', 'title: Desk for the attic study', 'title: Unrelated Griffin');
  change('proposals/other/proposal.yaml', 'email: petra@lindqvaar-rooms.example.invalid\n#', 'email: griffin@unrelated.example.invalid\n#');

  await done('note', 'desk', 'note-about-the-divorce', '--as-of', '2026-03-01');
  await done('note', 'desk', '--settle', '1', '--as', 'answered', 'note-about-the-divorce', '--as-of', '2026-03-01');
  await issue('2026-03-02');
  await done('record', 'desk', 'evidence-she-hums-yes', '--who', 'petra', '--as-of', '2026-03-03');
  await answered('petra', 'Petra Lindqvaar', '2026-03-04');
  await answered('tobiah', 'Tobiah Wren', '2026-03-04');
  await done('confirm', 'desk', '--as-of', '2026-03-05');
  await done('request', 'desk', '--instalment', '1', '--as-of', '2026-03-05');
  const { instalmentsMinor } = issuedOffers(at('proposals/desk'))[0]?.designs[0]?.combinations[0] ?? {};
  const first = (((instalmentsMinor?.[0] ?? 0) + 100) / 100).toFixed(2);
  await done('pay', 'desk', '--instalment', '1', '--amount', first, '--as-of', '2026-03-06', '--insist', 'cash-in-an-envelope');
  for (const stage of ['timber-bought', 'cut', 'glued']) await done('stage', 'desk', stage, '--as-of', '2026-03-10');
  await done('scope', 'desk', '--as-of', '2026-03-11');
  const ofDesigner = await run('scope', 'desk', '--without-price', '--as-of', '2026-03-11');
  expect(ofDesigner.stdout).toContain('signature     none: it stands under another name than yours, and a signature would tell yours');
  await done('revise', 'desk', '--as-of', '2026-03-12');
  expect(read(proposal)).toContain('evidence-she-hums-yes');
  // What was said stands there for the maker, who writes the reason in their own words.
  change(proposal, /TODO: say in your own words[\s\S]*?(?=\n\nleadTime)/, 'The desk is deeper.');
  change('proposals/desk/table.yaml', /width: 750 mm/, 'width: 760 mm');
  await done('change', 'desk', '--design', 'A', '--write', '--insist', 'insisted-for-three-desks', '--as-of', '2026-03-12');
  await issue('2026-03-12');
  await answered('petra', 'Petra Lindqvaar', '2026-03-13');
  await answered('tobiah', 'Tobiah Wren', '2026-03-13');
  await done('confirm', 'desk', '--as-of', '2026-03-14');
  await done('statement', 'desk', '--as-of', '2026-03-14');
  await done('scope', 'desk', '--as-of', '2026-03-14');
  await done('stage', 'desk', 'finished', '--as-of', '2026-03-15');
  writeFileSync(at('proposals/desk/signed.pdf'), await carePaper({ maker: { name: 'Runa Stavely', address: 'Slipway', email: 'bench@' } }));
  await done('note', 'desk', 'note-about-the-divorce', '--who', 'petra', '--as-of', '2026-03-15');
  writeFileSync(at('proposals/desk/hand-over.yaml'), handOver(read('proposals/desk/decisions.jsonl').trim().split('\n').length));
  await done('hand-over', 'desk', '--as-of', '2026-03-16');
  await done('delivery-note', 'desk', '--as-of', '2026-03-16');
  await done('delivery-note', 'desk', '--page', 'viewer', '--as-of', '2026-03-16');
  await done('build', '--as-of', '2026-03-16');
  const { token: care } = JSON.parse(read('proposals/desk/handed-over/link.json')) as { readonly token: string };
  const scopes = filesBelow(at('proposals/desk/records')).filter((path) => /scope-[^/]*\.pdf$/.test(path));
  for (const path of [...filesBelow(at('dist/client')), ...filesBelow(at('proposals/desk/outbox')), ...scopes])
    left.set(path.slice(workspace.folder.length + 1).replace(care, 'CARE'), await searchable(path));
}, 240_000);

const named = (pattern: RegExp): readonly (readonly [string, Left])[] => [...left].filter(([path]) => pattern.test(path));
const forNoPrice = /-viewer\.(?:eml|txt)$|-no-price\.pdf$|note-viewer-[^/]*\.pdf$/;
/** The page of a link; the page of a table's papers lies below it. Whose link leads to the care of the table is told as CARE. */
const page = /client\/[a-z2-7]{26}\/index\.html$/;
/** What goes to the one who sees no price. */
const priceless = (): readonly (readonly [string, Left])[] =>
  [...left].filter(([path]) => unpriced.some((token) => path.includes(`/${token}/`)) || forNoPrice.test(path));

const variantsOf = (revision: string): readonly Variant[] =>
  Object.values(JSON.parse(read(`proposals/desk/issued/${revision}/data/figures.json`)).variants);
interface Variant {
  readonly price: {
    readonly costMinor: number;
    readonly build: readonly { readonly amountMinor: number }[];
    readonly lines: readonly { readonly amountMinor: number; readonly eachMinor?: number }[];
  };
}
const plain = (text: string): string => text.replaceAll(/(\d),(?=\d{3})/g, '$1');
const factors = percents.flatMap((percent) => [1 + percent / 100, 1 / (1 - percent / 100)]);
const both = percents.flatMap((a) => [(1 + a / 100) * (1 + percents[4] / 100), (1 + a / 100) / (1 - percents[4] / 100)]);

/** Pairs of amounts of which one is the other with a planted mark-up on it. */
function dividedOut(minor: readonly number[]): readonly string[] {
  const amounts = [...new Set(minor)].filter((amount) => amount > 0);
  return amounts.flatMap((a) =>
    amounts.flatMap((b) =>
      [...factors, ...both].filter((factor) => b < a && Math.abs(a / b - factor) * b < 1).map((factor) => `${a} / ${b} = ${factor}`),
    ),
  );
}

describe('what leaves the workshop in a whole commission', () => {
  test('is all there: both pages of both revisions, every message, request, statement, each kind of scope, a change to the order', () => {
    const shapes = [...left.keys()].map((path) => path.replace(/[a-z2-7]{26}/, 'TOKEN').replace(/-[abc](?=\.|-)/, ''));
    expect([...new Set(shapes)].toSorted()).toEqual([
      'dist/client/CARE/care.ics',
      'dist/client/CARE/care.pdf',
      'dist/client/CARE/index.html',
      'dist/client/TOKEN/drawing.svg',
      'dist/client/TOKEN/index.html',
      'dist/client/TOKEN/papers/care.pdf',
      'dist/client/TOKEN/papers/delivery-note.pdf',
      'dist/client/TOKEN/papers/drawings-as-built.pdf',
      'dist/client/TOKEN/papers/index.html',
      'dist/client/TOKEN/papers/materials-and-origin.pdf',
      'dist/client/TOKEN/papers/scope.pdf',
      'dist/client/TOKEN/papers/statement.pdf',
      'dist/client/TOKEN/scope.pdf',
      'proposals/desk/outbox/delivery-note-2026-03-16.pdf',
      'proposals/desk/outbox/delivery-note-viewer-2026-03-16.pdf',
      'proposals/desk/outbox/r1-confirmation-viewer.eml',
      'proposals/desk/outbox/r1-confirmation-viewer.txt',
      'proposals/desk/outbox/r1-confirmation.eml',
      'proposals/desk/outbox/r1-confirmation.txt',
      'proposals/desk/outbox/r1-payer.eml',
      'proposals/desk/outbox/r1-viewer.eml',
      'proposals/desk/outbox/r2-confirmation-viewer.eml',
      'proposals/desk/outbox/r2-confirmation-viewer.txt',
      'proposals/desk/outbox/r2-confirmation.eml',
      'proposals/desk/outbox/r2-confirmation.txt',
      'proposals/desk/outbox/r2-payer.eml',
      'proposals/desk/outbox/r2-viewer.eml',
      'proposals/desk/outbox/request-desk-1.pdf',
      'proposals/desk/outbox/statement-2026-03-14.pdf',
      'proposals/desk/records/scope-r1-no-price.pdf',
      'proposals/desk/records/scope-r1.pdf',
      'proposals/desk/records/scope-r2.pdf',
    ]);
    expect(named(page)).toHaveLength(4);
    expect(named(/papers\/index\.html$/)).toHaveLength(2);
    expect(named(page).filter(([, { all }]) => all.includes('id="changed-title"'))).toHaveLength(2);
  });

  test('holds no planted word, though each does stand in the workspace', () => {
    const workshop = [
      ...['desk', 'other'].flatMap((slug) => filesBelow(at('proposals', slug))).filter((path) => !/\.(?:pdf|eml|svg|html)$/.test(path)),
      at(rates),
    ].map((path) => readFileSync(path, 'utf8'));
    expect(planted.filter((word) => !workshop.some((text) => text.includes(word)))).toEqual([]);
    expect([...left].flatMap(([path, { all }]) => planted.filter((word) => all.includes(word)).map((word) => `${path}: ${word}`))).toEqual(
      [],
    );
  });

  test('holds no rate, mark-up, hour or cost, nor a line of the build-up', () => {
    const variants = ['r1', 'r2'].flatMap(variantsOf);
    const shown = new Set(variants.flatMap(({ price }) => price.lines.flatMap(({ amountMinor, eachMinor }) => [amountMinor, eachMinor])));
    const secret = variants.flatMap(({ price }) => [price.costMinor, ...price.build.map((line) => line.amountMinor)]);
    const texts = [
      ...secret.filter((minor) => minor > 2000 && !shown.has(minor)).map((minor) => (minor / 100).toFixed(2)),
      ...percents.map((percent) => `${percent} ?%`),
      hour,
      ownHours,
    ];
    expect(texts.length).toBeGreaterThan(20);
    const patterns = [...new Set(texts)].map((text) => new RegExp(`(?<![\\d.])${text.replace('.', '\\.')}(?!\\d)`));
    const found = [...left].flatMap(([path, { said }]) =>
      patterns.filter((pattern) => pattern.test(plain(said))).map((pattern) => `${path}: ${pattern.source}`),
    );
    expect(found).toEqual([]);
  });

  test('lets no mark-up be divided out of two amounts: pages with their letter and what changed, papers, messages', () => {
    const found = [...left].flatMap(([path, { said }]) => dividedOut(amountsIn(said)).map((pair) => `${path}: ${pair}`));
    expect(found).toEqual([]);
    const payers = named(page).filter(([path]) => !unpriced.some((token) => path.includes(token)));
    for (const [, { all, said }] of payers) {
      const data = JSON.parse(/<script type="application\/json"[^>]*>([\s\S]*?)<\/script>/.exec(all)?.[1] ?? '');
      const totals = data.letter.designs.flatMap(({ combinations }: { combinations: readonly { total: { minor: number } }[] }) =>
        combinations.map(({ total }) => total.minor),
      );
      expect(totals.length).toBeGreaterThan(0);
      expect(dividedOut([...amountsIn(said), ...totals])).toEqual([]);
    }
    // It would be found: 1,000 at cost beside 1,113 with the mark-up on labour, or 1,189.80 with the contingency on that.
    expect(dividedOut([100000, 111300])).toHaveLength(1);
    expect(dividedOut([100000, 118980])).toHaveLength(1);
  });

  test('nor of two amounts that stand in different files which one reader holds: page, scope, papers, request, statement, mails', () => {
    const isPayers = ([path]: readonly [string, Left]): boolean =>
      !unpriced.some((token) => path.includes(`/${token}/`)) && !forNoPrice.test(path);
    const held = [...left].filter(isPayers);
    // Of the order and of its change, all that the payer was ever sent; the one who sees no price holds no amount (below).
    for (const kind of [
      /client\/.*index\.html$/,
      /scope[^/]*\.pdf$/,
      /request-.*\.pdf$/,
      /statement-.*\.pdf$/,
      /-payer\.eml$/,
      /confirmation\.eml$/,
    ])
      expect(held.some(([path]) => kind.test(path))).toBe(true);
    const amounts = held.map(([path, { said }]) => [path, new Set(amountsIn(said))] as const);
    const all = amounts.flatMap(([, some]) => [...some]);
    expect(new Set(all).size).toBeGreaterThan(Math.max(...amounts.map(([, some]) => some.size)));
    const filesWith = (amount: number): string =>
      amounts
        .filter(([, some]) => some.has(amount))
        .map(([path]) => path)
        .join(' ');
    expect(
      dividedOut(all).map((pair) => `${pair}: ${filesWith(Number(pair.split(' ')[0]))} / ${filesWith(Number(pair.split(' ')[2]))}`),
    ).toEqual([]);
  });

  test('tells who sees no price no amount, and nothing of the maker, of the budget or of the way to the other page', () => {
    const files = priceless();
    expect(files.length).toBeGreaterThan(12);
    expect(files.filter(([path]) => path.endsWith('-no-price.pdf'))).toHaveLength(1);
    // Papers without a price: no statement, and under another name no delivery note that names the maker.
    const papers = files.flatMap(([path]) => /papers\/(.*)$/.exec(path)?.[1] ?? []);
    expect(papers.toSorted()).toEqual(['care.pdf', 'drawings-as-built.pdf', 'index.html', 'materials-and-origin.pdf', 'scope.pdf']);
    const built = files.find(([path]) => path.endsWith('drawings-as-built.pdf'))?.[1].said.replaceAll(/\s+/g, ' ') ?? '';
    expect(built).toContain('Petra Lindqvaar');
    const forbidden = [
      /€\s?\d|\d\s?€|EUR\b/,
      /"(?:minor|total|instalments|currency)":(?!\[\])/,
      /Stavely|Slipway|bench@|\+000 55/i,
      /At most 4,000/,
    ];
    const found = files.flatMap(([path, { all, said }]) => {
      const own = path.endsWith('.pdf') ? `${said}${all.slice(all.lastIndexOf('%%EOF'))}` : path.endsWith('.eml') ? said : all;
      return [...forbidden, new RegExp(priced.join('|'))]
        .filter((pattern) => pattern.test(own))
        .map((pattern) => `${path}: ${pattern.source}`);
    });
    expect(found).toEqual([]);
  });

  test('the care of the table names no client, no price and no way to a page or to the papers', () => {
    const files = named(/\/CARE\//);
    expect(files).toHaveLength(3);
    const tokens = new RegExp([...priced, ...unpriced].join('|'));
    for (const [path, { all, said }] of files) {
      expect([path, /Lindqvaar|Petra|Wren|Tobiah|attic study|papers\//i.exec(all)?.[0]]).toEqual([path, undefined]);
      expect([path, tokens.exec(all)?.[0], amountsIn(said)]).toEqual([path, undefined, []]);
    }
  });

  test('leaves what an answer is held against in the workshop: no data file of a revision is published', () => {
    expect(read('proposals/desk/issued/r1/data/offer.json')).toContain('netMinor');
    expect(filesBelow(at('dist/client')).filter((path) => !/\.(?:html|svg|pdf|ics)$/.test(path))).toEqual([]);
    expect([...left].filter(([, { all }]) => /netMinor|leafwright\/(?:offer|figures)/.test(all)).map(([path]) => path)).toEqual([]);
  });
});
