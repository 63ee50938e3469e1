import { type ChainEntry, readChain } from './chain.ts';
import { type AnyEntry, entryBodies } from './entries.ts';

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
