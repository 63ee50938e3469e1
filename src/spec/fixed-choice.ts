import { byCodeUnit } from '../units/index.ts';
import type { Choice, EffectiveSpec, VariantInput } from './effective.ts';
import type { ProposalSpec } from './proposal.ts';

interface Chosen {
  readonly spec: EffectiveSpec;
  readonly choice: Choice;
}

interface Tables<T extends Chosen> {
  readonly standard?: T;
  readonly combinations: readonly T[];
}

/** The designs that count: of a change to an order the one that it is of, which is then on offer; else all. What is wrong with the others holds up no change. */
export function variantsInPlay({ revision: { change } }: ProposalSpec, variants: readonly VariantInput[]): readonly VariantInput[] {
  if (change === undefined) return variants;
  return variants
    .filter(({ variant }) => variant.id === change.design)
    .map((input) => ({ ...input, variant: { ...input.variant, offered: true } }));
}

/** A table with its choice alone on offer: the options that are on are there by default, the others are not there at all. */
export function fixedToChoice<T extends Chosen>(found: T): Required<Tables<T>> {
  const kept = Object.entries(found.spec.variant.options).filter(([option]) => found.choice.includes(option));
  const options = Object.fromEntries(kept.map(([option, one]) => [option, { ...one, default: true }]));
  const fixed = { ...found, spec: { ...found.spec, variant: { ...found.spec.variant, options } } };
  return { standard: fixed, combinations: [fixed] };
}

/** The tables of a design, of which a change to an order leaves the one with its options; none where there is no such choice. */
export function fixedByChange<T extends Chosen>({ revision: { change } }: ProposalSpec, tables: Tables<T>): Tables<T> {
  if (change === undefined) return tables;
  const wanted = change.options.toSorted(byCodeUnit).join();
  const found = tables.combinations.find(({ choice }) => choice.join() === wanted);
  return found === undefined ? { combinations: [] } : fixedToChoice(found);
}
