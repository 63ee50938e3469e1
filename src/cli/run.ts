import { findCommand, parseCommandLine } from './arguments.ts';
import { type ExitCode, UsageFault } from './command.ts';
import { commandGroups, commands } from './commands.ts';
import { commandHelp, programHelp } from './help.ts';
import { programVersion } from './program.ts';
import { systemFault } from './system-fault.ts';
import type { Terminal } from './terminal.ts';

async function follow(args: readonly string[], terminal: Terminal): Promise<ExitCode> {
  const [name, ...rest] = args;
  if (name === undefined || name === '--help' || name === '-h' || (name === 'help' && rest[0] === undefined)) {
    terminal.say(programHelp(commandGroups, programVersion).trimEnd());
    return name === undefined ? 2 : 0;
  }
  if (name === '--version' || name === '-v') {
    terminal.say(programVersion);
    return 0;
  }
  const command = name === 'help' ? findCommand(rest[0] ?? '', commands) : findCommand(name, commands);
  const given = name === 'help' ? undefined : parseCommandLine(command, rest);
  if (given === undefined || given.switches.has('help')) {
    terminal.say(commandHelp(command).trimEnd());
    return 0;
  }
  return command.run(given, terminal);
}

/** Follows one command line to its exit code. Nothing is thrown: what goes wrong ends as sentences on the terminal. */
export async function runProgram(args: readonly string[], terminal: Terminal): Promise<ExitCode> {
  try {
    return await follow(args, terminal);
  } catch (error) {
    const refused = systemFault(error);
    if (error instanceof UsageFault) {
      terminal.warn(`leafwright: ${error.message}`);
      if (error.mend !== undefined) terminal.warn(error.mend);
      return 2;
    }
    if (refused !== undefined) {
      terminal.warn(`leafwright: ${refused}`);
      return 2;
    }
    const fault = error instanceof Error ? error : new Error(String(error));
    terminal.warn(`leafwright has a fault of its own; nothing that stood was overwritten. Please send this text to its makers:\n`);
    terminal.warn(`${fault.stack ?? fault.message}\nleafwright ${programVersion}, Node ${process.version}, ${process.platform}`);
    return 3;
  }
}
