import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { environment, root } from '../../src/cli/install.mjs';
import { readEntries } from '../../src/record/index.ts';
import { runHere } from '../cli/run.ts';
import type { Step } from './step.ts';
import { stories } from './story.ts';

/** How a command of a story ended. */
export interface Ended {
  readonly step: Step;
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

/** What a run adds to a proposal's folder; all else there is what the maker writes. */
export const recorded = ['issued', 'decisions.jsonl', 'records', 'hand-over.yaml', 'handed-over'] as const;

const launcher = join(root, 'src', 'cli', 'leafwright.mjs');

/** How a command line ended. */
export type Said = Omit<Ended, 'step'>;

/** `leafwright` with these words: what is pasted goes to a process of its own, all else is followed in this one. */
export async function leafwright(args: readonly string[], input?: string): Promise<Said> {
  if (input === undefined) {
    const { status, stdout, stderr } = await runHere(args);
    return { status, out: stdout, err: stderr };
  }
  const { status, stdout, stderr } = spawnSync(process.execPath, [launcher, ...args], { encoding: 'utf8', env: environment, input });
  return { status, out: stdout, err: stderr };
}

/** Puts the sources of a revision in place of what the maker wrote before; the last one of a demo is its draft. */
function layOut(slug: string, revision: string, folder: string): void {
  const older = join(root, 'tests', 'demos', 'revisions', slug);
  const from = existsSync(join(older, revision)) ? join(older, revision) : join(root, 'proposals', slug);
  const isRecord = (name: string): boolean => recorded.some((one) => one === name) || name === 'outbox';
  for (const name of readdirSync(folder)) if (!isRecord(name)) rmSync(join(folder, name), { recursive: true });
  for (const name of readdirSync(from)) if (!isRecord(name)) cpSync(join(from, name), join(folder, name), { recursive: true });
}

/** `2539.20` of the first instalment for `$1`. */
function amount(folder: string, place: number): string {
  const confirmed = readEntries(folder).findLast((entry) => entry.kind === 'confirmed');
  return ((confirmed?.instalmentsMinor[place - 1] ?? 0) / 100).toFixed(2);
}

/** Writes into the sheet of the hand-over, as its maker does. Throws where a text does not stand in it. */
function fillIn(folder: string, pairs: Required<Step>['fill']): void {
  const sheet = join(folder, 'hand-over.yaml');
  let text = readFileSync(sheet, 'utf8');
  for (const [from, to] of pairs) {
    if (!text.includes(from)) throw new Error(`the sheet does not hold ${from}:\n${text}`);
    text = text.replace(from, () => to);
  }
  writeFileSync(sheet, text);
}

/** Plays one step of a demo's story in a workspace. */
export async function playStep(slug: string, workspace: string, step: Step): Promise<Ended> {
  const folder = join(workspace, 'proposals', slug);
  const more = ['--workspace', workspace, '--as-of', step.on];
  if (!Array.isArray(step.run)) {
    const { issue } = step.run as { readonly issue: string };
    layOut(slug, issue, folder);
    return { step, ...(await leafwright(['issue', slug, '--revision', issue, ...more])) };
  }
  if (step.fill !== undefined) fillIn(folder, step.fill);
  const run: readonly string[] = step.run;
  const words = run.map((word) => (word === '@' ? slug : /^\$\d$/.test(word) ? amount(folder, Number(word.slice(1))) : word));
  return { step, ...(await leafwright([...words, ...more], step.paste?.(folder))) };
}

/** Begins a demo in a workspace with the sources of its first revision. */
export function beginStory(slug: string, folder: string): void {
  layOut(slug, 'r1', folder);
}

/** The steps of a demo. Throws for another name. */
export function storyOf(slug: string): readonly Step[] {
  const story = stories[slug];
  if (story === undefined) throw new Error(`there is no story of ${slug}`);
  return story;
}
