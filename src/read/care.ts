import { hasErrors, type Problem } from '../problem/index.ts';
import { type CareBook, checkSpec, SCHEMAS } from '../spec/index.ts';
import { exists, namesIn, readText } from './files.ts';
import { templatePlaces } from './library.ts';
import { mergeTrees } from './merge.ts';
import { hiddenIn, parseFile } from './parse.ts';
import { problemAt } from './place.ts';
import { placeProblems, type Sources } from './sources.ts';
import { childAt, type Entry, emptyMap, type Origin, type Source, type Tree, textAt, toPlain } from './tree.ts';

/** The rules of care of a workspace, as far as they could be read. */
export interface CareRead {
  /** Absent where a file is missing or wrong. */
  readonly book?: CareBook;
  /** Rules that the workspace itself wrote or changed. */
  readonly own: ReadonlySet<string>;
  /** Turns paths below `['library', 'care']` into places. */
  readonly sources: Sources;
  readonly files: readonly Source[];
  readonly problems: readonly Problem[];
}

interface Layer {
  readonly trees: readonly Tree[];
  readonly files: readonly Source[];
  readonly problems: readonly Problem[];
}

const FILE = 'care.yaml';
const FOLDER = 'care';

/**
 * Reads the rules of care: the program's, the workspace's `templates/care.yaml` laid over them rule by rule, then its pages
 * `templates/care/<id>.md` in the order of their ids. A page's front matter holds the keys of the rule, what stands below is what
 * it says; `silence: true` silences it. Codes: those of files and of schemas, `care/no-front-matter`.
 */
export function readCare(root: string, frozen = false): CareRead {
  const places = templatePlaces(root, frozen);
  const beneath = places.beneath === undefined ? undefined : layerOf(places.beneath.folder, places.beneath.shown);
  const own = layerOf(places.own, 'templates');
  const layers = [...(beneath === undefined ? [] : [beneath]), own];
  const files = layers.flatMap((layer) => layer.files);
  const unread = layers.flatMap((layer) => layer.problems);
  const problems = files.length === 0 && unread.length === 0 ? readText(places.own, FILE, `templates/${FILE}`).problems : unread;
  const tree = layers.flatMap(({ trees }) => trees).reduce<Tree | undefined>((under, over) => mergeTrees(under, over), undefined);
  const sources: Sources = { library: tree === undefined ? {} : { care: tree }, variants: {} };
  const ids = beneath === undefined ? new Set<string>() : new Set(own.trees.flatMap(ruleIds));
  if (tree === undefined || hasErrors(problems)) return { own: ids, sources, files, problems };
  const checked = checkSpec(SCHEMAS.care, toPlain(tree), ['library', 'care']);
  return {
    ...(checked.value === undefined ? {} : { book: checked.value }),
    own: ids,
    sources,
    files,
    problems: placeProblems(sources, checked.problems),
  };
}

function ruleIds(tree: Tree): readonly string[] {
  const rules = childAt(tree, 'rules');
  return rules?.is === 'map' ? [...rules.entries.keys()] : [];
}

/** One folder of templates: its file, then its pages. */
function layerOf(folder: string, shown: string): Layer {
  const yaml = exists(folder, FILE) ? [readText(folder, FILE, `${shown}/${FILE}`)] : [];
  const pages = namesIn(folder, FOLDER)
    .filter((name) => name.endsWith('.md'))
    .map((name) => ({ id: name.slice(0, -'.md'.length), read: readText(folder, `${FOLDER}/${name}`, `${shown}/${FOLDER}/${name}`) }));
  const parsed = [
    ...yaml.flatMap(({ source }) => (source === undefined ? [] : [parseFile(source)])),
    ...pages.flatMap(({ id, read }) => (read.source === undefined ? [] : [pageOf(id, read.source)])),
  ];
  const read = [...yaml, ...pages.map((page) => page.read)];
  return {
    trees: parsed.flatMap(({ tree }) => (tree === undefined ? [] : [tree])),
    files: read.flatMap(({ source }) => (source === undefined ? [] : [source])),
    problems: [...read.flatMap((one) => one.problems), ...parsed.flatMap((one) => one.problems)],
  };
}

/** Lines between two lines of three hyphens at the head of a page. */
const FRONT_MATTER = /^---[ \t]*\r?\n[\s\S]*?\r?\n(?=---[ \t]*(?:\r?\n|$))/;

/** A page as a patch of the rules: `{ rules: { <id>: { ...front matter, says: below } } }`. */
function pageOf(id: string, source: Source): ReturnType<typeof parseFile> {
  const whole: Origin = { source, start: 0, end: Math.max(1, source.text.indexOf('\n')) };
  const head = FRONT_MATTER.exec(source.text)?.[0];
  if (head === undefined) {
    const mend = 'begin with a line of three hyphens, the keys of the rule, and such a line again';
    return { problems: [problemAt('care/no-front-matter', 'a page of care does not begin with the keys of its rule', whole, { mend })] };
  }
  const hidden = hiddenIn(source);
  if (hidden.length > 0) return { problems: hidden };
  const front = parseFile({ path: source.path, text: head });
  if (front.tree === undefined) return front;
  const rule =
    textAt(front.tree, 'silence') === 'true' ? ({ is: 'null', origin: front.tree.origin } as const) : saying(front.tree, source, head);
  const under = (key: string, value: Tree): Tree => ({ ...emptyMap(whole), entries: new Map([[key, { key: whole, value }]]) });
  return { tree: under('rules', under(id, rule)), problems: [] };
}

function saying(front: Tree, source: Source, head: string): Tree {
  const below = /^---[ \t]*(?:\r?\n|$)/.exec(source.text.slice(head.length))?.[0] ?? '';
  const start = head.length + below.length;
  const text = source.text.slice(start).replaceAll(/\s+/g, ' ').trim();
  if (front.is !== 'map' || text === '') return front;
  const lead = source.text.slice(start).search(/\S/);
  const origin: Origin = { source, start: start + lead, end: source.text.trimEnd().length };
  const entry: Entry = { key: origin, value: { is: 'text', text, origin } };
  return { ...front, entries: new Map([...front.entries, ['says', entry]]) };
}
