import type { DeliveredTable } from './papers.ts';

/** A file of the record by its digest. */
export interface KeptFile {
  /** Path below the proposal's folder. */
  readonly path: string;
  readonly sha256: string;
}

/** What was measured at a delivered table, in percent, degrees Celsius and millimetres. */
export interface MeasuredNow {
  readonly humidityPercent?: number;
  readonly celsius?: number;
  readonly moisturePercent: readonly number[];
  readonly sizes: readonly { readonly what: string; readonly mm: number }[];
}

/** One entry of a claim. Days as `2028-01-20`; `words` are undefined where there are none, and marked where they were erased. */
export interface ClaimStep extends MeasuredNow {
  readonly n: number;
  readonly on: string;
  readonly words?: string;
  readonly photographs: readonly KeptFile[];
}

/** What the top was to be expected to do in an air, in millimetres across its boards. */
export interface TopInAir {
  readonly humidityPercent: number;
  readonly moisturePercent: number;
  readonly expectedMm: readonly [number, number];
}

/** What the top of a claimed table was to be expected to do: from the moisture of its boards at glue-up. */
export interface TopExpected {
  /** Its path in the specification: `top.width`. */
  readonly what: string;
  readonly builtMm: number;
  /** False where no size across was written down, so that the drawn one stands for it. */
  readonly isMeasured: boolean;
  readonly moisturePercent: number;
  readonly celsius: number;
  /** The year of the room, as the proposal had it. */
  readonly room: { readonly lowPercent: number; readonly highPercent: number };
  /** For a row of airs, the driest first. */
  readonly airs: readonly TopInAir[];
  /** By what was measured last. */
  readonly now?: {
    readonly by: 'air' | 'boards';
    readonly humidityPercent?: number;
    readonly moisturePercent: number;
    readonly expectedMm: readonly [number, number];
    readonly measuredMm?: number;
    readonly result?: 'as-expected' | 'more-than-expected' | 'less-than-expected';
  };
}

/** Everything that is on record of a claim, from the hand-over on; plain data. */
export interface ClaimSource {
  readonly table: Pick<
    DeliveredTable,
    | 'piece'
    | 'finishedOn'
    | 'deliveredOn'
    | 'asBuilt'
    | 'massKg'
    | 'finish'
    | 'baseFinish'
    | 'otherFinish'
    | 'moisturePercent'
    | 'humidityPercent'
  >;
  /** The entry of the hand-over. */
  readonly handOver: number;
  readonly photographs: readonly KeptFile[];
  readonly inspected: boolean;
  readonly signedOn?: string;
  readonly defects: readonly { readonly says: string; readonly by: string; readonly isOpen: boolean }[];
  readonly services: readonly {
    readonly on: string;
    readonly what: 'visit' | 'repair' | 'refinish';
    readonly finish?: string;
    readonly batch?: string;
    readonly defects: readonly number[];
    readonly words?: string;
  }[];
  readonly measuredLater: readonly { readonly on: string; readonly what: 'moisture' | 'humidity'; readonly percent: readonly number[] }[];
  /** The agreed words on what the maker stands for. */
  readonly warranty?: { readonly title: string; readonly says: string; readonly until?: string };
  readonly opened: ClaimStep & { readonly about: string; readonly person?: string; readonly name?: string };
  readonly lookedAt: readonly ClaimStep[];
  readonly settled?: ClaimStep & { readonly outcome: string };
  /** Absent where the moisture of its boards at glue-up was not recorded. */
  readonly expected?: TopExpected;
}
