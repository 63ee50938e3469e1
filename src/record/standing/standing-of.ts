import { type AnyEntry, type EntryOf, isLater, type Stage } from '../chain/entries.ts';
import { dayIn } from '../disk/day.ts';
import { deliveryOf } from './delivery.ts';
import type { IssuedOffer } from './offer.ts';
import { followOrder, instalmentsOf, sum } from './order.ts';
import type { Approval, Standing, Waiting } from './standing.ts';

type Answer = EntryOf<'answer'>;
type Answers = ReadonlyMap<string, Answer>;

const ofKind = <Kind extends AnyEntry['kind']>(entries: readonly AnyEntry[], kind: Kind): readonly EntryOf<Kind>[] =>
  entries.filter((entry) => entry.kind === kind) as unknown as readonly EntryOf<Kind>[];

/** An answer to a revision that has a newer one counts only where the maker insisted on it. */
const counts = (answer: Answer, newest: string): boolean =>
  answer.revision === newest || answer.insisted?.includes('reply/superseded') === true;

/** The last answer of each person since the newest revision was issued. */
function countingAnswers(entries: readonly AnyEntry[], newest: EntryOf<'issued'> | undefined): Answers {
  if (newest === undefined) return new Map();
  const later = ofKind(entries, 'answer').filter((answer) => answer.n > newest.n && counts(answer, newest.revision));
  return new Map(later.map((answer) => [answer.person, answer]));
}

type Choice = NonNullable<Answer['chosen']>;

function sameChoice(a: Choice, b: Choice): boolean {
  const sameTotal =
    a.totalMinor === undefined || b.totalMinor === undefined || (a.totalMinor === b.totalMinor && a.currency === b.currency);
  return a.revision === b.revision && a.design === b.design && a.options.join() === b.options.join() && sameTotal;
}

/** The choice with its total: of an answer that states one, else of the offer. */
function priced(choices: readonly Choice[], offers: readonly IssuedOffer[]): Approval['chosen'] | undefined {
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

const isYes = (answer: Answer): boolean => answer.verdict === 'yes' && answer.chosen !== undefined;

/** True where the choices of all who said yes are one and the same. */
const agree = (yes: readonly Answer[]): boolean => {
  const choices = yes.flatMap((answer) => answer.chosen ?? []);
  return choices.every((one, i) => choices.slice(i + 1).every((other) => sameChoice(one, other)));
};

/**
 * `all`: everyone has said yes to the same; it counts from the last yes. `any`: one yes is enough and counts from the first,
 * and a no of another does not undo it; two who say yes to different things have not agreed.
 */
function approvalOf(
  given: readonly Answer[],
  people: readonly string[],
  rule: 'all' | 'any',
  offers: readonly IssuedOffer[],
): Approval | undefined {
  const yes = given.filter(isYes);
  const isEnough = rule === 'all' ? people.length > 0 && yes.length === people.length : yes.length > 0;
  if (!isEnough || !agree(yes)) return undefined;
  const chosen = priced(
    yes.flatMap((answer) => answer.chosen ?? []),
    offers,
  );
  const days = yes.map((answer) => answer.on).sort();
  return chosen === undefined
    ? undefined
    : { chosen, answers: yes.toSorted((a, b) => a.n - b.n), on: (rule === 'all' ? days.at(-1) : days[0]) ?? '' };
}

/**
 * All have answered and not the same, and one of them wants a design or a mix; or, where one yes would be enough, two have said
 * yes to different things. Where all have refused, whatever they refused, nobody has said yes, and nobody is at odds.
 */
function isDisagreed(given: readonly Answer[], people: readonly string[], rule: 'all' | 'any'): boolean {
  if (rule === 'any' && !agree(given.filter(isYes))) return true;
  const [first] = given;
  const isWanted = given.some(({ verdict }) => verdict !== 'no');
  return isWanted && first !== undefined && given.length === people.length && !given.every((answer) => saidTheSame(answer, first));
}

function saidTheSame(a: Answer, b: Answer): boolean {
  if (a.verdict !== b.verdict) return false;
  if (a.chosen !== undefined && b.chosen !== undefined) return sameChoice(a.chosen, b.chosen);
  return a.design === b.design && a.base === b.base;
}

type Closing = EntryOf<'lost'> | EntryOf<'cancelled'>;

/** What closed the proposal, unless a revision was issued after it. */
function closedBy(entries: readonly AnyEntry[]): Closing | undefined {
  const end = entries.findLast((entry) => entry.kind === 'lost' || entry.kind === 'cancelled' || entry.kind === 'issued');
  return end === undefined || end.kind === 'issued' ? undefined : end;
}

/** A revision that is issued after the proposal was closed begins anew: order, stages and money before it are settled. */
function sinceReopened(entries: readonly AnyEntry[]): readonly AnyEntry[] {
  let from = 0;
  let isClosed = false;
  for (const [i, { kind }] of entries.entries()) {
    if (kind === 'issued' && isClosed) from = i;
    isClosed = kind === 'lost' || kind === 'cancelled' || (isClosed && kind !== 'issued');
  }
  return entries.slice(from);
}

function waiting(entries: readonly AnyEntry[], newest: EntryOf<'issued'>, people: readonly string[], answers: Answers): readonly Waiting[] {
  return people
    .filter((person) => !answers.has(person))
    .map((person) => {
      const asked = ofKind(entries, 'asked').findLast((entry) => entry.n > newest.n && entry.person === person);
      return { person, since: asked?.on ?? dayIn(newest.at, newest.zone) };
    });
}

/** The last of each group, in the order in which the groups first came up. */
function lastOfEach<T>(all: readonly T[], keyOf: (one: T) => string): readonly T[] {
  return [...new Map(all.map((one) => [keyOf(one), one])).values()];
}

/** The last stage that was recorded and stands, or that follows: from the order, from a hand-over. */
function stageOf(reached: readonly Stage[], isOrder: boolean, isApproved: boolean, isIssued: boolean): Stage {
  const first: Stage = isOrder ? 'ordered' : isApproved ? 'approved' : isIssued ? 'proposed' : 'enquiry';
  return reached.reduce((last, stage) => (isLater(stage, last) ? stage : last), first);
}

function stagesOfDelivery({ delivered, accepted }: Pick<Standing, 'delivered' | 'accepted'>): readonly Stage[] {
  return [...(delivered === undefined ? [] : (['delivered'] as const)), ...(accepted === undefined ? [] : (['accepted'] as const))];
}

/**
 * How a proposal stands, from its entries and its offers alone. After a cancellation what is open is what it left due.
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
  const given = people.flatMap((person) => answers.get(person) ?? []);
  const approved = offer === undefined ? undefined : approvalOf(given, people, offer.rule, offers);
  const disagree = offer !== undefined && approved === undefined && isDisagreed(given, people, offer.rule);
  const account = sinceReopened(entries);
  const {
    confirmed,
    order,
    orders,
    changeWaits,
    changeDueCount = 1,
    work,
    againFrom,
  } = followOrder(closed === undefined ? account : account.filter(({ n }) => n < closed.n), offers);
  const reached = ofKind(account, 'stage');
  const delivery = deliveryOf(account, today);
  const afterClosing = reached.filter(({ n }) => closed !== undefined && n > closed.n).map(({ stage }) => stage);
  const through = [...(reached.length === 0 ? [] : [work]), ...afterClosing, ...stagesOfDelivery(delivery)];
  const payments = ofKind(account, 'paid').map((one) => one.amountMinor);
  const paidMinor = sum(payments);
  const dueMinor = closed === undefined ? confirmed?.chosen.totalMinor : closed.kind === 'cancelled' ? closed.dueMinor : 0;
  const currency = confirmed?.chosen.currency ?? ofKind(account, 'paid').at(-1)?.currency;
  const settled = new Set(ofKind(entries, 'note-settled').map(({ note }) => note));
  const isWaiting = newest !== undefined && closed === undefined && approved === undefined;
  return {
    stage: stageOf(through, order !== undefined, approved !== undefined, newest !== undefined),
    ...(closed === undefined ? {} : { closed: { kind: closed.kind, on: closed.on, n: closed.n } }),
    ...(newest === undefined
      ? {}
      : {
          newest: {
            revision: newest.revision,
            issuedOn: dayIn(newest.at, newest.zone),
            ...(offer === undefined ? {} : { validUntil: offer.validUntil, rule: offer.rule }),
            hasRunOut: offer !== undefined && approved === undefined && today > offer.validUntil,
          },
        }),
    superseded: issued.slice(0, -1).map(({ revision }) => revision),
    answers: Object.fromEntries(answers),
    waitingFor: isWaiting ? waiting(entries, newest, people, answers) : [],
    disagree,
    ...(approved === undefined ? {} : { approved }),
    ...(confirmed === undefined ? {} : { confirmed }),
    ...(changeWaits === undefined
      ? {}
      : {
          changeWaits,
          changeDueCount,
          changeInstalments: instalmentsOf(
            changeWaits,
            account.filter(({ kind, n }) => kind !== 'requested' || n > changeWaits.n),
            offers,
          ),
        }),
    ...(order === undefined ? {} : { order }),
    orders,
    ...(againFrom === undefined ? {} : { againFrom }),
    holdHasRunOut: closed === undefined && confirmed !== undefined && order === undefined && today > confirmed.holdUntil,
    reached,
    // What is asked for a change that waits is not asked of the order that stands.
    instalments: instalmentsOf(
      confirmed,
      account.filter(({ kind, n }) => kind !== 'requested' || changeWaits === undefined || n < changeWaits.n),
      offers,
    ),
    ...(currency === undefined ? {} : { currency }),
    accountFrom: account[0]?.n ?? 1,
    paidMinor,
    returnedMinor: sum(payments.map((minor) => Math.max(0, -minor))),
    openMinor: dueMinor === undefined ? 0 : dueMinor - paidMinor,
    openNotes: ofKind(entries, 'note').filter(({ n }) => !settled.has(n)),
    samples: lastOfEach(ofKind(entries, 'sample'), ({ sample, of, person }) => JSON.stringify([sample, of, person])),
    scopes: ofKind(entries, 'scope'),
    ...delivery,
  };
}
