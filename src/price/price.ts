import type { Problem } from '../problem/index.ts';
import type { Certainty } from '../spec/index.ts';
import type { Money } from '../units/index.ts';

/** A line of the maker's build-up: never leaves the workshop. */
export interface CostLine {
  readonly id: string;
  readonly group:
    | 'timber'
    | 'hardware'
    | 'finish'
    | 'labour'
    | 'overhead'
    | 'contingency'
    | 'mark-up'
    | 'delivery'
    | 'rounding'
    | 'line'
    /** What an option with a price of its own takes out of the table's price, so that it is asked once. */
    | 'option';
  readonly says: string;
  /** Quantity after rounding to its step, as text, with its unit. */
  readonly quantity?: string;
  readonly rate?: string;
  readonly amount: Money;
}

/** A line that the client may see. */
export interface ShownLine {
  readonly id: string;
  /** Text key (`price.table`, `price.delivery`), or the maker's words. */
  readonly says: string;
  readonly quantity: number;
  readonly each: Money;
  readonly amount: Money;
  readonly certainty: Certainty;
  readonly provisional: boolean;
  readonly taxId: string;
  /** Opened into groups by the maker's wish: parts of `amount` that add up to it. */
  readonly groups: readonly { readonly says: string; readonly amount: Money }[];
}

export interface TaxLine {
  readonly id: string;
  readonly says: string;
  readonly percent: string;
  readonly base: Money;
  readonly amount: Money;
}

export interface Price {
  readonly currency: string;
  /** Private: how the table's own net price (the shown line `table`) came about; adds up to it exactly. */
  readonly build: readonly CostLine[];
  /** Materials, labour, overhead, contingency and private lines, for all tables. */
  readonly costMinor: number;
  /** What is left over the cost, in percent of the net price of the tables and their fixed-price options. */
  readonly marginPercent: number;
  /** What an hour earns, after materials and overhead, if the hours run to the low or the high estimate. */
  readonly spread: { readonly low: Money; readonly high: Money };
  /** What the client may see; their amounts add up to `net`. */
  readonly shown: readonly ShownLine[];
  readonly net: Money;
  readonly taxes: readonly TaxLine[];
  readonly total: Money;
  readonly instalments: readonly { readonly percent: string; readonly when: string; readonly amount: Money }[];
  readonly problems: readonly Problem[];
}
