import type { Place, Problem, SpecPath } from '../problem/index.ts';
import { placeOf } from './place.ts';
import type { Origin, Tree } from './tree.ts';
import { childAt } from './tree.ts';

/** The parts of the library, each with the tree it was read from. */
export type LibraryTrees = Readonly<Record<string, Tree>>;

/** Where everything of one proposal was written: what turns a path of the effective spec into a line of a file. */
export interface Sources {
  readonly proposal?: Tree;
  /** table.yaml, which the variants share. */
  readonly shared?: Tree;
  readonly library: LibraryTrees;
  /** By id of the variant: its own words, and its merged tables, the default choice first. */
  readonly variants: Readonly<Record<string, { readonly variant: Tree; readonly tables: readonly Tree[] }>>;
}

/** Codes whose mark belongs on the key and not on its value. */
const MARKS_KEY = new Set(['spec/unknown-key', 'spec/bad-id', 'read/unknown-wish']);

/**
 * The place of a path of the effective spec (`['table', 'top', 'thickness']`). What is missing is marked at the group that should
 * hold it; a group or list is marked at its key. `undefined` where no file says anything about it.
 */
export function locate(sources: Sources, path: SpecPath, variant?: string, mark: 'key' | 'value' = 'value'): Place | undefined {
  let best: Found | undefined;
  for (const { tree, rest } of rootsOf(sources, path, variant)) {
    const found = descend(tree, rest);
    if (best === undefined || found.depth > best.depth) best = found;
  }
  if (best === undefined) return undefined;
  const label = path.slice(path[0] === 'library' ? 2 : 1).join('.');
  return placeOf(mark === 'key' || best.tree.is === 'map' || best.tree.is === 'list' ? best.key : best.tree.origin, label);
}

/** Problems with their places, found by their paths; a problem that has one keeps it. */
export function placeProblems(sources: Sources, problems: readonly Problem[]): readonly Problem[] {
  return problems.map((problem) => {
    const { variant } = problem;
    const also = problem.also?.map((one) => {
      const there = one.place ?? locate(sources, one.path, variant);
      return there === undefined ? one : { ...one, place: there };
    });
    const mark = MARKS_KEY.has(problem.code) ? 'key' : 'value';
    const place = problem.place ?? locate(sources, problem.path, variant, mark);
    return { ...problem, ...(place === undefined ? {} : { place }), ...(also === undefined ? {} : { also }) };
  });
}

interface Root {
  readonly tree: Tree;
  readonly rest: SpecPath;
}

function rootsOf(sources: Sources, path: SpecPath, variant: string | undefined): readonly Root[] {
  const rest = path.slice(1);
  const known = variant === undefined ? undefined : sources.variants[variant];
  switch (path[0]) {
    case 'proposal':
      return sources.proposal === undefined ? [] : [{ tree: sources.proposal, rest }];
    case 'variant':
      return known === undefined ? [] : [{ tree: known.variant, rest }];
    case 'library': {
      const tree = sources.library[String(path[1])];
      return tree === undefined ? [] : [{ tree, rest: path.slice(2) }];
    }
    case 'table': {
      const tables = known?.tables ?? [];
      const trees = sources.shared === undefined || tables.length > 0 ? tables : [sources.shared];
      return trees.map((tree) => ({ tree, rest }));
    }
    default:
      return [];
  }
}

interface Found {
  readonly tree: Tree;
  /** The key that leads to the tree, or the beginning of the file. */
  readonly key: Origin;
  readonly depth: number;
}

function descend(root: Tree, path: SpecPath): Found {
  const { source } = root.origin;
  let found: Found = { tree: root, key: { source, start: root.origin.start, end: root.origin.start + 1 }, depth: 0 };
  for (const step of path) {
    const next = childAt(found.tree, step);
    if (next === undefined) {
      const taken = found.tree.is === 'map' ? found.tree.taken?.get(String(step)) : undefined;
      return taken === undefined ? found : { ...found, key: taken };
    }
    const entry = found.tree.is === 'map' ? found.tree.entries.get(String(step)) : undefined;
    found = { tree: next, key: entry?.key ?? headOf(next), depth: found.depth + 1 };
  }
  return found;
}

/** What is marked for an item of a list: its first key where it is a group, else the item. */
function headOf(item: Tree): Origin {
  const first = item.is === 'map' ? item.entries.values().next().value : undefined;
  return first?.key ?? item.origin;
}
