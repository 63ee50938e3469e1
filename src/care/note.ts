import type { CareSectionId, CareThing } from '../spec/index.ts';
import type { CareDates } from './dates.ts';

/** Kinds of spill, each with steps of its own. */
export type CareSpillId = Extract<CareSectionId, `spill-${string}`>;
/** Parts of a note as it is read: the spills are one. */
export type CareNoteSectionId = Exclude<CareSectionId, CareSpillId> | 'spills';

/** One thing said, with the rule it comes from and that rule's source. */
export interface CareLine {
  readonly rule: string;
  readonly text: string;
  readonly use: readonly CareThing[];
  readonly never: readonly CareThing[];
  readonly source: string;
}

/** What to do with one kind of spill: at most three steps, and when to stop and call. */
export interface CareSpill {
  readonly id: CareSpillId;
  readonly title: string;
  readonly steps: readonly CareLine[];
  readonly stop: readonly CareLine[];
}

export interface CareSection {
  readonly id: CareNoteSectionId;
  readonly title: string;
  /** In `spills`: what holds of each of them. */
  readonly lines: readonly CareLine[];
  /** In `spills` alone. */
  readonly spills?: readonly CareSpill[];
}

/** The care of one table, in the order in which it is read; parts that it does not need are absent. */
export interface CareNote {
  readonly finish: string;
  readonly dates: CareDates;
  readonly sections: readonly CareSection[];
}

/** Every line of a note, in order. */
export function linesOf(note: CareNote): readonly CareLine[] {
  return note.sections.flatMap(({ lines, spills }) => [...lines, ...(spills ?? []).flatMap(({ steps, stop }) => [...steps, ...stop])]);
}
