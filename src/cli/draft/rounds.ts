import type { AnyEntry, IssuedOffer } from '../../record/index.ts';
import type { ProposalSpec } from '../../spec/index.ts';
import type { DecimalText } from '../../units/index.ts';

/**
 * Rounds of revision used when some revisions are out: one for each after the first. A change to an order is none: one whose
 * offer says so, or that was issued after the maker had confirmed.
 */
function roundsUsed(entries: readonly AnyEntry[], offers: readonly IssuedOffer[]): number {
  const confirmed = entries.find(({ kind }) => kind === 'confirmed')?.n ?? Number.POSITIVE_INFINITY;
  const changes = new Set(offers.flatMap(({ revision, change }) => (change === undefined ? [] : [revision])));
  const counted = entries.filter((entry) => entry.kind === 'issued' && entry.n < confirmed && !changes.has(entry.revision));
  return Math.max(0, counted.length - 1);
}

/** How a round stands to what the price includes. */
export interface Round {
  /** Which round the draft is: 0 for the first proposal. */
  readonly n: number;
  readonly included: number;
  /** Net, as written. */
  readonly fee: DecimalText;
  readonly isBeyond: boolean;
  /** How many included ones are left after it. */
  readonly left: number;
}

/** The round that the next revision is; undefined where the proposal counts none, or where it would be a change to an order. */
export function nextRound(
  { rounds }: Pick<ProposalSpec, 'rounds'>,
  entries: readonly AnyEntry[],
  offers: readonly IssuedOffer[],
): Round | undefined {
  const isFirst = !entries.some(({ kind }) => kind === 'issued');
  if (rounds === undefined || entries.some(({ kind }) => kind === 'confirmed')) return undefined;
  const n = isFirst ? 0 : roundsUsed(entries, offers) + 1;
  return { n, included: rounds.included, fee: rounds.fee, isBeyond: n > rounds.included, left: Math.max(0, rounds.included - n) };
}
