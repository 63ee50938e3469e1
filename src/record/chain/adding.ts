import { lstatSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { canonicalJson } from '../disk/canonical.ts';
import { isPlainPath, listTree, unfinishedEnd } from '../disk/durable.ts';
import { readContent, revisionFolder, revisionFolders } from '../disk/revision.ts';
import type { Chain } from './chain.ts';
import { namedPaths } from './named-files.ts';
import { sealFolder, writeRecordFile } from './seal.ts';

/**
 * The list of files that the entry being added brings, by path below the proposal's folder: written before them, removed
 * after the entry's line. So a run that was killed between shows which files are its own, and none of the maker's is taken.
 */
export const addingName = `${sealFolder}/adding${unfinishedEnd}`;

/** Says which files are about to be written. */
export function writeAdding(proposalFolder: string, paths: readonly string[]): void {
  writeRecordFile(proposalFolder, addingName, Buffer.from(canonicalJson(paths), 'utf8'));
}

/** Files of an entry that a run was adding when it ended; none where none was killed. */
export function readAdding(proposalFolder: string): readonly string[] {
  const path = join(proposalFolder, addingName);
  if (lstatSync(path, { throwIfNoEntry: false })?.isFile() !== true) return [];
  try {
    const value: unknown = JSON.parse(readFileSync(path, 'utf8'));
    return Array.isArray(value) ? value.filter(isRecordPath) : [];
  } catch {
    return [];
  }
}

/** True for a path of the records' files below the proposal's folder. */
export function isRecordPath(path: unknown): path is string {
  return typeof path === 'string' && path.startsWith(`${sealFolder}/`) && isPlainPath(path) && !path.endsWith(unfinishedEnd);
}

/** Seals of the revisions that stand, those as well whose line is not written yet. */
function sealsOfRevisions(proposalFolder: string): readonly string[] {
  return revisionFolders(proposalFolder).flatMap((revision) => readContent(revisionFolder(proposalFolder, revision))?.sealed?.file ?? []);
}

/** Removes what a killed run was adding and no entry and no revision names, and files that it had not given their name. Only under the lock. */
export function clearAdding(proposalFolder: string, chain: Chain): void {
  const isReadable = chain.ended && chain.lines.every(({ entry }) => entry !== undefined);
  if (!isReadable) return;
  const adding = readAdding(proposalFolder);
  const named = new Set(namedPaths(chain.lines.flatMap(({ entry }) => entry ?? [])));
  if (adding.length > 0) for (const path of sealsOfRevisions(proposalFolder)) named.add(path);
  for (const path of adding) if (!named.has(path)) rmSync(join(proposalFolder, path), { force: true });
  const unnamed = listTree(join(proposalFolder, sealFolder)).filter(({ path }) => path.endsWith(unfinishedEnd));
  for (const { path } of unnamed) rmSync(join(proposalFolder, sealFolder, path), { force: true });
}
