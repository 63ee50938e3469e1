import type { Terminal } from './terminal.ts';

/** One option of a command: a switch, or one that takes a value, shown by `value` in the help. */
export interface OptionDef {
  readonly says: string;
  /** `DIR`, `DATE`; absent for a switch. */
  readonly value?: string;
}

/** What stood on the command line, checked against the command's definition. */
export interface Given {
  readonly words: readonly string[];
  readonly values: Readonly<Record<string, string>>;
  readonly switches: ReadonlySet<string>;
}

/** How a run ends: 0 well, 1 the content has errors, 2 the command line, 3 a fault of the program. */
export type ExitCode = 0 | 1 | 2 | 3;

export interface Command {
  readonly name: string;
  readonly says: string;
  /** Words after the name, as shown: `[PROPOSAL...]`. */
  readonly words: string;
  /** Least and most words. */
  readonly count: readonly [least: number, most: number];
  readonly options: Readonly<Record<string, OptionDef>>;
  /** A command line that works, and what it does. */
  readonly example: readonly [line: string, says: string];
  readonly more?: string;
  readonly run: (given: Given, terminal: Terminal) => Promise<ExitCode>;
}

/** A command line that can not be followed: one sentence, exit 2. */
export class UsageFault extends Error {
  readonly mend: string | undefined;
  constructor(message: string, mend?: string) {
    super(message);
    this.mend = mend;
  }
}

/** Options that several commands share. */
export const workspaceOption = { workspace: { says: 'the folder with proposals/ (default: the current one)', value: 'DIR' } } as const;
export const jsonOption = { json: { says: 'print data for programs instead of text' } } as const;
export const asOfOption = { 'as-of': { says: 'stands in for the clock, as 2027-02-14 or 2027-02-14T09:30:00Z', value: 'DATE' } } as const;
