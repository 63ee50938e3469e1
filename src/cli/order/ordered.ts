import { join } from 'node:path';
import { type ComputedProposal, type ComputedTable, computeProposal, type Kernels } from '../../compute.ts';
import { hasErrors } from '../../problem/index.ts';
import { readProposal } from '../../read/index.ts';
import { type EntryOf, readEntries } from '../../record/index.ts';
import type { ProposalInput } from '../../spec/index.ts';

type Confirmed = Pick<EntryOf<'confirmed'>, 'chosen'>;
/** Why what was ordered can not be had from what was frozen with it, in words for `found`. */
export interface NotOrdered {
  readonly found: string;
  /** Its frozen files were erased on purpose, with somebody's data. */
  readonly isErased?: true;
}

/** Whether two choices of options are one. */
export const sameChoice = (a: readonly string[], b: readonly string[]): boolean => a.toSorted().join() === b.toSorted().join();

/** Where the frozen sources of a revision were erased with somebody's data: by which entry. */
function erasedSources(folder: string, revision: string): NotOrdered | undefined {
  const below = `issued/${revision}/in/`;
  const entry = readEntries(folder).findLast((one) => one.kind === 'erased' && one.files.some((path) => path.startsWith(below)));
  return entry?.kind === 'erased'
    ? { found: `its sources were erased for good with the data of ${entry.person}, by entry ${entry.n}`, isErased: true }
    : undefined;
}

/** The frozen files of the revision that a confirmation names, read; of its designs the ordered one alone. */
export function orderedInput(folder: string, slug: string, { chosen }: Confirmed): ProposalInput | NotOrdered {
  const { revision, design, options } = chosen;
  const { input, problems } = readProposal(join(folder, 'issued', revision, 'in'), slug, { frozen: true });
  if (input === undefined || hasErrors(problems))
    return erasedSources(folder, revision) ?? { found: problems[0]?.title ?? 'no frozen files' };
  const variants = input.variants.filter(({ variant }) => variant.id === design);
  const isThere = variants.some(({ combinations }) => combinations.some(({ choice }) => sameChoice(choice, options)));
  return isThere ? { ...input, variants } : { found: `design ${[design, ...options].join(' with ')}` };
}

/** The table of a proposal's one computed design with these options; nothing where there is no such choice. */
export function tableIn({ variants }: ComputedProposal, options: readonly string[]): ComputedTable | undefined {
  return variants[0]?.combinations.find(({ choice }) => sameChoice(choice, options));
}

/** That design computed, and its table with the options that were chosen. */
export function computeOrdered(
  input: ProposalInput,
  { chosen }: Confirmed,
  kernels: Kernels,
): { readonly computed: ComputedProposal; readonly table: ComputedTable } | NotOrdered {
  const { computed } = computeProposal(input, kernels);
  const table = computed === undefined ? undefined : tableIn(computed, chosen.options);
  if (computed !== undefined && table !== undefined) return { computed, table };
  return { found: `design ${[chosen.design, ...chosen.options].join(' with ')}` };
}
