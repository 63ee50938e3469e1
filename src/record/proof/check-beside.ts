import { lstatSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Problem } from '../../problem/index.ts';
import { addingName, isRecordPath, readAdding } from '../chain/adding.ts';
import { type Chain, type ChainEntry, chainName } from '../chain/chain.ts';
import { type Erased, erasedBy, isErased, stillThere } from '../chain/erased.ts';
import { filesOf, namedPaths } from '../chain/named-files.ts';
import { entriesOf } from '../chain/read-entries.ts';
import { recordProblem } from '../chain/record-problem.ts';
import { openSeal, sealFolder } from '../chain/seal.ts';
import { sha256Hex } from '../disk/canonical.ts';
import { listTree, unfinishedEnd } from '../disk/durable.ts';
import { checkSignatures } from './check-signatures.ts';

const restore = (name: string): string => `take ${name} back from your copy or from git`;

/** Whether a file is as an entry holds it. */
function stateOf(path: string, bytes: number, sha256: string): 'whole' | 'gone' | 'changed' {
  const stat = lstatSync(path, { throwIfNoEntry: false });
  if (stat === undefined) return 'gone';
  return stat.isFile() && stat.size === bytes && sha256Hex(readFileSync(path)) === sha256 ? 'whole' : 'changed';
}

/**
 * Files beside the record: sealed words and attached files against the entries that name them, gone only where a later entry
 * erased them, signatures, and files that nothing names. Codes: `record/file-missing file-changed file-added signature-broken`, the
 * warning `unfinished`.
 */
export function checkBeside(folder: string, shown: string, chain: Chain): readonly Problem[] {
  const lines = chain.lines.flatMap(({ entry }) => entry ?? []);
  const erased = erasedBy(lines);
  const problems: Problem[] = [];
  const judge = (n: number, path: string, what: string, state: 'whole' | 'gone' | 'changed'): void => {
    const name = `${shown}/${path}`;
    if (state === 'gone' && !isErased(erased, path))
      problems.push(recordProblem('file-missing', `${name}, ${what} of entry ${n}, is gone`, { mend: restore(name) }));
    if (state === 'changed')
      problems.push(recordProblem('file-changed', `${name}, ${what} of entry ${n}, was changed`, { mend: restore(name) }));
  };
  for (const entry of lines) {
    const { sealed, n } = entry;
    if (typeof sealed?.file !== 'string') continue;
    const opened = isRecordPath(sealed.file) ? openSeal(folder, sealed) : 'changed';
    judge(n, sealed.file, 'the sealed words', typeof opened === 'string' ? opened : 'whole');
  }
  for (const entry of entriesOf(lines))
    for (const { path, bytes, sha256 } of filesOf(entry))
      judge(entry.n, path, 'the file', isRecordPath(path) ? stateOf(join(folder, path), bytes, sha256) : 'changed');

  for (const { path, n } of stillThere(folder, erased))
    problems.push(
      recordProblem('unfinished', `${shown}/${path} was erased by entry ${n} and is still there`, {
        severity: 'warning',
        mend: 'the next command that writes to the record removes it',
      }),
    );
  return [...problems, ...checkSignatures(folder, shown, entriesOf(lines)), ...checkUnnamed(folder, shown, lines, erased)];
}

/** A name that this program gives to a file of an entry: its number first. */
const ofEntry = new RegExp(`^${sealFolder}/(?:files/)?[1-9]\\d*-[^/]+$`);

/** What lies in `records/` and no entry names: the rest of a killed run, or something that was put there. */
function checkUnnamed(folder: string, shown: string, lines: readonly ChainEntry[], erased: readonly Erased[]): readonly Problem[] {
  const named = namedPaths(lines);
  const adding = new Set([addingName, ...readAdding(folder)]);
  const chainLeft = chainName + unfinishedEnd;
  const isLeft = lstatSync(join(folder, chainLeft), { throwIfNoEntry: false }) !== undefined;
  const found = listTree(join(folder, sealFolder)).map(({ path }) => `${sealFolder}/${path}`);
  return [...(isLeft ? [chainLeft] : []), ...found]
    .filter((path) => !named.has(path) && !isErased(erased, path))
    .map((path) =>
      adding.has(path) || path.endsWith(unfinishedEnd)
        ? recordProblem('unfinished', `${shown}/${path} was left by an interrupted run`, {
            severity: 'warning',
            mend: 'the next command that writes to the record clears it away',
          })
        : recordProblem('file-added', `${shown}/${path} is named by no entry`, {
            mend: ofEntry.test(path)
              ? `if its line was deleted after git merged two copies: record again what it holds, then delete ${shown}/${path}; else take ${chainName} back from your copy`
              : `move ${shown}/${path} elsewhere; attach takes a file into the record`,
          }),
    );
}
