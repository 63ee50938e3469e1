import { isCollection, isScalar, parseDocument } from 'yaml';

/**
 * A value as text, ready to be placed: on the key's line (`inline`), from the key's line on (`text`, a block scalar whose first
 * line is its header), or on the lines below (`block`). Lines have no indentation of their own.
 */
export interface ValueText {
  readonly is: 'inline' | 'text' | 'block';
  readonly lines: readonly string[];
}

/** Reads YAML source text as a value to be placed; nothing where it is empty. */
export function readValue(source: string): ValueText | undefined {
  const { contents } = parseDocument(source, { schema: 'failsafe', logLevel: 'error' });
  if (contents === null) return undefined;
  const isHeadless = isCollection(contents) && contents.flow !== true;
  const lines = dedented(source.replaceAll('\r\n', '\n').replace(/\n+$/, '').split('\n'));
  if (isHeadless) return { is: 'block', lines };
  if (isScalar(contents) && (contents.type === 'BLOCK_LITERAL' || contents.type === 'BLOCK_FOLDED')) {
    const [head = '', ...rest] = source.trimStart().replaceAll('\r\n', '\n').replace(/\n+$/, '').split('\n');
    return { is: 'text', lines: [head, ...dedented(rest)] };
  }
  const [first = '', ...rest] = lines;
  return { is: rest.length === 0 ? 'inline' : 'text', lines: [first.trim(), ...dedented(rest)] };
}

/** The value on one line, as it stands inside braces. */
export function flowText(value: ValueText): string {
  const [first = '', ...rest] = value.lines;
  const source = value.is === 'text' ? [first, ...indented(rest, 2)].join('\n') : value.lines.join('\n');
  const document = parseDocument(source, { schema: 'failsafe', logLevel: 'error' });
  const { contents } = document;
  const isFlow = isCollection(contents) && contents.flow === true;
  if (value.lines.length === 1 && (isFlow || (isScalar(contents) && contents.type !== 'PLAIN'))) return source;
  if (isScalar(contents)) {
    const text = String(contents.value);
    return contents.type === 'PLAIN' && !/[,[\]{}]/.test(text) ? text : JSON.stringify(text);
  }
  return document.toString({ collectionStyle: 'flow', blockQuote: false, lineWidth: 0, flowCollectionPadding: true }).trim();
}

/** Lines with spaces before each that is not empty. */
export function indented(lines: readonly string[], by: number): readonly string[] {
  const space = ' '.repeat(by);
  return lines.map((line) => (line === '' ? line : space + line));
}

function dedented(lines: readonly string[]): readonly string[] {
  const margins = lines.flatMap((line) => (line.trim() === '' ? [] : [line.search(/\S/)]));
  const margin = margins.length === 0 ? 0 : Math.min(...margins);
  return lines.map((line) => (line.trim() === '' ? '' : line.slice(margin)));
}

/** Where the line of a place begins. */
export const lineStartAt = (text: string, at: number): number => (at === 0 ? 0 : text.lastIndexOf('\n', at - 1) + 1);

/** Where the line of a place ends, before its line end. */
export function lineEndAt(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  if (end === -1) return text.length;
  return text[end - 1] === '\r' && end - 1 >= at ? end - 1 : end;
}
