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
      process.stdout.write(`${line}\n`);
    },
    warn: (line) => {
      settle();
      process.stderr.write(`${line}\n`);
    },
    colour,
    accent: (text) => (colour.out ? styleText('cyan', text, { validateStream: false }) : text),
    progress: (text) => {
      if (!shows) return;
      const { columns } = process.stderr;
      const line = text.slice(0, (columns > 0 ? columns : 80) - 1);
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
