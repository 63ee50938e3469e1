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

/** A change to an order offers its one design: the others stay in the workshop. */
export function offeredByChange({ revision: { change } }: ProposalSpec, input: VariantInput): VariantInput {
  if (change === undefined) return input;
  return { ...input, variant: { ...input.variant, offered: input.variant.id === change.design } };
}

/** The tables of a design, of which a change to an order leaves the one with its options; none where there is no such choice. */
export function fixedByChange<T extends Chosen>({ revision: { change } }: ProposalSpec, id: string, tables: Tables<T>): Tables<T> {
  if (change === undefined || id !== change.design) return tables;
  const wanted = change.options.toSorted(byCodeUnit).join();
  const found = tables.combinations.find(({ choice }) => choice.join() === wanted);
  if (found === undefined) return { combinations: [] };
  const kept = Object.entries(found.spec.variant.options).filter(([option]) => change.options.includes(option));
  const options = Object.fromEntries(kept.map(([option, one]) => [option, { ...one, default: true }]));
  const fixed = { ...found, spec: { ...found.spec, variant: { ...found.spec.variant, options } } };
  return { standard: fixed, combinations: [fixed] };
}
