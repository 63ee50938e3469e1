import { join } from 'node:path';
import { formatProblems, hasErrors, nearestName, type Problem } from '../problem/index.ts';
import { readProposal } from '../read/index.ts';
import {
  type Addition,
  type AnyEntry,
  addEntry,
  dayIn,
  type IssuedOffer,
  issuedOffers,
  notBefore,
  readEntries,
  type Standing,
  saltBytes,
  standingOf,
} from '../record/index.ts';
import type { ProposalInput } from '../spec/index.ts';
import { formatDate, formatMoney, parseDate } from '../units/index.ts';
import { instantOf } from './clock.ts';
import { type ExitCode, type Given, UsageFault } from './command.ts';
import { nextStep } from './next-step.ts';
import type { Terminal } from './terminal.ts';
import { findWorkspace, namedProposals, proposalFolder } from './workspace.ts';

/** A proposal with its record, opened for one command. */
export interface Desk {
  readonly workspace: string;
  readonly slug: string;
  readonly folder: string;
  /** The folder as the maker sees it. */
  readonly shown: string;
  readonly at: string;
  readonly zone: string;
  /** The day of `at` in the maker's zone, or that of the last entry where the clock stands before it. */
  readonly today: string;
  /** The working files; those of the newest revision where the working files can not be read. */
  readonly input: ProposalInput;
  readonly offers: readonly IssuedOffer[];
  readonly json: boolean;
  readonly terminal: Terminal;
}

/** What a command finds under the lock. */
export interface Now {
  readonly entries: readonly AnyEntry[];
  readonly standing: Standing;
}

type Refused = { readonly problems: readonly Problem[] };
/** What is on record already, so that nothing is written; with what is said in place of the report. */
export interface OnRecord {
  readonly known: AnyEntry;
  readonly says?: () => readonly string[];
}
/** What is to be added, with what is worth a warning; or why not. */
export type Prepared = (Addition & { readonly warnings?: readonly Problem[] }) | OnRecord | Refused;

/** Money and dates as a command says them. */
export const shownMoney = (desk: Desk, currency: string, minor: number): string =>
  formatMoney({ currency, minor }, desk.input.proposal.language);
export function shownDay(desk: Desk, day: string): string {
  const date = parseDate(day);
  return date === undefined ? day : formatDate(date, desk.input.proposal.language);
}

/** The working files of a proposal, or those of its newest revision where they can not be read. */
export function readInput(workspace: string, slug: string): { readonly input?: ProposalInput; readonly problems: readonly Problem[] } {
  const draft = readProposal(workspace, slug);
  if (draft.input !== undefined) return draft;
  const folder = proposalFolder(workspace, slug);
  const newest = readEntries(folder).findLast((entry) => entry.kind === 'issued');
  if (newest === undefined) return draft;
  const frozen = readProposal(join(folder, 'issued', newest.revision, 'in'), slug, { frozen: true });
  return frozen.input === undefined ? draft : frozen;
}

/** Opens a proposal of the workspace, with people, texts and time zone of its working files. */
export function openDesk({ words, values, switches }: Given, terminal: Terminal): Desk | Refused {
  const workspace = findWorkspace(values['workspace']);
  const slug = namedProposals(workspace, words.slice(0, 1))[0] ?? '';
  const { input, problems } = readInput(workspace, slug);
  if (input === undefined) return { problems };
  const at = instantOf(values['as-of'], workspace);
  const zone = input.library.maker.timeZone;
  const folder = proposalFolder(workspace, slug);
  const shown = `proposals/${slug}`;
  return {
    workspace,
    slug,
    folder,
    shown,
    at,
    zone,
    today: dayIn(notBefore(at, readEntries(folder).at(-1)?.at), zone),
    input,
    offers: issuedOffers(folder),
    json: switches.has('json'),
    terminal,
  };
}

/** How the proposal stands, read without the lock: for what only looks. */
export function lookNow({ folder, offers, today }: Desk): Now {
  const entries = readEntries(folder);
  return { entries, standing: standingOf(entries, offers, today) };
}

/** The day of `--on`, today where it is silent. Throws a UsageFault for what is no day, or a day still to come. */
export function dayOf({ today }: Desk, said: string | undefined, option = '--on'): string {
  if (said === undefined) return today;
  if (parseDate(said) === undefined) throw new UsageFault(`${option} ${said} is no day`, `write it as ${today}`);
  if (said > today) throw new UsageFault(`${option} ${said} is still to come: today is ${today}`, 'record it when it has happened');
  return said;
}

/** The id of somebody who decides, by id or name. Throws a UsageFault that names the nearest one. */
export function deciderOf(desk: Desk, said: string | undefined, option = '--who'): string {
  const { people } = desk.input.proposal.deciders;
  const known = [...new Set([...Object.keys(people), ...desk.offers.flatMap((offer) => offer.people.map(({ id }) => id))])].sort();
  if (said === undefined) throw new UsageFault(`${option} is missing`, `there are ${known.join(', ')}`);
  const found = known.find((id) => id === said || people[id]?.name === said);
  if (found !== undefined) return found;
  const near = nearestName(said, known);
  throw new UsageFault(
    `nobody who decides here is called ${said}${near === undefined ? '' : `; did you mean ${near}?`}`,
    `there are ${known.join(', ')}`,
  );
}

/** The name of a person, as the working files have it; the id where they have none. */
export const nameOf = (desk: Desk, person: string): string => desk.input.proposal.deciders.people[person]?.name ?? person;

/** One of a list of words. Throws a UsageFault that names the nearest one. */
export function oneOf<Word extends string>(words: readonly Word[], said: string | undefined, option: string): Word {
  const found = words.find((word) => word === said);
  if (found !== undefined) return found;
  const near = said === undefined ? undefined : nearestName(said, words);
  const lead = said === undefined ? `${option} is missing` : `${option} ${said} is not known`;
  throw new UsageFault(`${lead}${near === undefined ? '' : `; did you mean ${near}?`}`, `write one of ${words.join(', ')}`);
}

/** Random bytes of a seal. */
export const saltOf = (): Uint8Array => crypto.getRandomValues(new Uint8Array(saltBytes));

/** Says why nothing was recorded. */
export function sayRefused({ json, terminal, slug }: Pick<Desk, 'json' | 'terminal' | 'slug'>, problems: readonly Problem[]): 1 {
  if (json) terminal.say(JSON.stringify({ schema: 'leafwright/recorded/1', proposal: slug, problems }, undefined, 2));
  else terminal.warn(formatProblems(problems, { colour: terminal.colour.err }, 'Nothing was recorded.').trimEnd());
  return 1;
}

/** What came of making something after an entry: what is wrong with it, and keys for programs. */
export interface Afterwards {
  readonly problems: readonly Problem[];
  readonly data?: Readonly<Record<string, unknown>>;
}

/**
 * Adds one entry and tells what became of it. `prepare` decides under the lock by how the proposal stands then; `tell` gives
 * the lines of the report from how it stood before and stands now. What is on record already is told, and is no fault.
 */
export async function recordEntry(
  desk: Desk,
  prepare: (now: Now) => Prepared,
  tell: (entry: AnyEntry, before: Standing, after: Standing) => readonly string[],
  /** What is made once the entry is on the disk, or was there already, before it is told. */
  afterwards: () => Promise<Afterwards | undefined> | Promise<void> = async () => undefined,
): Promise<ExitCode> {
  const { folder, shown, at, zone, today, offers, slug, terminal } = desk;
  let before: Standing | undefined;
  let warnings: readonly Problem[] = [];
  let onRecord: OnRecord | undefined;
  const added = await addEntry({ folder, shown, at, zone }, (entries) => {
    before = standingOf(entries, offers, today);
    const prepared = prepare({ entries, standing: before });
    if ('known' in prepared) {
      onRecord = prepared;
      return { problems: [] };
    }
    if ('body' in prepared) warnings = prepared.warnings ?? [];
    return prepared;
  });
  const known = onRecord as OnRecord | undefined;
  const entry = known?.known ?? added.entry;
  if (entry === undefined || before === undefined) return sayRefused(desk, added.problems);
  const made = (await afterwards()) ?? undefined;
  const after = standingOf(readEntries(folder), offers, today);
  const problems = [...added.problems, ...warnings, ...(made?.problems ?? [])];
  const isWhole = !hasErrors(made?.problems ?? []);
  const next = nextStep(after, today);
  if (desk.json) {
    terminal.say(
      JSON.stringify(
        {
          schema: 'leafwright/recorded/1',
          proposal: slug,
          entry,
          isOnRecord: known !== undefined,
          stage: after.stage,
          next,
          ...made?.data,
          problems,
        },
        undefined,
        2,
      ),
    );
    return isWhole ? 0 : 1;
  }
  if (problems.length > 0) terminal.warn(formatProblems(problems, { colour: terminal.colour.err }));
  const lines =
    known === undefined
      ? tell(entry, before, after)
      : (known.says?.() ?? [`on record already as entry ${entry.n}, so nothing was written`]);
  for (const line of lines) terminal.say(line);
  if (next !== '') terminal.say(`\nNext: ${next}`);
  return isWhole ? 0 : 1;
}

/** Opens the desk and works at it, or says why it can not be opened. */
export async function atDesk(given: Given, terminal: Terminal, work: (desk: Desk) => Promise<ExitCode>): Promise<ExitCode> {
  const desk = openDesk(given, terminal);
  if ('problems' in desk) return sayRefused({ json: given.switches.has('json'), terminal, slug: given.words[0] ?? '' }, desk.problems);
  return work(desk);
}
