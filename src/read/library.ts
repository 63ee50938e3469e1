import { hasErrors, nearestName, type Problem, type SpecPath } from '../problem/index.ts';
import { checkSpec, type Library, SCHEMAS } from '../spec/index.ts';
import { exists, namesIn, PROGRAM_TEMPLATES, readText, sameFolder } from './files.ts';
import { mergeTrees } from './merge.ts';
import { parseFile } from './parse.ts';
import type { LibraryTrees } from './sources.ts';
import { type Source, type Tree, toPlain } from './tree.ts';

/** Where templates lie: the workspace's own first, the program's beneath. */
export interface TemplatePlaces {
  readonly own: string;
  /** Absent where the workspace is the program's own, or where a frozen revision holds none. */
  readonly beneath?: { readonly folder: string; readonly shown: string };
}

/** What `spec/` checks a value of this type with. */
type Schema<T> = Parameters<typeof checkSpec<T>>[0];

/**
 * The places of a workspace's templates. A frozen revision carries what it took from the program in `program/templates`, and looks
 * nowhere else.
 */
export function templatePlaces(root: string, frozen: boolean): TemplatePlaces {
  const own = `${root}/templates`;
  if (frozen)
    return exists(root, 'program/templates')
      ? { own, beneath: { folder: `${root}/program/templates`, shown: 'program/templates' } }
      : { own };
  return sameFolder(own, PROGRAM_TEMPLATES) ? { own } : { own, beneath: { folder: PROGRAM_TEMPLATES, shown: 'program/templates' } };
}

/** The library of one proposal, as far as it could be read. */
export interface LibraryRead {
  /** Absent where a part is missing or wrong. */
  readonly library?: Library;
  readonly trees: LibraryTrees;
  readonly files: readonly Source[];
  readonly problems: readonly Problem[];
}

/** What the proposal names of the library. */
export interface Named {
  readonly rates: string;
  readonly terms: string;
  readonly language: string;
}

interface Part<T> {
  readonly value?: T;
  readonly tree?: Tree;
  readonly files: readonly Source[];
  readonly problems: readonly Problem[];
}

/**
 * Reads the library that a proposal needs. Woods, materials, finishes, load cases and texts of the workspace are laid over the
 * program's key by key; shop rates, terms and the maker are taken whole. Codes: those of files and schemas, `read/unknown-name`.
 */
export function readLibrary(places: TemplatePlaces, named: Named): LibraryRead {
  const woods = laidOver('woods', ['woods.yaml'], places, SCHEMAS.woods);
  const materials = laidOver('materials', ['materials.yaml'], places, SCHEMAS.materials);
  const finishes = laidOver('finishes', ['finishes.yaml'], places, SCHEMAS.finishes);
  const loadCases = laidOver('loadCases', ['load-cases.yaml'], places, SCHEMAS.loadCases);
  const maker = whole('maker', 'maker.yaml', places, SCHEMAS.maker);
  const rates = chosen('rates', 'rates', named.rates, places, SCHEMAS.rates);
  const terms = chosen('terms', 'terms', named.terms, places, SCHEMAS.terms);
  const texts = textsOf(named.language, places);
  const parts = { woods, materials, finishes, loadCases, rates, maker, terms, texts };
  const trees = Object.fromEntries(Object.entries(parts).flatMap(([key, { tree }]) => (tree === undefined ? [] : [[key, tree] as const])));
  const all = Object.values(parts);
  return {
    ...complete(parts),
    trees,
    files: all.flatMap((part) => part.files),
    problems: all.flatMap((part) => part.problems),
  };
}

/** The maker alone, for what does not depend on a draft. Codes: those of files and schemas. */
export function readMaker(root: string): { readonly maker?: Library['maker']; readonly problems: readonly Problem[] } {
  const { value, problems } = whole('maker', 'maker.yaml', templatePlaces(root, false), SCHEMAS.maker);
  return value === undefined ? { problems } : { maker: value, problems };
}

/** The texts of a language alone, as a workspace has them today; none where they can not be read. */
export const readTexts = (root: string, language: string): Library['texts'] => textsOf(language, templatePlaces(root, false)).value ?? {};

type Parts = { readonly [K in keyof Library]: Part<Library[K]> };

function complete(parts: Parts): { readonly library?: Library } {
  const { woods, materials, finishes, loadCases } = parts;
  if (woods.value === undefined || materials.value === undefined || finishes.value === undefined || loadCases.value === undefined)
    return {};
  const { rates, maker, terms, texts } = parts;
  if (rates.value === undefined || maker.value === undefined || terms.value === undefined || texts.value === undefined) return {};
  const tables = { woods: woods.value, materials: materials.value, finishes: finishes.value, loadCases: loadCases.value };
  return { library: { ...tables, rates: rates.value, maker: maker.value, terms: terms.value, texts: texts.value } };
}

/** Files of the program's and the workspace's templates, the latter laid over the former; at least one of all must be there. */
function laidOver<T>(key: keyof Library, names: readonly string[], places: TemplatePlaces, schema: Schema<T>): Part<T> {
  const read = names.flatMap((name) => [...beneath(places, name), ...own(places, name)]);
  if (read.length === 0) return { files: [], problems: readText(places.own, names[0] ?? '', `templates/${names[0]}`).problems };
  return checkedPart(key, read, schema);
}

function whole<T>(key: keyof Library, name: string, places: TemplatePlaces, schema: Schema<T>): Part<T> {
  const mine = own(places, name);
  const read = mine.length > 0 ? mine : beneath(places, name);
  if (read.length === 0) return { files: [], problems: readText(places.own, name, `templates/${name}`).problems };
  return checkedPart(key, read, schema);
}

function chosen<T>(key: 'rates' | 'terms', folder: string, id: string, places: TemplatePlaces, schema: Schema<T>): Part<T> {
  const name = `${folder}/${id}.yaml`;
  if (exists(places.own, name) || (places.beneath !== undefined && exists(places.beneath.folder, name)))
    return whole(key, name, places, schema);
  return { files: [], problems: [unknownFile(`there is no file templates/${name}`, ['proposal', key], id, key, idsIn(places, folder))] };
}

/** The English that has every text; another English holds what differs. */
const FULL_ENGLISH = 'en-GB';

function textsOf(language: string, places: TemplatePlaces): Part<Library['texts']> {
  const known = idsIn(places, 'texts');
  const wider = language.split('-')[0] ?? language;
  const isKnown = known.includes(wider) || known.includes(language);
  const names = [...new Set([...(wider === 'en' ? [FULL_ENGLISH] : []), wider, language])].filter((tag) => known.includes(tag));
  if (!isKnown) {
    return {
      files: [],
      problems: [unknownFile(`there are no texts in ${language}`, ['proposal', 'language'], language, 'language', known)],
    };
  }
  return laidOver(
    'texts',
    names.map((tag) => `texts/${tag}.yaml`),
    places,
    SCHEMAS.texts,
  );
}

function unknownFile(title: string, path: SpecPath, id: string, key: string, known: readonly string[]): Problem {
  const near = nearestName(id, known);
  return {
    code: 'read/unknown-name',
    severity: 'error',
    title,
    path,
    found: id,
    ...(known.length === 0 ? {} : { allowed: known.join(', ') }),
    ...(near === undefined ? {} : { mend: `write ${key}: ${near}` }),
  };
}

function idsIn(places: TemplatePlaces, folder: string): readonly string[] {
  const names = [...namesIn(places.own, folder), ...(places.beneath === undefined ? [] : namesIn(places.beneath.folder, folder))];
  return [...new Set(names.filter((name) => name.endsWith('.yaml')).map((name) => name.slice(0, -5)))];
}

type Read = ReturnType<typeof readText>;

function own(places: TemplatePlaces, name: string): readonly Read[] {
  return exists(places.own, name) ? [readText(places.own, name, `templates/${name}`)] : [];
}

function beneath({ beneath: under }: TemplatePlaces, name: string): readonly Read[] {
  return under !== undefined && exists(under.folder, name) ? [readText(under.folder, name, `${under.shown}/${name}`)] : [];
}

function checkedPart<T>(key: keyof Library, read: readonly Read[], schema: Schema<T>): Part<T> {
  const files = read.flatMap(({ source }) => (source === undefined ? [] : [source]));
  const parsed = files.map((source) => parseFile(source));
  const problems = [...read.flatMap((one) => one.problems), ...parsed.flatMap((one) => one.problems)];
  const trees = parsed.flatMap(({ tree }) => (tree === undefined ? [] : [tree]));
  const tree = trees.reduce<Tree | undefined>((under, over) => mergeTrees(under, over), undefined);
  if (tree === undefined || hasErrors(problems)) return { files, problems, ...(tree === undefined ? {} : { tree }) };
  const checked = checkSpec(schema, toPlain(tree), ['library', key]);
  return { ...(checked.value === undefined ? {} : { value: checked.value }), tree, files, problems: checked.problems };
}
