import { lstatSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Problem } from '../problem/index.ts';
import { appendEntry, issuedEntries, readChain } from './chain.ts';
import { checkRevision, recordProblem } from './check-revision.ts';
import { removeTree } from './durable.ts';
import { isRevisionId, issuedFolder, makingPrefix, revisionFolder, revisionNumber } from './revision.ts';

/** Revision folders of a proposal, oldest first. */
export function revisionFolders(proposalFolder: string): readonly string[] {
  const folder = issuedFolder(proposalFolder);
  if (lstatSync(folder, { throwIfNoEntry: false })?.isDirectory() !== true) return [];
  return readdirSync(folder)
    .filter(isRevisionId)
    .sort((a, b) => revisionNumber(a) - revisionNumber(b));
}

/**
 * Ends what a crash interrupted, under the proposal's lock: a folder still being made is removed; a finished one without
 * its line in the chain gets it, when it is whole and follows the end of the chain. Code: `record/unfinished`.
 */
export function finishInterrupted(
  proposalFolder: string,
  shown: string,
): { readonly finished: readonly string[]; readonly problems: readonly Problem[] } {
  const folder = issuedFolder(proposalFolder);
  if (lstatSync(folder, { throwIfNoEntry: false })?.isDirectory() === true)
    for (const name of readdirSync(folder)) if (name.startsWith(makingPrefix)) removeTree(join(folder, name));

  const finished: string[] = [];
  const problems: Problem[] = [];
  for (const revision of revisionFolders(proposalFolder)) {
    const chain = readChain(proposalFolder);
    if (issuedEntries(chain).some((entry) => entry.revision === revision)) continue;
    const { problems: faults, entry } = checkRevision(revisionFolder(proposalFolder, revision), `${shown}/issued/${revision}`);
    const follows = entry !== undefined && chain.ended && entry.n === chain.head.n + 1 && entry.prev === chain.head.digest;
    if (faults.length === 0 && follows && entry.revision === revision) {
      appendEntry(proposalFolder, entry);
      finished.push(revision);
    } else {
      problems.push(
        recordProblem('unfinished', `${shown}/issued/${revision} has no line in decisions.jsonl and can not be given one`, {
          ...(follows ? {} : { found: 'it does not follow the last entry' }),
          mend: `take decisions.jsonl and issued/${revision} back from one and the same copy`,
        }),
        ...faults,
      );
    }
  }
  return { finished, problems };
}
