import { parseCommandLine } from '../../src/cli/arguments.ts';
import { commands } from '../../src/cli/commands.ts';
import type { Offer } from '../../src/record/index.ts';
import { letterText, letterTo, openBench, type Ran } from './answers.ts';

/** A workspace with a proposal whose revisions are issued without drawing them, in which any command runs. */
export function openRecordBench() {
  const bench = openBench();
  const run = async (line: string | readonly string[], asOf = '2027-03-01'): Promise<Ran> => {
    const [name = '', ...args] = typeof line === 'string' ? line.split(' ') : line;
    const command = commands.find((one) => one.name === name);
    if (command === undefined) throw new Error(`there is no command ${name}`);
    const [out, err]: [string[], string[]] = [[], []];
    const given = parseCommandLine(command, [...args, '--as-of', asOf, '--workspace', bench.workspace]);
    const code = await command.run(given, {
      say: (text) => out.push(text),
      warn: (text) => err.push(text),
      colour: { out: false, err: false },
      accent: (text) => text,
      progress: () => {},
      settle: () => {},
    });
    return { code, out: out.join('\n'), err: err.join('\n') };
  };
  return {
    ...bench,
    run,
    /** Issues a revision, has both say yes to design A with ceramic, and gives what was offered. */
    approved: async (over: Partial<Offer> = {}) => {
      const issued = await bench.issue('r1', over);
      for (const person of ['maren', 'idris']) await bench.record(letterText(letterTo(issued, person)));
      return issued;
    },
    /** The same, confirmed and its first instalment paid. */
    ordered: async () => {
      const issued = await bench.issue('r1');
      for (const person of ['maren', 'idris']) await bench.record(letterText(letterTo(issued, person)));
      await run('confirm tarrow --hold 2027-03-15');
      await run('pay tarrow --instalment 1 --amount 2539.20');
      return issued;
    },
  };
}

/** What a fault of the command line says, both lines. */
export async function fault(work: Promise<unknown>): Promise<string> {
  try {
    await work;
  } catch (error) {
    const { message, mend } = error as { readonly message: string; readonly mend?: string };
    return mend === undefined ? message : `${message}\n${mend}`;
  }
  return 'no fault';
}
