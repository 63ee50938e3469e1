import { lstatSync, readdirSync, readFileSync } from 'node:fs';
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
  /** Its pages, first one first; absent where there is one alone. */
  readonly pages?: readonly string[];
  /** Codes that the maker insisted against. In the workshop alone. */
  readonly insisted?: readonly string[];
  /** Why, sealed: `{ reason }`. The revision's entry holds the same, so that the words can be erased and the fingerprint stands. */
  readonly sealed?: { readonly file: string; readonly digest: string };
  /** Why, as versions before the seal wrote it. */
  readonly because?: string;
  readonly files: readonly FileDigest[];
}

/** files.json: what was made from the content, for the client. */
export interface MadeFiles {
  readonly format: 'leafwright/files/1';
  readonly fingerprint: string;
  readonly files: readonly FileDigest[];
}

/** link.json: outside both lists, so that a link can be renewed. Format 2 has a token for each of several pages, by id. */
export type Link =
  | { readonly format: 'leafwright/link/1'; readonly token: string; readonly made: string }
  | { readonly format: 'leafwright/link/2'; readonly tokens: Readonly<Record<string, string>>; readonly made: string };

/** One page of a revision: the folder with its files, and the token of its link. */
export interface PageLink {
  readonly page: string;
  readonly folder: string;
  readonly token: string;
}

/** Id of the page of a revision that has one alone. */
export const onlyPage = 'client';
/** Folder of a page's files: the first page's is `out`. */
export const pageFolder = (page: string, isFirst: boolean): string => (isFirst ? 'out' : `out-${page}`);

/** The pages of a revision with their links, first one first; nothing where link and pages do not belong together. */
export function pageLinks(pages: readonly string[] | undefined, link: Link): readonly PageLink[] | undefined {
  if (link.format === 'leafwright/link/1')
    return pages === undefined ? [{ page: onlyPage, folder: pageFolder(onlyPage, true), token: link.token }] : undefined;
  if (pages === undefined || Object.keys(link.tokens).length !== pages.length) return undefined;
  const links = pages.flatMap((page, i): readonly PageLink[] => {
    const token = Object.hasOwn(link.tokens, page) ? link.tokens[page] : undefined;
    return token === undefined ? [] : [{ page, folder: pageFolder(page, i === 0), token }];
  });
  return links.length === pages.length ? links : undefined;
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

/** Revision folders of a proposal, oldest first. */
export function revisionFolders(proposalFolder: string): readonly string[] {
  const folder = issuedFolder(proposalFolder);
  if (lstatSync(folder, { throwIfNoEntry: false })?.isDirectory() !== true) return [];
  return readdirSync(folder)
    .filter(isRevisionId)
    .sort((a, b) => revisionNumber(a) - revisionNumber(b));
}

/** A list of files with their digests, sorted by path; each path prefixed with the folder they go into. */
export function digestsOf(folder: string, files: readonly NamedBytes[]): readonly FileDigest[] {
  return files
    .map(({ path, bytes }): FileDigest => ({ path: `${folder}/${path}`, bytes: bytes.length, sha256: sha256Hex(bytes) }))
    .sort((a, b) => (a.path < b.path ? -1 : 1));
}

/** The bytes of a record: canonical JSON and a line end. */
export const recordBytes = (record: { readonly format: string }): Uint8Array =>
  Buffer.from(`${canonicalJson(record as unknown as Parameters<typeof canonicalJson>[0])}\n`, 'utf8');

/** A JSON record of a format; nothing where it is not there or is no such record. */
export function readRecord(path: string, format: string): { readonly [key: string]: unknown } | undefined {
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

/** True for a list of files with their digests, each below its folder. */
export function isFileList(value: unknown): value is readonly FileDigest[] {
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

function isSeal(value: unknown): boolean {
  if (value === undefined) return true;
  if (typeof value !== 'object' || value === null) return false;
  const { file, digest, ...more } = value as { readonly file?: unknown; readonly digest?: unknown };
  const isDigest = typeof digest === 'string' && /^[0-9a-f]{64}$/.test(digest);
  return isDigest && typeof file === 'string' && isPlainPath(file) && Object.keys(more).length === 0;
}

const isTexts = (value: unknown): boolean =>
  value === undefined || (Array.isArray(value) && value.length > 0 && value.every((one) => typeof one === 'string'));

/** content.json of a revision's folder, or nothing where it is not there or is no such record. */
export function readContent(folder: string): Content | undefined {
  const record = readRecord(join(folder, 'content.json'), 'leafwright/content/1');
  if (record === undefined || !isFileList(record['files']) || !isAfter(record['after'])) return undefined;
  const { pages, insisted, sealed, because } = record;
  const isTold = isTexts(pages) && isTexts(insisted) && isSeal(sealed) && (because === undefined || typeof because === 'string');
  const texts = ['proposal', 'revision', 'at', 'zone', 'program'];
  return isTold && texts.every((key) => typeof record[key] === 'string') ? (record as unknown as Content) : undefined;
}

/** files.json of a revision's folder. */
export function readMadeFiles(folder: string): MadeFiles | undefined {
  const record = readRecord(join(folder, 'files.json'), 'leafwright/files/1');
  return record !== undefined && isFileList(record['files']) && typeof record['fingerprint'] === 'string'
    ? (record as unknown as MadeFiles)
    : undefined;
}

/** link.json of a revision's folder, in either format. */
export function readLink(folder: string): Link | undefined {
  const path = join(folder, 'link.json');
  const one = readRecord(path, 'leafwright/link/1');
  if (typeof one?.['token'] === 'string' && typeof one['made'] === 'string')
    return { format: 'leafwright/link/1', token: one['token'], made: one['made'] };
  const { tokens, made } = readRecord(path, 'leafwright/link/2') ?? {};
  if (typeof tokens !== 'object' || tokens === null || typeof made !== 'string') return undefined;
  return Object.values(tokens).every((token) => typeof token === 'string')
    ? { format: 'leafwright/link/2', tokens: tokens as Readonly<Record<string, string>>, made }
    : undefined;
}

/** The pages of a revision's folder with their links, first one first; nothing where content.json and link.json do not tell. */
export function readPages(folder: string): readonly PageLink[] | undefined {
  const link = readLink(folder);
  return link === undefined ? undefined : pageLinks(readContent(folder)?.pages, link);
}
