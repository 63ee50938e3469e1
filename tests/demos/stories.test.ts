import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
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
