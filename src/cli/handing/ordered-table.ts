import type { CareTable } from '../../care/index.ts';
import { type ComputedProposal, computedWith, type Kernels } from '../../compute.ts';
import type { Problem } from '../../problem/index.ts';
import type { EntryOf } from '../../record/index.ts';
import { frozenWords, withChoice } from '../draft/frozen-view.ts';
import { computeOrdered, type NotOrdered, orderedInput } from '../order/ordered.ts';
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

/** Why what was ordered can not be taken from what was frozen with it. Code: `cli/hand-over-not-read`. */
export const orderedNotRead = (slug: string, { chosen }: Pick<EntryOf<'confirmed'>, 'chosen'>, { found, isErased }: NotOrdered): Problem =>
  refusal('hand-over-not-read', `${chosen.revision}, which was ordered, can not be computed from what was frozen with it`, {
    found,
    mend: isErased
      ? 'no new sheet or paper can be made of this table; what was handed over before stays good'
      : `see what was touched: leafwright verify ${slug}`,
  });

/** Computes the table that a confirmation names from the frozen files of its revision. Code: `cli/hand-over-not-read`. */
export function orderedTable(
  folder: string,
  slug: string,
  confirmed: EntryOf<'confirmed'>,
  kernels: Kernels,
): OrderedTable | { readonly problems: readonly Problem[] } {
  const input = orderedInput(folder, slug, confirmed);
  const made = 'found' in input ? input : computeOrdered(input, confirmed, kernels);
  if ('found' in made) return { problems: [orderedNotRead(slug, confirmed, made)] };
  const [variant] = made.computed.variants;
  if (variant === undefined) throw new Error(`${slug} was computed without a design`);
  const { spec, table, assessment, takeOff } = made.table;
  return {
    computed: computedWith(made.computed, variant, made.table, kernels),
    care: { spec, table, assessment, takeOff, steadiness: steadinessSaid(folder, confirmed) },
  };
}
