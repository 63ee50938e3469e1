import { lstatSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { canonicalJson, type Json, sha256Hex } from '../disk/canonical.ts';
import { replaceFile } from '../disk/durable.ts';

/**
 * decisions.jsonl: one entry a line, each canonical JSON, each holding the SHA-256 of the line before it.
 *
 *     { n, prev, at, zone, kind, ... }
 *
 * `n` counts from 1; `prev` of the first is 64 zeros; `at` is an instant in UTC (RFC 3339, whole seconds), `zone` the
 * maker's time zone beside it. What belongs to a `kind` follows. Personal data never stands in a line: it lies in a
 * file of its own and the line holds `sealed: { file, digest }`, the SHA-256 of a random salt kept in that file and the
 * data after it, so that the file can be erased and the chain still holds.
 */
export interface ChainEntry {
  readonly n: number;
  readonly prev: string;
  readonly at: string;
  readonly zone: string;
  readonly kind: string;
  readonly sealed?: { readonly file: string; readonly digest: string };
  readonly [field: string]: Json | undefined;
}

/** A revision was issued: its fingerprint, and the digest of the list of all that was made from it. */
export interface IssuedEntry extends ChainEntry {
  readonly kind: 'issued';
  readonly revision: string;
  readonly fingerprint: string;
  readonly files: string;
}

/** A line as it stands, and the entry in it where it is one. */
export interface ChainLine {
  /** 1-based line of the file. */
  readonly line: number;
  readonly text: string;
  readonly digest: string;
  readonly entry?: ChainEntry;
}

export interface Chain {
  readonly lines: readonly ChainLine[];
  /** False where the file's last line has no line end: it was cut, or written by hand. */
  readonly ended: boolean;
  /** How many entries there are, and the SHA-256 of the last line: what the next one holds as `prev`. */
  readonly head: { readonly n: number; readonly digest: string };
}

/** Name of the chain in a proposal's folder. */
export const chainName = 'decisions.jsonl';

/** `prev` of the first entry. */
export const noPrev = '0'.repeat(64);

const isHex64 = (value: unknown): value is string => typeof value === 'string' && /^[0-9a-f]{64}$/.test(value);

function entryOf(text: string): ChainEntry | undefined {
  try {
    const value: unknown = JSON.parse(text);
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return undefined;
    const entry = value as ChainEntry;
    const isWhole =
      Number.isSafeInteger(entry.n) &&
      isHex64(entry.prev) &&
      typeof entry.at === 'string' &&
      typeof entry.zone === 'string' &&
      typeof entry.kind === 'string';
    return isWhole && canonicalJson(entry) === text ? entry : undefined;
  } catch {
    return undefined;
  }
}

/** True for an entry that says that a revision was issued. */
export function isIssued(entry: ChainEntry | undefined): entry is IssuedEntry {
  return (
    entry !== undefined &&
    entry.kind === 'issued' &&
    typeof entry['revision'] === 'string' &&
    isHex64(entry['fingerprint']) &&
    isHex64(entry['files'])
  );
}

/** The chain of a proposal as it stands, unjudged; no lines where there is no file yet. */
export function readChain(proposalFolder: string): Chain {
  const path = join(proposalFolder, chainName);
  const text = lstatSync(path, { throwIfNoEntry: false }) === undefined ? '' : readFileSync(path).toString('latin1');
  const ended = text === '' || text.endsWith('\n');
  const raw = text === '' ? [] : (ended ? text.slice(0, -1) : text).split('\n');
  const lines = raw.map((bytes, i): ChainLine => {
    const utf8 = Buffer.from(bytes, 'latin1');
    const entry = entryOf(utf8.toString('utf8'));
    return { line: i + 1, text: utf8.toString('utf8'), digest: sha256Hex(utf8), ...(entry === undefined ? {} : { entry }) };
  });
  const last = lines.at(-1);
  return { lines, ended, head: { n: lines.length, digest: last?.digest ?? noPrev } };
}

/** The entry that would follow the head of a chain. */
export function nextEntry<Body extends { readonly kind: string; readonly at: string; readonly zone: string }>(
  head: Chain['head'],
  body: Body,
): Body & { readonly n: number; readonly prev: string } {
  return { ...body, n: head.n + 1, prev: head.digest };
}

/** Adds an entry: the whole file is replaced as one step. Throws where the entry does not follow the chain's head. */
export function appendEntry(proposalFolder: string, entry: ChainEntry): void {
  const chain = readChain(proposalFolder);
  if (!chain.ended || entry.n !== chain.head.n + 1 || entry.prev !== chain.head.digest)
    throw new Error(`entry ${entry.n} does not follow the end of ${chainName}`);
  const path = join(proposalFolder, chainName);
  const before = chain.lines.length === 0 ? Buffer.alloc(0) : readFileSync(path);
  replaceFile(path, Buffer.concat([before, Buffer.from(`${canonicalJson(entry)}\n`, 'utf8')]));
}

/** Revisions that the chain says were issued, in its order. */
export function issuedEntries(chain: Chain): readonly IssuedEntry[] {
  return chain.lines.flatMap(({ entry }) => (isIssued(entry) ? [entry] : []));
}
