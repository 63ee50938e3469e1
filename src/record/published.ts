import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { issuedEntries, readChain } from './chain.ts';
import type { NamedBytes } from './durable.ts';
import { readContent, readLink, readMadeFiles, revisionFolder } from './revision.ts';

/** How an issued revision stands today: what fills the one empty slot of its frozen page. */
export type RevisionState = { readonly kind: 'open' } | { readonly kind: 'superseded'; readonly by: string };

/** An issued revision as the chain has it. */
export interface IssuedRevision {
  readonly revision: string;
  readonly fingerprint: string;
  readonly at: string;
  readonly token: string;
  readonly state: RevisionState;
  /** Files for the client, by path below the link. */
  readonly made: readonly string[];
}

/** Issued revisions of a proposal, oldest first. One whose link is gone is left out: `verify` says so. */
export function issuedRevisions(proposalFolder: string): readonly IssuedRevision[] {
  const entries = issuedEntries(readChain(proposalFolder));
  const latest = entries.at(-1)?.revision;
  return entries.flatMap(({ revision, fingerprint, at }) => {
    const folder = revisionFolder(proposalFolder, revision);
    const link = readLink(folder);
    if (link === undefined || latest === undefined) return [];
    const state: RevisionState = revision === latest ? { kind: 'open' } : { kind: 'superseded', by: latest };
    const made = (readMadeFiles(folder)?.files ?? []).map(({ path }) => path.slice('out/'.length));
    return [{ revision, fingerprint, at, token: link.token, state, made }];
  });
}

/** The frozen files of a revision that go to the client, by path below its link. */
export function frozenOut(proposalFolder: string, revision: string): readonly NamedBytes[] {
  const folder = revisionFolder(proposalFolder, revision);
  return (readMadeFiles(folder)?.files ?? []).map(({ path }) => ({
    path: path.replace(/^out\//, ''),
    bytes: readFileSync(join(folder, ...path.split('/'))),
  }));
}

/** What the maker had written when a revision was issued, by path in the workspace; nothing where it was not issued. */
export function frozenInputs(proposalFolder: string, revision: string): readonly NamedBytes[] {
  const folder = revisionFolder(proposalFolder, revision);
  return (readContent(folder)?.files ?? [])
    .filter(({ path }) => path.startsWith('in/'))
    .map(({ path }) => ({ path: path.slice('in/'.length), bytes: readFileSync(join(folder, ...path.split('/'))) }));
}
