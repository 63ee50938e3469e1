import type { AnyEntry, ClaimSubject, LossReason, Stage, Standing } from '../../record/index.ts';
import { nextStep } from '../next-step.ts';

/** How a proposal stands, for the list of all: people by id, days as 2027-02-14, money in minor units. */
export interface Overview {
  readonly proposal: string;
  readonly title: string;
  readonly stage: Stage;
  readonly closed?: { readonly kind: 'lost' | 'cancelled'; readonly on: string; readonly reason?: LossReason; readonly words?: string };
  /** The newest issued revision. */
  readonly revision?: string;
  /** Until when it can be answered; absent once it is approved. */
  readonly validUntil?: string;
  /** Until when price and place are held for the first instalment; absent once it is an order. */
  readonly heldUntil?: string;
  readonly hasRunOut: boolean;
  readonly disagree: boolean;
  readonly waitingFor: readonly { readonly person: string; readonly name: string; readonly since: string }[];
  readonly currency?: string;
  readonly openMinor: number;
  readonly openNotes: readonly number[];
  /** The table that was handed over: what is still open of it. */
  readonly delivered?: {
    readonly piece: string;
    readonly on: string;
    readonly entry: number;
    /** The day on which it was signed for; absent where it was left unsigned. */
    readonly acceptedOn?: string;
    readonly openDefects: readonly { readonly defect: number; readonly by: string; readonly isLate: boolean }[];
    /** Claims that are not settled: the entry that opened each. */
    readonly openClaims: readonly {
      readonly entry: number;
      readonly on: string;
      readonly about: ClaimSubject;
      readonly isLookedAt: boolean;
    }[];
    /** The newest edition of its papers. */
    readonly edition?: number;
    /** False where they were not made, or are of a care that no longer holds. */
    readonly hasPapers: boolean;
  };
  /** Days of deliveries that failed, until one does not; and since when the table is stored. */
  readonly failedDeliveries?: readonly string[];
  readonly storedSince?: string;
  /** One short imperative sentence; empty where there is nothing to do. */
  readonly next: string;
}

export interface OverviewSource {
  readonly proposal: string;
  readonly title: string;
  /** Names of people by id, where they are known. */
  readonly names: Readonly<Record<string, string | undefined>>;
  readonly entries: readonly AnyEntry[];
  readonly standing: Standing;
  readonly today: string;
  /** What was sealed with an entry. */
  readonly words: (entry: AnyEntry) => string;
}

function deliveryOf({ delivered, accepted, openDefects, claims, papers, care, failedDeliveries, stored }: Standing): Partial<Overview> {
  if (delivered === undefined)
    return {
      ...(failedDeliveries.length === 0 ? {} : { failedDeliveries: failedDeliveries.map(({ on }) => on) }),
      ...(stored === undefined ? {} : { storedSince: stored.from }),
    };
  return {
    delivered: {
      piece: delivered.piece,
      on: delivered.on,
      entry: delivered.n,
      ...(accepted === undefined ? {} : { acceptedOn: accepted.on }),
      openDefects: openDefects.map(({ defect, by, isLate }) => ({ defect, by, isLate })),
      openClaims: claims
        .filter(({ settled }) => settled === undefined)
        .map(({ opened: { n, on, about = 'other' }, lookedAt }) => ({ entry: n, on, about, isLookedAt: lookedAt.length > 0 })),
      ...(papers === undefined ? {} : { edition: papers.edition }),
      hasPapers: papers !== undefined && papers.of === care?.n,
    },
  };
}

/** The overview of one proposal. */
export function overviewOf({ proposal, title, names, entries, standing, today, words }: OverviewSource): Overview {
  const { stage, closed, newest, waitingFor, currency, openMinor, openNotes, disagree, approved, confirmed, order, holdHasRunOut } =
    standing;
  const end = closed === undefined ? undefined : entries.find(({ n }) => n === closed.n);
  const said = end === undefined ? '' : words(end);
  return {
    proposal,
    title,
    stage,
    ...(closed === undefined
      ? {}
      : {
          closed: {
            kind: closed.kind,
            on: closed.on,
            ...(end?.kind === 'lost' ? { reason: end.reason } : {}),
            ...(said === '' ? {} : { words: said }),
          },
        }),
    ...(newest === undefined ? {} : { revision: newest.revision }),
    ...(newest?.validUntil === undefined || approved !== undefined ? {} : { validUntil: newest.validUntil }),
    ...(confirmed === undefined || order !== undefined ? {} : { heldUntil: confirmed.holdUntil }),
    hasRunOut: holdHasRunOut || (newest?.hasRunOut ?? false),
    disagree,
    waitingFor: waitingFor.map(({ person, since }) => ({ person, name: names[person] ?? person, since })),
    ...(currency === undefined ? {} : { currency }),
    openMinor,
    openNotes: openNotes.map(({ n }) => n),
    ...deliveryOf(standing),
    next: nextStep(standing, today),
  };
}
