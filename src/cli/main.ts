import { runProgram } from './run.ts';
import { openTerminal } from './terminal.ts';

/** A reader that has closed the pipe, as `head` does, is no fault. */
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

process.exitCode = await runProgram(process.argv.slice(2), openTerminal());
