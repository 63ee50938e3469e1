import { cpSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, bench, describe } from 'vitest';
import { buildWorkspace } from '../../src/cli/build-run.ts';
import { evaluateProposal, readOne } from '../../src/cli/evaluate.ts';
import { openTerminal } from '../../src/cli/terminal.ts';
import { figuresOf } from '../../src/figures/index.ts';
import { openFonts } from '../../src/write/index.ts';

/**
 * Ratios within one run, on the demo commissions: times on a shared machine say little, ratios say what grew.
 * Wanted: 2n proposals about twice n; warm well under a tenth of cold; figures a small part of a build.
 */
const demos = fileURLToPath(new URL('../../proposals', import.meta.url));
const slugs = ['tollefsen-quill', 'farrant', 'lindqvaar-wren'];
const instant = '2027-02-14T12:00:00Z';
const quiet = { ...openTerminal(), progress: () => undefined, say: () => undefined, warn: () => undefined };
const { measure } = openFonts();

let folder = '';
const workspace = (copies: number): string => join(folder, `copies-${copies}`);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'leafwright-bench-'));
  for (const copies of [1, 2]) {
    mkdirSync(join(workspace(copies), 'proposals'), { recursive: true });
    for (const slug of slugs)
      for (let i = 0; i < copies; i += 1)
        cpSync(join(demos, slug), join(workspace(copies), 'proposals', `${slug}-${i}`), { recursive: true });
    /** Compiles the page templates, so that no bench counts them. */
    await buildWorkspace(workspace(copies), instant, quiet);
  }
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const cold = async (copies: number): Promise<void> => {
  rmSync(join(workspace(copies), '.cache'), { recursive: true, force: true });
  const { files } = await buildWorkspace(workspace(copies), instant, quiet);
  if (files === undefined) throw new Error('the demos have errors');
};
const few = { iterations: 3, time: 0, warmupIterations: 0, warmupTime: 0 };

describe('build, n proposals against 2n', () => {
  bench('n', () => cold(1), few);
  bench('2n', () => cold(2), few);
});

describe('build, warm cache against cold', () => {
  bench('warm', async () => void (await buildWorkspace(workspace(1), instant, quiet)), { ...few, iterations: 10 });
  bench('cold', () => cold(1), few);
});

describe('one proposal: reading, figures, a whole build of three', () => {
  const slug = 'tollefsen-quill-0';
  bench('read', () => void readOne(workspace(1), slug, '2027-02-14'), few);
  bench(
    'read, compute and figures',
    () => {
      const { computed } = evaluateProposal(workspace(1), slug, { measure }, '2027-02-14');
      if (computed === undefined) throw new Error(`${slug} has errors`);
      figuresOf(computed);
    },
    few,
  );
  bench('build of three', () => cold(1), few);
});
