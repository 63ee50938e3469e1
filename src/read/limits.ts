import type { Problem } from '../problem/index.ts';
import { problemAt } from './place.ts';
import type { Source } from './tree.ts';

/** Most lines of a file: five times what the largest template has. */
const MOST_LINES = 5_000;
/** Most signs that can begin a value, a key or a list: each costs the parser time and memory. */
const MOST_SIGNS = 20_000;
/** Brackets open at once: the parser recurses. Those inside texts may be counted too, and never come to so many. */
const MOST_OPEN = 120;
/** Hyphens or question marks one after the other at the head of a line, each a level of its own. */
const NESTED_LINE = /^ *(?:[-?] +){40}/m;

const SIGNS = new Set([...'[]{},:-?&*!|>"\'%@`'].map((sign) => sign.charCodeAt(0)));
const [OPEN_LIST, CLOSE_LIST, OPEN_MAP, CLOSE_MAP, NEW_LINE] = [...'[]{}\n'].map((sign) => sign.charCodeAt(0));

/**
 * What makes a file too costly to be given to the parser, found in one pass over its characters; `undefined` for any that a maker
 * writes. Codes: `read/too-large`, `read/too-deep`.
 */
export function overLimits(source: Source): Problem | undefined {
  const { text } = source;
  const mend = 'something else may have been saved under this name: take the text back from your copy';
  const tooLarge = (found: string, allowed: string) =>
    problemAt('read/too-large', 'the file is too large', { source: { ...source, text: '' }, start: 0, end: 0 }, { found, allowed, mend });
  const tooDeep = (start: number) => tooDeepAt(source, start);
  let [lines, signs, open] = [1, 0, 0];
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code === NEW_LINE) lines += 1;
    else if (SIGNS.has(code)) signs += 1;
    if (code === OPEN_LIST || code === OPEN_MAP) open += 1;
    else if (code === CLOSE_LIST || code === CLOSE_MAP) open = Math.max(0, open - 1);
    if (open > MOST_OPEN) return tooDeep(i);
  }
  if (lines > MOST_LINES) return tooLarge(`${lines} lines`, `at most ${MOST_LINES} lines`);
  if (signs > MOST_SIGNS) return tooLarge(`${signs} brackets, commas, colons and the like`, `at most ${MOST_SIGNS}`);
  const nested = NESTED_LINE.exec(text);
  return nested === null ? undefined : tooDeep(nested.index);
}

/** Deepest nesting of groups and lists: a proposal needs ten. */
export const DEEPEST = 40;

/** The problem of a file that is nested too deeply, at the place where it is. */
export function tooDeepAt(source: Source, start: number): Problem {
  const origin = { source, start, end: start + 1 };
  const rest = { allowed: `at most ${DEEPEST} levels`, mend: 'take the levels apart' };
  return problemAt('read/too-deep', 'the file is nested too deeply', origin, rest);
}
