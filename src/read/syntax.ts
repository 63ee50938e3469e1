import type { ErrorCode, YAMLParseError, YAMLWarning } from 'yaml';
import type { Problem } from '../problem/index.ts';
import { lineAt, problemAt } from './place.ts';
import type { Origin, Source } from './tree.ts';

interface Wording {
  readonly code: string;
  readonly title: string;
  readonly mend: string;
}

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
  TAB_AS_INDENT: { code: 'read/tab', title: 'a tab stands where the line is indented', mend: 'indent with spaces' },
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

/** Words the first thing that the parser could not read. */
export function wordSyntax(source: Source, error: YAMLParseError | YAMLWarning): Problem {
  const [start, end] = error.pos;
  const origin: Origin = { source, start, end: Math.max(end, start + 1) };
  const words = chosen(source, error, start);
  return problemAt(words.code, words.title, origin, { mend: words.mend });
}

function chosen(source: Source, error: YAMLParseError | YAMLWarning, start: number): Wording {
  const line = lineOf(source.text, start);
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

function lineOf(text: string, offset: number): string {
  const { column } = lineAt(text, offset);
  const first = offset - column + 1;
  const end = text.indexOf('\n', first);
  return text.slice(first, end === -1 ? undefined : end);
}
