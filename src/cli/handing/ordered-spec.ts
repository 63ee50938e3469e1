import type { Problem } from '../../problem/index.ts';
import type { EntryOf } from '../../record/index.ts';
import type { Library, ProposalSpec, TableSpec } from '../../spec/index.ts';
import { orderedInput, sameChoice } from '../order/ordered.ts';
import { orderedNotRead } from './ordered-table.ts';

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
  confirmed: Pick<EntryOf<'confirmed'>, 'chosen'>,
): OrderedSpec | { readonly problems: readonly Problem[] } {
  const { revision, options } = confirmed.chosen;
  const input = orderedInput(folder, slug, confirmed);
  if ('found' in input) return { problems: [orderedNotRead(slug, confirmed, input)] };
  const table = input.variants[0]?.combinations.find(({ choice }) => sameChoice(choice, options))?.table;
  if (table === undefined) throw new Error(`the ordered choice of ${slug} was read and then was not`);
  return { revision, proposal: input.proposal, table, library: input.library };
}
