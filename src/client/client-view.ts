import type { Sheet } from '../draw/index.ts';

/** A run of text inside a block. */
export interface RichRun {
  readonly text: string;
  readonly strong: boolean;
  readonly emphasis: boolean;
}

/** The maker's Markdown as plain data, so that pages and documents set the same words: made by `client/rich-text.ts` with markdown-it. */
export type RichText = readonly (
  | { readonly kind: 'paragraph'; readonly runs: readonly RichRun[] }
  | { readonly kind: 'list'; readonly ordered: boolean; readonly items: readonly (readonly RichRun[])[] }
)[];

/**
 * All that may leave for the client, already in words: every figure is rounded to the safe side and formatted
 * in the proposal's language. Client pages and client PDFs import this and nothing that knows a cost.
 * What a level or an audience may not see is absent, not hidden.
 */
export interface ClientView {
  readonly format: 'leafwright/client/1';
  readonly proposal: string;
  readonly title: string;
  readonly invented: boolean;
  readonly language: string;
  readonly paper: 'a4' | 'letter';
  readonly audience: 'payer' | 'no-price';
  readonly level: 'sketch' | 'agreed' | 'full';
  readonly maker: {
    readonly name: string;
    readonly trade: string;
    readonly address: string;
    readonly email: string;
    readonly telephone: string;
  };
  /** On a page under another name than the maker's: whose the first person is, and where an answer goes. */
  readonly voice?: string;
  readonly client: { readonly name: string; readonly address?: string };
  readonly endClient?: { readonly name: string };
  readonly deciders: { readonly rule: 'all' | 'any'; readonly names: readonly string[]; readonly sentence: string };
  readonly revision: {
    readonly id: string;
    /** `First proposal`, `Second proposal`. */
    readonly ordinal: string;
    readonly date: string;
    readonly validUntil: string;
    /** ISO dates for machines. */
    readonly dateIso: string;
    readonly validUntilIso: string;
    /** 20 hex digits in fives, or absent in a draft. */
    readonly fingerprint?: string;
    /** Which entry of the maker's record it follows, with that entry's digest; absent in a draft. */
    readonly follows?: string;
    readonly changes?: RichText;
    /** Of a change to an order: that the order stands until it is agreed, and what of it is paid already. */
    readonly orderStands?: string;
  };
  readonly understood: RichText;
  readonly designs: readonly DesignView[];
  readonly wishes: readonly { readonly id: string; readonly says: string; readonly answers: Readonly<Record<string, WishView>> }[];
  readonly supplied: readonly string[];
  readonly exclusions: readonly string[];
  readonly assumptions: readonly string[];
  readonly choices: readonly string[];
  readonly sample?: string;
  readonly leadTime: string;
  /** Rounds of drawing that the price includes, how many are used, and what the next one costs. */
  readonly rounds?: { readonly sentence: string };
  /** What the table is made from, and what is told of electronic consent and distance selling; absent in revisions frozen before there was any. */
  readonly consent?: ConsentView;
  /** What changed since the revision before; absent in a first one, and in revisions frozen before there was any. */
  readonly changed?: ChangedView;
  /** What the letter of answer can say; absent in revisions frozen before there was any. */
  readonly letter?: LetterView;
  readonly terms: {
    readonly sections: readonly { readonly title: string; readonly body: RichText }[];
    readonly tolerances: readonly { readonly says: string; readonly value: string }[];
    readonly changes: readonly { readonly stage: string; readonly says: string }[];
    readonly cancellation: readonly { readonly stage: string; readonly says: string }[];
  };
  /** Sentences that stand once: calculated not tested, defer to local codes. */
  readonly cautions: readonly string[];
  /** Labels and fixed sentences of the page by key, in the proposal's language. */
  readonly texts: Readonly<Record<string, string>>;
}

/** What changed since the revision before; only what did. */
export interface ChangedView {
  /** That only what changed is listed, and what the lines of the drawings mean. */
  readonly sentence: string;
  /** `First proposal`, `Second proposal`. */
  readonly before: string;
  readonly now: string;
  readonly designs: readonly ChangedDesign[];
  /** Sentences: designs that are new, and those that are no longer offered. */
  readonly added: readonly string[];
  readonly dropped: readonly string[];
}

/** One design against the one that it grew from. */
export interface ChangedDesign {
  readonly id: string;
  readonly name: string;
  /** `grew from design B, Trestle`; absent where letter and name stayed. */
  readonly was?: string;
  /** Said where no row would be: nothing that is shown changed. */
  readonly same?: string;
  readonly rows: readonly { readonly label: string; readonly before: string; readonly now: string }[];
  /** The new one with the outline of the older over it; absent at the level `sketch`, where no drawing changed, and where the older one can not be drawn as it was. */
  readonly over?: { readonly front: Sheet; readonly side?: Sheet };
}

/** All that can be answered, so that a page can make the letter without a server and without adding anything up. */
export interface LetterView {
  /** The first 20 hex digits of the revision's fingerprint; absent in a draft: its letters get no code. */
  readonly fingerprint?: string;
  /** ISO 4217; absent where no price is shown. */
  readonly currency?: string;
  /** SHA-256 of the terms as they are shown here, 64 hex digits. */
  readonly terms: string;
  /** Those who decide and are shown this page. `place`: among all who decide, their ids sorted by code unit. */
  readonly people: readonly { readonly id: string; readonly place: number; readonly name: string }[];
  readonly designs: readonly LetterDesign[];
  /** When each instalment is paid; empty where no price is shown. */
  readonly instalments: readonly string[];
  /** Address of the maker's form; absent where there is none. */
  readonly form?: string;
}

export interface LetterDesign {
  readonly id: string;
  readonly name: string;
  /** Sorted by code unit of their ids: a reply code counts them in this order. */
  readonly options: readonly { readonly id: string; readonly says: string; readonly group?: string }[];
  /** Every allowed combination. Amounts are absent where no price is shown. */
  readonly combinations: readonly {
    readonly options: readonly string[];
    readonly isDefault: boolean;
    readonly total?: { readonly minor: number; readonly shown: string };
    readonly instalments?: readonly string[];
  }[];
}

/** Consent to electronic form and the ground of a made-to-order contract. */
export interface ConsentView {
  /** Version of these words. */
  readonly version: string;
  /** The sentence that is agreed to. */
  readonly sentence: string;
  /** The client's own measures and wishes with a target, as recorded; sizes of the designs stand with the designs. */
  readonly ground: {
    readonly says: string;
    readonly rows: readonly { readonly says: string; readonly value: string }[];
    readonly presets: string;
  };
  /** Paper, withdrawal of consent, what it covers, what is needed, what it proves. */
  readonly rows: readonly { readonly says: string; readonly value: string }[];
  /** What the law named by the terms generally asks to be said. */
  readonly law: readonly { readonly says: string; readonly value: string }[];
  /** Version, and that this is no legal advice. */
  readonly note: string;
}

export interface WishView {
  readonly result: 'enough' | 'limit' | 'not-enough' | 'judgement' | 'not-computed';
  /** `enough`, `at the limit`, `not enough`, `my judgement`. */
  readonly resultText: string;
  /** `about 990 N`; absent where there is no figure. */
  readonly value?: string;
  readonly target?: string;
  readonly why?: string;
}

export interface DesignView {
  /** A, B, C. */
  readonly id: string;
  readonly name: string;
  readonly why: RichText;
  readonly picture: Sheet;
  /** Absent at the level `sketch`. */
  readonly front?: Sheet;
  readonly side?: Sheet;
  readonly plan?: Sheet;
  /** At the level `full` alone. */
  readonly underside?: Sheet;
  /** Absent at the level `sketch`. */
  readonly sheet?: Sheet;
  readonly small: Sheet;
  /** `2,100 × 820 × 745 mm`. */
  readonly sizes: string;
  readonly mass: string;
  /** The three facts that differ most between the designs, or that the maker named. Same order in every design. */
  readonly facts: readonly { readonly label: string; readonly value: string }[];
  /** Absent for an audience that sees no price. */
  readonly price?: PriceView;
  readonly materials: readonly MaterialView[];
  /** Bought parts by kind and count. */
  readonly hardware: readonly string[];
  readonly steadiness: {
    readonly sentence: string;
    readonly rows: readonly { readonly label: string; readonly value: string; readonly note?: string }[];
  };
  readonly movement: readonly string[];
  /** How it comes in and stands in the room. */
  readonly fit: readonly string[];
  readonly care: CareView;
  readonly ready: string;
  readonly notes: readonly string[];
}

export interface PriceView {
  /** Total for large type: without minor units where they are zero; in words what it includes. */
  readonly headline: string;
  readonly total: string;
  readonly totalNote: string;
  readonly lines: readonly {
    readonly says: string;
    readonly quantity?: string;
    readonly certainty: string;
    readonly amount: string;
    readonly groups: readonly { readonly says: string; readonly amount: string }[];
  }[];
  readonly net: string;
  readonly taxes: readonly { readonly says: string; readonly amount: string }[];
  readonly instalments: readonly { readonly percent: string; readonly when: string; readonly amount: string }[];
  readonly options: readonly {
    readonly id: string;
    readonly says: string;
    readonly why?: string;
    readonly difference: string;
    readonly isDefault: boolean;
    readonly group?: string;
  }[];
  /** Total of every allowed combination of options, by the ids that are on. */
  readonly combinations: readonly {
    readonly options: readonly string[];
    readonly says: string;
    readonly net: string;
    readonly total: string;
  }[];
}

export interface MaterialView {
  readonly part: string;
  readonly count: string;
  readonly wood: string;
  readonly origin?: string;
  readonly finish?: string;
  /** Absent at the level `sketch`. */
  readonly size?: string;
  readonly amount?: string;
}

export interface CareView {
  readonly finish: string;
  readonly daily: string;
  readonly spills: string;
  readonly never: string;
  readonly refresh: string;
  /** What the finish stands and what it does not, in words. */
  readonly resists: string;
  /** How long it needs before use. */
  readonly cure: string;
  /** What time and light do to the wood; empty where unknown. */
  readonly wood: string;
  readonly cautions: readonly string[];
}
