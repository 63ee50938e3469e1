import { type Document, isAlias, isMap, isPair, isScalar, isSeq, type Pair, type ParsedNode, parseDocument, type YAMLMap } from 'yaml';
import { flowText, indented, lineEndAt, lineStartAt, readValue, type ValueText } from './edit-text.ts';

/** One edit of a YAML text. `value` is YAML source text, block or flow, without indentation of its own; undefined takes the key away. */
export interface YamlEdit {
  /** Keys from the top of the file; a figure is a place in a list, counted from 0. */
  readonly path: readonly string[];
  readonly value: string | undefined;
}

/** An edit that can not be made in place. Nothing was edited. */
export class YamlEditFault extends Error {
  readonly path: readonly string[];
  constructor(path: readonly string[], why: string) {
    super(`${path.join('.')} can not be edited: ${why}`);
    this.name = 'YamlEditFault';
    this.path = path;
  }
}

/**
 * Edits YAML in place, one edit after the other. Whatever is not edited stays as it was, byte for byte: comments, blank lines,
 * line ends, quotes, anchors. A value that is replaced keeps the comment on its line; a key that is taken away takes the
 * comment lines directly above it with it, but not the head of the file. Missing keys above are made. What the text then says
 * is read again and compared: an edit that would say something else throws.
 * Throws a YamlEditFault.
 */
export function editYaml(text: string, edits: readonly YamlEdit[]): string {
  const mark = text.startsWith(BYTE_ORDER_MARK) ? BYTE_ORDER_MARK : '';
  return mark + edits.reduce((now, edit) => editOnce(now, edit), text.slice(mark.length));
}

/** Some editors write it before the first line; it is no part of that line's indentation. */
const BYTE_ORDER_MARK = '\uFEFF';

function editOnce(text: string, { path, value }: YamlEdit): string {
  const document = parsed(text, path);
  const wanted = plainEdit(plainData(document, path), path, value === undefined ? undefined : plainData(parsed(value, path), path));
  const given = value === undefined ? undefined : readValue(value);
  if (value !== undefined && given === undefined) throw new YamlEditFault(path, 'the new value is empty');
  const edited = given === undefined ? withoutKey(text, document, path) : withValue(text, document, path, given);
  if (JSON.stringify(plainData(parsed(edited, path, true), path)) !== JSON.stringify(wanted))
    throw new YamlEditFault(path, 'it would change something else as well, such as what an alias stands for');
  return edited;
}

function parsed(text: string, path: readonly string[], isEdited = false): Document.Parsed<ParsedNode> {
  const document = parseDocument(text, { schema: 'failsafe', keepSourceTokens: true, prettyErrors: false, logLevel: 'error' });
  const [error] = document.errors;
  if (error !== undefined && isEdited) throw new YamlEditFault(path, 'the text would no longer be sound YAML');
  if (error !== undefined) throw new YamlEditFault(path, `the text is not sound YAML at character ${error.pos[0] + 1}`);
  return document;
}

type Plain = string | null | Plain[] | { [key: string]: Plain };

/** What the text says, each alias a copy of its own. */
function plainData(document: Document.Parsed<ParsedNode>, path: readonly string[]): Plain {
  try {
    return JSON.parse(JSON.stringify(document.toJS({ maxAliasCount: 1000 }) ?? null)) as Plain;
  } catch {
    throw new YamlEditFault(path, 'an alias would stand for nothing, or for too much');
  }
}

/** The same edit on plain data: what the edited text has to say. */
function plainEdit(data: Plain, path: readonly string[], value: Plain | undefined, from = 0): Plain {
  const key = path[from];
  const isLast = from === path.length - 1;
  if (key === undefined) throw new YamlEditFault(path, 'there is no key to edit');
  if (Array.isArray(data)) {
    const at = Number(key);
    if (data[at] === undefined || (isLast && value === undefined))
      throw new YamlEditFault(path, 'a place in a list can be replaced, not added or taken away');
    return data.map((item, i) => (i !== at ? item : isLast ? (value ?? null) : plainEdit(item, path, value, from + 1)));
  }
  if (typeof data === 'string' && data !== '') throw new YamlEditFault(path, `what stands above ${key} is no group of keys`);
  const group = typeof data === 'object' && data !== null ? data : {};
  if (value === undefined && (!Object.hasOwn(group, key) || (!isLast && typeof group[key] === 'string')))
    throw new YamlEditFault(path, 'there is no such key');
  if (!isLast) return { ...group, [key]: plainEdit(group[key] ?? null, path, value, from + 1) };
  if (value !== undefined) return { ...group, [key]: value };
  const { [key]: _gone, ...others } = group;
  return others;
}

type AnyPair = Pair<ParsedNode, ParsedNode | null>;

interface Found {
  /** The node at the end of what is there. */
  readonly node: ParsedNode | null;
  /** The pair that holds it, unless it is the whole file or an item of a list; and the group of that pair. */
  readonly pair?: AnyPair;
  readonly group?: YAMLMap;
  readonly parent?: Found;
  readonly missing: readonly string[];
}

/** Follows a path as far as it goes. */
function find(document: Document.Parsed<ParsedNode>, path: readonly string[]): Found {
  let found: Found = { node: document.contents, missing: path };
  for (const [i, key] of path.entries()) {
    const { node } = found;
    if (isAlias(node)) throw new YamlEditFault(path, 'an alias stands above it');
    if (isSeq(node)) {
      const item = node.items[Number(key)];
      if (item === undefined || isPair(item)) throw new YamlEditFault(path, 'there is no such place in the list');
      found = { node: item as ParsedNode, parent: found, missing: path.slice(i + 1) };
      continue;
    }
    if (!isMap(node)) return found;
    const pair = (node.items as AnyPair[]).find((one) => isScalar(one.key) && String(one.key.value) === key);
    if (pair === undefined) return found;
    found = { node: pair.value, pair, group: node as YAMLMap, parent: found, missing: path.slice(i + 1) };
  }
  return found;
}

const isFlow = (node: ParsedNode | null | YAMLMap | undefined): boolean => (isMap(node) || isSeq(node)) && (node as YAMLMap).flow === true;
const isNothing = (node: ParsedNode | null): boolean => node === null || (isScalar(node) && node.value === '' && node.type === 'PLAIN');

/** Where a key begins, and where the colon after it ends. */
function keyPlace(pair: AnyPair, path: readonly string[]): { readonly start: number; readonly colonEnd: number } {
  const token = pair.srcToken;
  const colon = token?.sep?.find(({ type }) => type === 'map-value-ind');
  if (token === undefined || colon === undefined || token.start.some(({ type }) => type === 'explicit-key-ind'))
    throw new YamlEditFault(path, 'its key is written in a way that this program does not edit');
  return { start: pair.key.range[0], colonEnd: colon.offset + 1 };
}

/** Where the last sign of a value ends: blank lines after a block are not its own. */
function endOf(text: string, node: ParsedNode | null, otherwise: number): number {
  if (node === null || isNothing(node)) return otherwise;
  const [start, end] = node.range;
  const isKept = isScalar(node) && (node.type === 'BLOCK_LITERAL' || node.type === 'BLOCK_FOLDED') && /^[|>]\d?\+/.test(text.slice(start));
  if (isKept) return text.slice(0, end).endsWith('\n') ? lineEndAt(text, end - 1) : end;
  if ((isMap(node) || isSeq(node)) && !isFlow(node)) {
    const last = node.items.at(-1);
    if (isPair(last)) return endOf(text, (last as AnyPair).value, keyEnd(last as AnyPair));
    if (last !== undefined && !isNothing(last as ParsedNode)) return endOf(text, last as ParsedNode, otherwise);
  }
  return start + text.slice(start, end).trimEnd().length;
}

/** After the colon of a key, or after the key where it has none. */
const keyEnd = (pair: AnyPair): number => {
  const colon = pair.srcToken?.sep?.find(({ type }) => type === 'map-value-ind');
  return colon === undefined ? pair.key.range[1] : colon.offset + 1;
};

/** The end of a value's last line, with the comment lines below it that stand deeper than its key. */
function lastLineEnd(text: string, end: number, column: number): number {
  let at = lineEndAt(text, end);
  while (at < text.length) {
    const next = text.indexOf('\n', at) + 1;
    const indent = /^ *(?=#)/.exec(text.slice(next))?.[0].length;
    if (next === 0 || indent === undefined || indent <= column) return at;
    at = lineEndAt(text, next);
  }
  return at;
}

const isBlockText = (node: ParsedNode | null): boolean => isScalar(node) && (node.type === 'BLOCK_LITERAL' || node.type === 'BLOCK_FOLDED');
const isBlock = (node: ParsedNode | null): boolean => isBlockText(node) || ((isMap(node) || isSeq(node)) && !isFlow(node));

function withValue(text: string, document: Document.Parsed<ParsedNode>, path: readonly string[], value: ValueText): string {
  const found = find(document, path);
  if (found.missing.length === 0) return found.pair === undefined ? inPlace(text, found, path, value) : replaced(text, found, path, value);
  const { node, pair, group, missing } = found;
  if (isFlow(node) && isMap(node) && (node.items.length > 0 || pair === undefined || isFlow(group)))
    return addedInFlow(text, node as YAMLMap, missing, value);
  if (isMap(node) && !isFlow(node)) return addedInBlock(text, node as YAMLMap, missing, path, value);
  if (pair !== undefined && (isNothing(node) || isMap(node))) return replaced(text, found, path, nested(missing, value));
  if (document.contents === null || isNothing(document.contents)) {
    const eol = lineEndOf(text);
    return `${text}${text === '' || text.endsWith('\n') ? '' : eol}${nested(missing, value).lines.join(eol)}${eol}`;
  }
  throw new YamlEditFault(path, 'what stands above it is no group of keys');
}

/** The value below keys that are not there yet. */
const nested = (keys: readonly string[], value: ValueText): ValueText =>
  keys.reduceRight<ValueText>((inner, key) => {
    const [first = '', ...rest] = inner.lines;
    const lines = inner.is === 'block' ? [`${key}:`, ...indented(inner.lines, 2)] : [`${key}: ${first}`, ...indented(rest, 2)];
    return { is: 'block', lines };
  }, value);

/** An item of a list, replaced on its line. */
function inPlace(text: string, { node, parent }: Found, path: readonly string[], value: ValueText): string {
  if (node === null || isBlock(node)) throw new YamlEditFault(path, 'an item of a list is replaced only where it stands on one line');
  const inFlow = isFlow(parent?.node ?? null);
  if (!inFlow && value.is !== 'inline') throw new YamlEditFault(path, 'an item of a list is replaced only by a value on one line');
  return text.slice(0, node.range[0]) + (inFlow ? flowText(value) : (value.lines[0] ?? '')) + text.slice(endOf(text, node, node.range[1]));
}

const lineEndOf = (text: string): string => (/\r?\n/.exec(text)?.[0] === '\r\n' ? '\r\n' : '\n');
const columnOf = (text: string, at: number): number => at - lineStartAt(text, at);

function replaced(text: string, { node, pair, group }: Found, path: readonly string[], value: ValueText): string {
  if (pair === undefined) throw new YamlEditFault(path, 'it has no key');
  const { start, colonEnd } = keyPlace(pair, path);
  const end = endOf(text, node, colonEnd);
  if (isFlow(group)) return `${text.slice(0, colonEnd)} ${flowText(value)}${text.slice(end)}`;
  const between = text.slice(colonEnd, end);
  const staysOnLine = value.is === 'inline' && !isBlock(node) && !isNothing(node) && !between.trimStart().includes('\n');
  const space = /^[ \t]+(?=\S)/.exec(between)?.[0] ?? ' ';
  if (staysOnLine) return text.slice(0, colonEnd) + space + (value.lines[0] ?? '') + text.slice(end);
  const keyLine = text.slice(colonEnd, lineEndAt(text, colonEnd));
  const comment = isBlock(node) || isNothing(node) ? (/(?:^|[ \t])(#.*)$/.exec(keyLine)?.[1] ?? '') : endComment(text, end);
  const column = columnOf(text, start);
  const rest = isBlock(node) ? lastLineEnd(text, end, column) : lineEndAt(text, isNothing(node) ? colonEnd : end);
  const eol = lineEndOf(text);
  const [first = '', ...others] = value.lines;
  const head = [value.is === 'block' ? '' : first, comment].filter((part) => part !== '').join(' ');
  const below = indented(value.is === 'block' ? value.lines : others, column + 2);
  return text.slice(0, colonEnd) + [head === '' ? '' : ` ${head}`, ...below].join(eol) + text.slice(rest);
}

const endComment = (text: string, end: number): string => /^[ \t]+(#.*)$/.exec(text.slice(end, lineEndAt(text, end)))?.[1] ?? '';

function addedInFlow(text: string, group: YAMLMap, keys: readonly string[], value: ValueText): string {
  const last = (group.items as AnyPair[]).at(-1);
  const inner = keys.slice(1).reduceRight((nestedText, key) => `{ ${key}: ${nestedText} }`, flowText(value));
  const added = `${keys[0] ?? ''}: ${inner}`;
  const [start = 0, close = 0] = group.range ?? [];
  if (last === undefined) return `${text.slice(0, start)}{ ${added} }${text.slice(close)}`;
  const after = endOf(text, last.value, last.key.range[1]);
  return `${text.slice(0, after)}, ${added}${text.slice(after)}`;
}

function addedInBlock(text: string, group: YAMLMap, keys: readonly string[], path: readonly string[], value: ValueText): string {
  const pairs = group.items as AnyPair[];
  const [first, last] = [pairs[0], pairs.at(-1)];
  if (first === undefined || last === undefined) throw new YamlEditFault(path, 'the group above it is empty');
  const indent = columnOf(text, keyPlace(first, path).start);
  const at = lastLineEnd(text, endOf(text, last.value, keyEnd(last)), indent);
  const eol = lineEndOf(text);
  const lines = indented(nested(keys, value).lines, indent).join(eol);
  return at >= text.length && !text.endsWith('\n') ? `${text}${eol}${lines}${eol}` : `${text.slice(0, at)}${eol}${lines}${text.slice(at)}`;
}

function withoutKey(text: string, document: Document.Parsed<ParsedNode>, path: readonly string[]): string {
  const { node, pair, group, parent, missing } = find(document, path);
  if (missing.length > 0 || pair === undefined || group === undefined) throw new YamlEditFault(path, 'there is no such key');
  const pairs = group.items as AnyPair[];
  if (isFlow(group)) return withoutFlowPair(text, pairs, pair, group);
  const { start, colonEnd } = keyPlace(pair, path);
  const end = lastLineEnd(text, endOf(text, node, colonEnd), columnOf(text, start));
  if (pairs.length === 1) {
    if (parent?.pair === undefined) throw new YamlEditFault(path, 'nothing would be left');
    return replaced(text, parent, path, { is: 'inline', lines: ['{}'] });
  }
  const lineStart = lineStartAt(text, start);
  const next = text.startsWith('\r\n', end) ? end + 2 : Math.min(end + 1, text.length);
  /** The first key of an item of a list shares its line with the hyphen: the next one moves up to it. */
  if (text.slice(lineStart, start).trim() !== '') return text.slice(0, start) + text.slice(next).trimStart();
  return text.slice(0, commentsAbove(text, lineStart)) + text.slice(next);
}

/** Where the comment lines directly above a line begin; those that head the file are the file's. */
function commentsAbove(text: string, lineStart: number): number {
  const indent = /^ */.exec(text.slice(lineStart))?.[0].length ?? 0;
  let at = lineStart;
  while (at > 0) {
    const above = lineStartAt(text, at - 1);
    const line = text.slice(above, at);
    if (!/^ *#/.test(line) || line.search(/#/) !== indent) return at;
    at = above;
  }
  return lineStart;
}

function withoutFlowPair(text: string, pairs: readonly AnyPair[], pair: AnyPair, group: YAMLMap): string {
  const i = pairs.indexOf(pair);
  const [before, next] = [pairs[i - 1], pairs[i + 1]];
  const [start = 0, close = 0] = group.range ?? [];
  if (before === undefined && next === undefined) return `${text.slice(0, start)}{}${text.slice(close)}`;
  if (next !== undefined) return text.slice(0, pair.key.range[0]) + text.slice(next.key.range[0]);
  const from = before === undefined ? start : endOf(text, before.value, before.key.range[1]);
  return text.slice(0, from) + text.slice(endOf(text, pair.value, pair.key.range[1]));
}
