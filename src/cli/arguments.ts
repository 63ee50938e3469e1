import { parseArgs } from 'node:util';
import { nearestName } from '../problem/index.ts';
import { hiddenSigns, withoutHiddenSigns } from '../units/index.ts';
import { type Command, type Given, UsageFault } from './command.ts';

const helpLine = (command: Command): string => `leafwright ${command.name} --help shows what it takes`;

function meant(name: string, names: readonly string[]): string {
  const near = nearestName(name, names);
  return near === undefined ? '' : `; did you mean ${near}?`;
}

/** What names a file or folder on disk is taken as the disk has it. */
const isPath = (name: string, shown: string): boolean => /^(?:FILE|DIR|SCAN)$/.test(shown) || /^(?:file|picture|paper)$/.test(name);
/** Words that were said are pasted, and the command leaves out what can not be seen. */
const isPasted = (words: string): boolean => /WORDS|FILE/.test(words);

/** Refuses a sign that nobody can see: a name or reason would read otherwise than it is. */
function refuseHidden(what: string, text: string): void {
  const [first] = hiddenSigns(text);
  if (first === undefined) return;
  throw new UsageFault(`${what} holds a sign that nobody can see: ${first.name}`, 'type it by hand in place of pasting it');
}

/** Follows a command's definition; throws a UsageFault that names the nearest option. */
export function parseCommandLine(command: Command, args: readonly string[]): Given {
  const names = [...Object.keys(command.options), 'help'];
  const options = Object.fromEntries(
    names.map((name) => [name, { type: command.options[name]?.value === undefined ? ('boolean' as const) : ('string' as const) }]),
  );
  const { tokens } = parseArgs({
    args: [...args],
    options: { ...options, help: { type: 'boolean', short: 'h' } },
    strict: false,
    allowPositionals: true,
    tokens: true,
  });
  const words: string[] = [];
  const values: Record<string, string> = {};
  const switches = new Set<string>();
  for (const token of tokens) {
    if (token.kind === 'positional') {
      if (!isPasted(command.words)) refuseHidden(`“${withoutHiddenSigns(token.value)}”`, token.value);
      words.push(token.value);
    }
    if (token.kind !== 'option') continue;
    const definition =
      token.name === 'help' ? { says: '' } : Object.hasOwn(command.options, token.name) ? command.options[token.name] : undefined;
    if (definition === undefined) {
      const near = meant(
        token.rawName,
        names.map((name) => `--${name}`),
      );
      throw new UsageFault(`leafwright ${command.name} has no option ${token.rawName}${near}`, helpLine(command));
    }
    if (definition.value === undefined) {
      if (token.value !== undefined) throw new UsageFault(`${token.rawName} takes no value`, helpLine(command));
      switches.add(token.name);
    } else if (token.value === undefined || token.value === '' || (!token.inlineValue && token.value.startsWith('--'))) {
      throw new UsageFault(`${token.rawName} needs a value: ${token.rawName} ${definition.value}`, helpLine(command));
    } else if (values[token.name] !== undefined && values[token.name] !== token.value) {
      throw new UsageFault(`${token.rawName} is given twice`, helpLine(command));
    } else {
      if (!isPath(token.name, definition.value)) refuseHidden(token.rawName, token.value);
      values[token.name] = token.value;
    }
  }
  const [least, most] = command.count;
  if (!switches.has('help') && words.length < least)
    throw new UsageFault(`leafwright ${command.name} needs ${command.words}`, `for example: ${command.example[0]}`);
  if (words.length > most && most === 0)
    throw new UsageFault(`leafwright ${command.name} works on the whole workspace, so it can not use "${words[0]}"`, helpLine(command));
  if (words.length > most) throw new UsageFault(`leafwright ${command.name} can not use "${words[most]}"`, helpLine(command));
  return { words, values, switches };
}

/** The command of a name; throws a UsageFault that names the nearest one. */
export function findCommand(name: string, commands: readonly Command[]): Command {
  const found = commands.find((command) => command.name === name);
  if (found !== undefined) return found;
  const near = meant(
    name,
    commands.map((command) => command.name),
  );
  throw new UsageFault(`there is no command ${name}${near}`, 'leafwright --help lists them');
}
