import type { Place, Problem } from '../problem/index.ts';
import type { Origin, Source } from './tree.ts';

/** Line and column of an offset, both from 1; columns in UTF-16 code units. */
export function lineAt(text: string, offset: number): { readonly line: number; readonly column: number } {
  let line = 1;
  let start = 0;
  for (let next = text.indexOf('\n'); next !== -1 && next < offset; next = text.indexOf('\n', start)) {
    line += 1;
    start = next + 1;
  }
  return { line, column: offset - start + 1 };
}

/** The place of a stretch of a file: its first line is marked, the line before is quoted with it. */
export function placeOf(origin: Origin, label: string): Place {
  const { path, text } = origin.source;
  const { line, column } = lineAt(text, origin.start);
  const first = origin.start - column + 1;
  const endOfLine = endOf(text, origin.start);
  const marked = text.slice(origin.start, Math.min(origin.end, endOfLine)).trimEnd();
  const quote = [{ line, text: text.slice(first, endOfLine).replace(/\r$/, '') }];
  if (line > 1) {
    const before = text.lastIndexOf('\n', first - 2) + 1;
    quote.unshift({ line: line - 1, text: text.slice(before, first - 1).replace(/\r$/, '') });
  }
  return { file: path, line, column, length: Math.max(1, marked.length), quote: text === '' ? [] : quote, label };
}

function endOf(text: string, from: number): number {
  const end = text.indexOf('\n', from);
  return end === -1 ? text.length : end;
}

type Rest = Pick<Problem, 'found' | 'allowed' | 'mend'>;

/** An error at a place of a file. */
export function problemAt(
  code: string,
  title: string,
  origin: Origin,
  rest: Rest = {},
  also?: { readonly at: Origin; readonly note: string },
): Problem {
  const problem: Problem = { code, severity: 'error', title, path: [], ...rest, place: placeOf(origin, '') };
  return also === undefined ? problem : { ...problem, also: [{ path: [], note: also.note, place: placeOf(also.at, '') }] };
}

/** An error of a whole file, which may not exist. */
export function problemOfFile(code: string, title: string, path: string, rest: Rest = {}): Problem {
  const source: Source = { path, text: '' };
  return problemAt(code, title, { source, start: 0, end: 0 }, rest);
}
