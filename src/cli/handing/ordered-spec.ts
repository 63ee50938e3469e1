import { join } from 'node:path';
import { hasErrors, type Problem } from '../../problem/index.ts';
import { readProposal } from '../../read/index.ts';
import type { EntryOf } from '../../record/index.ts';
import type { Library, ProposalSpec, TableSpec } from '../../spec/index.ts';
import { refusal } from '../refusal.ts';

/** What was ordered, as it was frozen with its revision. */
export interface OrderedSpec {
  readonly revision: string;
  readonly proposal: ProposalSpec;
  readonly table: TableSpec;
  readonly library: Library;
}

/** The table that a confirmation names, from the frozen files of its revision. Code: `cli/hand-over-not-read`. */
export function orderedSpec(
  folder: string,
  slug: string,
  { chosen }: Pick<EntryOf<'confirmed'>, 'chosen'>,
): OrderedSpec | { readonly problems: readonly Problem[] } {
  const { revision, design, options } = chosen;
  const { input, problems } = readProposal(join(folder, 'issued', revision, 'in'), slug, { frozen: true });
  const table = input?.variants
    .find(({ variant }) => variant.id === design)
    ?.combinations.find(({ choice }) => choice.toSorted().join() === options.toSorted().join())?.table;
  if (input !== undefined && table !== undefined && !hasErrors(problems))
    return { revision, proposal: input.proposal, table, library: input.library };
  return {
    problems: [
      refusal('hand-over-not-read', `${revision}, which was ordered, can not be read from what was frozen with it`, {
        found: problems[0]?.title ?? `no design ${[design, ...options].join(' with ')}`,
        mend: `see what was touched: leafwright verify ${slug}`,
      }),
    ],
  };
}
