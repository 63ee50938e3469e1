import type { ErrorCode, YAMLParseError, YAMLWarning } from 'yaml';
import type { Problem } from '../problem/index.ts';
import { lineAt, problemAt } from './place.ts';
import type { Origin, Source } from './tree.ts';

interface Wording {
  readonly code: string;
  readonly title: string;
  readonly mend: string;
}

const TAB: Wording = { code: 'read/tab', title: 'a tab stands where the line is indented', mend: 'indent with spaces' };
const COLON: Wording = {
  code: 'read/syntax',
  title: 'this line has no key and value',
  mend: 'write key: value, with a colon and a space between them',
};
const INDENT: Wording = {
  code: 'read/syntax',
  title: 'this line is indented by another amount than the lines it belongs to',
  mend: 'give all keys of one group the same number of spaces',
};
const QUOTE: Wording = {
  code: 'read/syntax',
  title: 'a quoted text, bracket or brace is not closed',
  mend: 'close it, or put the whole text into double quotes',
};
const SIGN: Wording = {
  code: 'read/syntax',
  title: 'a text can not begin with this sign',
  mend: 'put the text into double quotes',
};

/** The parser's codes in a maker's words; a code that is not here is worded as a line that can not be read. */
const WORDS: Partial<Readonly<Record<ErrorCode, Wording>>> = {
  TAB_AS_INDENT: TAB,
  MISSING_CHAR: QUOTE,
  BAD_INDENT: INDENT,
  MULTILINE_IMPLICIT_KEY: COLON,
  BLOCK_AS_IMPLICIT_KEY: {
    code: 'read/syntax',
    title: 'two keys stand on one line',
    mend: 'begin a new line for the second key, or put a text with a colon into double quotes',
  },
  BAD_SCALAR_START: SIGN,
  UNEXPECTED_TOKEN: { code: 'read/syntax', title: 'this does not belong here', mend: 'put a text with such signs into double quotes' },
  BAD_DQ_ESCAPE: {
    code: 'read/syntax',
    title: 'a backslash in a double-quoted text means something else here',
    mend: 'write two backslashes, or use single quotes',
  },
  BLOCK_IN_FLOW: {
    code: 'read/syntax',
    title: 'a list with hyphens stands inside brackets or braces',
    mend: 'close the bracket before it, or write the list between [ and ]',
  },
  MULTIPLE_DOCS: {
    code: 'read/many-documents',
    title: 'a second document begins here',
    mend: 'take out the line ---, or make a second file',
  },
  TAG_RESOLVE_FAILED: { code: 'read/tag', title: 'tags with ! are not read', mend: 'take the tag out, or put the text into double quotes' },
  BAD_ALIAS: {
    code: 'read/bad-alias',
    title: 'an anchor or alias can not be read here',
    mend: 'put a text that begins with & or * into double quotes',
  },
  ALIAS_PROPS: { code: 'read/bad-alias', title: 'an alias can carry nothing else', mend: 'write the value out in place of the alias' },
};

const ODD_SPACE: Wording = {
  code: 'read/syntax',
  title: 'the line is indented with a space of another kind, as word processors and web pages have',
  mend: 'delete the spaces before it and type them again',
};
const NOT_CLOSED: Wording = { ...QUOTE, title: 'a bracket or brace is not closed before this', mend: 'close it with ] or }' };
const CUT: Wording = {
  ...QUOTE,
  title: 'the file ends before a bracket or brace is closed',
  mend: 'close it with ] or }; the file may be half saved: save it again, or take it back from your copy',
};
const OPEN_QUOTE: Wording = { ...QUOTE, title: 'a quoted text is not closed', mend: 'put the same quote at the end of the text' };
const NOT_A_TEXT: Wording = { ...SIGN, title: 'a text can not begin with * or &' };

/** Words the first thing that the parser could not read, at the place where the slip is and not where the parser noticed. */
export function wordSyntax(source: Source, error: YAMLParseError | YAMLWarning): Problem {
  const [start, end] = error.pos;
  const { words, from, to } = seen(source.text, error, start) ?? { words: ordinary(source.text, error, start), from: start, to: end };
  const origin: Origin = { source, start: from, end: Math.max(to, from + 1) };
  return problemAt(words.code, words.title, origin, { mend: words.mend });
}

interface Seen {
  readonly words: Wording;
  readonly from: number;
  readonly to: number;
}

/** Slips that the parser notices late: an open quote, an alias that was meant as a text, a line indented too far. */
function seen(text: string, error: YAMLParseError | YAMLWarning, start: number): Seen | undefined {
  if (/closing ["']/.test(error.message)) {
    const from = openQuote(text, error.message.includes("'") ? "'" : '"') ?? start;
    return { words: OPEN_QUOTE, from, to: from + 1 };
  }
  const { first, line, next } = linesAt(text, start);
  const indent = /^[^\S\n]*/.exec(line)?.[0] ?? '';
  const odd = indent.search(/[^ ]/);
  if (odd !== -1) return { words: indent[odd] === '\t' ? TAB : ODD_SPACE, from: first + odd, to: first + indent.length };
  const alias = /(?:: +|- +)([*&])/.exec(line);
  if (alias !== null && (error.code === 'UNEXPECTED_TOKEN' || error.code === 'BAD_ALIAS')) {
    const from = first + alias.index + alias[0].length - 1;
    return { words: NOT_A_TEXT, from, to: first + line.length };
  }
  const deeper = /^ */.exec(next)?.[0].length ?? 0;
  const tooFar = error.code === 'BLOCK_AS_IMPLICIT_KEY' && line.split(': ').length === 2 && deeper > line.search(/\S/);
  if (!tooFar) return undefined;
  const from = first + line.length + 1 + deeper;
  return { words: INDENT, from, to: from + next.trim().length };
}

function ordinary(text: string, error: YAMLParseError | YAMLWarning, start: number): Wording {
  const { line } = linesAt(text, start);
  if (/end with a [\]}]/.test(error.message)) return text.slice(start).trim() === '' ? CUT : NOT_CLOSED;
  const glued = /^\s*(?:- )?([A-Za-z][A-Za-z0-9-]*):(\S.*)$/.exec(line);
  if (error.code === 'MISSING_CHAR' || error.code === 'MULTILINE_IMPLICIT_KEY') {
    if (glued !== null) return { ...COLON, title: 'there is no space after the colon', mend: `write ${glued[1]}: ${glued[2]}` };
    if (/implicit|map key|collection item/i.test(error.message) || !/[[{"']/.test(line)) return COLON;
  }
  return (
    WORDS[error.code] ?? {
      code: 'read/syntax',
      title: 'this line can not be read',
      mend: 'put a text with special signs into double quotes',
    }
  );
}

function linesAt(text: string, offset: number): { readonly first: number; readonly line: string; readonly next: string } {
  const first = offset - lineAt(text, offset).column + 1;
  const endOf = (from: number) => (text.indexOf('\n', from) === -1 ? text.length : text.indexOf('\n', from));
  const end = endOf(first);
  return { first, line: text.slice(first, end), next: text.slice(end + 1, endOf(end + 1)) };
}

/** The quote of the first line that has an odd number of them. */
function openQuote(text: string, quote: string): number | undefined {
  let first = 0;
  for (const line of text.split('\n')) {
    if (line.split(quote).length % 2 === 0) return first + line.indexOf(quote);
    first += line.length + 1;
  }
  return undefined;
}
