/**
 * The whole flow on one screen: a checked proposal in, everything that is shown or cut out of it.
 * Pure and synchronous; what needs opening (fonts) comes in as `Kernels`. Walks the choices of options, alone.
 */

import type { Assessment } from './assess/index.ts';
import { assessTable } from './assess/index.ts';
import type { Table } from './design/index.ts';
import { designTable } from './design/index.ts';
import type { Drawings, MeasureText } from './draw/index.ts';
import { drawTable, sharedFrame } from './draw/index.ts';
import type { Price } from './price/index.ts';
import { priceTable } from './price/index.ts';
import type { Problem } from './problem/index.ts';
import type { Choice, EffectiveSpec, ProposalInput } from './spec/index.ts';
import type { TakeOff } from './takeoff/index.ts';
import { takeOff } from './takeoff/index.ts';

export interface Kernels {
  readonly measure: MeasureText;
}

/** One table: a variant with one choice of options. */
export interface ComputedTable {
  readonly spec: EffectiveSpec;
  readonly choice: Choice;
  readonly table: Table;
  readonly assessment: Assessment;
  readonly takeOff: TakeOff;
  readonly price: Price;
}

/** One variant: its table with the default options, drawn, and every other combination. */
export interface ComputedVariant {
  readonly id: string;
  readonly standard: ComputedTable;
  readonly drawings: Drawings;
  readonly combinations: readonly ComputedTable[];
}

export interface ComputedProposal {
  readonly input: ProposalInput;
  readonly variants: readonly ComputedVariant[];
}

export interface ComputeResult {
  /** Absent when any variant has an error. */
  readonly computed?: ComputedProposal;
  readonly problems: readonly Problem[];
}

/** One table from spec to price; stops at the first step with an error. */
export function computeTable(
  spec: EffectiveSpec,
  choice: Choice,
): { readonly computed?: ComputedTable; readonly problems: readonly Problem[] } {
  const designed = designTable(spec);
  if (designed.table === undefined) return { problems: designed.problems };
  const taken = takeOff(spec, designed.table);
  const price = priceTable(spec, taken);
  const assessment = assessTable(spec, designed.table, price);
  const problems = [...designed.problems, ...assessment.problems, ...taken.problems, ...price.problems];
  if (problems.some((p) => p.severity === 'error')) return { problems };
  return { computed: { spec, choice, table: designed.table, assessment, takeOff: taken, price }, problems };
}

/** Every variant with every combination of its options; drawings share one scale and floor line. */
export function computeProposal(input: ProposalInput, kernels: Kernels): ComputeResult {
  const problems: Problem[] = [];
  const tables: { id: string; standard: ComputedTable; combinations: ComputedTable[] }[] = [];
  for (const { variant, combinations } of input.variants) {
    const computed: ComputedTable[] = [];
    let standard: ComputedTable | undefined;
    for (const { choice, isDefault, table } of combinations) {
      const spec: EffectiveSpec = { proposal: input.proposal, variant, table, library: input.library };
      const one = computeTable(spec, choice);
      for (const p of one.problems) {
        const seen = problems.some(
          (q) => q.code === p.code && q.variant === variant.id && q.title === p.title && q.path.join() === p.path.join(),
        );
        if (!seen) problems.push({ ...p, variant: variant.id });
      }
      if (one.computed === undefined) continue;
      computed.push(one.computed);
      if (isDefault) standard = one.computed;
    }
    if (standard !== undefined) tables.push({ id: variant.id, standard, combinations: computed });
  }
  if (problems.some((p) => p.severity === 'error')) return { problems };
  const frame = sharedFrame(tables.filter((t) => t.standard.spec.variant.offered).map((t) => t.standard.table));
  const variants = tables.map(
    (t): ComputedVariant => ({
      ...t,
      drawings: drawTable(t.standard.spec, t.standard.table, t.standard.assessment, frame, kernels.measure),
    }),
  );
  return { computed: { input, variants }, problems };
}
