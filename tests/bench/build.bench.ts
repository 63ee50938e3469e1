import { cpSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildWorkspace } from '../../src/cli/build-run.ts';
import { evaluateProposal, readOne } from '../../src/cli/evaluate.ts';
import { openTerminal } from '../../src/cli/terminal.ts';
import { figuresOf } from '../../src/figures/index.ts';
import { openFonts } from '../../src/write/index.ts';

/**
 * Ratios within one run, on the demo commissions: times on a shared machine say little, ratios say what grew. The bounds
 * are wide, so that a busy machine does not fail them and a change of order does.
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
const long = { timeout: 300_000 };

test('2n proposals take about twice as long as n', long, async ({ bench }) => {
  const times = await bench.compare(
    bench('n', async () => await cold(1)),
    bench('2n', async () => await cold(2)),
    few,
  );
  const ratio = times.get('2n').latency.min / times.get('n').latency.min;
  expect(ratio).toBeGreaterThan(1.2);
  expect(ratio).toBeLessThan(3);
});

test('a warm cache takes a small part of a cold one', long, async ({ bench }) => {
  const times = await bench.compare(
    bench('warm', async () => await warm(1)),
    bench('cold', async () => await cold(1)),
    few,
  );
  expect(times.get('warm').latency.min / times.get('cold').latency.min).toBeLessThan(0.5);
});

test('figures of one proposal take a part of a whole build of three', long, async ({ bench }) => {
  const slug = `${slugs[0]}-0`;
  const figures = (): void => {
    const { computed } = evaluateProposal(workspace(1), slug, { measure }, day);
    if (computed === undefined) throw new Error(`${slug} has errors`);
    figuresOf(computed);
  };
  const times = await bench.compare(
    bench('read', () => void readOne(workspace(1), slug, day)),
    bench('read, compute, figures', figures),
    bench('build of three', async () => await cold(1)),
    few,
  );
  const whole = times.get('build of three').latency.min;
  expect(times.get('read, compute, figures').latency.min / whole).toBeLessThan(0.6);
  expect(times.get('read').latency.min / whole).toBeLessThan(0.2);
});
