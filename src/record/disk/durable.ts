import { closeSync, fsyncSync, lstatSync, mkdirSync, openSync, readdirSync, renameSync, rmSync, writeSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** A file by its path below some folder, forward slashes, and its bytes. */
export interface NamedBytes {
  readonly path: string;
  readonly bytes: Uint8Array;
}

/** Forces a folder's entries to the disk. Windows offers no such call and keeps its own journal. */
export function fsyncFolder(folder: string): void {
  if (process.platform === 'win32') return;
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

function writeSynced(path: string, bytes: Uint8Array, flag: 'w' | 'wx'): void {
  const handle = openSync(path, flag);
  try {
    let done = 0;
    while (done < bytes.length) done += writeSync(handle, bytes, done);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

/** Ends the name of a file that is being written and has not got its own name yet. */
export const unfinishedEnd = '.new-leafwright';

/** Replaces a file as one step: a crash leaves the old bytes or the new ones, never a part. */
export function replaceFile(path: string, bytes: Uint8Array): void {
  const beside = path + unfinishedEnd;
  try {
    writeSynced(beside, bytes, 'w');
    renameSync(beside, path);
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  }
  fsyncFolder(dirname(path));
}

/** Writes files below a folder and forces them and every folder to the disk. Throws where a file is there already. */
export function writeTree(folder: string, files: readonly NamedBytes[]): void {
  const folders = new Set<string>([folder]);
  mkdirSync(folder, { recursive: true });
  for (const { path, bytes } of files) {
    if (!isPlainPath(path)) throw new RangeError(`a file of a revision may not be called ${path}`);
    const to = join(folder, ...path.split('/'));
    for (let above = dirname(to); above.length >= folder.length && !folders.has(above); above = dirname(above)) folders.add(above);
    mkdirSync(dirname(to), { recursive: true });
    writeSynced(to, bytes, 'wx');
  }
  for (const each of [...folders].sort((a, b) => b.length - a.length)) fsyncFolder(each);
}

/** Moves a finished folder to its name as one step, then forces the folder above to the disk. */
export function commitFolder(from: string, to: string): void {
  renameSync(from, to);
  fsyncFolder(dirname(to));
}

/** Removes a folder or a file and all below it; not being there is no fault. */
export function removeTree(path: string): void {
  rmSync(path, { recursive: true, force: true });
}

/** True for a relative path with forward slashes that stays below its folder. */
export function isPlainPath(path: string): boolean {
  return path !== '' && path.split('/').every((part) => part !== '' && part !== '.' && part !== '..' && !/[\\\0:]/.test(part));
}

/** One entry found below a folder. `other` is a link, a socket or the like: nothing that a revision holds. */
export interface FoundEntry {
  readonly path: string;
  readonly kind: 'file' | 'other';
}

/** Every file below a folder by relative path, sorted by code unit; empty where there is no folder. Links are not followed. */
export function listTree(folder: string): readonly FoundEntry[] {
  const found: FoundEntry[] = [];
  const walk = (at: string, below: string): void => {
    for (const entry of readdirSync(at, { withFileTypes: true })) {
      const path = below === '' ? entry.name : `${below}/${entry.name}`;
      if (entry.isDirectory()) walk(join(at, entry.name), path);
      else found.push({ path, kind: entry.isFile() ? 'file' : 'other' });
    }
  };
  if (lstatSync(folder, { throwIfNoEntry: false })?.isDirectory() === true) walk(folder, '');
  return found.sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0));
}
