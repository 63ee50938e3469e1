import { formatProblems, hasErrors, type Problem } from '../../problem/index.ts';
import { type AnyEntry, readEntries, standingOf } from '../../record/index.ts';
import type { ExitCode } from '../command.ts';
import type { Desk } from '../record-desk.ts';

/** What was recorded, or was on record; with the lines of the report. */
export interface Outcome {
  readonly entries: readonly AnyEntry[];
  readonly isOnRecord: boolean;
  readonly says: readonly string[];
  readonly problems: readonly Problem[];
  readonly next?: string;
  /** Files that were drafted, by path below the workspace. */
  readonly drafted?: readonly string[];
}

/** Why nothing was. */
export interface Refused {
  readonly problems: readonly Problem[];
  readonly entries?: undefined;
}

export const isRefused = (outcome: Outcome | Refused): outcome is Refused => outcome.entries === undefined;

/** Tells what was recorded, and how the proposal stands now. */
export function report(desk: Desk, outcomes: readonly Outcome[]): ExitCode {
  const { terminal, slug, json, folder, offers, today } = desk;
  const problems = outcomes.flatMap((outcome) => outcome.problems);
  const last = outcomes.at(-1);
  /** An answer may be on record and its scan may not. */
  const code: ExitCode = hasErrors(problems) ? 1 : 0;
  if (json) {
    const { stage, waitingFor, disagree, approved } = standingOf(readEntries(folder), offers, today);
    const entries = outcomes.flatMap((outcome) => outcome.entries);
    const standing = { stage, waitingFor, disagree, ...(approved === undefined ? {} : { approved: approved.chosen }) };
    const drafted = outcomes.flatMap((outcome) => outcome.drafted ?? []);
    const isOnRecord = outcomes.every((outcome) => outcome.isOnRecord);
    const data = { schema: 'leafwright/recorded/1', proposal: slug, entries, isOnRecord, standing, drafted, next: last?.next, problems };
    terminal.say(JSON.stringify(data, undefined, 2));
    return code;
  }
  if (problems.length > 0) terminal.warn(formatProblems(problems, { colour: terminal.colour.err }));
  for (const line of outcomes.flatMap((outcome) => outcome.says)) terminal.say(line);
  if (last?.next !== undefined) terminal.say(`\nNext: ${last.next}`);
  return code;
}
