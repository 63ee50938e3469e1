import { join } from 'node:path';
import type { CareTable } from '../../care/index.ts';
import { type ComputedProposal, computedWith, computeProposal, type Kernels } from '../../compute.ts';
import { hasErrors, type Problem } from '../../problem/index.ts';
import { readProposal } from '../../read/index.ts';
import type { EntryOf } from '../../record/index.ts';
import { frozenWords, withChoice } from '../draft/frozen-view.ts';
import { refusal } from '../refusal.ts';

/** The table that was ordered, with its drawings, computed from what was frozen with its revision. */
export interface OrderedTable {
  /** That design alone, with the options that were chosen. */
  readonly computed: ComputedProposal;
  readonly care: CareTable;
}

/** What the page of the ordered revision says of how steady the table is; nothing where that is not there any more. */
function steadinessSaid(folder: string, { chosen }: EntryOf<'confirmed'>): readonly string[] {
  try {
    const page = frozenWords(folder, chosen.revision, chosen.fingerprint);
    const view = withChoice(folder, page, chosen.design, chosen.options) ?? page;
    const design = view.designs.find(({ id }) => id === chosen.design);
    return design === undefined ? [] : [design.steadiness.sentence];
  } catch {
    return [];
  }
}

/**
 * Computes the table that a confirmation names from the frozen files of its revision. Code: `cli/hand-over-not-read`.
 */
export function orderedTable(
  folder: string,
  slug: string,
  confirmed: EntryOf<'confirmed'>,
  kernels: Kernels,
): OrderedTable | { readonly problems: readonly Problem[] } {
  const { revision, design, options } = confirmed.chosen;
  const read = readProposal(join(folder, 'issued', revision, 'in'), slug, { frozen: true });
  const refused = (found: string) => ({
    problems: [
      refusal('hand-over-not-read', `${revision}, which was ordered, can not be computed from what was frozen with it`, {
        found,
        mend: `see what was touched: leafwright verify ${slug}`,
      }),
    ],
  });
  if (read.input === undefined || hasErrors(read.problems)) return refused(read.problems[0]?.title ?? 'no frozen files');
  const variants = read.input.variants.filter(({ variant }) => variant.id === design);
  const { computed } = computeProposal({ ...read.input, variants }, kernels);
  const variant = computed?.variants[0];
  const wanted = options.toSorted().join();
  const chosen = variant?.combinations.find(({ choice }) => choice.toSorted().join() === wanted);
  if (computed === undefined || variant === undefined || chosen === undefined)
    return refused(`design ${[design, ...options].join(' with ')}`);
  const { spec, table, assessment, takeOff } = chosen;
  return {
    computed: computedWith(computed, variant, chosen, kernels),
    care: { spec, table, assessment, takeOff, steadiness: steadinessSaid(folder, confirmed) },
  };
}
