import type { Problem } from '../problem/index.ts';
import { appendEntry, type ChainEntry, nextEntry, readChain } from './chain.ts';
import { checkChain } from './check-chain.ts';
import { recordProblem } from './check-revision.ts';
import { type AnyBody, type AnyEntry, entryBodies } from './entries.ts';
import { withLock } from './lock.ts';
import { finishInterrupted } from './recover.ts';
import { makeSeal, type SealedFile, writeRecordFile } from './seal.ts';

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
  /** Files that the body names, by path below the proposal's folder: written before the line. */
  readonly files?: readonly { readonly path: string; readonly bytes: Uint8Array }[];
}

export interface Added {
  /** Absent where nothing was recorded. */
  readonly entry?: AnyEntry;
  readonly problems: readonly Problem[];
}

/**
 * Adds one entry: sealed words and files first, then the chain's line, under the lock, forced to the disk. `prepare` sees the
 * chain under the lock and gives what to add, or problems. A clock that stands before the last entry is not followed: the
 * entry is dated as the last one, with a warning.
 * Codes: `record/locked clock-back` and those of a broken chain.
 */
export async function addEntry(
  place: RecordPlace,
  prepare: (entries: readonly AnyEntry[]) => Addition | { readonly problems: readonly Problem[] },
): Promise<Added> {
  const locked = await withLock(place.folder, 'the records of this proposal', async () => addUnderLock(place, prepare));
  return 'problem' in locked ? { problems: [locked.problem] } : locked.value;
}

function addUnderLock(place: RecordPlace, prepare: Parameters<typeof addEntry>[1]): Added {
  const { folder, shown } = place;
  const interrupted = finishInterrupted(folder, shown);
  if (interrupted.problems.length > 0) return { problems: interrupted.problems };
  const chain = readChain(folder);
  const broken = checkChain(chain, `${shown}/decisions.jsonl`);
  if (broken.length > 0) return { problems: broken };
  const entries = entriesOf(chain.lines.flatMap(({ entry }) => entry ?? []));
  const addition = prepare(entries);
  if ('problems' in addition) return addition;

  const last = entries.at(-1)?.at ?? '';
  const isBack = place.at < last;
  const at = isBack ? last : place.at;
  const body = entryBodies[addition.body.kind].parse(addition.body) as AnyBody;
  const { head } = chain;
  const seal = addition.sealed === undefined ? undefined : makeSeal(head.n + 1, addition.sealed.data, addition.sealed.random);
  for (const file of addition.files ?? []) writeRecordFile(folder, file.path, file.bytes);
  if (seal !== undefined) writeRecordFile(folder, seal.file, seal.bytes);
  const entry = nextEntry(head, {
    ...body,
    at,
    zone: place.zone,
    ...(seal === undefined ? {} : { sealed: { file: seal.file, digest: seal.digest } }),
  });
  appendEntry(folder, entry as unknown as ChainEntry);
  const problems = isBack
    ? [
        recordProblem('clock-back', `the clock says ${place.at}, and the last entry is dated ${last}`, {
          severity: 'warning',
          mend: 'the new entry has the date of the last one; set the clock of this machine',
        }),
      ]
    : [];
  return { entry: entry as unknown as AnyEntry, problems };
}

/** Entries whose body is one that this program knows; the others are left out: `verify` names them. */
export function entriesOf(entries: readonly ChainEntry[]): readonly AnyEntry[] {
  return entries.flatMap((entry) => {
    const { n: _n, prev: _prev, at: _at, zone: _zone, sealed: _sealed, ...body } = entry;
    const known = Object.hasOwn(entryBodies, entry.kind) ? entryBodies[entry.kind as keyof typeof entryBodies] : undefined;
    return known?.safeParse(body).success === true ? [entry as unknown as AnyEntry] : [];
  });
}

/** The entries of a proposal that this program knows, in order. */
export function readEntries(proposalFolder: string): readonly AnyEntry[] {
  return entriesOf(readChain(proposalFolder).lines.flatMap(({ entry }) => entry ?? []));
}
