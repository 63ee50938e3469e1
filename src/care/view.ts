import type { CalendarDate } from '../units/index.ts';
import type { CareNote } from './note.ts';

/** A day on which something is due for a table, once or again and again. */
export interface CareEvent {
  /** What the event's identity in a calendar is made of: `RS-2026-07 refresh`. No name. */
  readonly seed: string;
  readonly day: CalendarDate;
  readonly title: string;
  readonly text: string;
  /** Again after so many months, without end. */
  readonly everyMonths?: number;
}

/** How a table comes apart: what is taken off, in order, and what each piece weighs. */
export interface CareApart {
  readonly steps: readonly string[];
  readonly pieces: readonly { readonly name: string; readonly mass: string; readonly people: string }[];
}

/**
 * What a care page, its paper, the label and the calendar say of one table, in words. It is for whoever has the table: no name of
 * a client, no price, no scope, no proposal and no way back to one can stand in it.
 */
export interface CareView {
  readonly format: 'leafwright/care/1';
  /** BCP 47. */
  readonly language: string;
  readonly paper: 'a4' | 'letter';
  /** Texts of the language that these papers use, by key: `care.*`, `label.*`, `movement.*`, `range.*`. */
  readonly texts: Readonly<Record<string, string>>;
  /** `RS-2026-07`. */
  readonly piece: string;
  /** `Dining table in white oak`: from use and wood, never the proposal's own title. */
  readonly title: string;
  /** 1, 2, 3 ... */
  readonly edition: number;
  /** Shown days: of this edition, of the last coat, of the delivery. */
  readonly date: string;
  readonly finished: string;
  readonly delivered: string;
  /** The month in which it was made, told by its last day: a table that is finished anew is no younger. */
  readonly madeIn: CalendarDate;
  /** The day of this edition, `2027-02-14`. */
  readonly dateIso: string;
  readonly maker: {
    readonly name: string;
    readonly trade: string;
    readonly address: string;
    readonly telephone: string;
    readonly email: string;
    readonly isInvented: boolean;
  };
  /** Name and botanical name. */
  readonly woods: readonly { readonly name: string; readonly botanical?: string }[];
  readonly finish: { readonly name: string; readonly product?: string };
  readonly baseFinish?: { readonly name: string; readonly product?: string };
  /** Overall size as shown: `1800 × 900 × 740 mm`; and its mass. */
  readonly size: string;
  readonly mass: string;
  /** Present where that is the mass as weighed. */
  readonly isWeighed?: boolean;
  readonly note: CareNote;
  readonly events: readonly CareEvent[];
  /** Absent where it does not come apart. */
  readonly apart?: CareApart;
}
