import { runProgram } from '../../src/cli/run.ts';
import type { Terminal } from '../../src/cli/terminal.ts';

/** How a run ended, as who called it sees it. */
export interface Ended {
  readonly status: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** Follows a command line as `leafwright` does in a process of its own, for a caller that is no terminal, without starting one. */
export async function runHere(args: readonly string[]): Promise<Ended> {
  let [stdout, stderr] = ['', ''];
  const terminal: Terminal = {
    say: (line) => {
      stdout += `${line}\n`;
    },
    warn: (line) => {
      stderr += `${line}\n`;
    },
    colour: { out: false, err: false },
    accent: (text) => text,
    progress: () => {},
    settle: () => {},
  };
  const status = await runProgram(args, terminal);
  return { status, stdout, stderr };
}

/** The same from a folder, with variables of the environment set (or, where `undefined`, not set) for the run. */
export async function runIn(
  folder: string,
  args: readonly string[],
  env: Readonly<Record<string, string | undefined>> = {},
): Promise<Ended> {
  const { cwd, env: before } = process;
  const own = { ...before, ...env };
  for (const [name, value] of Object.entries(env)) if (value === undefined) delete own[name];
  process.cwd = () => folder;
  process.env = own;
  try {
    return await runHere(args);
  } finally {
    process.cwd = cwd;
    process.env = before;
  }
}
