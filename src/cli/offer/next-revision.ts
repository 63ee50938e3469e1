import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { hasErrors, type Problem } from '../../problem/index.ts';
import { editYaml, placeProblems, readProposal, type Sources, type YamlEdit, YamlEditFault } from '../../read/index.ts';
import { dayIn, issuedOffers, notBefore, readEntries } from '../../record/index.ts';
import type { ProposalInput } from '../../spec/index.ts';
import { addDays, dayNumber, exactDecimal, formatMoney, isoDate, parseDate, roundMinor } from '../../units/index.ts';
import { UsageFault } from '../command.ts';
import { writeOwnFiles } from '../draft/own-files.ts';
import { nextRound, type Round } from '../draft/rounds.ts';
import { changesDraft, whatWasSaid } from '../draft/what-was-said.ts';
import type { Terminal } from '../terminal.ts';
import { proposalFolder } from '../workspace.ts';

const numberOf = (revision: string): number => Number(revision.slice(1));

/** What is written of the next revision. */
export interface NextRevision {
  readonly id: string;
  readonly from: string;
  readonly date: string;
  readonly validUntil: string;
  readonly said: readonly string[];
  readonly round?: Round;
  readonly edits: readonly YamlEdit[];
}

function refusal(code: string, title: string, rest: Partial<Problem> = {}): Problem {
  return { code: `cli/${code}`, severity: 'error', title, path: ['proposal', 'revision', 'id'], ...rest };
}

/** The last day of the new offer: as said, else as many days after its date as the last one had. */
function lastDay({ proposal }: ProposalInput, date: string, said: string | undefined): string {
  const from = parseDate(date);
  if (said !== undefined) {
    if (parseDate(said) === undefined) throw new UsageFault(`--valid ${said} is no day`, `write it as ${date}`);
    if (said < date) throw new UsageFault(`--valid ${said} is before the day of the revision, ${date}`, 'name a later day');
    return said;
  }
  const { revision } = proposal;
  const days = Math.max(0, dayNumber(revision.validUntil) - dayNumber(revision.date));
  return from === undefined ? date : isoDate(addDays(from, days));
}

/** A line for a round beyond those included; one without charge is kept with its reason, and not shown. */
function feeLine({ library, proposal }: ProposalInput, round: Round, free: string | undefined): YamlEdit {
  const says = (library.texts['revise.round-line'] ?? 'Round {n} of drawing').replace('{n}', String(round.n));
  const value =
    free === undefined
      ? `{ says: ${JSON.stringify(says)}, each: "${round.fee}" }`
      : `{ says: ${JSON.stringify(`${says}, free: ${free}`)}, each: "0.00", shown: false }`;
  const taken = Object.keys(proposal.lines);
  const name = `round-${round.n}`;
  return { path: ['lines', taken.includes(name) ? `${name}-fee` : name], value };
}

/** How the next revision is asked for: the instant of now, its last day, the reason why a round is free. */
export interface Asked {
  readonly at: string;
  readonly valid: string | undefined;
  readonly free: string | undefined;
}

function planNext(workspace: string, input: ProposalInput, { at, valid, free }: Asked): NextRevision | Problem {
  const folder = proposalFolder(workspace, input.slug);
  const entries = readEntries(folder);
  const last = entries.findLast((entry) => entry.kind === 'issued')?.revision;
  const draft = input.proposal.revision.id;
  if (last === undefined)
    return refusal('revise-nothing-issued', 'nothing of this proposal was issued, so there is nothing to revise', {
      found: draft,
      mend: `go on with the draft, then: leafwright issue ${input.slug}`,
    });
  if (numberOf(draft) > numberOf(last))
    return refusal('revise-begun', `the draft is ${draft} already, and the last revision that was issued is ${last}`, {
      found: draft,
      mend: `go on with the draft, then: leafwright issue ${input.slug}`,
    });
  const id = `r${numberOf(last) + 1}`;
  const date = dayIn(notBefore(at, entries.at(-1)?.at), input.library.maker.timeZone);
  const validUntil = lastDay(input, date, valid);
  const people = input.proposal.deciders.people;
  const said = whatWasSaid(folder, entries, (person) => people[person]?.name ?? person);
  const round = nextRound(input.proposal, entries, issuedOffers(folder));
  return {
    id,
    from: last,
    date,
    validUntil,
    said,
    ...(round === undefined ? {} : { round }),
    edits: [
      { path: ['revision', 'id'], value: id },
      { path: ['revision', 'date'], value: date },
      { path: ['revision', 'validUntil'], value: validUntil },
      { path: ['revision', 'changes'], value: changesDraft(last, said) },
      ...(round?.isBeyond === true ? [feeLine(input, round, free)] : []),
    ],
  };
}

/** What the round means for the price. */
function roundSays({ proposal }: ProposalInput, round: Round, free: string | undefined): string {
  const { currency, language } = proposal;
  const fee = formatMoney(roundMinor(exactDecimal(round.fee), currency), language);
  const included = round.included === 1 ? '1 is included' : `${round.included} are included`;
  if (round.isBeyond)
    return free === undefined
      ? `round ${round.n}; ${included}, so ${fee} before tax is added as a line: --free "reason" leaves it out`
      : `round ${round.n}; ${included}, and this one is free: ${free}`;
  const next = round.left > 0 ? `${round.left} more ${round.left === 1 ? 'is' : 'are'} included` : `the next one costs ${fee} before tax`;
  return `round ${round.n}; ${included}; ${next}`;
}

/** Says what was begun. */
export function sayPlan(input: ProposalInput, next: NextRevision, free: string | undefined, terminal: Terminal): void {
  const file = `proposals/${input.slug}/proposal.yaml`;
  terminal.say(`${terminal.accent(file)} is the draft of ${next.id} now, of ${next.date}, open until ${next.validUntil}`);
  const count = next.said.length;
  terminal.say(
    count === 0
      ? `  nothing was said of ${next.from} on record`
      : `  ${count === 1 ? 'one thing that was said' : `${count} things that were said`} of ${next.from} stand${count === 1 ? 's' : ''} under revision.changes`,
  );
  if (next.round !== undefined) terminal.say(`  ${roundSays(input, next.round, free)}`);
  terminal.say(`\nNext: change the designs, write revision.changes anew, then: leafwright check ${input.slug}`);
}

/** Which proposal is revised, and how. */
export interface Revising {
  readonly workspace: string;
  readonly slug: string;
  readonly asked: Asked;
}

/** What was begun, or why nothing was. */
export type Begun = { readonly input: ProposalInput; readonly next: NextRevision } | { readonly problems: readonly Problem[] };

/**
 * Writes the next revision into proposal.yaml, or says why not; to be called under the lock. Throws a UsageFault for days and
 * reasons that do not fit. Codes: `cli/revise-nothing-issued revise-begun revise-by-hand`.
 */
export function beginRevision({ workspace, slug, asked }: Revising): Begun {
  const { input, problems, sources } = readProposal(workspace, slug);
  if (input === undefined || hasErrors(problems)) return { problems };
  const placed = (problem: Problem, from: Sources): Begun => ({ problems: placeProblems(from, [problem]) });
  const next = planNext(workspace, input, asked);
  if ('code' in next) return placed(next, sources);
  if (asked.free !== undefined && next.round?.isBeyond !== true)
    throw new UsageFault('--free goes with a round that costs something', 'leave it out: nothing is charged for this round');
  const text = readFileSync(join(proposalFolder(workspace, slug), 'proposal.yaml'), 'utf8');
  try {
    const wrong = writeOwnFiles(workspace, slug, [{ path: 'proposal.yaml', text: editYaml(text, next.edits) }]);
    return wrong.length > 0 ? { problems: wrong } : { input, next };
  } catch (fault) {
    if (!(fault instanceof YamlEditFault)) throw fault;
    return placed(refusal('revise-by-hand', fault.message, { mend: `write revision.id: ${next.id} and its dates by hand` }), sources);
  }
}
