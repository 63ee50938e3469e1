import { lstatSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Problem } from '../../problem/index.ts';
import { clearAdding, isRecordPath } from '../chain/adding.ts';
import { appendEntry, chainName, type IssuedEntry, issuedEntries, readChain } from '../chain/chain.ts';
import { removeErased } from '../chain/erased.ts';
import { entriesOf } from '../chain/read-entries.ts';
import { recordProblem } from '../chain/record-problem.ts';
import { openSeal } from '../chain/seal.ts';
import { removeTree, unfinishedEnd } from '../disk/durable.ts';
import { editionFolder, editionFolders, handedOverFolder, unfinishedEditions } from '../disk/edition.ts';
import { issuedFolder, makingPrefix, revisionFolder, revisionFolders } from '../disk/revision.ts';
import { checkChain } from '../proof/check-chain.ts';
import { checkRevision } from '../proof/check-revision.ts';

/** Removes what a killed run was adding to the records, and what an entry says is erased; nothing where the chain is not sound. */
function finishRecords(proposalFolder: string, shown: string): void {
  rmSync(join(proposalFolder, chainName + unfinishedEnd), { force: true });
  const chain = readChain(proposalFolder);
  if (checkChain(chain, shown).length > 0) return;
  clearAdding(proposalFolder, chain);
  removeErased(
    proposalFolder,
    chain.lines.flatMap(({ entry }) => entry ?? []),
  );
}

/** An edition that no entry names was never given out: it is made anew. Nothing is removed where the chain is not sound. */
function removeUnnamedEditions(proposalFolder: string): void {
  const chain = readChain(proposalFolder);
  if (checkChain(chain, '').length > 0) return;
  const named = new Set(
    entriesOf(chain.lines.flatMap(({ entry }) => entry ?? [])).flatMap((entry) => (entry.kind === 'care' ? [entry.edition] : [])),
  );
  for (const edition of editionFolders(proposalFolder)) if (!named.has(edition)) removeTree(editionFolder(proposalFolder, edition));
  for (const name of unfinishedEditions(proposalFolder)) removeTree(join(handedOverFolder(proposalFolder), name));
}

/** Whether the words that an entry seals are there as they were sealed. */
function isSealWhole(proposalFolder: string, { sealed }: IssuedEntry): boolean {
  return sealed === undefined || (isRecordPath(sealed.file) && typeof openSeal(proposalFolder, sealed) !== 'string');
}

/**
 * Ends what a crash interrupted, under the proposal's lock: a folder still being made is removed, and files of an entry that
 * was never written; a finished folder without its line in the chain gets it, when it is whole and follows the end of the
 * chain; an edition without its line is removed; what an entry says is erased is removed. Code: `record/unfinished`.
 */
export function finishInterrupted(
  proposalFolder: string,
  shown: string,
): { readonly finished: readonly string[]; readonly problems: readonly Problem[] } {
  const folder = issuedFolder(proposalFolder);
  if (lstatSync(folder, { throwIfNoEntry: false })?.isDirectory() === true)
    for (const name of readdirSync(folder)) if (name.startsWith(makingPrefix)) removeTree(join(folder, name));
  finishRecords(proposalFolder, shown);
  removeUnnamedEditions(proposalFolder);

  const finished: string[] = [];
  const problems: Problem[] = [];
  for (const revision of revisionFolders(proposalFolder)) {
    const chain = readChain(proposalFolder);
    if (issuedEntries(chain).some((entry) => entry.revision === revision)) continue;
    const { problems: faults, entry } = checkRevision(revisionFolder(proposalFolder, revision), `${shown}/issued/${revision}`);
    const follows = entry !== undefined && chain.ended && entry.n === chain.head.n + 1 && entry.prev === chain.head.digest;
    const isSealed = entry === undefined || isSealWhole(proposalFolder, entry);
    if (faults.length === 0 && follows && isSealed && entry.revision === revision) {
      appendEntry(proposalFolder, entry);
      finished.push(revision);
    } else {
      problems.push(
        recordProblem('unfinished', `${shown}/issued/${revision} has no line in decisions.jsonl and can not be given one`, {
          ...(follows ? {} : { found: 'it does not follow the last entry' }),
          ...(follows && !isSealed ? { found: `${entry.sealed?.file ?? ''}, the sealed reason, is gone or was changed` } : {}),
          mend: `take decisions.jsonl, records and issued/${revision} back from one and the same copy`,
        }),
        ...faults,
      );
    }
  }
  return { finished, problems };
}
