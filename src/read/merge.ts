import type { Entry, MapTree, Origin, Tree } from './tree.ts';
import { childAt, textAt } from './tree.ts';

/**
 * Lays a patch over a tree: null takes a key away, lists and scalars are replaced whole, groups are merged key by key, and a group
 * whose `kind` changes is replaced. Every value keeps the place where it was written.
 *
 * @source JSON Merge Patch, RFC 7396; the rule about `kind` is this program's.
 */
export function mergeTrees(base: Tree | undefined, patch: Tree): Tree {
  if (patch.is !== 'map') return patch;
  if (base?.is !== 'map' || changesKind(base, patch)) return withoutNulls(patch);
  const entries = new Map<string, Entry>(base.entries);
  const taken = new Map<string, Origin>(base.taken);
  for (const [key, { key: place, value }] of patch.entries) {
    const before = entries.get(key);
    if (value.is === 'null') {
      entries.delete(key);
      taken.set(key, place);
      continue;
    }
    const merged = mergeTrees(before?.value, value);
    // A group that is only added to stays where it was first written.
    const stays = before !== undefined && merged.is === 'map' && before.value.is === 'map' && merged.origin === before.value.origin;
    entries.set(key, { key: stays ? before.key : place, value: merged });
    taken.delete(key);
  }
  return { is: 'map', entries, origin: base.origin, ...(taken.size === 0 ? {} : { taken }) };
}

function changesKind(base: MapTree, patch: MapTree): boolean {
  const kind = textAt(patch, 'kind');
  return kind !== undefined && kind !== textAt(base, 'kind');
}

function withoutNulls(patch: MapTree): MapTree {
  const kept = [...patch.entries]
    .filter(([, { value }]) => value.is !== 'null')
    .map(([key, entry]): [string, Entry] => [key, entry.value.is === 'map' ? { ...entry, value: withoutNulls(entry.value) } : entry]);
  return { ...patch, entries: new Map(kept) };
}

/** A key of two patches that touches the same thing: equal, or one inside the other. */
export interface Overlap {
  readonly path: readonly string[];
}

/** Where two patches touch the same thing; `undefined` where their paths are disjoint. */
export function overlapOf(a: Tree, b: Tree, path: readonly string[] = []): Overlap | undefined {
  if (a.is !== 'map' || b.is !== 'map') return { path };
  if (textAt(a, 'kind') !== undefined || textAt(b, 'kind') !== undefined) return { path };
  for (const [key, { value }] of a.entries) {
    const other = childAt(b, key);
    if (other === undefined) continue;
    const overlap = overlapOf(value, other, [...path, key]);
    if (overlap !== undefined) return overlap;
  }
  return undefined;
}
