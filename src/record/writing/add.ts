import { lstatSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Problem } from '../../problem/index.ts';
import { clearAdding, isRecordPath, writeAdding } from '../chain/adding.ts';
import { whereWritable } from '../chain/cannot-write.ts';
import { appendEntry, type Chain, type ChainEntry, chainName, nextEntry, readChain } from '../chain/chain.ts';
import { type AnyBody, type AnyEntry, entryBodies } from '../chain/entries.ts';
import { entriesOf } from '../chain/read-entries.ts';
import { recordProblem } from '../chain/record-problem.ts';
import { makeSeal, type SealedFile, writeRecordFile } from '../chain/seal.ts';
import type { NamedBytes } from '../disk/durable.ts';
import { withLock } from '../disk/lock.ts';
import { checkChain } from '../proof/check-chain.ts';
import { finishInterrupted } from './recover.ts';

/** Where and when something is recorded. */
export interface RecordPlace {
  /** The proposal's folder on disk, and as the maker sees it. */
  readonly folder: string;
  readonly shown: string;
  /** The clock: an instant in UTC, whole seconds, RFC 3339; and the maker's time zone. */
  readonly at: string;
  readonly zone: string;
}

export interface Addition {
  readonly body: AnyBody;
  /** Personal words, kept apart; with 16 random bytes. */
  readonly sealed?: { readonly data: SealedFile['data']; readonly random: Uint8Array };
  /**
   * Files that the body names, by path below the proposal's folder: `records/` and a name that says what it is and of which
   * entry, never whose. Written before the line.
   */
  readonly files?: readonly { readonly path: string; readonly bytes: Uint8Array }[];
}

export interface Added {
  /** Absent where nothing was recorded. */
  readonly entry?: AnyEntry;
  readonly problems: readonly Problem[];
}

/** Sees the chain under the lock and gives what to add, or problems. */
export type Prepare = (entries: readonly AnyEntry[]) => Addition | { readonly problems: readonly Problem[] };

/**
 * Adds one entry: sealed words and files first, then the chain's line, under the lock, forced to the disk. A clock that stands
 * before the last entry is not followed: the entry is dated as the last one, with a warning.
 * Codes: `record/locked cannot-write clock-back file-added` and those of a broken chain.
 */
export function addEntry(place: RecordPlace, prepare: Prepare): Promise<Added> {
  return underLock(place, async () => addUnderLock(place, prepare));
}

/** Runs work on a proposal's records while nobody else may. Codes: `record/locked cannot-write`. */
export async function underLock<T>(
  place: Pick<RecordPlace, 'folder' | 'shown'>,
  work: () => Promise<T>,
): Promise<T | { readonly problems: readonly Problem[] }> {
  const done = await whereWritable(place, () => withLock(place.folder, 'the records of this proposal', work));
  if ('problem' in done) return { problems: [done.problem] };
  return 'problem' in done.value ? { problems: [done.value.problem] } : done.value.value;
}

/** The chain, once what an earlier run left undone is finished and the chain is sound. Only under the lock. */
export function soundChain(folder: string, shown: string): { readonly chain: Chain; readonly problems: readonly Problem[] } {
  const broken = checkChain(readChain(folder), `${shown}/${chainName}`);
  const problems = broken.length > 0 ? broken : finishInterrupted(folder, shown).problems;
  return { chain: readChain(folder), problems };
}

/** The instant of the next entry: the clock's, or the last entry's where the clock stands before it, with a warning. */
export function nextInstant(chain: Chain, at: string): { readonly at: string; readonly problems: readonly Problem[] } {
  const last = chain.lines.at(-1)?.entry?.at ?? '';
  if (at >= last) return { at, problems: [] };
  const warning = recordProblem('clock-back', `the clock says ${at}, and the last entry is dated ${last}`, {
    severity: 'warning',
    mend: 'the new entry has the date of the last one; set the clock of this machine',
  });
  return { at: last, problems: [warning] };
}

/** Adds one entry where the lock is held already. */
export function addUnderLock(place: RecordPlace, prepare: Prepare): Added {
  const { folder, shown } = place;
  const { chain, problems: unsound } = soundChain(folder, shown);
  if (unsound.length > 0) return { problems: unsound };
  const addition = prepare(entriesOf(chain.lines.flatMap(({ entry }) => entry ?? [])));
  if ('problems' in addition) return addition;

  const { at, problems } = nextInstant(chain, place.at);
  const body = entryBodies[addition.body.kind].parse(addition.body) as AnyBody;
  const seal = addition.sealed === undefined ? undefined : makeSeal(chain.head.n + 1, addition.sealed.data, addition.sealed.random);
  const brought: readonly NamedBytes[] = [
    ...(addition.files ?? []),
    ...(seal === undefined ? [] : [{ path: seal.file, bytes: seal.bytes }]),
  ];
  const inTheWay = brought.find((file) => onDisk(folder, file) === 'other');
  const files = brought.filter((file) => onDisk(folder, file) === 'none');
  if (inTheWay !== undefined)
    return {
      problems: [
        recordProblem('file-added', `${shown}/${inTheWay.path} is there already and is another file`, {
          mend: `move ${shown}/${inTheWay.path} elsewhere if it is yours, then run this again`,
        }),
      ],
    };
  const entry = nextEntry(chain.head, {
    ...body,
    at,
    zone: place.zone,
    ...(seal === undefined ? {} : { sealed: { file: seal.file, digest: seal.digest } }),
  });
  try {
    if (files.length > 0)
      writeAdding(
        folder,
        files.map(({ path }) => path),
      );
    for (const file of files) writeRecordFile(folder, file.path, file.bytes);
    appendEntry(folder, entry as unknown as ChainEntry);
  } finally {
    clearAdding(folder, readChain(folder));
  }
  return { entry: entry as unknown as AnyEntry, problems };
}

/** How a file that an entry brings stands on the disk. Throws a RangeError for a path that is none of the records' files. */
function onDisk(folder: string, { path, bytes }: NamedBytes): 'none' | 'same' | 'other' {
  if (!isRecordPath(path)) throw new RangeError(`a file of the record may not be called ${path}`);
  const full = join(folder, ...path.split('/'));
  const stat = lstatSync(full, { throwIfNoEntry: false });
  if (stat === undefined) return 'none';
  return stat.isFile() && readFileSync(full).equals(bytes) ? 'same' : 'other';
}
