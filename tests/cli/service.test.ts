/** After the hand-over of a demo commission in a copy: visits, repairs and a refinish; hours, timber and what was learnt. All of it is invented. */
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { makeIndexFiles, openTools } from '../../src/cli/draft/produce.ts';
import { afterOrder, ratesShown } from '../../src/cli/make/after-order.ts';
import { readProposal } from '../../src/read/index.ts';
import { careEditions, readEntries } from '../../src/record/index.ts';
import { wordsOf } from '../site/page-words.ts';
import { filledIn } from './hand-over-bench.ts';
import { type Ended, runIn } from './run.ts';

const slug = 'tollefsen-quill';
const root = fileURLToPath(new URL('../../', import.meta.url));
let workspace = '';
const folder = (): string => join(workspace, 'proposals', slug);
const run = (day: string, ...args: readonly string[]): Promise<Ended> => runIn(workspace, [...args, '--as-of', day]);
const page = (): string =>
  Buffer.from(
    careEditions(folder())
      .at(-1)
      ?.filesOf('care')
      .find(({ path }) => path === 'index.html')?.bytes ?? [],
  ).toString('utf8');

beforeAll(() => {
  workspace = mkdtempSync(join(tmpdir(), 'leafwright-service-'));
  cpSync(join(root, 'proposals', slug), folder(), { recursive: true });
});
afterAll(() => rmSync(workspace, { recursive: true, force: true }));

describe('while it is made', () => {
  test('hours are added to an operation of the take-off, and taken back', async () => {
    expect(await run('2027-05-01', 'hours', slug, 'glue-upp', '3')).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('did you mean glue-up?'),
    });
    expect((await run('2027-05-01', 'hours', slug, 'glue-up', '5.5')).stdout).toContain('5.5 h on glue-up, 2027-05-01; 5.5 h on it so far');
    expect((await run('2027-05-02', 'hours', slug, 'glue-up', '1.5', '--back')).stdout).toContain('4 h on it so far');
    expect((await run('2027-05-02', 'hours', slug, 'glue-up', '4.5', '--back')).stderr).toContain(
      'error[cli/hours-below]: glue-up has 4 hours, so 4.5 can not be taken back',
    );
    expect((await run('2027-05-02', 'hours', slug, 'unplanned', '1', 'the window jammed')).status).toBe(0);
  });

  test('timber is written down in any unit; an offcut is stock for the next table', async () => {
    expect((await run('2027-05-02', 'used', slug, '--wood', 'oak-european', '--size', '2400 x 220 x 45 mm', '--boards', '6')).status).toBe(
      0,
    );
    expect(
      (await run('2027-05-02', 'used', slug, '--wood', 'oak-european', '--size', '64 cm x 180 x 34', '--offcut', '--moisture', '9 %'))
        .status,
    ).toBe(0);
    expect(await run('2027-05-02', 'used', slug, '--wood', 'oak', '--size', '1x1x1')).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('there is no wood oak'),
    });
    for (const [size, moisture, says] of [
      ['2400 x 220', '9', 'is no size of a board'],
      ['2.4 x 0.22 x 0.045', '9', 'can be no board\nwrite each with its unit'],
      ['2400 x 220 x 45 in', '9', 'can be no board\nwrite each with its unit'],
      ['45 x 220 x 2400', '9', 'can be no board\nwrite its length first'],
      ['2400 x 220 x 45', '0.09', 'a moisture of 0.09 can not be\nwrite one of 1 to 60, in percent'],
    ] as const) {
      const refused = await run('2027-05-02', 'used', slug, '--wood', 'oak-european', '--size', size, '--moisture', moisture);
      expect([refused.status, refused.stderr], size).toEqual([2, expect.stringContaining(says)]);
    }
    const told = await run('2027-05-02', 'lessons', slug);
    expect(told.status, told.stderr).toBe(0);
    expect(told.stdout).toMatch(
      /stock:\n {2}tollefsen-quill-\d+: \{ wood: oak-european, length: 640 mm, width: 180 mm, thickness: 34 mm, count: 1, moisture: 9 % \}/,
    );
    expect(told.stdout).toContain('Rates: hours of 1 table are written down; from 3 on they say something of the next one');
    const { operations, unplanned, timber } = JSON.parse((await run('2027-05-02', 'lessons', slug, '--json')).stdout) as {
      readonly operations: readonly {
        readonly id: string;
        readonly hours: number;
        readonly planned: { readonly mid: number };
        readonly ratio?: number;
      }[];
      readonly unplanned: unknown;
      readonly timber: readonly {
        readonly usedM3: number;
        readonly offcutM3: number;
        readonly finishedM3: number;
        readonly yieldPercent: number;
      }[];
    };
    const glue = operations.find(({ id }) => id === 'glue-up');
    expect(glue?.ratio).toBeCloseTo(4 / (glue?.planned.mid ?? 0), 12);
    expect(unplanned).toEqual([{ operation: 'unplanned', hours: 1 }]);
    // By hand: 6 x 2.4 x 0.22 x 0.045 and 0.64 x 0.18 x 0.034 m3.
    expect(timber[0]?.usedM3).toBeCloseTo(0.14256, 9);
    expect(timber[0]?.offcutM3).toBeCloseTo(0.0039168, 9);
    // By hand: the top 2100 x 800 x 28, four tapered legs of 0.00198 m3, aprons of 40 x 28: what the scope lists as finished, not the rough sizes.
    const { variants } = JSON.parse((await runIn(workspace, ['figures', slug, '--revision', 'r3', '--variant', 'A', '--json'])).stdout) as {
      readonly variants: { readonly A: { readonly parts: readonly { readonly volumeMm3: number }[] } };
    };
    const inTable = variants.A.parts.reduce((sum, { volumeMm3 }) => sum + volumeMm3, 0) / 1e9;
    expect(inTable).toBeCloseTo(0.04704 + 4 * 0.00198 + 0.0024 + 0.0012, 2);
    expect(timber[0]?.finishedM3).toBeCloseTo(inTable, 9);
    expect(timber[0]?.yieldPercent).toBeCloseTo((100 * inTable) / (0.14256 - 0.0039168), 6);
  });

  test('the page of the proposal says it in the words of the command', async () => {
    const told = (await run('2027-05-02', 'lessons', slug)).stdout;
    expect((await run('2027-05-02', 'build')).status).toBe(0);
    const page = wordsOf(readFileSync(join(workspace, 'dist', 'workshop', slug, 'index.html'), 'utf8')).replaceAll(/\s+/g, ' ');
    // A line of the command is a row of the page, with its spaces made one.
    const lines = told.split('\n').slice(1, told.split('\n').indexOf(''));
    expect(lines.length).toBeGreaterThan(10);
    for (const line of lines) expect(page).toContain(line.trim().replaceAll(/\s+/g, ' ').replace(/^all /, 'All '));
    expect(page).toContain('Hours are written down of 2 days, 2027-05-01 to 2027-05-02');
    for (const line of told.split('\n').filter((one) => /^ {2}oak-european: /.test(one)))
      expect(page).toContain(line.replace('  oak-european: ', '').trim().replaceAll(/\s+/g, ' '));
    expect(page).toContain('length: 640 mm, width: 180 mm, thickness: 34 mm');
  }, 60_000);

  test('a lesson in words stays in the workshop', async () => {
    expect((await run('2027-05-03', 'lessons', slug, 'glue the ends the day before')).status).toBe(0);
    const entry = readEntries(folder()).at(-1);
    expect([entry?.kind, JSON.stringify(entry)]).toEqual(['lesson', expect.not.stringContaining('glue the ends')]);
  });

  test('nothing is served before it is handed over', async () => {
    expect((await run('2027-05-03', 'service', slug, 'visit')).stderr).toContain(`error[cli/not-delivered]: ${slug} was not handed over`);
  });
});

describe('once it stands with the client', () => {
  beforeAll(async () => {
    expect((await run('2027-07-02', 'hand-over', slug, '--on', '2027-07-01')).status).toBe(0);
    const sheet = join(folder(), 'hand-over.yaml');
    let text = readFileSync(sheet, 'utf8');
    for (const [from, to] of filledIn) text = text.replaceAll(from, to);
    text = text
      .replace('top.width: { built: 82 cm }', 'top.width: { built: 800 }')
      .replace(/^ {2}# defects:\n(?: {2}# .*\n)*/m, '  defects:\n    - { says: A scratch beside the left leg, by: 2027-08-01 }\n');
    writeFileSync(sheet, text);
    const { status, stderr } = await run('2027-07-02', 'hand-over', slug);
    expect(status, stderr).toBe(0);
    expect(careEditions(folder())).toHaveLength(1);
  });

  test('a repair puts a defect right, a visit leaves the care as it is', async () => {
    expect((await run('2027-07-20', 'service', slug, 'repair', '--defects', '2')).stderr).toContain('error[cli/service-no-defect]');
    expect((await run('2027-07-20', 'service', slug, 'repair', '--on', '2027-06-01')).stderr).toContain('error[cli/service-before]');
    const mended = await run('2027-07-20', 'service', slug, 'repair', 'rubbed out and oiled', '--defects', '1');
    expect(mended.stdout).toContain('  defects       1 put right; 0 open\n');
    expect((await run('2027-09-01', 'service', slug, 'visit')).status).toBe(0);
    expect(careEditions(folder())).toHaveLength(1);
    expect((await run('2027-09-01', 'service', slug, 'visit', '--finish', 'shellac')).stderr).toContain('--finish goes with refinish');
  });

  test('a claim starts from what was recorded, beside what the wood was to be expected to do', async () => {
    expect((await run('2028-01-20', 'claim', slug, '--width', '790')).stderr).toContain('--width needs --humidity');
    const told = await run('2028-01-20', 'claim', slug, '--humidity', '30 %', '--width', '794 mm');
    expect(told.status, told.stderr).toBe(0);
    expect(told.stdout).toContain('boards 8.9 %, 9.2 %');
    expect(told.stdout).toContain('2027-07-20  repair, defect 1');
    expect(told.stdout).toContain('not recorded  photographs before loading');
    expect(told.stdout).toContain('It is a calculation and no verdict');
    expect(told.stdout).toContain('Rights by law stand whatever these words say');
    const { since } = JSON.parse((await run('2028-01-20', 'claim', slug, '--humidity', '30', '--width', '794 mm', '--json')).stdout) as {
      readonly since: { readonly builtMm: number; readonly moistureNowPercent: number; readonly measuredChangeMm: number };
    };
    // @source Wood Handbook (2010) Table 4-2: 6.2 % at 21.1 C and 30 %; here at 20 C
    expect(since.moistureNowPercent).toBeCloseTo(6.2, 1);
    expect([since.builtMm, since.measuredChangeMm]).toEqual([800, -6]);
  });

  test('a refinish makes the care another from that day, below the same link', async () => {
    const { token } = careEditions(folder())[0] ?? {};
    expect(page()).toContain('ceramic');
    expect((await run('2031-05-02', 'service', slug, 'refinish')).stderr).toContain('--finish is missing: what does the table bear now?');
    const done = await run('2031-05-02', 'service', slug, 'refinish', '--finish', 'wiping-varnish', '--batch', 'WV 31-04');
    expect(done.status, done.stderr).toBe(0);
    expect(done.stdout).toMatch(/ papers {8}proposals\/tollefsen-quill\/handed-over\/2, edition 2/);
    const editions = careEditions(folder());
    expect([editions.length, editions[1]?.token]).toEqual([2, token]);
    expect(page()).toContain('2 May 2031');
    expect(page()).toMatch(/varnish/i);
    // A table that is finished anew is no younger: its label goes on saying when it was made.
    const madeIn = (edition: string): unknown =>
      JSON.parse(readFileSync(join(folder(), 'handed-over', edition, 'data', 'care.json'), 'utf8')).madeIn;
    expect(madeIn('1')).toMatchObject({ year: 2027 });
    expect(madeIn('2')).toEqual(madeIn('1'));
    expect((await runIn(workspace, ['verify', slug])).status).toBe(0);
  });
});

test('three finished tables speak for a rate; it is written into the workshop’s own file alone, and only when asked', async () => {
  const bench = mkdtempSync(join(tmpdir(), 'leafwright-rates-'));
  try {
    const runBench = (...args: readonly string[]): Promise<Ended> => runIn(bench, [...args, '--as-of', '2027-08-01']);
    for (const name of ['oak-one', 'oak-two', 'oak-three']) {
      cpSync(join(root, 'proposals', slug), join(bench, 'proposals', name), { recursive: true });
      const frozen = join(bench, 'proposals', name, 'issued', 'r3', 'in', 'proposals');
      cpSync(join(frozen, slug), join(frozen, name), { recursive: true });
      expect((await runBench('hours', name, 'glue-up', '20')).status).toBe(0);
    }
    const proposed = await runBench('lessons', 'oak-one');
    expect(proposed.stdout).toContain('Rates that the hours of 3 tables speak for');
    expect(await runBench('lessons', 'oak-one', '--write')).toMatchObject({
      status: 1,
      stderr: expect.stringContaining('error[cli/rates-not-own]'),
    });
    mkdirSync(join(bench, 'templates', 'rates'), { recursive: true });
    cpSync(join(root, 'templates', 'rates', 'runa.yaml'), join(bench, 'templates', 'rates', 'runa.yaml'));
    const { rates } = JSON.parse((await runBench('lessons', 'oak-one', '--json')).stdout) as {
      readonly rates: readonly { readonly operation: string; readonly proposed: { readonly mid: number } }[];
    };
    expect(rates.map(({ operation }) => operation)).toEqual(['glue-up']);
    const own = join(bench, 'templates', 'rates', 'runa.yaml');
    const before = readFileSync(own, 'utf8');
    expect((await runBench('lessons', 'oak-one', '--write')).status).toBe(0);
    const after = readFileSync(own, 'utf8');
    const differing = after.split('\n').filter((line, i) => line !== before.split('\n')[i]);
    expect(differing.join(' ')).toContain(`mid: ${rates[0]?.proposed.mid}`);
    expect(differing.length).toBeLessThanOrEqual(3);
    // The workshop's first page says what the command said, of rates that nobody has written yet.
    writeFileSync(own, before);
    const told = (await runBench('lessons', 'oak-one')).stdout;
    const tools = openTools();
    const tables = ['oak-one', 'oak-two', 'oak-three'].flatMap((name) => {
      const { input } = readProposal(bench, name);
      const spoken = input === undefined ? undefined : afterOrder(join(bench, 'proposals', name), input, '2027-08-01', tools).spoken;
      return input === undefined || spoken === undefined ? [] : [{ input, spoken }];
    });
    const [first] = await makeIndexFiles([], 'Runa Stavely', 'en-GB', ratesShown(tables), tools);
    const index = wordsOf(Buffer.from(first?.bytes ?? []).toString('utf8'));
    const spaced = (text: string): string => text.replaceAll(/\s+/g, ' ');
    const [, change = 'no rate'] = /glue-up\s+(\d[\d.]* → \d[\d.]*)/.exec(told.slice(told.indexOf('Rates that'))) ?? [];
    expect(spaced(index)).toContain(`Rates that the hours of 3 tables speak for`);
    expect(spaced(index)).toContain(`glue-up ${change}`);
  } finally {
    rmSync(bench, { recursive: true, force: true });
  }
});
