import { type InstalmentStanding, isLater, type Stage, type Standing } from '../record/index.ts';

const listed = (names: readonly string[], last: 'and' | 'or' = 'and'): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} ${last} ${names.at(-1)}`;

/** What the bench does next at each stage. */
const bench: Readonly<Partial<Record<Stage, string>>> = {
  ordered: 'buy the timber',
  'timber-bought': 'cut the parts',
  cut: 'glue up',
  glued: 'finish it',
  finished: 'deliver it',
  delivered: 'have it accepted',
};

/** The same after a change that put the work back. */
const benchAgain: Readonly<Partial<Record<Stage, string>>> = {
  ordered: 'buy what is made anew after the change',
  'timber-bought': 'cut the parts that are made anew',
  cut: 'glue up what is made anew',
  glued: 'finish it',
};

const isAtLeast = (stage: Stage, least: Stage): boolean => stage === least || isLater(stage, least);

function waitFor({ waitingFor, newest }: Standing): string {
  const people = waitingFor.map(({ person }) => person);
  const since = waitingFor.map(({ since: day }) => day).sort()[0] ?? '';
  return `wait for the answer of ${listed(people, newest?.rule === 'any' ? 'or' : 'and')} since ${since}`;
}

/** While a revision is out: whose answer is missing, or what speaks for another revision. */
function answerStep(standing: Standing): string {
  const { newest, waitingFor, answers, disagree } = standing;
  const people = Object.keys(answers).sort();
  if (disagree) return `issue the next revision: ${listed(people)} disagree`;
  const not = people.filter((person) => answers[person]?.verdict !== 'yes');
  if (waitingFor.length === 0 && not.length > 0) {
    const mixed = not.find((person) => answers[person]?.verdict === 'mix');
    return mixed === undefined
      ? `issue the next revision: ${listed(not)} said no`
      : `draft what ${mixed} wants: top of one design on the base of another`;
  }
  if (newest?.hasRunOut === true) return `ask anew or record it as lost: the offer ran out on ${newest.validUntil ?? ''}`;
  return waitingFor.length === 0 ? `find out who decides on ${newest?.revision ?? ''}` : waitFor(standing);
}

const payStep = (one: InstalmentStanding, today: string): string => {
  if (one.requested === undefined) return `request ${one.paidMinor > 0 ? 'the rest of ' : ''}instalment ${one.instalment}`;
  return one.requested.due < today
    ? `remind them of instalment ${one.instalment}, due since ${one.requested.due}`
    : `wait for instalment ${one.instalment}, due on ${one.requested.due}`;
};

function approvedStep({ confirmed, approved, holdHasRunOut, instalments }: Standing, today: string): string {
  const isSame =
    confirmed !== undefined &&
    confirmed.chosen.fingerprint === approved?.chosen.fingerprint &&
    confirmed.chosen.design === approved.chosen.design &&
    confirmed.chosen.options.join() === approved.chosen.options.join();
  if (confirmed === undefined || (approved !== undefined && !isSame)) return 'confirm';
  if (holdHasRunOut) return `confirm anew or record it as lost: price and place were held until ${confirmed.holdUntil}`;
  const [first] = instalments;
  return first === undefined ? 'confirm' : payStep(first, today);
}

/** `instalment 1`, `instalments 1 and 2`. */
export const instalmentsNamed = (all: readonly number[]): string => `instalment${all.length === 1 ? '' : 's'} ${listed(all.map(String))}`;

/** What a change has made due at once: asked for together, then waited for. */
function changeMoneyStep({ changeInstalments = [], changeDueCount = 1 }: Standing, today: string): string {
  const open = changeInstalments.slice(0, changeDueCount).filter(({ openMinor }) => openMinor > 0);
  const late = open.find(({ requested }) => requested !== undefined && requested.due < today);
  if (late !== undefined) return payStep(late, today);
  const toAsk = open.filter(({ requested }) => requested === undefined).map(({ instalment }) => instalment);
  if (toAsk.length > 0) return `request what the change adds to ${instalmentsNamed(toAsk)}`;
  const due = open.map(({ requested }) => requested?.due ?? '').sort()[0] ?? '';
  if (open.length > 0)
    return `wait for what the change adds to ${instalmentsNamed(open.map(({ instalment }) => instalment))}, due on ${due}`;
  return 'set right for which instalment the money came: leafwright pay';
}

/** A change to the order that is under way. */
function changeStep(standing: Standing, today: string): string | undefined {
  const { order, newest, approved, changeWaits } = standing;
  if (changeWaits !== undefined) return changeMoneyStep(standing, today);
  if (order === undefined || newest === undefined || newest.revision === order.confirmed.chosen.revision) return undefined;
  return approved === undefined ? answerStep(standing) : 'confirm the change';
}

/**
 * The instalment to ask for. When each is due stands in the maker's own words, so the rule is by place: those between the
 * first and the last from glue-up on, the last from delivery on; one that was requested is followed whenever it is.
 *
 * @source common practice
 */
function moneyStep({ instalments, stage }: Standing, today: string): string | undefined {
  const open = instalments.filter(({ openMinor }) => openMinor > 0);
  const late = open.find(({ requested }) => requested !== undefined && requested.due < today);
  if (late !== undefined) return payStep(late, today);
  const due = open.find(({ instalment }) => isAtLeast(stage, instalment === instalments.length ? 'delivered' : 'glued'));
  if (due === undefined) return undefined;
  if (due.requested === undefined) return payStep(due, today);
  return isAtLeast(stage, 'finished') ? payStep(due, today) : undefined;
}

/** What a table that was handed over still asks for: papers that were not made, defects, a signature. */
function deliveredStep({ delivered, papers, care, openDefects, accepted }: Standing, isUrgent: boolean): string | undefined {
  if (delivered === undefined) return undefined;
  const [first] = openDefects.toSorted((a, b) => (a.by < b.by ? -1 : a.by > b.by ? 1 : a.defect - b.defect));
  if (isUrgent) {
    if (papers?.of !== care?.n) return `make the papers of ${delivered.piece}`;
    return first?.isLate === true ? `put defect ${first.defect} right, promised by ${first.by}` : undefined;
  }
  if (first !== undefined) return `put defect ${first.defect} right by ${first.by}`;
  return accepted === undefined ? `have the hand-over signed, and attach the paper to entry ${delivered.n}` : undefined;
}

/** The oldest open claim: looked at first, then settled. */
function claimStep({ claims }: Standing): string | undefined {
  const open = claims.find(({ settled }) => settled === undefined);
  if (open === undefined) return undefined;
  const { on, n } = open.opened;
  return open.lookedAt.length === 0 ? `look at the claim of ${on}, entry ${n}` : `settle the claim of ${on}, entry ${n}`;
}

/** A table that was brought in vain. */
function failedStep({ failedDeliveries, delivered, stored }: Standing): string | undefined {
  const last = failedDeliveries.at(-1);
  if (last === undefined || delivered !== undefined) return undefined;
  return `agree on another day for the delivery that failed on ${last.on}${stored === undefined ? '' : `; it is stored since ${stored.from}`}`;
}

/** Money first; then what was said since, for whoever comes back to a closed proposal is heard. */
function closedStep({ closed, openMinor, openNotes }: Standing): string {
  const [note] = openNotes;
  if (openMinor < 0) return closed?.kind === 'lost' ? 'pay back what was paid' : 'pay back what was paid beyond what is due';
  if (openMinor > 0 && closed?.kind === 'cancelled') return 'send a statement of what the cancellation left due';
  return note === undefined ? '' : `answer note ${note.n}`;
}

/**
 * The next step of a proposal: one short imperative sentence without a full stop, people by id, days as 2027-02-14; empty
 * where there is none.
 *
 * @param today `2027-02-14`
 */
export function nextStep(standing: Standing, today: string): string {
  const { closed, openNotes, newest, order, approved, confirmed, stage, openMinor } = standing;
  if (closed !== undefined) return closedStep(standing);
  const [note] = openNotes;
  if (note !== undefined) return `answer note ${note.n}`;
  if (order !== undefined) {
    const step =
      deliveredStep(standing, true) ??
      claimStep(standing) ??
      changeStep(standing, today) ??
      moneyStep(standing, today) ??
      deliveredStep(standing, false) ??
      failedStep(standing) ??
      (standing.againFrom === undefined ? bench : { ...bench, ...benchAgain })[stage];
    return step ?? (openMinor < 0 ? 'pay back what was paid beyond the total' : '');
  }
  if (newest === undefined) return 'issue the first revision';
  return approved === undefined && confirmed === undefined ? answerStep(standing) : approvedStep(standing, today);
}
