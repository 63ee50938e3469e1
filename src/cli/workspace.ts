import { statSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { nearestName } from '../problem/index.ts';
import { readWorkspace } from '../read/index.ts';
import { UsageFault } from './command.ts';

const hasProposals = (folder: string): boolean => statSync(join(folder, 'proposals'), { throwIfNoEntry: false })?.isDirectory() === true;

/** The workspace of a run: the folder said, or the nearest one upwards from here that has `proposals/`. Throws a UsageFault. */
export function findWorkspace(said: string | undefined): string {
  if (said !== undefined) {
    const folder = resolve(said);
    if (hasProposals(folder)) return folder;
    throw new UsageFault(`${said} has no folder proposals/`, `to begin there: leafwright new my-first-table --workspace ${said}`);
  }
  for (let folder = process.cwd(); ; folder = dirname(folder)) {
    if (hasProposals(folder)) return folder;
    if (folder === dirname(folder)) break;
  }
  throw new UsageFault('there is no folder proposals/ here or above', 'to begin here: leafwright new my-first-table');
}

/** Folder of a proposal. */
export const proposalFolder = (workspace: string, slug: string): string => join(workspace, 'proposals', slug);

/** The proposals that were named, or all of a workspace, sorted. Throws a UsageFault that names the nearest one. */
export function namedProposals(workspace: string, words: readonly string[]): readonly string[] {
  const all = readWorkspace(workspace);
  if (words.length === 0) return all;
  return [...new Set(words.map((word) => basename(word)))].map((name) => {
    if (all.includes(name)) return name;
    const near = nearestName(name, all);
    const known = all.length === 0 ? 'there are none yet: leafwright new my-first-table' : `there are ${all.slice(0, 8).join(', ')}`;
    throw new UsageFault(`there is no proposal ${name}${near === undefined ? '' : `; did you mean ${near}?`}`, known);
  });
}
