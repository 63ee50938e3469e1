import { lstatSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Problem } from '../../problem/index.ts';
import { type IssuedEntry, nextEntry } from '../chain/chain.ts';
import { recordProblem } from '../chain/record-problem.ts';
import { sha256Hex } from '../disk/canonical.ts';
import { listTree } from '../disk/durable.ts';
import { type Content, type FileDigest, pageLinks, readContent, readLink, readMadeFiles, recordBytes } from '../disk/revision.ts';
import { isLinkToken } from '../disk/token.ts';

/** What a revision's folder says of itself: problems, and the chain entry that belongs to it where it can be told. */
export interface RevisionCheck {
  readonly problems: readonly Problem[];
  readonly entry?: IssuedEntry;
}

/** The chain entry of a revision: all of it follows from content.json and the digest of files.json. */
export function entryFor(content: Content, fingerprint: string, files: string): IssuedEntry {
  const { after, at, zone, revision, sealed } = content;
  const head = { n: after.n, digest: after.digest };
  return nextEntry(head, {
    kind: 'issued',
    at,
    zone,
    revision,
    fingerprint,
    files,
    ...(sealed === undefined ? {} : { sealed: { ...sealed } }),
  });
}

/** An instant as this program writes it: UTC, whole seconds, RFC 3339. */
const isInstant = (text: string): boolean => /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$/.test(text) && !Number.isNaN(Date.parse(text));

const shortHex = (hex: string): string => `SHA-256 ${hex.slice(0, 16)}…`;
const restore = (shown: string): string => `take ${shown} back from your copy or from git; what was issued is never edited`;

/** One file of a list against what lies there. `done` says what was done with it, to follow its name: `was issued`. */
export function checkFile(folder: string, shown: string, listed: FileDigest, done = 'was issued'): Problem | undefined {
  const path = join(folder, ...listed.path.split('/'));
  const name = `${shown}/${listed.path}`;
  const stat = lstatSync(path, { throwIfNoEntry: false });
  if (stat === undefined) return recordProblem('file-missing', `${name} ${done} and is gone`, { mend: restore(name) });
  if (!stat.isFile()) return recordProblem('file-changed', `${name} ${done} as a file and is something else now`, { mend: restore(name) });
  const digest = sha256Hex(readFileSync(path));
  if (digest === listed.sha256 && stat.size === listed.bytes) return undefined;
  return recordProblem('file-changed', `${name} was changed after it ${done}`, {
    found: `${stat.size} bytes, ${shortHex(digest)}`,
    allowed: `${listed.bytes} bytes, ${shortHex(listed.sha256)}`,
    mend: restore(name),
  });
}

/**
 * Compares a revision's folder with its own lists: each listed file by digest, and that there is nothing else.
 * `shown` is the folder as the maker sees it; `isErased` tells of a path below it that it is gone on purpose. Codes: `record/file-changed file-missing file-added list-changed link-broken`.
 */
export function checkRevision(folder: string, shown: string, isErased: (path: string) => boolean = () => false): RevisionCheck {
  const problems: Problem[] = [];
  const add = (problem: Problem | undefined): void => {
    if (problem !== undefined) problems.push(problem);
  };
  const content = readContent(folder);
  const made = readMadeFiles(folder);
  if (content === undefined)
    add(
      recordProblem('list-changed', `${shown}/content.json is gone or is no list of contents`, { mend: restore(`${shown}/content.json`) }),
    );
  if (made === undefined)
    add(recordProblem('list-changed', `${shown}/files.json is gone or is no list of files`, { mend: restore(`${shown}/files.json`) }));

  const listed = [...(content?.files ?? []), ...(made?.files ?? [])];
  for (const file of listed) if (!isErased(file.path)) add(checkFile(folder, shown, file));
  const known = new Set(['content.json', 'files.json', 'link.json', ...listed.map((file) => file.path)]);
  if (content !== undefined && made !== undefined)
    for (const { path } of listTree(folder))
      if (!known.has(path))
        add(
          recordProblem('file-added', `${shown}/${path} was added after the revision was issued`, {
            mend: `move ${shown}/${path} elsewhere`,
          }),
        );

  const link = readLink(folder);
  const tokens = link === undefined ? [] : link.format === 'leafwright/link/1' ? [link.token] : Object.values(link.tokens);
  if (link === undefined || tokens.length === 0 || !tokens.every(isLinkToken) || new Set(tokens).size !== tokens.length)
    add(recordProblem('link-broken', `${shown}/link.json holds no link`, { mend: restore(`${shown}/link.json`) }));
  else if (!isInstant(link.made) || !Buffer.from(recordBytes(link)).equals(readFileSync(join(folder, 'link.json'))))
    add(recordProblem('link-broken', `${shown}/link.json is not as it was written`, { mend: restore(`${shown}/link.json`) }));
  else if (content !== undefined && pageLinks(content.pages, link) === undefined)
    add(
      recordProblem('link-broken', `${shown}/link.json does not hold one link for each page of the revision`, {
        found: link.format === 'leafwright/link/1' ? 'one link' : Object.keys(link.tokens).join(', '),
        allowed: content.pages?.join(', ') ?? 'one link',
        mend: restore(`${shown}/link.json`),
      }),
    );

  if (content === undefined || made === undefined) return { problems };
  const fingerprint = sha256Hex(readFileSync(join(folder, 'content.json')));
  if (made.fingerprint !== fingerprint)
    add(
      recordProblem('list-changed', `${shown}/content.json is not what the issued pages were made from`, {
        found: shortHex(fingerprint),
        allowed: shortHex(made.fingerprint),
        mend: restore(`${shown}/content.json`),
      }),
    );
  return { problems, entry: entryFor(content, fingerprint, sha256Hex(readFileSync(join(folder, 'files.json')))) };
}
