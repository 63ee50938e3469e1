import type { Problem } from '../problem/index.ts';
import type { Library } from './library.ts';
import type { ProposalSpec } from './proposal.ts';
import type { TableSpec } from './table.ts';
import type { VariantSpec } from './variant.ts';

/** Option ids that are on, sorted by code unit. */
export type Choice = readonly string[];

/** All that one table is computed from. Its keys are the roots of every `SpecPath`. */
export interface EffectiveSpec {
  readonly proposal: ProposalSpec;
  readonly variant: VariantSpec;
  readonly table: TableSpec;
  readonly library: Library;
}

/** A variant as read: its words, and its table for every allowed combination of options (at most 64). */
export interface VariantInput {
  readonly variant: VariantSpec;
  readonly combinations: readonly { readonly choice: Choice; readonly isDefault: boolean; readonly table: TableSpec }[];
}

/** A checked proposal: what `read/` gives and `compute.ts` takes. */
export interface ProposalInput {
  readonly slug: string;
  readonly proposal: ProposalSpec;
  readonly library: Library;
  readonly variants: readonly VariantInput[];
  /** Every file that was read, by path inside the workspace: what `issue` freezes. */
  readonly files: readonly { readonly path: string; readonly text: string }[];
  readonly warnings: readonly Problem[];
}
