/** A file that was read, by its path inside the workspace. */
export interface Source {
  readonly path: string;
  readonly text: string;
}

/** A stretch of a file, in UTF-16 code units; `end` is the first one after it. */
export interface Origin {
  readonly source: Source;
  readonly start: number;
  readonly end: number;
}

/** A key and its value, each with its place. */
export interface Entry {
  readonly key: Origin;
  readonly value: Tree;
}

/** A group of keys. */
export interface MapTree {
  readonly is: 'map';
  readonly entries: ReadonlyMap<string, Entry>;
  /** Keys that a patch took away, and where. */
  readonly taken?: ReadonlyMap<string, Origin>;
  readonly origin: Origin;
}
/** A list. */
export interface ListTree {
  readonly is: 'list';
  readonly items: readonly Tree[];
  readonly origin: Origin;
}
/** A scalar, as the text in the file: what it means is for the schema to say. */
export interface TextTree {
  readonly is: 'text';
  readonly text: string;
  readonly origin: Origin;
}
/** `null` or `~`: in a patch it takes the key away. */
export interface NullTree {
  readonly is: 'null';
  readonly origin: Origin;
}

/** What a file says, and where: every value keeps its place through merges. */
export type Tree = MapTree | ListTree | TextTree | NullTree;

/** The plain value that the schemas check. */
export function toPlain(tree: Tree): unknown {
  switch (tree.is) {
    case 'text':
      return tree.text;
    case 'null':
      return null;
    case 'list':
      return tree.items.map(toPlain);
    case 'map':
      return Object.fromEntries([...tree.entries].map(([key, { value }]) => [key, toPlain(value)]));
  }
}

/** The text under a key, where the tree is a map and the value a scalar. */
export function textAt(tree: Tree | undefined, key: string): string | undefined {
  const value = childAt(tree, key);
  return value?.is === 'text' ? value.text : undefined;
}

/** The tree under a key or index. */
export function childAt(tree: Tree | undefined, key: string | number): Tree | undefined {
  if (tree?.is === 'map') return tree.entries.get(String(key))?.value;
  return tree?.is === 'list' ? tree.items[Number(key)] : undefined;
}

/** A map with nothing in it, at the place of another tree or at the start of a file. */
export function emptyMap(origin: Origin): MapTree {
  return { is: 'map', entries: new Map(), origin };
}
