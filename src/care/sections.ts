import { CARE_SECTIONS, type CareFact, type CareSectionId } from '../spec/index.ts';
import type { Grounds } from './facts.ts';
import type { CareNoteSectionId, CareSpillId } from './note.ts';

/** Kinds of spill in the order of the note. */
export const SPILLS: readonly CareSpillId[] = CARE_SECTIONS.filter(isSpill);

/** Parts of a note in their order, the spills as one. */
export const NOTE_SECTIONS: readonly CareNoteSectionId[] = CARE_SECTIONS.flatMap((id): readonly CareNoteSectionId[] =>
  !isSpill(id) ? [id] : id === SPILLS[0] ? ['spills'] : [],
);

/** Most steps for one spill: more is not done with a wet cloth in hand. */
export const MOST_STEPS = 3;

/** Most lines of a part, so that it is read and not only kept. */
export const MOST_LINES: Readonly<Record<Exclude<CareNoteSectionId, 'spills'>, number>> = {
  'first-days': 6,
  daily: 6,
  never: 8,
  heat: 4,
  sun: 6,
  humidity: 8,
  joints: 7,
  moving: 9,
  level: 3,
  tighten: 3,
  steady: 6,
  glass: 3,
  children: 4,
  repair: 5,
  refresh: 5,
  food: 4,
  rags: 5,
};

/** Parts that only some tables need; every other must be there. */
const NEEDED_WITH: Partial<Readonly<Record<CareNoteSectionId, readonly CareFact[]>>> = {
  glass: ['glass'],
  children: ['children'],
  joints: ['glued', 'moving-fixings', 'breadboard', 'drawer', 'leaf'],
};

/** Finish classes whose cloths heat by themselves, by the hazard notes of the class table: their note must say so. */
const SELF_HEATING = [
  'hardwax_oil_1k',
  'hardwax_oil_2k',
  'linseed_boiled',
  'linseed_raw',
  'tung_pure',
  'wiping_varnish',
  'oil_varnish_blend',
  'poly_oil',
];

/** Whether a note on these grounds must have this part. */
export function isNeeded(id: CareNoteSectionId, grounds: Grounds): boolean {
  if (id === 'rags') return grounds.anywhere.some((one) => SELF_HEATING.includes(one));
  const facts = NEEDED_WITH[id];
  return facts === undefined || facts.some((fact) => grounds.facts.has(fact));
}

function isSpill(id: CareSectionId): id is CareSpillId {
  return id.startsWith('spill-');
}
