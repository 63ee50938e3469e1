import { Document, isMap, isSeq, visit } from 'yaml';
import { byCodeUnit } from '../units/index.ts';
import { mergeTrees } from './merge.ts';
import type { Sources } from './sources.ts';
import { childAt, emptyMap, toPlain } from './tree.ts';

/** From which design each part of a mix is taken. */
export interface MixOf {
  readonly top: string;
  readonly base: string;
  readonly finish: string;
}

/** A variant file made from parts of others. */
export interface Mix {
  /** The file's text. */
  readonly text: string;
  /** Options that could not come along: they change more than what was taken from their design. */
  readonly left: readonly { readonly design: string; readonly option: string }[];
}

/**
 * Which keys of the table go with which part. The base brings all that holds or was made to fit it: height, free parts, joints,
 * fixing, states, bought things, own work, and its overhangs, which are measured from the edge of whichever top lies on it.
 */
const PARTS: Readonly<Record<keyof MixOf, readonly string[]>> = {
  top: ['top'],
  base: ['wood', 'height', 'base', 'parts', 'joints', 'fixing', 'states', 'hardware', 'work', 'stock'],
  finish: ['finish', 'baseFinish'],
};

/** A group of at most so many characters stands in braces. */
const SHORT = 90;

type Plain = string | null | readonly Plain[] | { readonly [key: string]: Plain };
type Group = { readonly [key: string]: Plain };

const isGroup = (value: Plain | undefined): value is Group => typeof value === 'object' && value !== null && !Array.isArray(value);
const groupOf = (value: Plain | undefined): Group => (isGroup(value) ? value : {});
const isSame = (a: Plain | undefined, b: Plain | undefined): boolean => JSON.stringify(a) === JSON.stringify(b);

/**
 * The patch that turns one value into another: keys that are gone are null, lists are written whole, and so is a group whose
 * `kind` changes. The reverse of `mergeTrees`.
 * @source JSON Merge Patch, RFC 7396; the rule about `kind` is this program's
 */
export function patchBetween(from: Group, to: Group): Group {
  const gone = Object.keys(from).filter((key) => !Object.hasOwn(to, key));
  const changed = Object.entries(to).flatMap(([key, value]): readonly (readonly [string, Plain])[] => {
    const before = from[key];
    if (isSame(before, value)) return [];
    const isOther = !isGroup(before) || !isGroup(value) || !isSame(before['kind'], value['kind']);
    return [[key, isOther ? value : patchBetween(before, value)]];
  });
  return Object.fromEntries([...changed, ...gone.map((key): readonly [string, Plain] => [key, null])]);
}

/** The table of a design with none of its options on. */
function tableOf({ shared, variants }: Sources, design: string): Group {
  const variant = variants[design]?.variant;
  if (shared === undefined || variant === undefined) throw new Error(`design ${design} was not read`);
  return groupOf(toPlain(mergeTrees(shared, childAt(variant, 'table') ?? emptyMap(variant.origin))) as Plain);
}

function mixedTable(sources: Sources, of: MixOf): Group {
  const take = (part: keyof MixOf): Group => {
    const table = tableOf(sources, of[part]);
    return Object.fromEntries(PARTS[part].flatMap((key) => (table[key] === undefined ? [] : [[key, table[key] as Plain]])));
  };
  const above = tableOf(sources, of.top);
  const [top, base] = [groupOf(take('top')['top']), take('base')];
  const wood = top['wood'] ?? above['wood'];
  const own = wood === undefined || isSame(wood, base['wood']) ? top : { ...top, wood };
  const stock = { ...groupOf(above['stock']), ...groupOf(base['stock']) };
  return { ...base, top: own, ...(Object.keys(stock).length === 0 ? {} : { stock }), ...take('finish') };
}

type Option = readonly [id: string, option: Group];

/** Options of the designs that change nothing but what was taken from them; one without a patch goes with the base. */
function mixedOptions({ variants }: Sources, of: MixOf): { readonly options: readonly Option[]; readonly left: Mix['left'] } {
  const options = new Map<string, Group>();
  const left: { design: string; option: string }[] = [];
  for (const design of [...new Set([of.base, of.top, of.finish])]) {
    const taken = (['base', 'top', 'finish'] as const).filter((part) => of[part] === design).flatMap((part) => PARTS[part]);
    const variant = variants[design]?.variant;
    const all = groupOf(variant === undefined ? undefined : (toPlain(childAt(variant, 'options') ?? emptyMap(variant.origin)) as Plain));
    for (const [id, option] of Object.entries(all)) {
      const keys = Object.keys(groupOf(groupOf(option)['patch']));
      const comes = keys.length === 0 ? design === of.base : keys.every((key) => taken.includes(key));
      if (comes && !options.has(id)) options.set(id, groupOf(option));
      else if (!options.has(id)) left.push({ design, option: id });
    }
  }
  const kept = [...options].map(([id, option]): Option => {
    const { excludes, ...rest } = option;
    const still = Array.isArray(excludes) ? excludes.filter((other) => typeof other === 'string' && options.has(other)) : [];
    return [id, still.length === 0 ? rest : { ...rest, excludes: still }];
  });
  return { options: kept, left: left.filter(({ option }) => !options.has(option)) };
}

/**
 * A variant with the top of one design, the base of another and the finish of a third, as a patch on the shared table. `words`
 * are its name and why it is offered. Pure: it is read and judged like any other file afterwards.
 */
export function mixVariant(sources: Sources, of: MixOf, words: { readonly name: string; readonly why: string }): Mix {
  const { shared } = sources;
  const table = patchBetween(groupOf(shared === undefined ? undefined : (toPlain(shared) as Plain)), mixedTable(sources, of));
  const { options, left } = mixedOptions(sources, of);
  const content = {
    ...words,
    ...(Object.keys(table).length === 0 ? {} : { table }),
    ...(options.length === 0 ? {} : { options: Object.fromEntries(options) }),
  };
  const document = new Document(asTexts(content), { schema: 'failsafe' });
  visit(document, (_key, node) => {
    if (isSeq(node) || (isMap(node) && JSON.stringify(node).length <= SHORT)) node.flow = true;
  });
  document.commentBefore = ` Top of ${of.top}, base of ${of.base}, finish of ${of.finish}.`;
  return {
    text: document.toString({ lineWidth: 0, flowCollectionPadding: true }),
    left: left.toSorted((a, b) => byCodeUnit(a.design, b.design) || byCodeUnit(a.option, b.option)),
  };
}

/** A key that a patch takes away is written as the word null. */
const asTexts = (value: Plain): Plain => {
  if (value === null) return 'null';
  if (Array.isArray(value)) return (value as readonly Plain[]).map(asTexts);
  return isGroup(value) ? Object.fromEntries(Object.entries(value).map(([key, one]) => [key, asTexts(one)])) : value;
};
