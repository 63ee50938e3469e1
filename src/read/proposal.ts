import { hasErrors, orderProblems, type Problem } from '../problem/index.ts';
import {
  checkSpec,
  completeProposal,
  ID,
  ID_IN_WORDS,
  type Library,
  libraryLaws,
  type ProposalInput,
  type ProposalSpec,
  proposalLaws,
  SCHEMAS,
  type TableSpec,
  tableLaws,
  termsLaws,
  type VariantInput,
  type VariantSpec,
  variantLaws,
  variantOf,
} from '../spec/index.ts';
import type { BareUnit } from '../units/index.ts';
import { byCodeUnit } from '../units/index.ts';
import { type FileRead, foldersIn, namesIn, readText } from './files.ts';
import { readLibrary, templatePlaces } from './library.ts';
import { mergeTrees } from './merge.ts';
import { libraryNames, proposalNames, tableNames, variantNames } from './names.ts';
import { combine } from './options.ts';
import { parseFile } from './parse.ts';
import { problemAt, problemOfFile } from './place.ts';
import { placeProblems, type Sources } from './sources.ts';
import { childAt, emptyMap, type Source, type Tree, textAt, toPlain } from './tree.ts';

/** How a proposal is read. */
export interface ReadOptions {
  /** The folder is that of an issued revision: it holds all it came from, and the program's templates stay out of it. */
  readonly frozen?: boolean;
}

/** A proposal as far as it could be read. */
export interface ProposalRead {
  /** Absent where there is an error. */
  readonly input?: ProposalInput;
  /** All that was found, each with its place, in the order of files and lines. */
  readonly problems: readonly Problem[];
  /** Turns paths of the effective spec into lines of files, for problems of later rooms. */
  readonly sources: Sources;
}

/** Names that some systems keep for devices, whatever the ending. */
const DEVICES = /^(?:con|prn|aux|nul|com\d|lpt\d)$/;

/**
 * Reads and checks one proposal of a workspace: `proposals/<slug>/proposal.yaml`, `table.yaml`, `variants/*.yaml` and the templates
 * they name. `root` is the workspace or the `in/` folder of an issued revision. Never throws for what a maker wrote.
 */
export function readProposal(root: string, slug: string, options: ReadOptions = {}): ProposalRead {
  const folder = `proposals/${slug}`;
  if (!ID.test(slug) || DEVICES.test(slug)) {
    const title = `a proposal can not be called ${slug}`;
    return {
      problems: [problemOfFile('read/bad-slug', title, folder, { allowed: ID_IN_WORDS, mend: 'rename the folder' })],
      sources: NOTHING,
    };
  }
  const file = (name: string) => fileTree(readText(`${root}/${folder}`, name, `${folder}/${name}`));
  const main = file('proposal.yaml');
  const shared = file('table.yaml');
  const bare = unitsOf(main);
  const listed = variantFiles(root, folder);
  const variants = listed.ids.map((id) => readVariant(id, file(`variants/${id.toLowerCase()}.yaml`), shared.tree, bare));
  const proposal = main.tree === undefined ? undefined : checkProposal(main.tree, bare);
  const names = {
    rates: textAt(main.tree, 'rates') ?? '',
    terms: textAt(main.tree, 'terms') ?? '',
    language: textAt(main.tree, 'language') ?? 'en-GB',
  };
  const named = ID.test(names.rates) && ID.test(names.terms) && /^[a-zA-Z-]+$/.test(names.language);
  const library = named ? readLibrary(templatePlaces(root, options.frozen === true), names) : { trees: {}, files: [], problems: [] };
  const sources: Sources = {
    ...(main.tree === undefined ? {} : { proposal: main.tree }),
    ...(shared.tree === undefined ? {} : { shared: shared.tree }),
    library: library.trees,
    variants: Object.fromEntries(
      variants.flatMap(({ id, tree, tables }) => (tree === undefined ? [] : [[id, { variant: tree, tables }] as const])),
    ),
  };
  const found = [
    ...main.problems,
    ...shared.problems,
    ...listed.problems,
    ...(proposal?.problems ?? []),
    ...variants.flatMap((one) => one.problems),
    ...library.problems,
    ...across(proposal?.value, library.library, variants),
  ];
  const problems = orderProblems(once(placeProblems(sources, found), variants.filter(({ tables }) => tables.length > 0).length));
  if (hasErrors(problems) || proposal?.value === undefined || library.library === undefined) return { problems, sources };
  const files = [main, shared, ...variants].flatMap((one) => one.files).concat(library.files);
  const input: ProposalInput = {
    slug,
    proposal: proposal.value,
    library: library.library,
    variants: variants.flatMap(({ input: one }) => (one === undefined ? [] : [one])),
    files: files.toSorted((a, b) => byCodeUnit(a.path, b.path)),
    warnings: problems,
  };
  return { input, problems, sources };
}

const NOTHING: Sources = { library: {}, variants: {} };

/** Names of all proposals of a workspace, by code unit; whether a name is a good one is for `readProposal` to say. */
export function readWorkspace(root: string): readonly string[] {
  return foldersIn(root, 'proposals').filter((name) => !name.startsWith('.') && !name.startsWith('_'));
}

interface FileTree {
  readonly tree?: Tree;
  readonly files: readonly Source[];
  readonly problems: readonly Problem[];
}

/** The unit of bare numbers. Where the file is no sound YAML its line tells, so that the other files are not misread. */
function unitsOf({ tree, files }: FileTree): BareUnit {
  const said = tree === undefined ? /^units:[ \t]*(\w+)/m.exec(files[0]?.text ?? '')?.[1] : textAt(tree, 'units');
  return said === 'in' ? 'in' : 'mm';
}

function fileTree({ source, problems }: FileRead): FileTree {
  if (source === undefined) return { files: [], problems };
  const parsed = parseFile(source);
  if (parsed.tree === undefined || parsed.tree.is === 'map') return { ...parsed, files: [source] };
  const mend = 'begin each line with a key and a colon';
  return {
    files: [source],
    problems: [problemAt('read/no-keys', 'this file does not hold keys with values', parsed.tree.origin, { mend })],
  };
}

function variantFiles(root: string, folder: string): { readonly ids: readonly string[]; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const ids: string[] = [];
  for (const name of namesIn(root, `${folder}/variants`)) {
    if (name.startsWith('.') || name.endsWith('~')) continue;
    const stem = name.endsWith('.yaml') ? name.slice(0, -5) : undefined;
    if (stem !== undefined && ID.test(stem)) ids.push(stem.toUpperCase());
    else problems.push(oddFile(`${folder}/variants/${name}`));
  }
  if (ids.length === 0) {
    const mend = 'make variants/a.yaml with name:, why: and what differs under table:';
    problems.push(problemOfFile('read/no-variants', 'the proposal has no variant', `${folder}/variants`, { mend }));
  }
  return { ids, problems };
}

function oddFile(path: string): Problem {
  const title = 'this file is not read: its name is not that of a variant';
  const rest = { allowed: 'names such as a.yaml or b2.yaml, in small letters', mend: 'rename it, or move it elsewhere' };
  return { ...problemOfFile('read/odd-file', title, path, rest), severity: 'warning' };
}

function checkProposal(tree: Tree, bare: BareUnit): { readonly value?: ProposalSpec; readonly problems: readonly Problem[] } {
  const { value, problems } = checkSpec(SCHEMAS.proposal[bare], toPlain(tree), ['proposal']);
  if (value === undefined) return { problems };
  const proposal = completeProposal(value);
  return { value: proposal, problems: [...problems, ...proposalLaws(proposal)] };
}

interface VariantRead extends FileTree {
  readonly id: string;
  readonly spec?: VariantSpec;
  /** Merged tables, the default choice first. */
  readonly tables: readonly Tree[];
  readonly input?: VariantInput;
}

function readVariant(id: string, file: FileTree, shared: Tree | undefined, bare: BareUnit): VariantRead {
  const start: VariantRead = { ...file, id, tables: [] };
  if (file.tree === undefined) return start;
  const tree = file.tree;
  const words = checkSpec(SCHEMAS.variant, toPlain(tree), ['variant']);
  const said = words.problems.map((problem) => ({ ...problem, variant: id }));
  if (shared === undefined || words.value === undefined) return { ...start, problems: [...file.problems, ...said] };
  const spec = variantOf(id, words.value);
  const { combinations, problems } = combine(spec.options, tree, id);
  const base = mergeTrees(shared, childAt(tree, 'table') ?? emptyMap(tree.origin));
  const merged = combinations.map((one) => ({
    ...one,
    tree: one.choice.reduce((table, option) => mergeTrees(table, patchOf(tree, option)), base),
  }));
  const checked = merged.map((one) => {
    const table = checkTable(one.tree, bare);
    return { ...one, ...table, problems: placedIn(id, tree, one.tree, table.problems) };
  });
  const laws = variantLaws(spec).map((problem) => ({ ...problem, variant: id }));
  const of = [...laws, ...checked.flatMap((one) => one.problems)];
  const tables = checked.flatMap(({ choice, isDefault, value }) => (value === undefined ? [] : [{ choice, isDefault, table: value }]));
  return {
    ...start,
    spec,
    tables: merged.length === 0 ? [base] : merged.map((one) => one.tree),
    problems: [...file.problems, ...said, ...problems, ...of],
    ...(tables.length === combinations.length && tables.length > 0 ? { input: { variant: spec, combinations: tables } } : {}),
  };
}

/** Problems of one combination, placed where that combination's table was written. */
function placedIn(id: string, variant: Tree | undefined, table: Tree | undefined, problems: readonly Problem[]): readonly Problem[] {
  if (variant === undefined || table === undefined) return problems;
  const sources: Sources = { library: {}, variants: { [id]: { variant, tables: [table] } } };
  return placeProblems(
    sources,
    problems.map((problem) => ({ ...problem, variant: id })),
  );
}

function patchOf(tree: Tree, option: string): Tree {
  return childAt(childAt(childAt(tree, 'options'), option), 'patch') ?? emptyMap(tree.origin);
}

function checkTable(tree: Tree, bare: BareUnit): { readonly value?: TableSpec; readonly problems: readonly Problem[] } {
  const { value, problems } = checkSpec(SCHEMAS.table[bare], toPlain(tree), ['table']);
  return value === undefined ? { problems } : { value, problems: [...problems, ...tableLaws(value)] };
}

/** Checks that need more than one file; as many of them as what could be read allows. */
function across(proposal: ProposalSpec | undefined, library: Library | undefined, variants: readonly VariantRead[]): readonly Problem[] {
  const problems: Problem[] = [];
  if (library !== undefined)
    problems.push(...libraryLaws(library.finishes, library.loadCases), ...termsLaws(library.terms), ...libraryNames(library));
  if (proposal !== undefined && library !== undefined) {
    problems.push(
      ...proposalNames(
        proposal,
        library,
        variants.map(({ id }) => id),
      ),
    );
  }
  for (const { id, spec, input, tree, tables } of variants) {
    const of = [
      ...(spec === undefined || proposal === undefined ? [] : variantNames(spec, proposal)),
      ...(input === undefined || library === undefined
        ? []
        : input.combinations.flatMap(({ table }, index) => placedIn(id, tree, tables[index], tableNames(table, library)))),
    ];
    problems.push(...of.map((problem) => ({ ...problem, variant: id })));
  }
  return problems;
}

/**
 * Each problem once: the same line of a shared file is found through every variant and combination. The variant stays named where
 * a line of a shared file is at fault in some variants alone.
 */
function once(problems: readonly Problem[], all: number): readonly Problem[] {
  const groups = new Map<string, Problem[]>();
  for (const problem of problems) {
    const { place } = problem;
    const where = place === undefined ? problem.path.join('.') : `${place.file}:${place.line}:${place.column}`;
    const key = [problem.code, problem.title, where].join('|');
    groups.set(key, [...(groups.get(key) ?? []), problem]);
  }
  return [...groups.values()].flatMap((group) => {
    const [first] = group;
    if (first === undefined) return [];
    const variants = new Set(group.flatMap(({ variant }) => (variant === undefined ? [] : [variant])));
    const ownFile = first.place?.file.includes('/variants/') === true;
    if (!ownFile && variants.size > 0 && variants.size < all) return [first];
    const { variant: _variant, ...rest } = first;
    return [rest];
  });
}
