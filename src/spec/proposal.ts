import type { BareUnit, CalendarDate, DecimalText, LengthStyle, Percent } from '../units/index.ts';
import type { ChairSpec, RoomSpec } from './room.ts';
import type { AnswerSpec, WishSpec } from './wish.ts';

export type Certainty = 'fixed' | 'allowance' | 'estimate';

/** A line of the price beyond the table itself. */
export interface FreeLineSpec {
  readonly says: string;
  /** Net price of one. */
  readonly each: DecimalText;
  readonly quantity: number;
  readonly certainty: Certainty;
  /** Shown to the client by its words, or kept inside the price of the table. */
  readonly shown: boolean;
  /** Key of a tax in the shop rates, or none. */
  readonly tax: string;
  /** A sum held for something not yet known; settled by the real cost. */
  readonly provisional: boolean;
  /** Variants that have it; all where absent. */
  readonly variants?: readonly string[];
}

export interface DeciderSpec {
  readonly name: string;
  readonly email?: string;
}

export interface PartySpec {
  readonly name: string;
  readonly address?: string;
  readonly email?: string;
  readonly telephone?: string;
}

/** proposal.yaml, checked. */
export interface ProposalSpec {
  readonly format: 'leafwright/proposal/1';
  readonly title: string;
  /** People, prices and places are invented: said on every page. */
  readonly invented: boolean;
  readonly client: PartySpec;
  /** The person for whom a designer orders; sees no price unless told. */
  readonly endClient?: PartySpec;
  readonly deciders: { readonly rule: 'all' | 'any'; readonly people: Readonly<Record<string, DeciderSpec>> };
  readonly language: string;
  readonly units: BareUnit;
  readonly show: LengthStyle;
  readonly paper: 'a4' | 'letter';
  readonly currency: string;
  readonly use: string;
  /** What I understood so far: Markdown. */
  readonly understood: string;
  readonly wishes: Readonly<Record<string, WishSpec>>;
  readonly room: RoomSpec;
  readonly chairs?: ChairSpec;
  readonly revision: {
    /** r1, r2 ...: the revision these files are the draft of. */
    readonly id: string;
    readonly date: CalendarDate;
    readonly validUntil: CalendarDate;
    /** What changed since the last one, and why: Markdown. */
    readonly changes?: string;
    readonly level: 'sketch' | 'agreed' | 'full';
    readonly audience: 'payer' | 'no-price';
  };
  readonly leadTime: string;
  readonly terms: string;
  readonly rates: string;
  readonly tax: string;
  readonly quantity: number;
  readonly lines: Readonly<Record<string, FreeLineSpec>>;
  readonly supplied: readonly { readonly says: string; readonly by?: CalendarDate }[];
  readonly exclusions: readonly string[];
  readonly assumptions: readonly string[];
  /** Which choices are still open and the last day for each. */
  readonly choices: readonly { readonly says: string; readonly lastStage: string; readonly lastDay?: CalendarDate }[];
  readonly instalments: readonly { readonly percent: Percent; readonly when: string }[];
  readonly sample?: { readonly id: string; readonly says: string };
  /** Facts that the maker wants compared under the pictures; the ones that differ most where absent. */
  readonly compare?: readonly string[];
}

/** An option inside a variant: a patch on the effective spec that changes price or drawing. */
export interface OptionSpec {
  readonly says: string;
  /** Members of one group exclude each other; one of them is `default`. */
  readonly group?: string;
  readonly default: boolean;
  readonly excludes: readonly string[];
  /** Net price asked for it; computed from the patch where absent. */
  readonly price?: DecimalText;
  readonly why?: string;
}

/** variants/<id>.yaml, checked, without its patch (the patch is already in the table). */
export interface VariantSpec {
  /** File name in upper case: A, B, C. */
  readonly id: string;
  readonly name: string;
  /** Why it is offered: the maker's words, Markdown. */
  readonly why: string;
  readonly answers: Readonly<Record<string, AnswerSpec>>;
  /** The maker's own estimate in hours, for the sanity line. */
  readonly hours?: number;
  readonly options: Readonly<Record<string, OptionSpec>>;
  readonly ready?: string;
  /** Never offered: drawn and assessed for the maker alone. */
  readonly offered: boolean;
  readonly notes: readonly string[];
  /** The table's own net price opened into groups on the client page: words and shares that add up to 100 %. Absent: one figure. */
  readonly priceGroups?: readonly { readonly says: string; readonly percent: Percent }[];
}
