import type { CareBook, CareFact, FinishSpec } from '../spec/index.ts';
import type { CalendarDate, LengthShown } from '../units/index.ts';

/** What is built in: facts that the table itself settles. */
export type ConstructionFact = Extract<
  CareFact,
  'glued' | 'moving-fixings' | 'breadboard' | 'drawer' | 'leaf' | 'knock-down' | 'bolts' | 'glass' | 'levellers' | 'castors' | 'steel'
>;

/** What the place asks: facts that room and household settle. */
export type PlaceFact = Extract<
  CareFact,
  'sun' | 'stove' | 'underfloor-heating' | 'soft-floor' | 'children' | 'food' | 'daily-spills' | 'southern'
>;

/** A finish and, once it is known, what was in the tin. */
export interface CareFinish {
  readonly id: string;
  readonly spec: Pick<FinishSpec, 'name' | 'classes' | 'lightUseHours' | 'fullCureDays' | 'refreshMonths' | 'resists'>;
  /** Product and batch as recorded at hand-over. */
  readonly product?: string;
}

/** A wood of the table. */
export interface CareWood {
  readonly id: string;
  readonly name: string;
  readonly hardness: 'hardwood' | 'softwood';
  /** What time and light do to it, as in the woods: `ageing.darkens-soon`. */
  readonly ageing?: string;
}

/** How much a part grows and shrinks across the grain over the year of its room. */
export interface CareMovement {
  /** The part's name in a sentence; the top is told apart. */
  readonly part: string;
  readonly isTop: boolean;
  readonly acrossMm: number;
  readonly lowMm: number;
  readonly highMm: number;
}

/** A piece that is carried by itself. */
export interface CarePiece {
  readonly name: string;
  readonly massKg: number;
}

/** Everything that decides what a care note says; plain data, from the table as built and the record of its hand-over. */
export interface CareInput {
  readonly book: CareBook;
  /** Texts of the language, by key. */
  readonly texts: Readonly<Record<string, string>>;
  /** BCP 47. */
  readonly language: string;
  readonly shown: LengthShown;
  readonly finish: CareFinish;
  /** Absent where the base has the finish of the top. */
  readonly baseFinish?: CareFinish;
  /** Those that are seen, the top's first. */
  readonly woods: readonly CareWood[];
  readonly construction: readonly ConstructionFact[];
  /** What holds the top, in the plural and in a sentence: `wooden buttons`; needed where the construction has moving fixings. */
  readonly fixings?: string;
  readonly place: {
    /** Relative humidity of the driest and the dampest month. */
    readonly humidityLowPercent: number;
    readonly humidityHighPercent: number;
    readonly facts: readonly PlaceFact[];
  };
  /** The top first. */
  readonly movement: readonly CareMovement[];
  readonly carrying: {
    readonly massKg: number;
    /** It was weighed; else it is reckoned. */
    readonly isWeighed?: boolean;
    /** Its longest overall size, mm: a light table may still be too long for one person. */
    readonly longestMm: number;
    /** What to take hold of, in a sentence: `the long rails under the top`. */
    readonly liftBy: string;
    /** Pieces it comes apart into; needed where it knocks down. */
    readonly pieces: readonly CarePiece[];
    /** How it comes apart, one short sentence a step. */
    readonly apart: readonly string[];
  };
  /** How steady it is, in the sentences of its own page. */
  readonly steadiness: readonly string[];
  /** The day of the last coat. */
  readonly finishedOn: CalendarDate;
  readonly deliveredOn: CalendarDate;
  /** The last time it was refreshed, where that was after the delivery. */
  readonly refreshedOn?: CalendarDate;
  /** The last coat with which it left the workshop, where it was finished anew since. */
  readonly madeOn?: CalendarDate;
}
