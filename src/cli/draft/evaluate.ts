import { type ComputedProposal, type ComputeResult, computeProposal, type Kernels } from '../../compute.ts';
import { hasErrors, type Problem } from '../../problem/index.ts';
import { placeProblems, readProposal } from '../../read/index.ts';
import { dayIn, frozenInputs, issuedRevisions, notBefore, readEntries } from '../../record/index.ts';
import type { ProposalInput } from '../../spec/index.ts';
import { compareDates, parseDate } from '../../units/index.ts';
import { proposalFolder } from '../workspace.ts';
import { placeholderProblems } from './placeholders.ts';

/** A proposal as read, with what was found, each problem with its place. */
export interface ReadOne {
  readonly slug: string;
  /** Absent where anything has an error. */
  readonly input?: ProposalInput;
  /** Today where the maker is, or the day of the last entry where the clock stands before it; with `input`. */
  readonly day?: string;
  readonly problems: readonly Problem[];
  /** Gives the problems of later steps their places. */
  readonly place: (problems: readonly Problem[]) => readonly Problem[];
}

/** The same, computed. */
export interface Evaluated {
  readonly slug: string;
  readonly input?: ProposalInput;
  /** Absent where anything has an error. */
  readonly computed?: ComputedProposal;
  /** Where there are errors: what could be computed all the same. */
  readonly faulty?: ComputeResult['faulty'];
  readonly problems: readonly Problem[];
}

/** Warnings about the days of the offer. `day` is today, as `2027-02-14`. */
function offerProblems(input: ProposalInput, day: string): readonly Problem[] {
  const { date, validUntil } = input.proposal.revision;
  const today = parseDate(day);
  const at = { severity: 'warning', path: ['proposal', 'revision', 'validUntil'] } as const;
  if (compareDates(validUntil, date) < 0)
    return [{ ...at, code: 'cli/offer-ends-first', title: 'the offer ends before its own date', mend: 'set a later validUntil' }];
  /** The days of an invented commission are as invented as its people. */
  if (input.proposal.invented || today === undefined || compareDates(validUntil, today) >= 0) return [];
  return [
    { ...at, code: 'cli/offer-over', title: 'the last day of this offer has passed', mend: 'set a later validUntil before you issue it' },
  ];
}

/** A warning where the maker's files are the draft of a revision that was issued, and differ from what was frozen then. */
function issuedProblems(workspace: string, { slug, proposal, files }: ProposalInput): readonly Problem[] {
  const { id } = proposal.revision;
  const folder = proposalFolder(workspace, slug);
  if (!issuedRevisions(folder).some(({ revision }) => revision === id)) return [];
  const own = (path: string): boolean => path.startsWith('proposals/');
  const then = new Map(
    frozenInputs(folder, id).flatMap(({ path, bytes }) => (own(path) ? [[path, Buffer.from(bytes).toString('utf8')]] : [])),
  );
  const now = files.filter(({ path }) => own(path));
  if (now.length === then.size && now.every(({ path, text }) => then.get(path) === text)) return [];
  const next = `r${Number(id.slice(1)) + 1}`;
  const title = `these files were changed after ${id} was issued`;
  return [
    { code: 'cli/draft-is-issued', severity: 'warning', title, path: ['proposal', 'revision', 'id'], found: id, mend: `write id: ${next}` },
  ];
}

/** Reads one proposal of a workspace. `at` is now, RFC 3339 in UTC: what day it is depends on where the maker is. */
export function readOne(workspace: string, slug: string, at: string): ReadOne {
  const { input, problems, sources } = readProposal(workspace, slug);
  const place = (later: readonly Problem[]): readonly Problem[] => placeProblems(sources, later);
  if (input === undefined || hasErrors(problems)) return { slug, problems, place };
  const day = dayIn(notBefore(at, readEntries(proposalFolder(workspace, slug)).at(-1)?.at), input.library.maker.timeZone);
  return {
    slug,
    input,
    day,
    problems: [
      ...problems,
      ...place([...issuedProblems(workspace, input), ...offerProblems(input, day), ...placeholderProblems(workspace, input)]),
    ],
    place,
  };
}

/** Computes what was read. */
export function computeOne(read: ReadOne, kernels: Kernels): Evaluated {
  const { slug, input } = read;
  if (input === undefined) return { slug, problems: read.problems };
  const { computed, faulty, problems: later } = computeProposal(input, kernels);
  const problems = [...read.problems, ...read.place(later)];
  if (faulty !== undefined) return { slug, input, problems, faulty };
  return { slug, input, problems, ...(computed === undefined || hasErrors(problems) ? {} : { computed }) };
}

/** Reads and computes one proposal of a workspace. */
export function evaluateProposal(workspace: string, slug: string, kernels: Kernels, at: string): Evaluated {
  return computeOne(readOne(workspace, slug, at), kernels);
}

/** Problems as they are told: one in a template that proposals share is said once, one of several designs with all their names. */
export function gatheredProblems(problems: readonly Problem[]): readonly Problem[] {
  const gathered = new Map<string, Problem>();
  for (const [i, problem] of problems.entries()) {
    const { code, severity, place, title, found, allowed, variant } = problem;
    const where = place === undefined ? [i] : [place.file, place.line, place.column];
    const key = JSON.stringify([code, severity, ...where, title, found, allowed, variant === undefined]);
    const known = gathered.get(key);
    const names = [...new Set([known?.variant, variant].filter((name) => name !== undefined))].join(', ');
    gathered.set(key, { ...(known ?? problem), ...(names === '' ? {} : { variant: names }) });
  }
  return [...gathered.values()];
}
