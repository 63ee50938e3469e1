import { cpSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { evaluateProposal, readOne } from '../../src/cli/draft/evaluate.ts';
import { buildWorkspace } from '../../src/cli/make/build-run.ts';
import { openTerminal } from '../../src/cli/terminal.ts';
import { figuresOf } from '../../src/figures/index.ts';
import { openFonts } from '../../src/write/index.ts';

/**
 * Ratios within one run, on the demo commissions: times on a shared machine say little, ratios of processor time say what
 * grew. The bounds are wide: a busy machine does not fail them, a change of order does.
 */
const demos = fileURLToPath(new URL('../../proposals', import.meta.url));
const slugs = ['tollefsen-quill', 'farrant', 'lindqvaar-wren'];
const instant = '2027-02-14T12:00:00Z';
const day = instant.slice(0, 10);
const silent = (): undefined => undefined;
const quiet = { ...openTerminal(), progress: silent, say: silent, warn: silent };
const { measure } = openFonts();

let folder = '';
const workspace = (copies: number): string => join(folder, `copies-${copies}`);

/** A build that must make everything; the page templates are compiled before. */
async function cold(copies: number): Promise<void> {
  rmSync(join(workspace(copies), '.cache'), { recursive: true, force: true });
  await warm(copies);
}

async function warm(copies: number): Promise<void> {
  const { files, problems } = await buildWorkspace(workspace(copies), instant, quiet);
  if (files === undefined) throw new Error(`the demos have errors: ${problems.map(({ title }) => title).join('; ')}`);
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'leafwright-bench-'));
  for (const copies of [1, 2]) {
    mkdirSync(join(workspace(copies), 'proposals'), { recursive: true });
    for (const slug of slugs)
      for (let i = 0; i < copies; i += 1) {
        const to = join(workspace(copies), 'proposals', `${slug}-${i}`);
        cpSync(join(demos, slug), to, { recursive: true, filter: (path) => !/issued|decisions/.test(path) });
      }
    await cold(copies);
  }
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Benched functions are written `async`: one that merely returns a promise is called once more, unawaited, to find that out. */
const few = { iterations: 3, time: 0, warmup: false } as const;
const long = { timeout: 600_000 };

/** Least processor time of each work so far, in ms: other programs on the machine do not count. */
function stopwatch(): {
  readonly timed: (name: string, work: () => Promise<void> | void) => Promise<void>;
  readonly leastMs: (name: string) => number;
} {
  const least = new Map<string, number>();
  return {
    timed: async (name, work) => {
      const before = process.cpuUsage();
      await work();
      const { user, system } = process.cpuUsage(before);
      least.set(name, Math.min(least.get(name) ?? Number.POSITIVE_INFINITY, (user + system) / 1000));
    },
    leastMs: (name) => least.get(name) ?? Number.NaN,
  };
}

test('2n proposals take about twice as long as n', long, async ({ bench }) => {
  const { timed, leastMs } = stopwatch();
  await bench.compare(
    bench('n', async () => await timed('n', () => cold(1))),
    bench('2n', async () => await timed('2n', () => cold(2))),
    few,
  );
  const ratio = leastMs('2n') / leastMs('n');
  expect(ratio).toBeGreaterThan(1.2);
  expect(ratio).toBeLessThan(2.8);
});

test('a warm cache takes a small part of a cold one', long, async ({ bench }) => {
  const { timed, leastMs } = stopwatch();
  await bench.compare(
    bench('warm', async () => await timed('warm', () => warm(1))),
    bench('cold', async () => await timed('cold', () => cold(1))),
    few,
  );
  expect(leastMs('warm') / leastMs('cold')).toBeLessThan(0.4);
});

test('figures of one proposal take a part of a whole build of three', long, async ({ bench }) => {
  const { timed, leastMs } = stopwatch();
  const slug = `${slugs[0]}-0`;
  const figures = (): void => {
    const { computed } = evaluateProposal(workspace(1), slug, { measure }, day);
    if (computed === undefined) throw new Error(`${slug} has errors`);
    figuresOf(computed);
  };
  await bench.compare(
    bench('read', async () => await timed('read', () => void readOne(workspace(1), slug, day))),
    bench('read, compute, figures', async () => await timed('figures', figures)),
    bench('build of three', async () => await timed('build', () => cold(1))),
    few,
  );
  expect(leastMs('figures') / leastMs('build')).toBeLessThan(0.6);
  expect(leastMs('read') / leastMs('build')).toBeLessThan(0.2);
});
