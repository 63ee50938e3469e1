import { sep } from 'node:path';
import type { Problem } from '../../problem/index.ts';
import { readChain } from './chain.ts';
import { recordProblem } from './record-problem.ts';

/** What the system says when it can not write, and what helps. */
const causes: Readonly<Record<string, readonly [what: string, mend: string]>> = {
  ENOSPC: ['the disk is full', 'make room on the disk'],
  EDQUOT: ['your share of the disk is used up', 'make room on the disk'],
  EFBIG: ['a file would be longer than this system lets it be', 'make room, or lift the limit on the size of files'],
  EROFS: ['the disk can only be read', 'work on a copy, or make the disk writable'],
  EACCES: ['this user may not write there', 'give yourself the right to write to the folder'],
  EPERM: ['this user may not write there', 'give yourself the right to write to the folder'],
  ENOTDIR: ['a link or a file stands where a folder of the record belongs', 'put the folder itself in its place'],
  EIO: ['the disk gives an error', 'copy the workspace to another disk'],
};

interface Folder {
  readonly folder: string;
  readonly shown: string;
}

function entriesThere(folder: string): number {
  try {
    return readChain(folder).head.n;
  } catch {
    return 0;
  }
}

/**
 * Runs work on a proposal's records. Where the system will not write, gives the problem `record/cannot-write`, which says what
 * stands; any other error is thrown on.
 */
export async function whereWritable<T>(
  { folder, shown }: Folder,
  work: () => Promise<T>,
): Promise<{ readonly value: T } | { readonly problem: Problem }> {
  const before = entriesThere(folder);
  try {
    return { value: await work() };
  } catch (error) {
    const { code, path } = error as NodeJS.ErrnoException;
    const cause = code === undefined ? undefined : causes[code];
    const isElsewhere = path !== undefined && path !== folder && !path.startsWith(folder + sep);
    if (code === undefined || cause === undefined || isElsewhere) throw error;
    const after = entriesThere(folder);
    const stands = after > before ? `entry ${after} was recorded` : 'nothing was recorded';
    return {
      problem: recordProblem('cannot-write', `the records of ${shown} can not be written: ${cause[0]}`, {
        found: code,
        mend: `${cause[1]}, then run this again; ${stands}`,
      }),
    };
  }
}
