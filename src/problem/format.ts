import { countProblems, hasErrors, orderProblems } from './order.ts';
import type { Place, Problem } from './problem.ts';

/** Most problems printed in full at once; the rest are counted. */
export const MOST_SHOWN = 20;

/** Widest piece of a quoted line, in characters. */
const QUOTE_WIDTH = 110;

/** How problems are printed. */
export interface Shown {
  /** Paint code and marks for a terminal. */
  readonly colour: boolean;
}

type Paint = (text: string) => string;

interface Paints {
  readonly error: Paint;
  readonly warning: Paint;
  readonly quiet: Paint;
}

const CSI = '\u001b[';
const PLAIN: Paints = { error: (t) => t, warning: (t) => t, quiet: (t) => t };
const COLOURED: Paints = {
  error: (t) => `${CSI}1;31m${t}${CSI}0m`,
  warning: (t) => `${CSI}1;33m${t}${CSI}0m`,
  quiet: (t) => `${CSI}2m${t}${CSI}0m`,
};

/** One problem in the one form: title, place, quotation with the marked text, allowed, to mend, also. Lines end in `\n`, the last too. */
export function formatProblem(problem: Problem, shown: Shown): string {
  const paints = shown.colour ? COLOURED : PLAIN;
  const paint = problem.severity === 'error' ? paints.error : paints.warning;
  const variant = problem.variant === undefined ? '' : ` (design ${problem.variant})`;
  const lines = [`${paint(`${problem.severity}[${problem.code}]`)}: ${visible(problem.title)}${variant}`];
  if (problem.place !== undefined) {
    const { file, line, column, label } = problem.place;
    lines.push(`  ${visible(file)}:${line}:${column}${label === '' ? '' : `  ${visible(label)}`}`);
    lines.push(...quotation(problem.place, problem.found, paint, paints.quiet));
    if (problem.place.quote.length === 0 && problem.found !== undefined) lines.push(`  found: ${visible(problem.found)}`);
  } else {
    if (problem.path.length > 0) lines.push(`  ${visible(problem.path.join('.'))}`);
    if (problem.found !== undefined) lines.push(`  found: ${visible(problem.found)}`);
  }
  if (problem.allowed !== undefined) lines.push(`  allowed: ${visible(problem.allowed)}`);
  if (problem.mend !== undefined) lines.push(`  to mend: ${visible(problem.mend)}`);
  for (const also of problem.also ?? []) {
    const where = also.place === undefined ? also.path.join('.') : `${also.place.file}:${also.place.line}:${also.place.column}`;
    lines.push(`  also ${visible(where)}: ${visible(also.note)}`);
  }
  return `${lines.join('\n')}\n`;
}

/**
 * All problems in the order of files and lines, at most twenty and a count, and the closing line. `outcome` is what became of the
 * command, e.g. `Nothing was written.`; it closes the count. The empty text where there is nothing to say.
 */
export function formatProblems(problems: readonly Problem[], shown: Shown, outcome = ''): string {
  if (problems.length === 0) return '';
  const ordered = orderProblems(problems);
  const errorsFirst = hasErrors(ordered) && ordered.length > MOST_SHOWN;
  const queue = errorsFirst
    ? [...ordered.filter((p) => p.severity === 'error'), ...ordered.filter((p) => p.severity === 'warning')]
    : ordered;
  const blocks = queue.slice(0, MOST_SHOWN).map((problem) => formatProblem(problem, shown));
  const more = queue.length - MOST_SHOWN;
  if (more > 0) blocks.push(`... and ${more} more.\n`);
  blocks.push(`${countProblems(problems)}${outcome === '' ? '' : ` ${outcome}`}\n`);
  return blocks.join('\n');
}

function quotation(place: Place, found: string | undefined, mark: Paint, quiet: Paint): readonly string[] {
  const width = Math.max(...place.quote.map(({ line }) => String(line).length), 1);
  const lines: string[] = [];
  for (const { line, text } of place.quote) {
    const here = line === place.line;
    const from = here ? Math.max(0, Math.min(place.column - 20, text.length - QUOTE_WIDTH)) : 0;
    const shownFrom = place.column <= QUOTE_WIDTH ? 0 : from;
    const piece = visible(text.slice(shownFrom, shownFrom + QUOTE_WIDTH)).trimEnd();
    const number = `  ${here ? '>' : ' '} ${String(line).padStart(width)} |`;
    lines.push(`${quiet(number)}${piece === '' ? '' : ` ${piece}`}`);
    if (!here) continue;
    const length = Math.max(1, Math.min(place.length, QUOTE_WIDTH - (place.column - 1 - shownFrom)));
    const carets = `${' '.repeat(place.column - 1 - shownFrom)}${mark('^'.repeat(length))}`;
    const note = found === undefined ? '' : ` found ${visible(found)}`;
    lines.push(`${quiet(`    ${' '.repeat(width)} |`)} ${carets}${note}`);
  }
  return lines;
}

/** Longest text of one line beside the quotation. */
const LONGEST = 400;

/** Text that can not steer a terminal: a control character becomes a space or a dot, so that columns stay where they are. */
function visible(text: string): string {
  const cut = text.length > LONGEST ? `${text.slice(0, LONGEST)}...` : text;
  return cut.replaceAll('\t', ' ').replaceAll(/\p{Cc}|\p{Cf}|[\u2028\u2029]/gu, '·');
}
