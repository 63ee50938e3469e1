import type { ClientView, DesignView } from './client-view.ts';

/** A size of the finished table beside what was agreed, in words. */
export interface BuiltRow {
  readonly says: string;
  readonly agreed: string;
  readonly built: string;
  readonly tolerance: string;
  /** `+1 mm`; `none` where they are the same. */
  readonly difference: string;
  /** Within the tolerance, or who said yes to what is beyond it, and when. */
  readonly agreedBy: string;
}

/** A wood of the table: what is known of its kind, and where that is from. */
export interface WoodFacts {
  /** `European oak`. */
  readonly name: string;
  readonly botanical: string;
  readonly rows: readonly (readonly [string, string])[];
  readonly source: string;
}

/**
 * What a client keeps of a delivered table, in words: made for one page of the ordered revision, so that its level and its reader
 * decide what stands here. Holds no amount of money: the scope and the statement are papers of their own.
 */
export interface PapersView {
  readonly format: 'leafwright/papers/1';
  /** The page's own view, with the design as it was ordered; today's texts lie beneath its own. */
  readonly page: ClientView;
  readonly design: DesignView;
  /** Its drawings were kept: picture and sheet are whole. */
  readonly isDrawn: boolean;
  /** Said where the design is drawn as standard and something else was chosen. */
  readonly standardShown?: string;
  readonly piece: string;
  /** Shown days. */
  readonly finished: string;
  readonly delivered: string;
  readonly edition: string;
  readonly editionIso: string;
  readonly deliveredIso: string;
  /** Its overall size as built, and as agreed where that reads otherwise: label and words. */
  readonly sizes: readonly (readonly [string, string])[];
  readonly mass: string;
  readonly built: readonly BuiltRow[];
  /** What it came to on a scale, in a sentence. */
  readonly weighed?: string;
  readonly woods: readonly WoodFacts[];
  /** Where the boards came from, as stated to the maker. */
  readonly timber: readonly { readonly wood: string; readonly origin: string; readonly says: string; readonly certificate: string }[];
  readonly finish: readonly (readonly [string, string])[];
  /** Metal, glass and stone, and fittings. */
  readonly metal: readonly string[];
  readonly glue?: string;
  readonly baseline: readonly (readonly [string, string])[];
}

/** A line of the list of papers. */
export interface PaperLine {
  readonly href: string;
  readonly name: string;
  /** What it is for. */
  readonly why: string;
  /** `PDF, 115 KB`. */
  readonly file: string;
}
