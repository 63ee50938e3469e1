import { readFileSync, statSync } from 'node:fs';
import { extname, join } from 'node:path';
import { type AnyEntry, sealFolder, sha256Hex } from '../../record/index.ts';
import { UsageFault } from '../command.ts';

/** Largest file that is laid beside a record, in bytes. */
const mostBytes = 25_000_000;

/** The ending of a file's name, `.jpg`, as it can stand on every disk; nothing where it has none. */
const endingOf = (path: string): string =>
  extname(path)
    .toLowerCase()
    .replaceAll(/[^a-z0-9.]/g, '')
    .slice(0, 9);

/** A file to be laid beside the record. */
export interface FileToKeep {
  /** `.jpg`. */
  readonly ending: string;
  readonly bytes: Uint8Array;
}

/** Reads a file that is to be kept. Throws a UsageFault where there is none, it is empty, or larger than 25 MB. */
export function readFileToKeep(path: string): FileToKeep {
  const found = statSync(path, { throwIfNoEntry: false });
  if (found === undefined || !found.isFile())
    throw new UsageFault(`there is no file ${path}`, 'name the file as it lies on the disk; a folder is none');
  if (found.size === 0) throw new UsageFault(`${path} is empty`, 'save or scan it again');
  if (found.size > mostBytes) throw new UsageFault(`${path} is larger than 25 MB`, 'scan or save it smaller');
  return { ending: endingOf(path), bytes: readFileSync(path) };
}

/**
 * The file as an entry names it, and as it is written: `records/files/<n>-<what>.jpg`, where n is the number of the entry to
 * come. Its own name is left out: it may tell whose it is, and would outlive an erasure.
 */
export function keptFile(entries: readonly AnyEntry[], what: string, { ending, bytes }: FileToKeep) {
  const path = `${sealFolder}/files/${(entries.at(-1)?.n ?? 0) + 1}-${what}${ending}`;
  return { named: { path, bytes: bytes.length, sha256: sha256Hex(bytes) }, file: { path, bytes } };
}

/** True where a file that an entry names is there, byte for byte: not erased, not touched. */
export function isStillKept(folder: string, { path, sha256 }: { readonly path: string; readonly sha256: string }): boolean {
  const full = join(folder, ...path.split('/'));
  return statSync(full, { throwIfNoEntry: false })?.isFile() === true && sha256Hex(readFileSync(full)) === sha256;
}
