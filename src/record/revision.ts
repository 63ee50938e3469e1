import { lstatSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { canonicalJson, sha256Hex } from './canonical.ts';
import { isPlainPath, type NamedBytes } from './durable.ts';

/** One frozen file: path below the revision's folder, size and SHA-256. */
export interface FileDigest {
  readonly path: string;
  readonly bytes: number;
  readonly sha256: string;
}

/** content.json: what was read and computed. The SHA-256 of its bytes is the revision's fingerprint. */
export interface Content {
  readonly format: 'leafwright/content/1';
  readonly proposal: string;
  readonly revision: string;
  /** When it was issued, and the maker's time zone. */
  readonly at: string;
  readonly zone: string;
  /** Name and version of the program that computed it. */
  readonly program: string;
  /** The end of the chain before this revision. */
  readonly after: { readonly n: number; readonly digest: string };
  readonly files: readonly FileDigest[];
}

/** files.json: what was made from the content, for the client. */
export interface MadeFiles {
  readonly format: 'leafwright/files/1';
  readonly fingerprint: string;
  readonly files: readonly FileDigest[];
}

/** link.json: outside both lists, so that a link can be renewed. */
export interface Link {
  readonly format: 'leafwright/link/1';
  readonly token: string;
  readonly made: string;
}

/** Folder of a proposal's issued revisions. */
export const issuedFolder = (proposalFolder: string): string => join(proposalFolder, 'issued');
/** Folder of one issued revision. */
export const revisionFolder = (proposalFolder: string, revision: string): string => join(issuedFolder(proposalFolder), revision);
/** Where a revision is put together before it gets its name. */
export const makingPrefix = '.making-';

/** True for `r1`, `r2` and so on. */
export const isRevisionId = (text: string): boolean => /^r[1-9]\d{0,3}$/.test(text);
/** 3 for `r3`. */
export const revisionNumber = (revision: string): number => Number(revision.slice(1));

/** A list of files with their digests, sorted by path; each path prefixed with the folder they go into. */
export function digestsOf(folder: string, files: readonly NamedBytes[]): readonly FileDigest[] {
  return files
    .map(({ path, bytes }): FileDigest => ({ path: `${folder}/${path}`, bytes: bytes.length, sha256: sha256Hex(bytes) }))
    .sort((a, b) => (a.path < b.path ? -1 : 1));
}

/** The bytes of a record: canonical JSON and a line end. */
export const recordBytes = (record: Content | MadeFiles | Link): Uint8Array =>
  Buffer.from(`${canonicalJson(record as unknown as Parameters<typeof canonicalJson>[0])}\n`, 'utf8');

function readRecord(path: string, format: string): { readonly [key: string]: unknown } | undefined {
  if (lstatSync(path, { throwIfNoEntry: false })?.isFile() !== true) return undefined;
  try {
    const value: unknown = JSON.parse(readFileSync(path, 'utf8'));
    if (typeof value !== 'object' || value === null) return undefined;
    const record = value as { readonly [key: string]: unknown };
    return record['format'] === format ? record : undefined;
  } catch {
    return undefined;
  }
}

function isFileList(value: unknown): value is readonly FileDigest[] {
  return (
    Array.isArray(value) &&
    value.every(
      (one: Partial<FileDigest> | null) =>
        one !== null &&
        typeof one.path === 'string' &&
        isPlainPath(one.path) &&
        typeof one.sha256 === 'string' &&
        typeof one.bytes === 'number',
    )
  );
}

function isAfter(value: unknown): boolean {
  if (typeof value !== 'object' || value === null) return false;
  const { n, digest } = value as { readonly n?: unknown; readonly digest?: unknown };
  return Number.isSafeInteger(n) && typeof digest === 'string';
}

/** content.json of a revision's folder, or nothing where it is not there or is no such record. */
export function readContent(folder: string): Content | undefined {
  const record = readRecord(join(folder, 'content.json'), 'leafwright/content/1');
  if (record === undefined || !isFileList(record['files']) || !isAfter(record['after'])) return undefined;
  const texts = ['proposal', 'revision', 'at', 'zone', 'program'];
  return texts.every((key) => typeof record[key] === 'string') ? (record as unknown as Content) : undefined;
}

/** files.json of a revision's folder. */
export function readMadeFiles(folder: string): MadeFiles | undefined {
  const record = readRecord(join(folder, 'files.json'), 'leafwright/files/1');
  return record !== undefined && isFileList(record['files']) && typeof record['fingerprint'] === 'string'
    ? (record as unknown as MadeFiles)
    : undefined;
}

/** link.json of a revision's folder. */
export function readLink(folder: string): Link | undefined {
  const record = readRecord(join(folder, 'link.json'), 'leafwright/link/1');
  const { token, made } = record ?? {};
  return typeof token === 'string' && typeof made === 'string' ? { format: 'leafwright/link/1', token, made } : undefined;
}
