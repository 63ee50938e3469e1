/**
 * A claim from its opening to its settlement, told of a demo commission in a copy; who complains, what is found and what is decided is
 * invented. What wood does is held against the Wood Handbook; papers are read by general tools (poppler).
 */
import { execFileSync } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readEntries } from '../../src/record/index.ts';
import { wordsOf } from '../site/page-words.ts';
import { promisesIn } from '../templates/promises.ts';
import { filledIn } from './hand-over-bench.ts';
import { runIn } from './run.ts';

const slug = 'tollefsen-quill';
const root = fileURLToPath(new URL('../../', import.meta.url));
const workspace = mkdtempSync(join(tmpdir(), 'leafwright-claim-'));
const folder = join(workspace, 'proposals', slug);
const run = (day: string, ...args: readonly string[]) => runIn(workspace, [...args, '--as-of', day]);
const spaced = (text: string): string => text.replaceAll(/[\u00a0\u2009\u202f]/g, ' ').replaceAll(/\s+/g, ' ');
const pdf = (name: string): string =>
  spaced(execFileSync('pdftotext', ['-layout', join(folder, 'outbox', name), '-'], { encoding: 'utf8' }));
const chain = (): string => readFileSync(join(folder, 'decisions.jsonl'), 'utf8');
const REMARK = 'I glued that joint on a cold day, between ourselves';
let n = 0;

beforeAll(async () => {
  cpSync(join(root, 'proposals', slug), folder, { recursive: true });
  await run('2027-07-02', 'hand-over', slug, '--on', '2027-07-01');
  const sheet = join(folder, 'hand-over.yaml');
  let text = readFileSync(sheet, 'utf8');
  for (const [from, to] of filledIn) text = text.replaceAll(from, to);
  text = text
    .replace('top.width: { built: 82 cm }', 'top.width: { built: 800 }')
    .replace('# photographs: [photographs/front.jpg, photographs/underside.jpg]', 'photographs: [front.jpg]')
    .replace(/^ {2}# defects:\n(?: {2}# .*\n)*/m, '  defects:\n    - { says: A scratch beside the left leg, by: 2027-08-01 }\n');
  writeFileSync(sheet, text);
  await sharp({ create: { width: 20, height: 10, channels: 3, background: '#876' } })
    .jpeg()
    .toFile(join(folder, 'front.jpg'));
}, 60_000);
afterAll(() => rmSync(workspace, { recursive: true, force: true }));

test('before the hand-over there is nothing that a claim could start from', async () => {
  for (const more of [[], ['a crack', '--about', 'crack'], ['--sheet', '3']])
    expect(await run('2027-07-01', 'claim', slug, ...more)).toMatchObject({
      status: 1,
      stderr: expect.stringContaining(`error[cli/not-delivered]: ${slug} was not handed over`),
    });
});

describe('a claim', () => {
  beforeAll(async () => {
    const { status, stderr } = await run('2027-07-02', 'hand-over', slug);
    expect(status, stderr).toBe(0);
    expect((await run('2027-07-20', 'service', slug, 'repair', 'rubbed out', '--defects', '1')).status).toBe(0);
  }, 60_000);

  test('is opened with its words sealed, shows in status and is what is done next', async () => {
    expect((await run('2028-01-20', 'claim', slug, 'a crack', '--about', 'crak')).stderr).toContain('did you mean crack?');
    expect((await run('2028-01-20', 'claim', slug, '--about', 'crack')).stderr).toContain('there are no words: what is wrong');
    expect((await run('2028-01-20', 'claim', slug, 'a crack', '--about', 'crack', '--on', '2027-06-30')).stderr).toContain(
      'error[cli/claim-before]: 2027-06-30 comes before the hand-over on 2027-07-01',
    );
    const before = chain();
    const opened = await run(
      '2028-01-20',
      ...['claim', slug, 'A gap at the left end, as wide as a card', '--about', 'crack', '--who', 'maren', '--humidity', '30 %'],
      ...['--photograph', join(folder, 'front.jpg')],
    );
    expect(opened.status, opened.stderr).toBe(0);
    n = readEntries(folder).at(-1)?.n ?? 0;
    expect(readEntries(folder).at(-1)).toMatchObject({
      kind: 'claim',
      event: 'opened',
      about: 'crack',
      person: 'maren',
      humidityPercent: 30,
    });
    expect(chain().slice(before.length)).not.toMatch(/gap|card/);
    expect(opened.stdout).toContain(`Next: look at the claim of 2028-01-20, entry ${n}`);
    const status = await run('2028-01-21', 'status');
    expect(status.stdout).toContain('claim of 2028-01-20 open (crack)');
    const { proposals } = JSON.parse((await run('2028-01-21', 'status', '--json')).stdout) as {
      readonly proposals: readonly { readonly delivered: { readonly openClaims: unknown } }[];
    };
    expect(proposals[0]?.delivered.openClaims).toEqual([{ entry: n, on: '2028-01-20', about: 'crack', isLookedAt: false }]);
    expect((await runIn(workspace, ['verify', slug])).status).toBe(0);
  });

  test('its sheet begins with the recorded baseline, and leaves room for what is measured beside what was to be expected', async () => {
    expect((await run('2028-01-21', 'claim', slug, '--sheet', '3')).stderr).toContain('error[cli/claim-none]: entry 3');
    const made = await run('2028-01-21', 'claim', slug, '--sheet', String(n));
    expect(made.stdout).toContain(`claim-${n}.pdf`);
    const words = pdf(`claim-${n}.pdf`);
    const order = [
      'What was recorded when it was delivered',
      'Since then',
      'What was agreed',
      'What the claim says',
      'What its wood was to be expected to do',
      'Photographs',
      'Measured at the visit',
    ].map((head) => words.indexOf(head));
    expect(order).toEqual(order.toSorted((a, b) => a - b));
    expect(order[0]).toBeGreaterThan(0);
    for (const said of [
      ...['1 July 2027', '10 June 2027', 'batch A17, C6', '8.9 to 9.2 % of dry mass', '47 %', '50 %', '55 %'],
      ...['looked over at the delivery', 'A scratch beside the left leg', 'put right', 'Maren Tollefsen'],
      ...['repair; defect 1 put right', 'If something is wrong', 'A gap at the left end, as wide as a card'],
      ...['It is no legal advice', 'judges nothing', 'the law of your place decides'],
    ])
      expect(words).toContain(said);
    const { photographs = [] } = readEntries(folder).find((entry) => entry.kind === 'hand-over') ?? {};
    expect(photographs).toHaveLength(1);
    for (const { sha256 } of photographs) expect(words).toContain(sha256);
    // @source Wood Handbook (2010), Table 4-2, at 21.1 C: 25 % gives 5.5, 45 % 8.5, 65 % 12.0; here at 20 C
    for (const [air, moisture] of [
      ['25 %', 5.4],
      ['45 %', 8.5],
      ['65 %', 12],
    ] as const)
      expect(words).toContain(`${air} ${moisture.toFixed(1)} %`);
    expect(promisesIn(words)).toEqual([]);
  });

  test('is looked at: what was measured stands beside what wood does', async () => {
    expect((await run('2028-01-19', 'claim', slug, 'seen', '--look', String(n), '--on', '2028-01-10')).stderr).toContain(
      'error[cli/claim-before]',
    );
    expect((await run('2028-01-28', 'claim', slug, 'seen', '--look', '4')).stderr).toContain('error[cli/claim-none]');
    expect((await run('2028-01-28', 'claim', slug, 'seen', '--look', String(n), '--moisture', 'wet')).status).toBe(2);
    for (const size of ['height=74.4', 'height=744 cm'])
      expect(await run('2028-01-28', 'claim', slug, 'seen', '--look', String(n), '--sizes', size)).toMatchObject({
        status: 2,
        stderr: expect.stringContaining('height can not measure'),
      });
    expect((await run('2028-01-28', 'claim', slug, 'seen', '--look', String(n), '--sizes', 'top.lenght=2103')).stderr).toContain(
      'the ordered table has no size top.lenght',
    );
    const seen = await run(
      '2028-01-28',
      ...['claim', slug, REMARK, '--look', String(n), '--humidity', '27', '--temperature', '21'],
      ...['--moisture', '6.2,6.2', '--width', '792 mm', '--sizes', 'top.length=2103, height=744'],
    );
    expect(seen.status, seen.stderr).toBe(0);
    expect(seen.stdout).toContain(`Next: settle the claim of 2028-01-20, entry ${n}`);
    const { sheet } = JSON.parse((await run('2028-01-28', 'claim', slug, '--sheet', String(n), '--json')).stdout) as {
      readonly sheet: { readonly sections: readonly { readonly id: string; readonly paragraphs: readonly string[] }[] };
    };
    const wood = sheet.sections.find(({ id }) => id === 'wood')?.paragraphs.map(spaced) ?? [];
    // By hand, Eq. 13-2 with the coefficients of European oak (0.00369 flat-sawn, 0.00183 quarter): 800 mm x 2.85 % moisture, 9.05 to 6.2.
    // Flat-sawn 8.3 mm, half-way to quarter-sawn 6.3 mm: 792 to 794 mm, read off in whole millimetres.
    expect(wood[0]).toContain('By the moisture that was measured in its boards, about 6.2 %');
    const [, low = 0, high = 0] = /to (\d+) to (\d+) mm/.exec(wood[0] ?? '')?.map(Number) ?? [];
    expect([Math.abs(low - 792) <= 1, Math.abs(high - 794) <= 1]).toEqual([true, true]);
    expect(wood[1]).toBe('It was 800 mm and measures 792 mm: that is what wood does.');
  });

  test('a photograph that is laid beside it later stands on its sheet with its digest', async () => {
    const attached = await run('2028-01-29', 'attach', slug, join(folder, 'front.jpg'), '--to', String(n), '--what', 'photograph');
    expect(attached.status, attached.stderr).toBe(0);
    const { file } = readEntries(folder).findLast((entry) => entry.kind === 'attached') ?? {};
    expect((await run('2028-01-29', 'claim', slug, '--sheet', String(n))).status).toBe(0);
    expect(pdf(`claim-${n}.pdf`)).toContain(`${file?.path.split('/').at(-1)} ${file?.sha256}`);
  });

  test('is settled with its reason, once', async () => {
    expect((await run('2028-02-02', 'claim', slug, 'why', '--settle', String(n))).stderr).toContain('--as is missing');
    const settled = await run(
      '2028-02-02',
      'claim',
      slug,
      'It opened along a joint that I glued.',
      '--settle',
      String(n),
      '--as',
      'covered',
    );
    expect(settled.status, settled.stderr).toBe(0);
    expect(settled.stdout).not.toContain('the claim of 2028-01-20');
    expect((await run('2028-02-03', 'claim', slug, 'no', '--settle', String(n), '--as', 'not-covered')).stderr).toContain(
      `error[cli/claim-settled]: the claim in entry ${n} is settled`,
    );
    expect((await run('2028-02-03', 'status')).stdout).not.toContain('claim of');
    expect((await run('2028-02-03', 'claim', slug)).stdout).toContain('2028-01-20  crack; settled on 2028-02-02: covered');
    const unseen = await run('2028-03-01', 'claim', slug, 'A wobble', '--about', 'fitting', '--name', 'Somebody Else');
    const other = readEntries(folder).at(-1)?.n ?? 0;
    expect(unseen.status, unseen.stderr).toBe(0);
    const blind = await run('2028-03-02', 'claim', slug, 'The floor it is', '--settle', String(other), '--as', 'not-covered');
    expect(blind.stderr).toContain('warning[cli/claim-unseen]');
    expect(blind.status).toBe(0);
  });

  test('the copy for the client holds what was decided and no remark of the maker; nothing of it is published', async () => {
    expect((await run('2028-02-03', 'claim', slug, '--copy', String(n))).status).toBe(0);
    expect((await run('2028-02-03', 'claim', slug, '--sheet', String(n))).status).toBe(0);
    const [copy, sheet] = [pdf(`claim-${n}-copy.pdf`), pdf(`claim-${n}.pdf`)];
    expect(sheet).toContain(REMARK);
    expect(copy).not.toContain('between ourselves');
    expect(copy).not.toContain('rubbed out');
    expect(copy).toContain('It opened along a joint that I glued.');
    expect(copy).toContain('It is covered by what was agreed, and I put it right.');
    expect(copy).not.toMatch(/€|EUR|\bcost 57|margin|mark-up/);
    expect(copy).not.toContain('Measured at the visit');
    expect(promisesIn(copy)).toEqual([]);
    expect((await run('2028-02-03', 'build')).status).toBe(0);
    const client = join(workspace, 'dist', 'client');
    const published = readdirSync(client, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
    const holds = published.filter((entry) => readFileSync(join(entry.parentPath, entry.name)).includes('as wide as a card'));
    expect([published.length > 20, holds.map(({ name }) => name)]).toEqual([true, []]);
  }, 60_000);

  test('its page in the workshop begins with the baseline; an open one shows on the page of the proposal', async () => {
    const workshop = join(workspace, 'dist', 'workshop', slug);
    const page = spaced(wordsOf(readFileSync(join(workshop, `claim-${n}.html`), 'utf8')));
    const heads = [
      'What was recorded when it was delivered',
      'What was agreed',
      'What the claim says',
      'What was found',
      'How it was settled',
    ];
    const places = heads.map((head) => page.indexOf(head));
    expect([places[0] !== -1, places]).toEqual([true, places.toSorted((a, b) => a - b)]);
    expect(page).toContain(REMARK);
    expect(page).toContain('batch A17, C6');
    const shown = (): string => spaced(wordsOf(readFileSync(join(workshop, 'index.html'), 'utf8')));
    expect(shown()).toContain('Claim of 2028-01-20: crack');
    expect((await run('2028-04-01', 'claim', slug, 'It rocks', '--about', 'fitting')).status).toBe(0);
    const open = readEntries(folder).at(-1)?.n ?? 0;
    expect((await run('2028-04-02', 'build')).status).toBe(0);
    expect(shown()).toMatch(new RegExp(`Claim of 2028-04-01: fitting Entry ${open}; open`));
    expect(shown()).toContain(`look at the claim of 2028-04-01, entry ${open}`);
    // What was measured stands in no list of the record, and the page is made anew for it all the same.
    const measured = (): boolean => spaced(wordsOf(readFileSync(join(workshop, `claim-${open}.html`), 'utf8'))).includes(' 33 %');
    expect(measured()).toBe(false);
    expect((await run('2028-04-03', 'claim', slug, 'level', '--look', String(open), '--humidity', '33')).status).toBe(0);
    expect((await run('2028-04-03', 'build')).status).toBe(0);
    expect(measured()).toBe(true);
  }, 60_000);

  test('erasing who complained takes words and photograph of the claim, and leaves the proof', async () => {
    const photograph = join(folder, 'records', 'files', `${n}-claim.jpg`);
    expect(existsSync(photograph)).toBe(true);
    expect((await run('2028-06-01', 'erase', slug, '--person', 'maren', '--yes')).status).toBe(0);
    expect(existsSync(photograph)).toBe(false);
    expect((await runIn(workspace, ['verify', slug])).status).toBe(0);
  }, 30_000);

  test('after that its sheet is refused in one message, which names the entry that erased; the rest is built', async () => {
    const entries = readEntries(folder);
    const erased = entries.at(-1)?.n;
    const { status, stdout, stderr } = await run('2028-06-02', 'claim', slug, '--sheet', String(n));
    expect([status, stdout]).toEqual([1, '']);
    expect(stderr.match(/^error\[/gm)).toHaveLength(1);
    expect(stderr).toContain(`found: its sources were erased for good with the data of maren, by entry ${erased}\n`);
    expect(stderr).toContain('what was handed over before stays good');
    expect(stderr).not.toContain('leafwright verify');
    expect(readEntries(folder)).toEqual(entries);
    const built = await run('2028-06-02', 'build');
    expect(built.status, built.stderr).toBe(0);
    expect(existsSync(join(workspace, 'dist', 'client'))).toBe(true);
  }, 60_000);
});
