import { hasErrors, type Problem, type SpecPath } from '../problem/index.ts';
import { checkSpec, type HandOverSpec, SCHEMAS, TO_FILL_IN } from '../spec/index.ts';
import type { BareUnit } from '../units/index.ts';
import { exists, readText } from './files.ts';
import { parseFile } from './parse.ts';
import { placeProblems, type Sources } from './sources.ts';
import { type Tree, toPlain } from './tree.ts';

/** A sheet of a hand-over, as far as it could be read. */
export interface HandOverRead {
  /** Absent where there is no file, something is wrong, or something is still to be filled in. */
  readonly sheet?: HandOverSpec;
  readonly exists: boolean;
  /** Paths at which something is still to be written, with points. */
  readonly toFillIn: readonly string[];
  /** Turns paths below `['library', 'handOver']` into places. */
  readonly sources: Sources;
  readonly problems: readonly Problem[];
}

/** The name of the sheet in a proposal's folder. */
export const HAND_OVER_FILE = 'hand-over.yaml';
const ROOT: SpecPath = ['library', 'handOver'];

/**
 * Reads `proposals/<slug>/hand-over.yaml`. `bare`: the unit of bare numbers, that of the proposal. Codes: those of files and of
 * schemas, `read/to-fill-in`.
 */
export function readHandOver(root: string, slug: string, bare: BareUnit): HandOverRead {
  const folder = `proposals/${slug}`;
  if (!exists(`${root}/${folder}`, HAND_OVER_FILE)) return { exists: false, toFillIn: [], sources: NOTHING, problems: [] };
  const read = readText(`${root}/${folder}`, HAND_OVER_FILE, `${folder}/${HAND_OVER_FILE}`);
  const parsed = read.source === undefined ? { problems: [] } : parseFile(read.source);
  const unread = [...read.problems, ...parsed.problems].map((problem) =>
    problem.code === 'read/empty-file'
      ? { ...problem, mend: `it may be half saved: save it again; or take it away, and leafwright hand-over ${slug} drafts it anew` }
      : problem,
  );
  if (parsed.tree === undefined || hasErrors(unread)) return { exists: true, toFillIn: [], sources: NOTHING, problems: unread };
  const sources: Sources = { library: { handOver: parsed.tree }, variants: {} };
  const open = unfilled(parsed.tree, []);
  const isOpen = new Set(open.map((path) => path.join('\u0000')));
  const checked = checkSpec(SCHEMAS.handOver[bare], toPlain(parsed.tree), ROOT);
  const wrong = checked.problems.filter(({ path }) => !isOpen.has(path.slice(ROOT.length).join('\u0000')));
  const problems = placeProblems(sources, [...toFillIn(open), ...wrong.map((problem) => partedInList(problem, parsed.tree))]);
  return {
    ...(checked.value === undefined || open.length > 0 ? {} : { sheet: checked.value }),
    exists: true,
    toFillIn: open.map((path) => path.join('.')),
    sources,
    problems,
  };
}

const NOTHING: Sources = { library: {}, variants: {} };

/** Paths at which something is still to be written. */
function unfilled(tree: Tree, path: SpecPath): readonly SpecPath[] {
  if (tree.is === 'text') return tree.text.trim() === TO_FILL_IN ? [path] : [];
  if (tree.is === 'list') return tree.items.flatMap((item, i) => unfilled(item, [...path, i]));
  return tree.is === 'map' ? [...tree.entries].flatMap(([key, { value }]) => unfilled(value, [...path, key])) : [];
}

/** What is found at a path below a tree, as far as groups and lists go. */
function treeAt(tree: Tree | undefined, path: SpecPath): Tree | undefined {
  return path.reduce<Tree | undefined>((at, step) => {
    if (at?.is === 'list') return at.items[Number(step)];
    return at?.is === 'map' ? at.entries.get(String(step))?.value : undefined;
  }, tree);
}

/** A problem with an item of a list that a decimal comma parted, as in `[8,9 %]`, told as what it is. */
function partedInList(problem: Problem, tree: Tree | undefined): Problem {
  const item = typeof problem.path.at(-1) === 'number' ? treeAt(tree, problem.path.slice(ROOT.length)) : undefined;
  if (problem.code !== 'spec/not-a-quantity' || item?.is !== 'text') return problem;
  const { source, start } = item.origin;
  const [found, whole, rest] = /^(\d+),(\d[^,\]\n]*)/.exec(source.text.slice(start, start + 40)) ?? [];
  if (found === undefined || item.text !== whole) return problem;
  const title = 'a comma parts a number in two: in a list it begins the next item';
  return {
    ...problem,
    title,
    found: found.trimEnd(),
    mend: `write ${whole}.${rest?.trimEnd() ?? ''}; or a space after the comma, if there are two`,
  };
}

/** One problem for all that is still open, at the first place of it. */
function toFillIn(open: readonly SpecPath[]): readonly Problem[] {
  const [first] = open;
  if (first === undefined) return [];
  const names = [...new Set(open.map((path) => path.filter((step) => typeof step === 'string').join('.')))];
  return [
    {
      code: 'read/to-fill-in',
      severity: 'error',
      title:
        open.length === 1
          ? 'one place of the sheet is still to be filled in'
          : `${open.length} places of the sheet are still to be filled in`,
      path: [...ROOT, ...first],
      found: names.join(', '),
      mend: `replace each ${TO_FILL_IN}, or take the line out where it may be left out`,
    },
  ];
}
