import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readEntries } from '../../src/record/index.ts';
import { beginStory, type Ended, leafwright, playStep, type Said, storyOf } from './play.ts';

/**
 * The commissions of the demos played through as their maker would, command by command. The course of each is invented;
 * the amounts are those of the offers, which other tests hold against hand calculations.
 */
const workspace = mkdtempSync(join(tmpdir(), 'leafwright-stories-'));
afterAll(() => rmSync(workspace, { recursive: true, force: true }));

const folderOf = (slug: string): string => join(workspace, 'proposals', slug);

async function play(slug: string): Promise<readonly Ended[]> {
  mkdirSync(folderOf(slug), { recursive: true });
  beginStory(slug, folderOf(slug));
  const all: Ended[] = [];
  for (const step of storyOf(slug)) {
    const ended = await playStep(slug, workspace, step);
    if (ended.status !== 0) throw new Error(`${JSON.stringify(step.run)} ended with ${ended.status}\n${ended.out}\n${ended.err}`);
    all.push(ended);
  }
  return all;
}

interface Status {
  readonly proposals: readonly { readonly proposal: string; readonly stage: string; readonly openMinor?: number; readonly next: string }[];
}

const status = async (slug: string, on: string): Promise<Status['proposals'][number] | undefined> => {
  const { out } = await leafwright(['status', slug, '--json', '--as-of', on, '--workspace', workspace]);
  return (JSON.parse(out) as Status).proposals[0];
};

const verified = (): Promise<Said> => leafwright(['verify', '--workspace', workspace]);

describe('the dining table: three revisions, two who must agree, an order, and 900 wide after glue-up', () => {
  const slug = 'tollefsen-quill';
  let ended: readonly Ended[] = [];
  beforeAll(async () => {
    ended = await play(slug);
  });

  const outOf = (word: string, nth: number): string =>
    ended.filter(({ step }) => Array.isArray(step.run) && step.run[0] === word)[nth]?.out ?? '';

  test('one yes of two approves nothing; the second does', () => {
    const answers = ended.filter(({ step }) => Array.isArray(step.run) && step.run[0] === 'record');
    expect(answers.map(({ out }) => /design A of r3 is approved/.test(out))).toEqual([false, false, false, false, false, true]);
    expect(answers.at(-2)?.out).toContain('Still waited for: idris (since 2026-03-27).');
  });

  test('the first instalment makes the order, and two of three are paid', async () => {
    expect(outOf('pay', 0)).toContain('this makes the order, on 2026-04-08');
    const { stage, openMinor } = (await status(slug, '2026-05-16')) ?? {};
    const confirmed = readEntries(folderOf(slug)).findLast((entry) => entry.kind === 'confirmed');
    /** Instalments of 40, 40 and 20 per cent: a fifth is left. */
    expect([stage, openMinor]).toEqual(['glued', (confirmed?.chosen.totalMinor ?? 0) / 5]);
  });

  test('all of it is proven, and proven on a copy elsewhere', async () => {
    expect((await verified()).status).toBe(0);
    const copy = mkdtempSync(join(tmpdir(), 'leafwright-copy-'));
    try {
      cpSync(join(workspace, 'proposals'), join(copy, 'proposals'), { recursive: true });
      expect((await leafwright(['verify', slug, '--workspace', copy])).status).toBe(0);
    } finally {
      rmSync(copy, { recursive: true, force: true });
    }
  });

  test('a top 900 wide no longer fits the room: said before any price, and priced when the maker insists', async () => {
    const variant = join(folderOf(slug), 'table.yaml');
    const was = readFileSync(variant, 'utf8');
    const wide = was.replace(/^(\s+width:\s*)800 mm/m, '$1900 mm');
    expect(wide).not.toBe(was);
    writeFileSync(variant, wide);
    try {
      const args = ['change', slug, '--as-of', '2026-05-16', '--workspace', workspace];
      const refused = await leafwright(args);
      expect(refused.status).toBe(1);
      expect(refused.err).toMatch(/\bw2\b/);
      expect(refused.err).toMatch(/\bw3\b/);
      expect(refused.out + refused.err).not.toMatch(/€/);
      const priced = await leafwright([...args, '--insist', 'They have measured the room again']);
      expect([priced.status, priced.out]).toEqual([0, expect.stringMatching(/€/)]);
    } finally {
      writeFileSync(variant, was);
    }
  });

  test('rates doubled after issue change nothing that was sent', async () => {
    const before = digestTree(join(folderOf(slug), 'issued'));
    const rates = join(workspace, 'templates', 'rates');
    mkdirSync(rates, { recursive: true });
    const own = readFileSync('templates/rates/runa.yaml', 'utf8');
    const doubled = own.replace(/^hour:\s*"?([\d.]+)"?/m, (_all, hour: string) => `hour: "${(Number(hour) * 2).toFixed(2)}"`);
    expect(doubled).not.toBe(own);
    writeFileSync(join(rates, 'runa.yaml'), doubled);
    try {
      expect((await verified()).status).toBe(0);
      const published = async (): Promise<string> => {
        const { status: code, err } = await leafwright(['build', '--workspace', workspace, '--as-of', '2026-05-16']);
        expect([code, err]).toEqual([0, expect.any(String)]);
        return digestTree(join(workspace, 'dist', 'client'));
      };
      const withDoubled = await published();
      rmSync(join(workspace, 'templates'), { recursive: true });
      expect(await published()).toBe(withDoubled);
      expect(digestTree(join(folderOf(slug), 'issued'))).toBe(before);
    } finally {
      rmSync(join(workspace, 'templates'), { recursive: true, force: true });
    }
  });
});

describe('the desk: a designer and her client disagree', () => {
  const slug = 'lindqvaar-wren';
  let ended: readonly Ended[] = [];
  beforeAll(async () => {
    ended = await play(slug);
  });

  test('nothing is approved, and nothing can be confirmed', async () => {
    const second = ended.findLast(({ step }) => Array.isArray(step.run) && step.run[0] === 'record');
    expect(second?.out).toContain('They disagree: nothing is approved.');
    const { status: code, err } = await leafwright(['confirm', slug, '--as-of', '2026-03-19', '--workspace', workspace]);
    expect([code, err]).toEqual([1, expect.stringContaining('disagree')]);
    expect((await status(slug, '2026-03-24'))?.stage).toBe('proposed');
  });
});

describe('the low table: delivered, a defect put right, visited', () => {
  const slug = 'marl-ockley';
  let ended: readonly Ended[] = [];
  beforeAll(async () => {
    ended = await play(slug);
  });
  const outOf = (word: string): readonly string[] =>
    ended.filter(({ step }) => Array.isArray(step.run) && step.run[0] === word).map(({ out }) => out);
  const text = (path: string): string => readFileSync(join(workspace, 'dist', 'client', path), 'utf8');

  test('the yes of one is enough, since either may decide; two halves are paid', async () => {
    expect(outOf('record')).toEqual([expect.stringContaining('design B of r1 is approved')]);
    const { stage, openMinor } = (await status(slug, '2026-10-30')) ?? {};
    expect([stage, openMinor]).toEqual(['accepted', 0]);
  });

  test('it is handed over as built: other than ordered, each size within its tolerance, one defect open', () => {
    const { asBuilt, acceptance } = readEntries(folderOf(slug)).find((entry) => entry.kind === 'hand-over') ?? {};
    expect(asBuilt?.map(({ what }) => what)).toEqual(['height', 'top.length', 'top.width', 'top.thickness']);
    for (const { built, agreed, tolerance } of asBuilt ?? []) {
      expect(built).not.toBe(agreed);
      expect(Math.abs(built - agreed)).toBeLessThanOrEqual(tolerance);
    }
    expect(acceptance).toMatchObject({ inspected: true, signed: 'signed', defects: [{ by: '2026-05-15' }] });
    expect(outOf('hand-over').at(-1)).toContain('1 defect to put right by 2026-05-15');
    expect(outOf('service')[0]).toContain('1 put right; 0 open');
  });

  test('hours and timber stand beside what was reckoned', async () => {
    const { out } = await leafwright(['lessons', slug, '--json', '--as-of', '2026-10-30', '--workspace', workspace]);
    const { timber, operations } = JSON.parse(out) as {
      readonly timber: readonly { readonly usedM3: number; readonly offcutM3: number }[];
      readonly operations: readonly { readonly hours: number }[];
    };
    // By hand: 3 x 2.5 x 0.22 x 0.04 and 2 x 2.4 x 0.2 x 0.054 m3; 0.64 x 0.2 x 0.054 and 0.72 x 0.18 x 0.04 m3 came back.
    expect(timber[0]?.usedM3).toBeCloseTo(0.11784, 9);
    expect(timber[0]?.offcutM3).toBeCloseTo(0.012096, 9);
    expect(operations.reduce((sum, { hours }) => sum + hours, 0)).toBeCloseTo(50, 9);
  });

  test('its page leads to the papers and they to the care, which tells of this finish and household and names no client', async () => {
    expect((await leafwright(['build', '--workspace', workspace, '--as-of', '2026-10-30'])).status).toBe(0);
    const { out } = await leafwright(['figures', slug, '--revision', 'r1', '--json', '--workspace', workspace]);
    expect(JSON.parse(out)).toMatchObject({ revision: 'r1' });
    const client = tokenOf(join(folderOf(slug), 'issued', 'r1', 'link.json'));
    const care = tokenOf(join(folderOf(slug), 'handed-over', 'link.json'));
    expect(text(`${client}/index.html`)).toContain('href="papers/index.html"');
    const papers = text(`${client}/papers/index.html`);
    for (const name of ['care', 'drawings-as-built', 'materials-and-origin', 'scope', 'statement']) expect(papers).toContain(`${name}.pdf`);
    expect(papers).toContain(`${care}/index.html`);
    const page = text(`${care}/index.html`);
    for (const told of [
      'which is why a ceramic coat lies over the oil',
      'Sun falls on your table',
      'Over a heated floor',
      'Children climb',
    ])
      expect(page).toContain(told);
    for (const file of ['index.html', 'care.ics']) expect(text(`${care}/${file}`)).not.toMatch(/Marl|Ockley|Ropewalk|Una|Tove|€/);
    expect(text(`${care}/care.ics`)).toContain('RS-2026-01');
    expect(existsSync(join(folderOf(slug), 'handed-over', '1', 'label', 'label-90x60.pdf'))).toBe(true);
    expect((await verified()).status).toBe(0);
  });
});

/** The token of a link that was made. */
const tokenOf = (file: string): string => {
  const link = JSON.parse(readFileSync(file, 'utf8')) as { readonly token?: string; readonly tokens?: Readonly<Record<string, string>> };
  return link.token ?? Object.values(link.tokens ?? {})[0] ?? '';
};

/** Every file below a folder with its bytes, as one text to compare. */
function digestTree(folder: string): string {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => {
      const path = join(entry.parentPath, entry.name);
      return `${path.slice(folder.length)} ${readFileSync(path).toString('base64')}`;
    })
    .sort()
    .join('\n');
}
