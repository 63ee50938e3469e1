import type { CareSectionId, CareThing } from '../spec/index.ts';

/** What a wider word takes in: never the wider thing is never any of these. */
const KINDS: Partial<Readonly<Record<CareThing, readonly CareThing[]>>> = {
  solvent: ['mineral-spirits', 'alcohol', 'thinner'],
  abrasive: ['fine-paper', 'scouring-pad', 'scouring-milk', 'steel-wool'],
  detergent: ['mild-soap'],
  'alkaline-cleaner': ['ammonia'],
  steam: ['iron'],
};

/** A thing and every kind of it. */
export function kindsOf(thing: CareThing): readonly CareThing[] {
  return [thing, ...(KINDS[thing] ?? [])];
}

/** What a rule or a line tells to use and never to use. */
interface Told {
  readonly section: CareSectionId;
  readonly use: readonly CareThing[];
  readonly never: readonly CareThing[];
}

/** Things that one forbids and the other asks for; what the first days forbid holds in them alone. */
function forbids(one: Told, other: Told): readonly CareThing[] {
  if (one.never.length === 0 || other.use.length === 0) return [];
  if (one.section === 'first-days' && other.section !== 'first-days') return [];
  const forbidden = one.never.flatMap(kindsOf);
  return other.use.filter((thing) => forbidden.includes(thing));
}

/** Things on which two sayings contradict each other, either way round; also one with itself. */
export function contradictions(one: Told, other: Told): readonly CareThing[] {
  return [...new Set([...forbids(one, other), ...forbids(other, one)])];
}
