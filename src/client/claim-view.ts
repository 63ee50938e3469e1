/** A table of a claim's sheet; an empty cell is left for a hand where `isForHand` says so. */
export interface ClaimTable {
  readonly columns: readonly { readonly head: string; readonly share: number; readonly isNumber: boolean }[];
  readonly rows: readonly (readonly string[])[];
  readonly isForHand?: boolean;
}

/** A part of a claim's sheet: a head, then what it holds, in this order. */
export interface ClaimSection {
  readonly id: 'baseline' | 'photographs' | 'since' | 'agreed' | 'complaint' | 'found' | 'wood' | 'visit' | 'settled';
  readonly head: string;
  readonly lead?: string;
  readonly rows: readonly (readonly [string, string])[];
  readonly table?: ClaimTable;
  readonly paragraphs: readonly string[];
  readonly small: readonly string[];
}

/**
 * A claim in words, from the recorded baseline on: for the maker, or the copy that may leave. Holds no amount of money, and in a copy none
 * of the maker's own remarks.
 */
export interface ClaimSheet {
  readonly title: string;
  readonly lead: string;
  readonly piece: string;
  /** The day on which it was opened, `2028-01-20`, and as shown. */
  readonly onIso: string;
  readonly on: string;
  readonly isOpen: boolean;
  readonly isCopy: boolean;
  readonly sections: readonly ClaimSection[];
  /** What it is not, and which rights it leaves alone. */
  readonly notice: readonly string[];
}
