import type { Problem } from '../../problem/index.ts';
import { type Chain, type ChainLine, isIssued, noPrev } from '../chain/chain.ts';
import { namedPaths } from '../chain/named-files.ts';
import { recordProblem } from '../chain/record-problem.ts';

/** @source git, gitattributes(5): conflict-marker-size, seven signs */
const marker = /^(?:<{7}|={7}|>{7}|\|{7})(?: |$)/;

/** The lines that follow one another from a line on, by digest. */
function branchFrom(lines: readonly ChainLine[], first: ChainLine): readonly ChainLine[] {
  const branch = [first];
  for (let last: ChainLine | undefined = first; last !== undefined; ) {
    const { digest }: ChainLine = last;
    last = lines.find(({ entry }) => entry?.prev === digest);
    if (last !== undefined) branch.push(last);
  }
  return branch;
}

/** What lies beside the record for an entry's sake alone, by path below the proposal's folder. */
const beside = ({ entry }: ChainLine): readonly string[] =>
  entry === undefined ? [] : [...namedPaths([entry]), ...(isIssued(entry) ? [`issued/${entry.revision}`] : [])];

const said = (one: ChainLine): string => {
  const { line, entry } = one;
  const on = entry?.['on'];
  const day = typeof on === 'string' ? on : (entry?.at ?? '').slice(0, 10);
  const files = beside(one);
  return `line ${line}: ${entry?.kind ?? 'no entry'} of ${day}${files.length === 0 ? '' : ` with ${files.join(' and ')}`}`;
};

/** The lines that both copies have: from the first one on, each fits the one before, up to where the copies part. */
export function beforeParting({ lines }: Chain): readonly ChainLine[] {
  const follows = (i: number): boolean => lines[i]?.entry?.prev === (lines[i - 1]?.digest ?? noPrev);
  const isAlone = (i: number): boolean => lines.filter(({ entry }) => entry?.prev === lines[i]?.entry?.prev).length === 1;
  const parting = lines.findIndex((_, i) => !follows(i) || !isAlone(i));
  return parting === -1 ? lines : lines.slice(0, parting);
}

const leftFiles = '; what lies beside the deleted lines goes as well, once it is recorded again';

/**
 * Two copies of a chain that git put into one file: with its markers, or line by line, so that two different entries follow
 * the same one. Code: `record/merged`.
 */
export function checkMerge({ lines }: Chain, shown: string): Problem | undefined {
  const marked = lines.filter(({ text }) => marker.test(text));
  const byPrev = new Map<string, ChainLine>();
  let fork: readonly [ChainLine, ChainLine] | undefined;
  for (const line of lines) {
    if (line.entry === undefined) continue;
    const other = byPrev.get(line.entry.prev);
    if (other === undefined) byPrev.set(line.entry.prev, line);
    else if (other.text !== line.text && fork === undefined) fork = [other, line];
  }
  const [firstMark] = marked;
  if (fork === undefined && firstMark === undefined) return undefined;
  const where =
    fork === undefined
      ? `${shown}:${firstMark?.line ?? 1} holds git's mark of a conflict`
      : `${shown}:${fork[0].line} and :${fork[1].line} are both entry ${fork[0].entry?.n ?? 0}`;
  const marks = marked.length === 0 ? '' : ` and git's marks (lines ${marked.map(({ line }) => line).join(', ')})`;
  const hasFiles = fork?.some((first) => branchFrom(lines, first).some((line) => beside(line).length > 0)) === true;
  return recordProblem('merged', `${where}: two copies of the record were put into one`, {
    ...(fork === undefined ? {} : { found: fork.map((first) => branchFrom(lines, first).map(said).join(', ')).join('; against ') }),
    mend:
      fork === undefined
        ? `take ${shown} back from one of the two copies, then record again what only the other one said`
        : `keep the lines of one copy, delete those of the other${marks}, then record again what these said${hasFiles ? leftFiles : ''}`,
  });
}
