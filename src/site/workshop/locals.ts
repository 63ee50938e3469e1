import type { ClaimSheet } from '../../client/index.ts';
import type { Figures } from '../../figures/index.ts';
import type { Problem } from '../../problem/index.ts';

/** How a proposal stands, in words and days as 2027-02-14. */
export interface LineStanding {
  readonly stage: string;
  readonly closed?: { readonly says: string; readonly words?: string };
  /** `valid until 2027-03-16`, `held until 2027-03-30, over`. */
  readonly until?: string;
  readonly hasRunOut: boolean;
  readonly disagree: boolean;
  readonly waitingFor: readonly { readonly name: string; readonly since: string }[];
  /** What is open of the total; negative where more was paid than is due. */
  readonly open?: { readonly currency: string; readonly minor: number };
  readonly openNotes: number;
  /** The next step; empty where there is none. */
  readonly next: string;
}

/** The record of a proposal: what was entered, opened for the maker. */
export interface WorkshopRecord {
  readonly standing: LineStanding;
  readonly entries: readonly {
    readonly n: number;
    readonly on: string;
    readonly what: string;
    readonly by?: string;
    readonly words?: string;
  }[];
  readonly openNotes: readonly { readonly n: number; readonly on: string; readonly who: string; readonly words: string }[];
  readonly samples: readonly {
    readonly sample: string;
    readonly of: 'sample' | 'boards';
    readonly verdict: 'yes' | 'no';
    readonly keeps: string;
    readonly by: string;
    readonly on: string;
    /** Path below the proposal's folder. */
    readonly picture?: string;
  }[];
  /** Absent until the table was brought. */
  readonly delivery?: WorkshopDelivery;
  /** Absent until something is confirmed or paid. */
  readonly account?: {
    readonly currency: string;
    readonly instalments: readonly {
      readonly instalment: number;
      readonly when: string;
      readonly amountMinor: number;
      readonly paidMinor: number;
      readonly openMinor: number;
      readonly requested?: string;
      readonly paidOn?: string;
    }[];
    /** Paid for an instalment that the order has none of. */
    readonly elsewhereMinor: number;
    /** Less what was returned. */
    readonly paidMinor: number;
    readonly returnedMinor: number;
    readonly openMinor: number;
    /** What its end left due, in place of the instalments. */
    readonly closed?: { readonly kind: 'cancelled' | 'lost'; readonly on: string; readonly dueMinor: number };
  };
}

/** A table that was handed over, or brought in vain, as the maker sees it: in words, days as 2027-02-14. */
export interface WorkshopDelivery {
  /** Absent until a delivery did not fail. */
  readonly table?: {
    readonly piece: string;
    readonly entry: number;
    readonly on: string;
    readonly by?: string;
    readonly words?: string;
    /** Finish, what was measured, how it was accepted, in order. */
    readonly rows: readonly { readonly name: string; readonly says: string; readonly more?: string }[];
    /** Absent where it was left unsigned. */
    readonly signedOn?: string;
    readonly sizes: readonly {
      readonly what: string;
      readonly agreed: string;
      readonly built: string;
      readonly tolerance: string;
      /** Of a difference beyond the tolerance. */
      readonly yes?: number;
    }[];
    /** Those that were listed, in order. */
    readonly defects: readonly { readonly says: string; readonly by: string; readonly state: 'open' | 'late' | 'mended' }[];
    /** Paths below the proposal's folder. */
    readonly photographs: readonly string[];
    /** The newest edition of its papers; whether it is of the care that holds now. */
    readonly papers?: { readonly edition: number; readonly on: string; readonly isOfNow: boolean };
    /** To what the newest edition publishes, and to the labels that lie beside the page. */
    readonly ways: readonly { readonly says: string; readonly href: string }[];
  };
  readonly failed: readonly { readonly on: string; readonly reason: string; readonly words?: string }[];
  readonly stored?: string;
}

/** What a table took beside what it was reckoned to take: in the words of the command. */
export interface WorkshopBench {
  /** The last row is all of it. */
  readonly operations: readonly { readonly id: string; readonly reckoned: string; readonly done: string; readonly ratio: string }[];
  readonly timber: readonly { readonly wood: string; readonly says: string }[];
  /** Empty where no hours were written down. */
  readonly days: string;
  readonly lessons: readonly { readonly on: string; readonly words: string }[];
  /** Offcuts, as they go into the table.yaml of the next one. */
  readonly stock?: string;
}

/** A claim to a table that was delivered, with its own page. */
export interface WorkshopClaim {
  readonly entry: number;
  readonly on: string;
  readonly about: string;
  /** `open`, `open, looked at`, or what became of it. */
  readonly state: string;
  readonly isOpen: boolean;
  /** Its page, beside the proposal's. */
  readonly href: string;
  readonly sheet: ClaimSheet;
}

/** What the page of a claim is rendered from. */
export interface WorkshopClaimLocals {
  readonly title: string;
  readonly language: string;
  readonly claim: WorkshopClaim;
  readonly fonts: string;
  /** The proposal's page. */
  readonly backHref: string;
}

/** Rates that finished tables speak for, by the file of rates that they were priced with. */
export interface RatesShown {
  /** `templates/rates/runa.yaml` */
  readonly file: string;
  readonly says: string;
  readonly rates: readonly { readonly operation: string; readonly change: string; readonly ratio: string; readonly tables: string }[];
  /** The command that writes them. */
  readonly command: string;
}

/** One line of the list of proposals. */
export interface ProposalLine {
  readonly standing: LineStanding;
  readonly slug: string;
  readonly title: string;
  readonly client: string;
  readonly revision: string;
  readonly date: string;
  readonly validUntil: string;
  /** Page of the proposal, relative to the list. */
  readonly href: string;
  readonly designs: readonly {
    readonly id: string;
    readonly name: string;
    readonly totalMinor: number;
    readonly hoursMid: number;
    readonly marginPercent: number;
  }[];
  readonly currency: string;
  readonly errors: number;
  readonly warnings: number;
  /** Set where the proposal could not be computed. */
  readonly failed: boolean;
  /** Issued revisions, newest last. */
  readonly issued: readonly string[];
}

export interface WorkshopIndexLocals {
  readonly maker: string;
  readonly language: string;
  readonly proposals: readonly ProposalLine[];
  /** Where enough tables speak for another rate. */
  readonly rates: readonly RatesShown[];
  /** Folder of the fonts, relative to the page. */
  readonly fonts: string;
}

/** An issued revision: where its page is and which files belong to it. */
export interface IssuedRevision {
  readonly id: string;
  readonly date: string;
  readonly fingerprint: string;
  /** Client page, relative to the workshop page or absolute. */
  readonly href: string;
  readonly files: readonly { readonly says: string; readonly href: string }[];
}

export interface WorkshopPageLocals {
  readonly slug: string;
  readonly title: string;
  readonly client: string;
  readonly language: string;
  readonly revision: string;
  readonly date: string;
  readonly validUntil: string;
  /** The revision from which the proposal began: `oak@r2`. */
  readonly basedOn?: string;
  /** How lengths are shown: `mm`, `in` or `mm+in`. */
  readonly show: 'mm' | 'in' | 'mm+in';
  readonly figures: Figures;
  /** Errors and warnings with their places; errors alone where nothing could be computed. */
  readonly problems: readonly Problem[];
  /** The client's own words by wish id. */
  readonly wishes: Readonly<Record<string, string>>;
  /** The maker's own estimate of hours by design, where there is one. */
  readonly ownHours: Readonly<Record<string, number>>;
  /** What each screening check asks, and the name of each wood, by id. */
  readonly checks: Readonly<Record<string, string>>;
  readonly woods: Readonly<Record<string, string>>;
  /** Texts by key, for names and reasons. */
  readonly texts: Readonly<Record<string, string>>;
  /** SVG by `<design>/<drawing>` (picture, sheet), and their style sheet. */
  readonly svg: Readonly<Record<string, string>>;
  readonly sheetCss: string;
  readonly issued: readonly IssuedRevision[];
  readonly record: WorkshopRecord;
  /** Absent until something was written down at the bench. */
  readonly bench?: WorkshopBench;
  readonly claims: readonly WorkshopClaim[];
  /** Other files made for the workshop. */
  readonly files: readonly { readonly says: string; readonly href: string }[];
  readonly fonts: string;
  /** The list of proposals, relative to this page. */
  readonly indexHref: string;
}
