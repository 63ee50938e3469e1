import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { issuedEntries, readChain } from '../chain/chain.ts';
import { type Erased, erasedBy, isErased } from '../chain/erased.ts';
import { readEntries } from '../chain/read-entries.ts';
import type { NamedBytes } from '../disk/durable.ts';
import { readContent, readMadeFiles, readPages, revisionFolder } from '../disk/revision.ts';
import { issuedOffers } from '../standing/offer.ts';
import { type RevisionState, revisionState } from '../standing/revision-state.ts';
import { standingOf } from '../standing/standing-of.ts';

/** A page of an issued revision. */
export interface IssuedPage {
  readonly page: string;
  /** Its folder below the revision's. */
  readonly folder: string;
  readonly token: string;
  /** Files for the client, by path below the link. */
  readonly made: readonly string[];
}

/** An issued revision as the chain has it. */
export interface IssuedRevision {
  readonly revision: string;
  readonly fingerprint: string;
  readonly at: string;
  /** Link of its first page. */
  readonly token: string;
  readonly state: RevisionState;
  /** Files of its first page, by path below the link. */
  readonly made: readonly string[];
  /** All its pages, first one first. */
  readonly pages: readonly IssuedPage[];
}

/** What was erased of a proposal. */
const erasedOf = (proposalFolder: string): readonly Erased[] =>
  erasedBy(readChain(proposalFolder).lines.flatMap(({ entry }) => entry ?? []));

/**
 * Issued revisions of a proposal, oldest first. One whose link is gone is left out: `verify` says so; and one whose pages were
 * erased, with its link.
 *
 * @param today `2027-02-14`, for what has run out; nothing has where it is silent
 */
export function issuedRevisions(proposalFolder: string, today = ''): readonly IssuedRevision[] {
  const entries = issuedEntries(readChain(proposalFolder));
  const erased = erasedOf(proposalFolder);
  const latest = entries.at(-1)?.revision;
  const standing = standingOf(readEntries(proposalFolder), issuedOffers(proposalFolder), today);
  return entries.flatMap(({ revision, fingerprint, at }) => {
    const folder = revisionFolder(proposalFolder, revision);
    const links = readPages(folder);
    if (links === undefined || latest === undefined || isErased(erased, `issued/${revision}/out/`)) return [];
    const state = revisionState(revision, latest, standing);
    const files = (readMadeFiles(folder)?.files ?? []).map(({ path }) => path);
    const pages = links.map((link): IssuedPage => ({ ...link, made: below(link.folder, files) }));
    const [first] = pages;
    return first === undefined ? [] : [{ revision, fingerprint, at, token: first.token, state, made: first.made, pages }];
  });
}

/** The files below a folder, without it. */
const below = (folder: string, paths: readonly string[]): readonly string[] =>
  paths.flatMap((path) => (path.startsWith(`${folder}/`) ? [path.slice(folder.length + 1)] : []));

/** The frozen files of a page of a revision that go to the client, by path below its link; of the first page where none is said. */
export function frozenOut(proposalFolder: string, revision: string, pageFolder = 'out'): readonly NamedBytes[] {
  const folder = revisionFolder(proposalFolder, revision);
  if (isErased(erasedOf(proposalFolder), `issued/${revision}/${pageFolder}/`)) return [];
  const paths = (readMadeFiles(folder)?.files ?? []).map(({ path }) => path);
  return below(pageFolder, paths).map((path) => ({ path, bytes: readFileSync(join(folder, pageFolder, ...path.split('/'))) }));
}

/** What the maker had written when a revision was issued, by path in the workspace; nothing where it was not issued; what was erased is left out. */
export function frozenInputs(proposalFolder: string, revision: string): readonly NamedBytes[] {
  const folder = revisionFolder(proposalFolder, revision);
  const erased = erasedOf(proposalFolder);
  return (readContent(folder)?.files ?? [])
    .filter(({ path }) => path.startsWith('in/') && !isErased(erased, `issued/${revision}/${path}`))
    .map(({ path }) => ({ path: path.slice('in/'.length), bytes: readFileSync(join(folder, ...path.split('/'))) }));
}
