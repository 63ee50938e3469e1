import type { Command } from './command.ts';

const columns = (rows: readonly (readonly [string, string])[]): readonly string[] => {
  const width = Math.max(...rows.map(([left]) => left.length));
  return rows.map(([left, right]) => `  ${left.padEnd(width)}   ${right}`);
};

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
    ...(command.more === undefined ? [] : ['', command.more]),
    ...(options.length > 0 ? ['', ...columns(options)] : []),
    '',
    'For example:',
    '',
    `  ${command.example[0]}`,
    `      ${command.example[1]}`,
    '',
  ].join('\n');
}

/** The help of the whole program. */
export function programHelp(commands: readonly Command[], version: string): string {
  return [
    `leafwright ${version}: from a client's brief to one agreed table`,
    '',
    '  leafwright COMMAND [options]',
    '',
    ...columns(commands.map((command) => [`${command.name} ${command.words}`.trim(), command.says] as const)),
    '',
    'Each works on the workspace in the current folder, or --workspace DIR. "leafwright COMMAND --help" shows its options',
    'and an example. Exit codes: 0 well, 1 the proposal has errors, 2 the command line, 3 a fault of the program.',
    '',
  ].join('\n');
}
