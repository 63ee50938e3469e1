import { decimalOfMoney, formatMoney, type Money } from '../units/index.ts';
import { type Letter, optionsOn } from './letter.ts';

/** What somebody who decides is shown: a price, or none. */
export type Shown = 'payer' | 'no-price';

/** One issued revision, as far as an answer to it is compared with it. */
export interface Offered {
  readonly revision: string;
  /** The first 20 hex digits are compared. */
  readonly fingerprint: string;
  /** The last day on which it can be accepted, `2027-03-20`. */
  readonly validUntil: string;
  /** SHA-256 of its terms as each was shown them; absent where it was issued without. */
  readonly terms: { readonly [who in Shown]?: string | undefined };
  readonly currency: string;
  /** As a BCP 47 tag: so money is written as it was shown; absent, as `6000.00 EUR`. */
  readonly language?: string;
  /** Those who decide, sorted by code unit of their ids. */
  readonly people: readonly { readonly id: string; readonly audience: Shown }[];
  readonly designs: readonly {
    readonly id: string;
    /** Ids of its options, in any order. */
    readonly options: readonly string[];
    /** Every allowed combination with its total. */
    readonly combinations: readonly { readonly options: readonly string[]; readonly totalMinor: number }[];
  }[];
}

/** How a letter does not fit what was issued. */
export interface Mismatch {
  readonly code:
    | 'reply/unknown-revision'
    | 'reply/superseded'
    | 'reply/too-late'
    | 'reply/unknown-design'
    | 'reply/options-differ'
    | 'reply/unknown-options'
    | 'reply/total-differs'
    | 'reply/total-missing'
    | 'reply/terms-differ'
    | 'reply/unknown-decider'
    | 'reply/person-missing'
    | 'reply/person-differs'
    | 'reply/unknown-question';
  readonly says: string;
}

/** What nobody can insist on: there would be nothing to hold the answer against, or nobody whose answer it is. */
export const firmCodes: readonly Mismatch['code'][] = [
  'reply/unknown-revision',
  'reply/unknown-design',
  'reply/options-differ',
  'reply/unknown-decider',
  'reply/person-missing',
  'reply/unknown-question',
];

export interface CheckedReply {
  /** The revision that the letter answers; absent where none has its fingerprint. */
  readonly revision?: Offered;
  /** Ids of the options that are on, where design and number of options fit, sorted by code unit. */
  readonly options?: readonly string[];
  /** Whose answer it is, with what they were shown. */
  readonly person?: Offered['people'][number];
  readonly mismatches: readonly Mismatch[];
}

const sameIds = (a: readonly string[], b: readonly string[]): boolean => a.length === b.length && a.every((id) => b.includes(id));
const counted = (count: number): string => `${count} option${count === 1 ? '' : 's'}`;

/** A currency of no known form, as a forged code may hold it, is written plainly. */
function moneyAs(money: Money, { language }: Offered): string {
  const plain = `${decimalOfMoney(money)} ${money.currency}`;
  if (language === undefined) return plain;
  try {
    return formatMoney(money, language);
  } catch {
    return plain;
  }
}

function checkTotal(letter: Letter, revision: Offered, totalMinor: number, shown: Shown | undefined): readonly Mismatch[] {
  const was = { minor: totalMinor, currency: revision.currency };
  const { total } = letter;
  if (total === undefined)
    return shown === 'payer'
      ? [{ code: 'reply/total-missing', says: 'the letter names no total, and it comes from somebody who was shown one' }]
      : [];
  if (total.minor === was.minor && total.currency === was.currency) return [];
  const says = `the letter says ${moneyAs(total, revision)}, and ${revision.revision} says ${moneyAs(was, revision)}`;
  return [{ code: 'reply/total-differs', says }];
}

function checkTerms(letter: Letter, revision: Offered, shown: Shown | undefined): readonly Mismatch[] {
  const wanted = shown === undefined ? Object.values(revision.terms) : [revision.terms[shown]];
  const known = wanted.flatMap((digest) => digest ?? []);
  if (known.length === 0 || known.some((digest) => digest.slice(0, 8) === letter.terms)) return [];
  const says =
    letter.terms === undefined
      ? 'the letter does not agree to the terms'
      : `the letter agrees to other terms than those of ${revision.revision}`;
  return [{ code: 'reply/terms-differ', says }];
}

/** What a yes says of design, options, total and terms, held against the revision. */
function checkYes(letter: Letter, revision: Offered, shown: Shown | undefined): Pick<CheckedReply, 'options' | 'mismatches'> {
  const mismatches: Mismatch[] = [];
  const design = revision.designs.find(({ id }) => id === letter.design);
  const options = design === undefined ? undefined : optionsOn(design.options, letter.options);
  if (design !== undefined && options === undefined) {
    const says = `the letter counts ${counted(letter.options.length)}, and design ${design.id} of ${revision.revision} has ${design.options.length}`;
    mismatches.push({ code: 'reply/options-differ', says });
  }
  const offer = options === undefined ? undefined : design?.combinations.find((one) => sameIds(one.options, options));
  if (design !== undefined && options !== undefined && offer === undefined)
    mismatches.push({
      code: 'reply/unknown-options',
      says: `design ${design.id} of ${revision.revision} is not offered with these options: ${options.join(', ') || 'none'}`,
    });
  if (offer !== undefined) mismatches.push(...checkTotal(letter, revision, offer.totalMinor, shown));
  mismatches.push(...checkTerms(letter, revision, shown));
  return { mismatches, ...(options === undefined ? {} : { options }) };
}

/** Whose answer it is: of whom the maker says that it is, else as the letter says, else of the only one who decides. */
function checkPerson(letter: Letter, { revision, people }: Offered, said: string | undefined): Pick<CheckedReply, 'person' | 'mismatches'> {
  const named = letter.decider === undefined ? undefined : people[letter.decider];
  if (said !== undefined) {
    const person = people.find(({ id }) => id === said);
    if (person === undefined)
      return { mismatches: [{ code: 'reply/unknown-decider', says: `${said} is not among those who decide on ${revision}` }] };
    if (named === undefined || named.id === said) return { person, mismatches: [] };
    return {
      person,
      mismatches: [{ code: 'reply/person-differs', says: `the letter is from ${named.id}, and you say that it is ${said}’s` }],
    };
  }
  if (letter.decider !== undefined && named === undefined)
    return { mismatches: [{ code: 'reply/unknown-decider', says: 'the letter is from somebody who is not among those who decide' }] };
  const person = named ?? (people.length === 1 ? people[0] : undefined);
  if (person !== undefined) return { person, mismatches: [] };
  return { mismatches: [{ code: 'reply/person-missing', says: 'the letter does not say which of those who decide it is from' }] };
}

/**
 * Holds a letter against what was issued: fingerprint, newest revision, last day, design, options, total, terms, who decides;
 * one sentence for each thing that does not fit; what answers a question is a yes. Whether a total is needed, and which terms hold, follows from what the one
 * whose answer it is was shown.
 *
 * @param offered every issued revision, the newest last
 * @param receivedOn the day it came, `2027-03-01`: the letter's own date is only what its writer's machine said
 * @param said id of the one whose answer it is, where the maker says so
 */
export function checkReply(letter: Letter, offered: readonly Offered[], receivedOn: string, said?: string): CheckedReply {
  const revision = offered.find(({ fingerprint }) => fingerprint.startsWith(letter.fingerprint));
  if (revision === undefined)
    return { mismatches: [{ code: 'reply/unknown-revision', says: 'no revision of this proposal has the fingerprint of the letter' }] };
  const mismatches: Mismatch[] = [];
  const newest = offered.at(-1);
  if (newest !== undefined && newest !== revision)
    mismatches.push({
      code: 'reply/superseded',
      says: `the letter answers ${revision.revision}, and ${newest.revision} has taken its place`,
    });
  if (letter.verdict === 'yes' && receivedOn > revision.validUntil)
    mismatches.push({
      code: 'reply/too-late',
      says: `it came on ${receivedOn}, and ${revision.revision} could be accepted until ${revision.validUntil}`,
    });
  const named =
    letter.verdict === 'mix' ? [letter.design, letter.base ?? ''] : letter.verdict === 'no' && letter.design === '' ? [] : [letter.design];
  for (const id of named)
    if (!revision.designs.some((design) => design.id === id))
      mismatches.push({ code: 'reply/unknown-design', says: `${revision.revision} has no design ${id === '' ? 'without a name' : id}` });
  if (letter.after !== undefined && letter.verdict !== 'yes')
    mismatches.push({
      code: 'reply/unknown-question',
      says: `the answer is to entry ${letter.after}, and a question asks for a yes alone`,
    });
  const from = checkPerson(letter, revision, said);
  const yes: Pick<CheckedReply, 'options' | 'mismatches'> =
    letter.verdict === 'yes' ? checkYes(letter, revision, from.person?.audience) : { mismatches: [] };
  return {
    revision,
    mismatches: [...mismatches, ...yes.mismatches, ...from.mismatches],
    ...(yes.options === undefined ? {} : { options: yes.options }),
    ...(from.person === undefined ? {} : { person: from.person }),
  };
}
