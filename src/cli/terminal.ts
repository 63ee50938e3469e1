import { styleText } from 'node:util';

/** Where a run speaks: results to stdout, problems and progress to stderr. */
export interface Terminal {
  /** One line of the result. */
  readonly say: (line: string) => void;
  /** One line about what is wrong. */
  readonly warn: (line: string) => void;
  /** Whether stdout and stderr take colours. */
  readonly colour: { readonly out: boolean; readonly err: boolean };
  /** What was made, or a word that matters: the accent. */
  readonly accent: (text: string) => string;
  /** Long work, step by step: one line that is overwritten, shown on a terminal alone. */
  readonly progress: (text: string) => void;
  /** Takes the progress line away. */
  readonly settle: () => void;
}

/** Colours only on a terminal, and never where NO_COLOR is set to anything or the terminal is a dumb one. */
function takesColour(stream: NodeJS.WriteStream): boolean {
  const { NO_COLOR, TERM } = process.env;
  return stream.isTTY === true && (NO_COLOR === undefined || NO_COLOR === '') && TERM !== 'dumb';
}

const csi = '\u001b\\[';
/** Colours that this program sets itself: the accent among results, the paints of problems beside it. */
const ownMarks = {
  none: /(?!)/g,
  accent: new RegExp(`${csi}(?:36|39)m`, 'g'),
  all: new RegExp(`${csi}(?:0|2|36|39|1;3[13])m`, 'g'),
} as const;

const steering = /[\p{Cc}\p{Cf}\u2028\u2029]/gu;

/**
 * A text as a terminal may have it: signs that steer it, turn the direction of writing or take no room become a dot, so that a
 * pasted mail can neither clear the screen nor show one name for another; line ends stay, and the program's own colours. In
 * JSON they are written out, which says the same.
 */
export function steadied(text: string, marks: keyof typeof ownMarks = 'none'): string {
  const escaped = (sign: string): string =>
    Array.from({ length: sign.length }, (_, i) => `\\u${sign.charCodeAt(i).toString(16).padStart(4, '0')}`).join('');
  const isJson = text.startsWith('{');
  const steady = (sign: string): string => {
    if (sign === '\n') return sign;
    if (isJson) return escaped(sign);
    return sign === '\t' ? ' ' : '·';
  };
  const own = text.match(ownMarks[marks]) ?? [];
  return text
    .replaceAll('\r\n', '\n')
    .split(ownMarks[marks])
    .map((part, i) => part.replaceAll(steering, steady) + (own[i] ?? ''))
    .join('');
}

/** The terminal of this process. */
export function openTerminal(): Terminal {
  const colour = { out: takesColour(process.stdout), err: takesColour(process.stderr) };
  const shows = process.stderr.isTTY === true && process.env['TERM'] !== 'dumb';
  let shown = 0;
  const settle = (): void => {
    if (shown > 0) process.stderr.write(`\r${' '.repeat(shown)}\r`);
    shown = 0;
  };
  return {
    say: (line) => {
      settle();
      process.stdout.write(`${steadied(line, colour.out ? 'accent' : 'none')}\n`);
    },
    warn: (line) => {
      settle();
      process.stderr.write(`${steadied(line, colour.err ? 'all' : 'none')}\n`);
    },
    colour,
    accent: (text) => (colour.out ? styleText('cyan', text, { validateStream: false }) : text),
    progress: (text) => {
      if (!shows) return;
      const { columns } = process.stderr;
      const line = steadied(text).slice(0, (columns > 0 ? columns : 80) - 1);
      process.stderr.write(`\r${line.padEnd(shown)}`);
      shown = line.length;
    },
    settle,
  };
}

/** Rows of text in aligned columns, two spaces before and three between. */
export function aligned(rows: readonly (readonly string[])[]): readonly string[] {
  const widths: number[] = [];
  for (const row of rows) for (const [i, cell] of row.entries()) widths[i] = Math.max(widths[i] ?? 0, cell.length);
  return rows.map((row) => `  ${row.map((cell, i) => (i === row.length - 1 ? cell : cell.padEnd(widths[i] ?? 0))).join('   ')}`.trimEnd());
}

/** A text in lines of at most so many columns (80), each indented, those after the first a little more (two spaces). */
export function folded(
  text: string,
  indent: string,
  { columns = 80, hanging = '  ' }: { readonly columns?: number; readonly hanging?: string } = {},
): readonly string[] {
  const lines: string[] = [];
  let line = indent;
  let isEmpty = true;
  for (const word of text.split(' ')) {
    if (!isEmpty && line.length + 1 + word.length > columns) {
      lines.push(line);
      line = indent + hanging;
      isEmpty = true;
    }
    line += isEmpty ? word : ` ${word}`;
    isEmpty = false;
  }
  return [...lines, line];
}
