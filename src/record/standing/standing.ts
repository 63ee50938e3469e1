import type { EntryOf, Stage } from '../chain/entries.ts';

/** Somebody who decides and has not answered the newest revision. `since`: the day from which they are waited for. */
export interface Waiting {
  readonly person: string;
  readonly since: string;
}

/** What everyone whose yes is needed has said yes to: the same design, options and total of one revision. */
export interface Approval {
  readonly chosen: EntryOf<'confirmed'>['chosen'];
  readonly answers: readonly EntryOf<'answer'>[];
  readonly on: string;
}

/** One instalment of what was confirmed: due, requested, paid and open, in minor units. */
export interface InstalmentStanding {
  /** 1-based. */
  readonly instalment: number;
  readonly when: string;
  readonly amountMinor: number;
  readonly paidMinor: number;
  readonly openMinor: number;
  readonly requested?: { readonly number: string; readonly on: string; readonly due: string };
  readonly paidOn?: string;
}

/** An order, the day on which it became one, and how far the work was then. */
export interface TakenOrder {
  readonly confirmed: EntryOf<'confirmed'>;
  readonly on: string;
  readonly stage: Stage;
}

/** A defect that a hand-over listed: of entry `n`, its number from 1, and the day by which it is to be put right. */
export interface OpenDefect {
  readonly n: number;
  readonly defect: number;
  readonly by: string;
  readonly isLate: boolean;
}

/** Something that is wrong with a delivered table, as its client says, and how far that is. */
export interface ClaimStanding {
  readonly opened: EntryOf<'claim'>;
  /** In order. */
  readonly lookedAt: readonly EntryOf<'claim'>[];
  /** Absent while it is open. */
  readonly settled?: EntryOf<'claim'>;
}

/** How a proposal stands; follows from its chain and its offers alone. `today` decides what has run out. */
export interface Standing {
  /** How far the work is; a change for which parts are made anew puts it back. */
  readonly stage: Stage;
  readonly closed?: { readonly kind: 'lost' | 'cancelled'; readonly on: string; readonly n: number };
  /** The newest issued revision. */
  readonly newest?: {
    readonly revision: string;
    readonly issuedOn: string;
    readonly validUntil?: string;
    /** Whose yes is needed. */
    readonly rule?: 'all' | 'any';
    readonly hasRunOut: boolean;
  };
  readonly superseded: readonly string[];
  /** The answer that counts of each person to the newest revision, by id. */
  readonly answers: Readonly<Record<string, EntryOf<'answer'>>>;
  readonly waitingFor: readonly Waiting[];
  /** They have all answered, and not the same; where one yes is enough: two have said yes to different things. */
  readonly disagree: boolean;
  /** Approval of the newest revision. */
  readonly approved?: Approval;
  /** The confirmation that stands: of a change only once it is confirmed and what it asks first is paid; until then the old one. */
  readonly confirmed?: EntryOf<'confirmed'>;
  /** A confirmed change whose first instalment is still open. */
  readonly changeWaits?: EntryOf<'confirmed'>;
  /** What such a change asks: its instalments, with what is paid already, and requests made since it was confirmed. */
  readonly changeInstalments?: readonly InstalmentStanding[];
  /** How many of them, from the first on, have to be paid before the change takes the place of the order. */
  readonly changeDueCount?: number;
  /** The confirmation, once its first instalment is paid in full: an order. `on`: the day on which it became one. */
  readonly order?: { readonly confirmed: EntryOf<'confirmed'>; readonly on: string };
  /** The order as it first became one, then each change that took its place. */
  readonly orders: readonly TakenOrder[];
  /** Of a change after which work is done again: the stage that the parts which stay have reached. */
  readonly againFrom?: Stage;
  /** Not closed, confirmed, first instalment not in, and the day until which price and place are held has passed. */
  readonly holdHasRunOut: boolean;
  readonly reached: readonly EntryOf<'stage'>[];
  readonly instalments: readonly InstalmentStanding[];
  readonly currency?: string;
  /** The first entry of the account: a revision that took up again what was closed begins another. */
  readonly accountFrom: number;
  /** Money that came less money that went back; what was paid for an earlier order that was closed is not in it. */
  readonly paidMinor: number;
  /** Of it, what went back. */
  readonly returnedMinor: number;
  /** Total of the confirmation, or what a cancellation left due, less what was paid: negative where money is to go back. */
  readonly openMinor: number;
  readonly openNotes: readonly EntryOf<'note'>[];
  /** The last word on each sample and set of boards. */
  readonly samples: readonly EntryOf<'sample'>[];
  /** The scope made after approval, newest last. */
  readonly scopes: readonly EntryOf<'scope'>[];
  /** The hand-over of the table that stays with the client; of a later one, the later. */
  readonly delivered?: EntryOf<'hand-over'>;
  /** Signed for, on that day or later on a paper that was attached. */
  readonly accepted?: { readonly on: string; readonly n: number };
  /** Deliveries that failed before it, or without one. */
  readonly failedDeliveries: readonly EntryOf<'hand-over'>[];
  /** Defects listed at the hand-over that no service has put right. */
  readonly openDefects: readonly OpenDefect[];
  readonly services: readonly EntryOf<'service'>[];
  /** Claims to the hand-over that stands, in the order in which they were opened. */
  readonly claims: readonly ClaimStanding[];
  /** Measurements at the bench and after, in order. */
  readonly measured: readonly EntryOf<'measured'>[];
  /** Hours at the bench, and timber used or back to the rack, in order. */
  readonly worked: readonly EntryOf<'worked'>[];
  readonly used: readonly EntryOf<'used'>[];
  /** Kept by the maker since a delivery that failed; `n`: the entry that says so. */
  readonly stored?: { readonly from: string; readonly until?: string; readonly n: number };
  /** The newest edition of the papers of what was delivered; of this care where `of` is `care.n`. */
  readonly papers?: EntryOf<'care'>;
  /** The finish that the table bears, by id: its care counts from `since`. `n`: the entry that says so. */
  readonly care?: { readonly finish: string; readonly since: string; readonly n: number };
}
