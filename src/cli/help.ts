import type { Command } from './command.ts';
import { folded } from './terminal.ts';

type Row = readonly [left: string, right: string];

const widest = (rows: readonly Row[]): number => Math.max(...rows.map(([left]) => left.length));

/** Two columns; the right one is folded at 80. */
const columns = (rows: readonly Row[], width = widest(rows)): readonly string[] =>
  rows.flatMap(([left, right]) => {
    const [first = '', ...more] = folded(right, ' '.repeat(width + 5), { hanging: '' });
    return [`  ${left.padEnd(width)}   ${first.trimStart()}`, ...more];
  });

const paragraphs = (text: string): readonly string[] => text.split('\n').flatMap((line) => folded(line, '', { hanging: '' }));

/** The help of one command, ending in an example. */
export function commandHelp(command: Command): string {
  const options = Object.entries(command.options).map(
    ([name, option]) => [option.value === undefined ? `--${name}` : `--${name} ${option.value}`, option.says] as const,
  );
  const usage = ['leafwright', command.name, command.words, options.length > 0 ? '[options]' : ''].filter((part) => part !== '').join(' ');
  return [
    command.says,
    '',
    `  ${usage}`,
    ...(command.more === undefined ? [] : ['', ...paragraphs(command.more)]),
    ...(options.length > 0 ? ['', ...columns(options)] : []),
    '',
    'For example:',
    '',
    `  ${command.example[0]}`,
    ...folded(command.example[1], '      ', { hanging: '' }),
    '',
  ].join('\n');
}

/** Commands that belong together, under a short heading. */
export interface CommandGroup {
  readonly title: string;
  readonly commands: readonly Command[];
}

/** The help of the whole program: its commands in groups, all on one left edge. */
export function programHelp(groups: readonly CommandGroup[], version: string): string {
  const rows = groups.map(({ commands }) => commands.map(({ name, words, says }): Row => [`${name} ${words}`.trim(), says]));
  const width = widest(rows.flat());
  return [
    `leafwright ${version}: from a client's brief to one agreed table`,
    '',
    '  leafwright COMMAND [options]',
    ...groups.flatMap(({ title }, i) => ['', title, ...columns(rows[i] ?? [], width)]),
    '',
    'Each works on the workspace in the current folder, or --workspace DIR.',
    '"leafwright COMMAND --help" shows its options and an example.',
    'Exit codes: 0 well, 1 the proposal has errors, 2 the command line, 3 a fault of',
    'the program.',
    '',
  ].join('\n');
}
