import { lstatSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fsyncFolder, isPlainPath, removeTree } from '../disk/durable.ts';
import { isRecordPath } from './adding.ts';
import type { ChainEntry } from './chain.ts';
import { namedPaths } from './named-files.ts';

/** Folders and files of an issued revision that hold what people are called; what remains is offered, computed and proves. */
const ofRevision = /^issued\/r[1-9]\d{0,3}\/(?:in\/proposals\/|out(?:-[a-z0-9-]+)?\/|data\/(?!offer\.json$|figures\.json$)[^/]+)$/;

/** The client's papers of a table, of each edition; the care of the table names nobody. */
const ofEdition = /^handed-over\/[1-9]\d{0,5}\/papers(?:-[a-z0-9-]+)?\/$/;

/**
 * True for what an `erased` entry may name: a file below `records/`; of an issued revision, what the maker wrote and the client got; of
 * what was handed over, the client's papers. A folder ends in a stroke.
 */
export function isErasable(path: string): boolean {
  if (ofRevision.test(path) || ofEdition.test(path)) return isPlainPath(path.replace(/\/$/, ''));
  return isRecordPath(path);
}

/** What the chain says was erased, and by which entry. */
export interface Erased {
  readonly path: string;
  readonly n: number;
}

/** All that `erased` entries name and may name, in order; a file that a later entry brought anew is not among it. */
export function erasedBy(entries: readonly ChainEntry[]): readonly Erased[] {
  return entries.flatMap((entry) => {
    const { kind, files, n } = entry;
    if (kind !== 'erased' || !Array.isArray(files)) return [];
    const anew = namedPaths(entries.filter((later) => later.n > n));
    return files.flatMap((path: unknown) => (typeof path === 'string' && isErasable(path) && !anew.has(path) ? [{ path, n }] : []));
  });
}

/** True where a file below the proposal's folder was erased, by itself or with its folder. */
export function isErased(erased: readonly Erased[], path: string): boolean {
  return erased.some((one) => path === one.path || (one.path.endsWith('/') && path.startsWith(one.path)));
}

const placeOf = (proposalFolder: string, path: string): string => join(proposalFolder, ...path.replace(/\/$/, '').split('/'));

/** Of what was erased, what is still there: a run was killed between entry and removal, or a copy brought it back. */
export function stillThere(proposalFolder: string, erased: readonly Erased[]): readonly Erased[] {
  return erased.filter(({ path }) => lstatSync(placeOf(proposalFolder, path), { throwIfNoEntry: false }) !== undefined);
}

/** Removes what was erased and is still there. Only under the lock, after the entry that says so is on the disk. */
export function removeErased(proposalFolder: string, entries: readonly ChainEntry[]): void {
  for (const { path } of stillThere(proposalFolder, erasedBy(entries))) {
    const full = placeOf(proposalFolder, path);
    removeTree(full);
    fsyncFolder(dirname(full));
  }
}
