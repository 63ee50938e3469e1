import type { Assessment } from '../assess/index.ts';
import type { Table } from '../design/index.ts';
import type { Price } from '../price/index.ts';
import type { Choice, EffectiveSpec, ProposalInput } from '../spec/index.ts';
import type { TakeOff } from '../takeoff/index.ts';

/** One computed table, as far as its figures go. */
export interface TableSource {
  readonly spec: EffectiveSpec;
  readonly choice: Choice;
  readonly table: Table;
  readonly assessment: Assessment;
  readonly takeOff: TakeOff;
  readonly price: Price;
}

/** One computed variant: with its default options, and with every allowed combination of them. */
export interface VariantSource {
  readonly id: string;
  readonly standard: TableSource;
  readonly combinations: readonly TableSource[];
}

/** What the whole flow computed, as far as figures go: `ComputedProposal` of compute.ts fits it. */
export interface FiguresSource {
  readonly input: ProposalInput;
  readonly variants: readonly VariantSource[];
}
