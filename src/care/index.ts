/**
 * The care of a table. In: its finish, woods, construction, place and dates, the rules of templates/care.yaml, and the texts of a
 * language. Out: the care note, its days, and what is wrong with rules or note, as problems. Masses in kg, lengths in mm. Assumes
 * that the rules were checked with `careLaws`; `checkNote` holds one note against the same laws.
 */
export { inOrderOff } from './carrying.ts';
export { checkNote, pathOfRule } from './check-note.ts';
export { composeCare } from './compose.ts';
export { type CareDates, careDates } from './dates.ts';
export {
  type AppliedFinish,
  type CareTable,
  type CareWords,
  careInputOf,
  type HandedOver,
  woodsOf,
} from './from-table.ts';
export { handsFor, KG_PER_PERSON } from './hands.ts';
export type { CareFinish, CareInput, CareMovement, CarePiece, CareWood, ConstructionFact, PlaceFact } from './input.ts';
export { careLaws, type LawGrounds } from './laws.ts';
export {
  type CareLine,
  type CareNote,
  type CareNoteSectionId,
  type CareSection,
  type CareSpill,
  type CareSpillId,
  linesOf,
} from './note.ts';
export { MOST_LINES, MOST_STEPS, NOTE_SECTIONS, SPILLS } from './sections.ts';
export type { CareApart, CareEvent, CareView } from './view.ts';
export { type CareFrame, careViewOf } from './view-of.ts';
