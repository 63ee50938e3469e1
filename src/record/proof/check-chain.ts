import type { Problem } from '../../problem/index.ts';
import { type Chain, chainName, noPrev, readChain } from '../chain/chain.ts';
import { recordProblem } from '../chain/record-problem.ts';
import { checkMerge } from './check-merge.ts';

/**
 * Follows a chain from its first entry: each line canonical, counted, holding the digest of the one before, none earlier
 * than the one before. Two copies in one file give one message. `shown` is the file as the maker sees it.
 * Codes: `record/merged chain-broken chain-cut`.
 */
export function checkChain(chain: Chain, shown: string): readonly Problem[] {
  const merged = checkMerge(chain, shown);
  if (merged !== undefined) return [merged];
  const problems: Problem[] = [];
  const broken = (line: number, what: string): void => {
    problems.push(
      recordProblem('chain-broken', `${shown}:${line} ${what}`, {
        mend: `take ${shown} back from your copy or from git; entries are only ever added`,
      }),
    );
  };
  let prev = noPrev;
  /** What the entry above counts itself as: a line that is gone is told once, and not with every line after it. */
  let n = 0;
  let at = '';
  for (const [i, line] of chain.lines.entries()) {
    const { entry } = line;
    if (entry === undefined) {
      broken(line.line, 'is no entry as it was written');
      n += 1;
    } else {
      if (entry.n !== n + 1) broken(line.line, `counts itself as entry ${entry.n} and is the ${i + 1}.`);
      n = entry.n;
      if (entry.prev !== prev)
        broken(
          line.line,
          i === 0 ? 'is the first entry and points to one before it' : `does not fit entry ${i}: one of the two was changed`,
        );
      if (entry.at < at) broken(line.line, `is dated ${entry.at}, before the entry above it`);
      at = entry.at;
    }
    prev = line.digest;
  }
  if (!chain.ended)
    problems.push(
      recordProblem('chain-cut', `${shown} ends in the middle of a line`, { mend: `take ${shown} back from your copy or from git` }),
    );
  return problems;
}

/** What is wrong with the chain of a proposal, without what hangs on it. `shown` is the proposal's folder as the maker sees it. */
export const chainProblems = (proposalFolder: string, shown: string): readonly Problem[] =>
  checkChain(readChain(proposalFolder), `${shown}/${chainName}`);
