import { findCommand, parseCommandLine } from './arguments.ts';
import { type ExitCode, UsageFault } from './command.ts';
import { commandGroups, commands } from './commands.ts';
import { commandHelp, programHelp } from './help.ts';
import { programVersion } from './program.ts';
import { systemFault } from './system-fault.ts';
import { openTerminal, type Terminal } from './terminal.ts';

async function run(args: readonly string[], terminal: Terminal): Promise<ExitCode> {
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

/** A reader that has closed the pipe, as `head` does, is no fault. */
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

const terminal = openTerminal();
try {
  process.exitCode = await run(process.argv.slice(2), terminal);
} catch (error) {
  const refused = systemFault(error);
  if (error instanceof UsageFault) {
    terminal.warn(`leafwright: ${error.message}`);
    if (error.mend !== undefined) terminal.warn(error.mend);
    process.exitCode = 2;
  } else if (refused !== undefined) {
    terminal.warn(`leafwright: ${refused}`);
    process.exitCode = 2;
  } else {
    const fault = error instanceof Error ? error : new Error(String(error));
    terminal.warn(`leafwright has a fault of its own; nothing that stood was overwritten. Please send this text to its makers:\n`);
    terminal.warn(`${fault.stack ?? fault.message}\nleafwright ${programVersion}, Node ${process.version}, ${process.platform}`);
    process.exitCode = 3;
  }
}
