import type { Json } from '../disk/canonical.ts';
import type { FileDigest } from '../disk/revision.ts';
import type { ChainEntry } from './chain.ts';
import type { AnyEntry, EntryOf } from './entries.ts';
import { sealFolder } from './seal.ts';

/** Files beside the record that an entry holds by digest: a scan, a picture, a scope. */
export function filesOf(entry: AnyEntry): readonly FileDigest[] {
  if (entry.kind === 'hand-over') return [...entry.photographs, ...paperOf(entry)];
  if (entry.kind === 'service' || entry.kind === 'claim') return entry.photographs ?? [];
  if (entry.kind === 'attached' || entry.kind === 'scope') return [entry.file];
  return entry.kind === 'sample' && entry.picture !== undefined ? [entry.picture] : [];
}

/** The paper on which a delivery was signed for. */
export function paperOf({ acceptance }: EntryOf<'hand-over'>): readonly FileDigest[] {
  return acceptance?.paper === undefined ? [] : [acceptance.paper];
}

function pathsIn(value: Json | undefined): readonly string[] {
  if (typeof value === 'string') return value.startsWith(`${sealFolder}/`) ? [value] : [];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(pathsIn) : [];
}

/** Every path below `records/` that an entry names, of whatever kind it is; what was erased does not count. */
export function namedPaths(entries: readonly ChainEntry[]): ReadonlySet<string> {
  return new Set(entries.filter(({ kind }) => kind !== 'erased').flatMap((entry) => pathsIn(entry)));
}
