import { createHash } from 'node:crypto';
import { lstatSync, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { canonicalJson, type Json } from '../disk/canonical.ts';
import { fsyncFolder, replaceFile } from '../disk/durable.ts';

/** Folder of sealed words, and below it of attached files, in a proposal's folder. */
export const sealFolder = 'records';
/** Bytes of a seal's salt. */
export const saltBytes = 16;

/** What an entry holds of words that lie apart: path below the proposal's folder, and SHA-256 of salt and data. */
export interface Seal {
  readonly file: string;
  readonly digest: string;
}

/** A sealed file. `data.person` is the id of the person whose words or name it holds. */
export interface SealedFile {
  readonly format: 'leafwright/seal/1';
  /** Hex. */
  readonly salt: string;
  readonly data: { readonly [key: string]: Json | undefined };
}

const digestOf = (salt: Uint8Array, data: SealedFile['data']): string =>
  createHash('sha256').update(salt).update(canonicalJson(data)).digest('hex');

const sealBytes = (salt: string, data: SealedFile['data']): Uint8Array =>
  Buffer.from(`${canonicalJson({ format: 'leafwright/seal/1', salt, data })}\n`, 'utf8');

/** The seal of some data for entry `n`, and the bytes of its file. Throws a RangeError for another number of random bytes. */
export function makeSeal(n: number, data: SealedFile['data'], random: Uint8Array): Seal & { readonly bytes: Uint8Array } {
  if (random.length !== saltBytes) throw new RangeError(`a seal is salted with ${saltBytes} bytes, not ${random.length}`);
  const salt = Buffer.from(random).toString('hex');
  return {
    file: `${sealFolder}/${n}-${salt.slice(0, 8)}.json`,
    digest: digestOf(random, data),
    bytes: sealBytes(salt, data),
  };
}

/** False where a folder on the way to a file of the records is a link or no folder: what lies behind a link is not the proposal's own. */
function hasOwnFolders(proposalFolder: string, path: string): boolean {
  const names = path.split('/').slice(0, -1);
  return names.every((_, i) => {
    const stat = lstatSync(join(proposalFolder, ...names.slice(0, i + 1)), { throwIfNoEntry: false });
    return stat === undefined || stat.isDirectory();
  });
}

/**
 * Writes a file of the records and forces it to the disk. `path` is below the proposal's folder. Throws, as the file system
 * does, where a folder on the way is a link.
 */
export function writeRecordFile(proposalFolder: string, path: string, bytes: Uint8Array): void {
  if (!hasOwnFolders(proposalFolder, path))
    throw Object.assign(new Error(`${path} would be written behind a link`), {
      code: 'ENOTDIR',
      path: join(proposalFolder, ...path.split('/')),
    });
  const folder = join(proposalFolder, ...path.split('/').slice(0, -1));
  mkdirSync(folder, { recursive: true });
  replaceFile(join(proposalFolder, ...path.split('/')), bytes);
  fsyncFolder(proposalFolder);
}

/** What a seal's file holds today: its data where the digest is right, `gone`, or `changed`. */
export function openSeal(proposalFolder: string, seal: Seal): { readonly data: SealedFile['data'] } | 'gone' | 'changed' {
  const path = join(proposalFolder, ...seal.file.split('/'));
  if (!hasOwnFolders(proposalFolder, seal.file)) return 'changed';
  if (lstatSync(path, { throwIfNoEntry: false }) === undefined) return 'gone';
  try {
    const bytes = readFileSync(path);
    const { salt, data } = JSON.parse(bytes.toString('utf8')) as SealedFile;
    const isWhole =
      /^[0-9a-f]{32}$/.test(salt) && bytes.equals(sealBytes(salt, data)) && digestOf(Buffer.from(salt, 'hex'), data) === seal.digest;
    return isWhole ? { data } : 'changed';
  } catch {
    return 'changed';
  }
}
