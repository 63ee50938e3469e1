import { decimalOfMoney } from '../units/index.ts';
import { type Letter, optionsOn } from './letter.ts';

/** One issued revision, as far as an answer to it is compared with it. */
export interface Offered {
  readonly revision: string;
  /** The first 20 hex digits are compared. */
  readonly fingerprint: string;
  /** The last day on which it can be accepted, `2027-03-20`. */
  readonly validUntil: string;
  /** SHA-256 of its terms; absent where it was issued without one. */
  readonly terms?: string;
  /** Ids of those who decide, sorted by code unit. */
  readonly deciders: readonly string[];
  readonly designs: readonly {
    readonly id: string;
    /** Ids of its options, in any order. */
    readonly options: readonly string[];
    /** Every allowed combination with its total. */
    readonly combinations: readonly { readonly options: readonly string[]; readonly totalMinor: number }[];
    readonly currency: string;
  }[];
}

/** How a letter does not fit what was issued. */
export interface Mismatch {
  readonly code:
    | 'reply/unknown-revision'
    | 'reply/superseded'
    | 'reply/too-late'
    | 'reply/unknown-design'
    | 'reply/unknown-options'
    | 'reply/total-differs'
    | 'reply/terms-differ'
    | 'reply/unknown-decider';
  readonly says: string;
}

export interface CheckedReply {
  /** The revision that the letter answers; absent where none has its fingerprint. */
  readonly revision?: Offered;
  /** Ids of the options that are on, where design and number of options fit. */
  readonly options?: readonly string[];
  readonly decider?: string;
  readonly mismatches: readonly Mismatch[];
}

const sameIds = (a: readonly string[], b: readonly string[]): boolean => a.length === b.length && a.every((id) => b.includes(id));

/** What a yes says of design, options, total and terms, held against the revision. */
function checkYes(letter: Letter, revision: Offered): Pick<CheckedReply, 'options' | 'mismatches'> {
  const mismatches: Mismatch[] = [];
  const design = revision.designs.find(({ id }) => id === letter.design);
  const options = design === undefined ? undefined : optionsOn(design.options, letter.options);
  const offer = options === undefined ? undefined : design?.combinations.find((one) => sameIds(one.options, options));
  if (design !== undefined && offer === undefined)
    mismatches.push({
      code: 'reply/unknown-options',
      says: `design ${design.id} of ${revision.revision} is not offered with these options`,
    });
  if (design !== undefined && offer !== undefined && letter.total !== undefined) {
    const was = { minor: offer.totalMinor, currency: design.currency };
    if (letter.total.minor !== was.minor || letter.total.currency !== was.currency)
      mismatches.push({
        code: 'reply/total-differs',
        says: `the letter says ${decimalOfMoney(letter.total)} ${letter.total.currency}, and ${revision.revision} says ${decimalOfMoney(was)} ${was.currency}`,
      });
  }
  if (revision.terms !== undefined && letter.terms !== revision.terms.slice(0, 8))
    mismatches.push({
      code: 'reply/terms-differ',
      says:
        letter.terms === undefined
          ? 'the letter does not agree to the terms'
          : `the letter agrees to other terms than those of ${revision.revision}`,
    });
  return { mismatches, ...(options === undefined ? {} : { options }) };
}

/**
 * Holds a letter against what was issued: fingerprint, newest revision, last day, design, options, total, terms, who decides;
 * one sentence for each thing that does not fit.
 *
 * @param offered every issued revision, the newest last
 * @param receivedOn the day it came, `2027-03-01`: the letter's own date is only what its writer's machine said
 */
export function checkReply(letter: Letter, offered: readonly Offered[], receivedOn: string): CheckedReply {
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
  const yes: Pick<CheckedReply, 'options' | 'mismatches'> = letter.verdict === 'yes' ? checkYes(letter, revision) : { mismatches: [] };
  mismatches.push(...yes.mismatches);
  const decider = letter.decider === undefined ? undefined : revision.deciders[letter.decider];
  if (letter.decider !== undefined && decider === undefined)
    mismatches.push({ code: 'reply/unknown-decider', says: 'the letter is from somebody who is not among those who decide' });
  return {
    revision,
    mismatches,
    ...(yes.options === undefined ? {} : { options: yes.options }),
    ...(decider === undefined ? {} : { decider }),
  };
}
