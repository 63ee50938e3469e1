import { type AnyEntry, type EntryOf, isLater, type Stage } from './entries.ts';
import type { IssuedOffer } from './offer.ts';
import type { Approval, InstalmentStanding, Standing, Waiting } from './standing.ts';

type Answer = EntryOf<'answer'>;
type Confirmed = EntryOf<'confirmed'>;

/** The calendar day of an instant in a time zone, `2027-02-14`. */
function dayIn(at: string, zone: string): string {
  const parts = new Intl.DateTimeFormat('en-GB', { timeZone: zone, year: 'numeric', month: '2-digit', day: '2-digit' }).formatToParts(
    new Date(at),
  );
  const part = (type: string): string => parts.find((one) => one.type === type)?.value ?? '';
  return `${part('year')}-${part('month')}-${part('day')}`;
}

const sum = (amounts: readonly number[]): number => amounts.reduce((total, one) => total + one, 0);
const ofKind = <Kind extends AnyEntry['kind']>(entries: readonly AnyEntry[], kind: Kind): readonly EntryOf<Kind>[] =>
  entries.filter((entry) => entry.kind === kind) as unknown as readonly EntryOf<Kind>[];

/** An answer to a revision that has a newer one counts only where the maker insisted on it. */
const counts = (answer: Answer, newest: string): boolean =>
  answer.revision === newest || answer.insisted?.includes('reply/superseded') === true;

/** The last answer of each person since the newest revision was issued. */
function countingAnswers(entries: readonly AnyEntry[], newest: EntryOf<'issued'> | undefined): Readonly<Record<string, Answer>> {
  if (newest === undefined) return {};
  const later = ofKind(entries, 'answer').filter((answer) => answer.n > newest.n && counts(answer, newest.revision));
  return Object.fromEntries(later.map((answer) => [answer.person, answer]));
}

type Choice = NonNullable<Answer['chosen']>;

function sameChoice(a: Choice, b: Choice): boolean {
  const sameTotal =
    a.totalMinor === undefined || b.totalMinor === undefined || (a.totalMinor === b.totalMinor && a.currency === b.currency);
  return a.revision === b.revision && a.design === b.design && a.options.join() === b.options.join() && sameTotal;
}

/** The choice with its total: of an answer that states one, else of the offer. */
function priced(choices: readonly Choice[], offers: readonly IssuedOffer[]): Confirmed['chosen'] | undefined {
  const stated = choices.find((choice) => choice.totalMinor !== undefined && choice.currency !== undefined);
  const [first] = choices;
  if (first === undefined) return undefined;
  if (stated?.totalMinor !== undefined && stated.currency !== undefined)
    return { ...stated, totalMinor: stated.totalMinor, currency: stated.currency };
  const offer = offers.find(({ revision }) => revision === first.revision);
  const combination = offer?.designs
    .find(({ id }) => id === first.design)
    ?.combinations.find(({ options }) => options.join() === first.options.join());
  return offer === undefined || combination === undefined
    ? undefined
    : { ...first, totalMinor: combination.totalMinor, currency: offer.currency };
}

/**
 * `all`: everyone has said yes to the same. `any`: one yes is enough, a no of another does not undo it; two who say yes to
 * different things have not agreed.
 */
function approvalOf(
  answers: Readonly<Record<string, Answer>>,
  people: readonly string[],
  rule: 'all' | 'any',
  offers: readonly IssuedOffer[],
): Approval | undefined {
  const given = people.flatMap((person) => answers[person] ?? []);
  const yes = given.filter((answer) => answer.verdict === 'yes' && answer.chosen !== undefined);
  const isEnough = rule === 'all' ? people.length > 0 && yes.length === people.length : yes.length > 0;
  const choices = yes.flatMap((answer) => answer.chosen ?? []);
  if (!isEnough || !choices.every((one, i) => choices.slice(i).every((other) => sameChoice(one, other)))) return undefined;
  const chosen = priced(choices, offers);
  const on =
    yes
      .map((answer) => answer.on)
      .sort()
      .at(-1) ?? '';
  return chosen === undefined ? undefined : { chosen, answers: yes, on };
}

function saidTheSame(a: Answer, b: Answer): boolean {
  if (a.verdict !== b.verdict) return false;
  if (a.chosen !== undefined && b.chosen !== undefined) return sameChoice(a.chosen, b.chosen);
  return a.design === b.design && a.base === b.base;
}

/** What the first `count` instalments come to. */
const upTo = (confirmed: Confirmed, count: number): number => sum(confirmed.instalmentsMinor.slice(0, count));

/** How many instalments of a confirmation an amount covers in full, from the first on. */
function covered(confirmed: Confirmed, paidMinor: number): number {
  let count = 0;
  while (count < confirmed.instalmentsMinor.length && paidMinor >= upTo(confirmed, count + 1)) count += 1;
  return count;
}

interface OrderState {
  readonly confirmed?: Confirmed;
  readonly order?: { readonly confirmed: Confirmed; readonly on: string };
  readonly changeWaits?: Confirmed;
}

/**
 * Follows confirmations and money. An order is a confirmation whose first instalment is in. A change takes the place of the
 * old order once it is confirmed and the instalments that were paid by then are paid at their new amounts.
 */
function followOrder(entries: readonly AnyEntry[]): OrderState {
  let state: OrderState = {};
  let paidMinor = 0;
  let change: { readonly confirmed: Confirmed; readonly needsMinor: number } | undefined;
  const settle = (on: string): void => {
    const { confirmed, order } = state;
    if (order === undefined && confirmed !== undefined && paidMinor >= upTo(confirmed, 1)) state = { confirmed, order: { confirmed, on } };
    if (change !== undefined && paidMinor >= change.needsMinor) {
      state = { confirmed: change.confirmed, order: { confirmed: change.confirmed, on } };
      change = undefined;
    }
  };
  for (const entry of entries) {
    if (entry.kind === 'issued' && state.order === undefined) state = {};
    if (entry.kind === 'issued' && change !== undefined) {
      change = undefined;
    }
    if (entry.kind === 'confirmed') {
      if (state.order === undefined) state = { confirmed: entry };
      else change = { confirmed: entry, needsMinor: upTo(entry, covered(state.order.confirmed, paidMinor)) };
      settle(entry.on);
    }
    if (entry.kind === 'paid') {
      paidMinor += entry.amountMinor;
      settle(entry.on);
    }
  }
  return { ...state, ...(change === undefined ? {} : { changeWaits: change.confirmed }) };
}

function instalmentsOf(
  confirmed: Confirmed | undefined,
  entries: readonly AnyEntry[],
  offers: readonly IssuedOffer[],
): readonly InstalmentStanding[] {
  if (confirmed === undefined) return [];
  const when = offers.find(({ revision }) => revision === confirmed.chosen.revision)?.instalments ?? [];
  return confirmed.instalmentsMinor.map((amountMinor, i): InstalmentStanding => {
    const payments = ofKind(entries, 'paid').filter(({ instalment }) => instalment === i + 1);
    const request = ofKind(entries, 'requested').findLast(({ instalment }) => instalment === i + 1);
    const paidMinor = sum(payments.map((one) => one.amountMinor));
    const lastPaid = payments.at(-1);
    return {
      instalment: i + 1,
      when: when[i]?.when ?? '',
      amountMinor,
      paidMinor,
      openMinor: amountMinor - paidMinor,
      ...(request === undefined ? {} : { requested: { number: request.number, on: request.on, due: request.due } }),
      ...(lastPaid === undefined || paidMinor < amountMinor ? {} : { paidOn: lastPaid.on }),
    };
  });
}

/** Closed for good, unless a revision was issued after it. */
function closedBy(entries: readonly AnyEntry[]): Standing['closed'] {
  const end = entries.findLast((entry) => entry.kind === 'lost' || entry.kind === 'cancelled' || entry.kind === 'issued');
  return end === undefined || end.kind === 'issued' ? undefined : { kind: end.kind, on: end.on, n: end.n };
}

function waiting(
  entries: readonly AnyEntry[],
  newest: EntryOf<'issued'>,
  people: readonly string[],
  answers: Readonly<Record<string, Answer>>,
): readonly Waiting[] {
  return people
    .filter((person) => answers[person] === undefined)
    .map((person) => {
      const asked = ofKind(entries, 'asked').findLast((entry) => entry.n > newest.n && entry.person === person);
      return { person, since: asked?.on ?? dayIn(newest.at, newest.zone) };
    });
}

/** The last of each group, in the order in which the groups first came up. */
function lastOfEach<T>(all: readonly T[], keyOf: (one: T) => string): readonly T[] {
  return [...new Map(all.map((one) => [keyOf(one), one])).values()];
}

function stageOf(reached: readonly EntryOf<'stage'>[], isOrder: boolean, isApproved: boolean, isIssued: boolean): Stage {
  const first: Stage = isOrder ? 'ordered' : isApproved ? 'approved' : isIssued ? 'proposed' : 'enquiry';
  return reached.reduce<Stage>((last, { stage }) => (isLater(stage, last) ? stage : last), first);
}

/**
 * How a proposal stands, from its entries and its offers alone.
 *
 * @param entries the chain's entries, in order
 * @param offers of its issued revisions
 * @param today `2027-02-14`: what has run out
 */
export function standingOf(entries: readonly AnyEntry[], offers: readonly IssuedOffer[], today: string): Standing {
  const issued = ofKind(entries, 'issued');
  const newest = issued.at(-1);
  const offer = offers.find(({ revision }) => revision === newest?.revision);
  const people = offer?.people.map(({ id }) => id) ?? [];
  const closed = closedBy(entries);
  const answers = countingAnswers(entries, newest);
  const approved = offer === undefined ? undefined : approvalOf(answers, people, offer.rule, offers);
  const given = people.flatMap((person) => answers[person] ?? []);
  const [firstAnswer] = given;
  const disagree =
    approved === undefined &&
    firstAnswer !== undefined &&
    given.length === people.length &&
    !given.every((answer) => saidTheSame(answer, firstAnswer));
  const { confirmed, order, changeWaits } = followOrder(entries);
  const reached = ofKind(entries, 'stage');
  const instalments = instalmentsOf(confirmed, entries, offers);
  const paidMinor = sum(ofKind(entries, 'paid').map((one) => one.amountMinor));
  const settled = new Set(ofKind(entries, 'note-settled').map(({ note }) => note));
  const isWaiting = newest !== undefined && closed === undefined && approved === undefined;
  return {
    stage: stageOf(reached, order !== undefined, approved !== undefined, newest !== undefined),
    ...(closed === undefined ? {} : { closed }),
    ...(newest === undefined
      ? {}
      : {
          newest: {
            revision: newest.revision,
            issuedOn: dayIn(newest.at, newest.zone),
            ...(offer === undefined ? {} : { validUntil: offer.validUntil }),
            hasRunOut: offer !== undefined && approved === undefined && today > offer.validUntil,
          },
        }),
    superseded: issued.slice(0, -1).map(({ revision }) => revision),
    answers,
    waitingFor: isWaiting ? waiting(entries, newest, people, answers) : [],
    disagree,
    ...(approved === undefined ? {} : { approved }),
    ...(confirmed === undefined ? {} : { confirmed }),
    ...(changeWaits === undefined ? {} : { changeWaits }),
    ...(order === undefined ? {} : { order }),
    holdHasRunOut: confirmed !== undefined && order === undefined && today > confirmed.holdUntil,
    reached,
    instalments,
    ...(confirmed === undefined ? {} : { currency: confirmed.chosen.currency }),
    paidMinor,
    openMinor: confirmed === undefined ? 0 : confirmed.chosen.totalMinor - paidMinor,
    openNotes: ofKind(entries, 'note').filter(({ n }) => !settled.has(n)),
    samples: lastOfEach(ofKind(entries, 'sample'), ({ sample, of, person }) => JSON.stringify([sample, of, person])),
    scopes: ofKind(entries, 'scope'),
  };
}
