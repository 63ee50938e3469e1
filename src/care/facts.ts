import type { CareBook, CareFact, CareRule } from '../spec/index.ts';
import { compareDates } from '../units/index.ts';
import { careDates } from './dates.ts';
import { handsFor } from './hands.ts';
import type { CareInput, CareWood } from './input.ts';

/** Below this in its driest month a room is drier, above the other in its dampest damper, than the note calls best; %. Common practice. */
export const BEST_HUMIDITY_PERCENT = { low: 35, high: 65 } as const;

/** Up to this mass and this size one person carries a table alone. Common practice. */
const LIGHT = { massKg: 10, longestMm: 1000 } as const;

/** More people than this, by weight alone, are more than a household finds to lift a table. Common practice. */
const MOST_HOUSEHOLD = 4;

type When = NonNullable<CareRule['when']>;

/** What the conditions of rules are held against. */
export interface Grounds {
  readonly surface: readonly string[];
  readonly layers: readonly string[];
  readonly anywhere: readonly string[];
  readonly facts: ReadonlySet<CareFact>;
  readonly woods: readonly CareWood[];
}

/** Classes of a finish from the wood outwards, so the last one is what is touched. */
export function classesOf(classes: readonly string[]): Pick<Grounds, 'surface' | 'layers'> {
  return { surface: classes.slice(-1), layers: classes };
}

/** The grounds of one table: its finishes, woods, construction, place and dates. */
export function groundsOf(input: CareInput): Grounds {
  const { place, finish, baseFinish } = input;
  const { massKg, longestMm } = input.carrying;
  const dates = careDates(input);
  const isOther = baseFinish !== undefined && baseFinish.id !== finish.id;
  const derived: readonly (readonly [CareFact, boolean])[] = [
    ['other-base-finish', isOther],
    ['product-named', finish.product !== undefined],
    ['movement-known', input.movement.length > 0],
    ['dry-months', place.humidityLowPercent < BEST_HUMIDITY_PERCENT.low],
    ['damp-months', place.humidityHighPercent > BEST_HUMIDITY_PERCENT.high],
    ['ready-at-delivery', compareDates(input.deliveredOn, dates.lightUseOver) > 0],
    ['cured-at-delivery', compareDates(input.deliveredOn, dates.curedOn) > 0],
    ['light', massKg <= LIGHT.massKg && longestMm <= LIGHT.longestMm],
    ['heavy', handsFor(massKg, 1) > MOST_HOUSEHOLD],
  ];
  return {
    ...classesOf(finish.spec.classes),
    anywhere: [...finish.spec.classes, ...(isOther ? baseFinish.spec.classes : [])],
    facts: new Set([...input.construction, ...place.facts, ...derived.flatMap(([fact, holds]) => (holds ? [fact] : []))]),
    woods: input.woods,
  };
}

/** The ids that a name in `when` stands for: a family's members, else itself. */
function members(book: CareBook, name: string): readonly string[] {
  return book.families[name] ?? [name];
}

function meets(book: CareBook, wanted: readonly string[] | undefined, there: readonly string[]): boolean {
  return wanted === undefined || wanted.some((name) => members(book, name).some((id) => there.includes(id)));
}

/** The woods for which a rule holds: all where it asks for none. */
export function woodsFor(book: CareBook, when: When | undefined, woods: readonly CareWood[]): readonly CareWood[] {
  const wanted = when?.wood;
  return woods.filter((wood) =>
    meets(book, wanted, [wood.id, wood.hardness, ...(wood.ageing === undefined ? [] : [ageingOf(wood.ageing)])]),
  );
}

/** `darkens-soon` of `ageing.darkens-soon`. */
function ageingOf(key: string): string {
  return key.replace(/^ageing\./, '');
}

/** Whether a rule's finish is among these, whatever else it asks. */
export function meetsFinish(book: CareBook, when: When | undefined, at: Pick<Grounds, 'surface' | 'layers' | 'anywhere'>): boolean {
  return meets(book, when?.surface, at.surface) && meets(book, when?.layers, at.layers) && meets(book, when?.anywhere, at.anywhere);
}

/** Whether a rule holds on these grounds. */
export function holds(book: CareBook, when: When | undefined, grounds: Grounds): boolean {
  return (
    meetsFinish(book, when, grounds) &&
    (when?.wood === undefined || woodsFor(book, when, grounds.woods).length > 0) &&
    (when?.with ?? []).every((fact) => grounds.facts.has(fact)) &&
    !(when?.without ?? []).some((fact) => grounds.facts.has(fact))
  );
}
