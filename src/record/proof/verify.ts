import { lstatSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Problem } from '../../problem/index.ts';
import { chainName, type IssuedEntry, issuedEntries, noPrev, readChain } from '../chain/chain.ts';
import type { AnyEntry } from '../chain/entries.ts';
import { type Erased, erasedBy, isErased } from '../chain/erased.ts';
import { entriesOf } from '../chain/read-entries.ts';
import { recordProblem } from '../chain/record-problem.ts';
import { sealFolder } from '../chain/seal.ts';
import { canonicalJson, type Json } from '../disk/canonical.ts';
import { listTree } from '../disk/durable.ts';
import { careLinkName, handedOverName, readCareLink } from '../disk/edition.ts';
import { isRevisionId, issuedFolder, makingPrefix, onlyPage, readPages, revisionFolder, revisionFolders } from '../disk/revision.ts';
import { issuedOffers } from '../standing/offer.ts';
import { checkBeside } from './check-beside.ts';
import { checkChain } from './check-chain.ts';
import { checkEditions } from './check-editions.ts';
import { checkEntries } from './check-entries.ts';
import { beforeParting } from './check-merge.ts';
import { checkRevision } from './check-revision.ts';

/** What stands of one proposal. */
export interface VerifiedProposal {
  readonly proposal: string;
  /** Entries of the chain; `ends at entry n; nothing later is anchored`. Of two copies in one file, those that both have. */
  readonly entries: number;
  /** SHA-256 of the last of them: note it elsewhere, and a cut tail shows. */
  readonly head: string;
  /** The last entry that something issued pins; the later ones could be cut off or changed from the end without a trace here. */
  readonly anchoredTo: number;
  readonly revisions: readonly { readonly revision: string; readonly fingerprint: string; readonly files: number }[];
  /** What is gone on purpose, by path below the proposal's folder (a folder ends in a stroke), and the entry that says so. */
  readonly erased: readonly Erased[];
  /** Files that no entry and no list holds by digest, by path below the proposal's folder. */
  readonly unanchored: readonly string[];
  readonly problems: readonly Problem[];
}

const shortly = (value: Json | undefined): string =>
  value === undefined ? 'none' : (typeof value === 'string' ? value : canonicalJson(value)).slice(0, 24);

function compareEntry(said: IssuedEntry, found: IssuedEntry, shown: string): Problem | undefined {
  if (canonicalJson(said) === canonicalJson(found)) return undefined;
  const fields = Object.keys({ ...said, ...found }).filter(
    (key) => canonicalJson([said[key] ?? null]) !== canonicalJson([found[key] ?? null]),
  );
  const name = `${shown}/issued/${said.revision}`;
  const what = fields.includes('fingerprint')
    ? `${name}/content.json is not the one that entry ${said.n} anchors`
    : fields.includes('files')
      ? `${name}/files.json is not the one that entry ${said.n} anchors`
      : `${name} and entry ${said.n} of ${chainName} disagree about ${fields.join(', ')}`;
  return recordProblem('not-anchored', what, {
    found: fields.map((key) => `${key} ${shortly(found[key])}`).join(', '),
    allowed: fields.map((key) => `${key} ${shortly(said[key])}`).join(', '),
    mend: `take ${name} and ${shown}/${chainName} back from one and the same copy`,
  });
}

function checkFolderNames(folder: string, shown: string): readonly Problem[] {
  const issued = issuedFolder(folder);
  if (lstatSync(issued, { throwIfNoEntry: false })?.isDirectory() !== true) return [];
  return readdirSync(issued)
    .sort()
    .filter((name) => !isRevisionId(name))
    .map((name) =>
      name.startsWith(makingPrefix)
        ? recordProblem('unfinished', `${shown}/issued/${name} was left by an interrupted run`, {
            severity: 'warning',
            mend: 'the next issue or build clears it away',
          })
        : recordProblem('file-added', `${shown}/issued/${name} is no revision`, { mend: `move ${shown}/issued/${name} elsewhere` }),
    );
}

/** A revision's entry follows from its folder, whose page prints the end of the chain before it; a scope prints its approval's digest. */
function anchoredTo(entries: readonly AnyEntry[]): number {
  const pinned = entries.flatMap((entry) => (entry.kind === 'issued' ? [entry.n] : entry.kind === 'scope' ? entry.answers : []));
  return Math.max(0, ...pinned);
}

/** The working files, and the links, which can be renewed. */
function unanchored(folder: string, revisions: readonly string[]): readonly string[] {
  const held = new Set(['issued', handedOverName, sealFolder, chainName]);
  const working = lstatSync(folder, { throwIfNoEntry: false })?.isDirectory() === true ? readdirSync(folder, { withFileTypes: true }) : [];
  return [
    ...working
      .filter(({ name }) => !held.has(name) && !name.includes('-leafwright'))
      .map((one) => (one.isDirectory() ? `${one.name}/` : one.name))
      .sort(),
    ...revisions.map((revision) => `issued/${revision}/link.json`),
    ...(readCareLink(folder) === undefined ? [] : [`${handedOverName}/${careLinkName}`]),
  ];
}

/**
 * Proves one proposal's records, reading only; `shown` is its folder as the maker sees it. Where the chain is broken, nothing is said of what its
 * entries hold; where two copies are in one file, nothing of what came after they parted, until one of them is chosen.
 */
export function verifyProposal(folder: string, shown: string, proposal: string): VerifiedProposal {
  const chain = readChain(folder);
  const problems: Problem[] = [...checkChain(chain, `${shown}/${chainName}`), ...checkFolderNames(folder, shown)];
  const isMerged = problems.some(({ code }) => code === 'record/merged');
  const common = isMerged ? beforeParting(chain) : chain.lines;
  const entries = issuedEntries({ ...chain, lines: common });
  const lines = chain.lines.flatMap(({ entry }) => entry ?? []);
  const erased = erasedBy(lines);
  const revisions: { revision: string; fingerprint: string; files: number }[] = [];
  const seen = new Set<string>();
  for (const said of entries) {
    const name = `${shown}/issued/${said.revision}`;
    if (!isRevisionId(said.revision) || seen.has(said.revision)) {
      problems.push(recordProblem('chain-broken', `${shown}/${chainName}:${said.n} issues ${said.revision} a second time`));
      continue;
    }
    seen.add(said.revision);
    const at = revisionFolder(folder, said.revision);
    if (lstatSync(at, { throwIfNoEntry: false })?.isDirectory() !== true) {
      problems.push(
        recordProblem('file-missing', `${name} was issued and is gone`, { mend: `take ${name} back from your copy or from git` }),
      );
      continue;
    }
    const { problems: faults, entry } = checkRevision(at, name, (path) => isErased(erased, `issued/${said.revision}/${path}`));
    problems.push(...faults);
    const unlike = entry === undefined ? undefined : compareEntry(said, entry, shown);
    if (unlike !== undefined) problems.push(unlike);
    revisions.push({ revision: said.revision, fingerprint: said.fingerprint, files: entry === undefined ? 0 : listTree(at).length });
  }
  for (const { revision } of issuedEntries(chain)) seen.add(revision);
  for (const revision of revisionFolders(folder))
    if (!seen.has(revision))
      problems.push(
        recordProblem('unfinished', `${shown}/issued/${revision} has no line in ${chainName}`, {
          mend: 'the next issue or build adds the line if all of it is there; else take both back from one copy',
        }),
      );
  const isSound = problems.every(({ code }) => !['record/merged', 'record/chain-broken', 'record/chain-cut'].includes(code));
  if (isSound) problems.push(...checkEntries(lines, issuedOffers(folder), `${shown}/${chainName}`));
  if (isSound) problems.push(...checkBeside(folder, shown, chain), ...checkEditions(folder, shown, entriesOf(lines), erased));
  return {
    proposal,
    entries: common.length,
    head: common.at(-1)?.digest ?? noPrev,
    anchoredTo: anchoredTo(entriesOf(lines)),
    revisions,
    erased,
    unanchored: unanchored(
      folder,
      revisions.map(({ revision }) => revision),
    ),
    problems,
  };
}

/** Proves the records of every proposal of a workspace, and that no two revisions share a link. Code: `record/link-twice`. */
export function verifyWorkspace(workspace: string, proposals: readonly string[]): readonly VerifiedProposal[] {
  const tokens = new Map<string, string>();
  return proposals.map((proposal) => {
    const shown = `proposals/${proposal}`;
    const folder = join(workspace, 'proposals', proposal);
    const verified = verifyProposal(folder, shown, proposal);
    const twice: Problem[] = [];
    for (const { revision } of verified.revisions) {
      for (const { token, page } of readPages(revisionFolder(folder, revision)) ?? []) {
        const name = `${shown}/issued/${revision}${page === onlyPage ? '' : ` (${page})`}`;
        const other = tokens.get(token);
        if (other !== undefined)
          twice.push(recordProblem('link-twice', `${name} has the same link as ${other}`, { mend: 'take link.json back from your copy' }));
        tokens.set(token, name);
      }
    }
    const care = readCareLink(folder);
    if (care !== undefined) {
      const name = `${shown}/${handedOverName}`;
      const other = tokens.get(care.token);
      if (other !== undefined)
        twice.push(
          recordProblem('link-twice', `${name} has the same link as ${other}`, { mend: `take ${careLinkName} back from your copy` }),
        );
      tokens.set(care.token, name);
    }
    return { ...verified, problems: [...verified.problems, ...twice] };
  });
}
