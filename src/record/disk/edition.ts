import { lstatSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { type FileDigest, isFileList, makingPrefix, readRecord } from './revision.ts';

/** Folder of what was handed over, below a proposal's. */
export const handedOverName = 'handed-over';
/** The link of a table's care, beside its editions: it stays the same, and can be renewed. */
export const careLinkName = 'link.json';

/** files.json of an edition: what was read and what was made of it. The chain's entry holds the SHA-256 of its bytes. */
export interface EditionFiles {
  readonly format: 'leafwright/edition/1';
  readonly proposal: string;
  readonly edition: number;
  /** The entry since which the care is this one. */
  readonly of: number;
  /** When it was made, and the maker's time zone. */
  readonly at: string;
  readonly zone: string;
  readonly program: string;
  readonly files: readonly FileDigest[];
}

/** handed-over/link.json. */
export interface CareLink {
  readonly format: 'leafwright/care-link/1';
  readonly token: string;
  readonly made: string;
}

export const handedOverFolder = (proposalFolder: string): string => join(proposalFolder, handedOverName);
export const editionFolder = (proposalFolder: string, edition: number): string => join(handedOverFolder(proposalFolder), String(edition));

/** Names of what lies beside the editions; none where nothing was handed over. */
export function handedOverNames(proposalFolder: string): readonly string[] {
  const folder = handedOverFolder(proposalFolder);
  return lstatSync(folder, { throwIfNoEntry: false })?.isDirectory() === true ? readdirSync(folder).sort() : [];
}

/** Editions that have a folder, oldest first. */
export function editionFolders(proposalFolder: string): readonly number[] {
  return handedOverNames(proposalFolder)
    .filter((name) => /^[1-9]\d{0,5}$/.test(name))
    .map(Number)
    .toSorted((a, b) => a - b);
}

/** What a killed run left of an edition. */
export const unfinishedEditions = (proposalFolder: string): readonly string[] =>
  handedOverNames(proposalFolder).filter((name) => name.startsWith(makingPrefix) || name.startsWith(`${careLinkName}.`));

/** files.json of an edition's folder, or nothing where it is not there or is no such record. */
export function readEditionFiles(folder: string): EditionFiles | undefined {
  const record = readRecord(join(folder, 'files.json'), 'leafwright/edition/1');
  const texts = ['proposal', 'at', 'zone', 'program'];
  const isRecord =
    record !== undefined &&
    isFileList(record['files']) &&
    texts.every((key) => typeof record[key] === 'string') &&
    Number.isSafeInteger(record['edition']) &&
    Number.isSafeInteger(record['of']);
  return isRecord ? (record as unknown as EditionFiles) : undefined;
}

/** The link of a table's care; nothing where there is none, or none that can be read. */
export function readCareLink(proposalFolder: string): CareLink | undefined {
  const record = readRecord(join(handedOverFolder(proposalFolder), careLinkName), 'leafwright/care-link/1');
  return typeof record?.['token'] === 'string' && typeof record['made'] === 'string' ? (record as unknown as CareLink) : undefined;
}
