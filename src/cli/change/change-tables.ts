import { join } from 'node:path';
import { type ComputedProposal, type ComputedTable, computeProposal, type Kernels } from '../../compute.ts';
import { earlierChanges, type PricedTable, withoutChangeLines } from '../../price/index.ts';
import { hasErrors, type Problem } from '../../problem/index.ts';
import { readProposal } from '../../read/index.ts';
import type { EntryOf, IssuedOffer } from '../../record/index.ts';
import type { ProposalInput } from '../../spec/index.ts';
import { formatMoney, type Money, minusMoney } from '../../units/index.ts';
import { refusal, remark } from '../refusal.ts';

/** The table that was ordered, computed from what was frozen with it. */
export interface OrderedTable {
  readonly computed: ComputedTable;
  /** For all tables, without lines of earlier changes. */
  readonly priced: PricedTable;
  /** What earlier changes asked, net. */
  readonly earlier: Money;
  readonly net: Money;
  readonly warnings: readonly Problem[];
}

const sameChoice = (a: readonly string[], b: readonly string[]): boolean => a.toSorted().join() === b.toSorted().join();

/** One table of a proposal; nothing where its design has errors or there is no such choice. */
export function tableOf(input: ProposalInput, kernels: Kernels, design: string, options: readonly string[]): ComputedTable | undefined {
  const { computed } = computeProposal({ ...input, variants: input.variants.filter(({ variant }) => variant.id === design) }, kernels);
  return computed === undefined ? undefined : tableIn(computed, options);
}

/** The table of a proposal's one computed design with these options; nothing where there is no such choice. */
export function tableIn({ variants }: ComputedProposal, options: readonly string[]): ComputedTable | undefined {
  return variants[0]?.combinations.find(({ choice }) => sameChoice(choice, options));
}

/** What a change is priced by: a computed table with its net price. */
export const pricedTable = ({ spec, table, takeOff, price }: ComputedTable): PricedTable => ({ spec, table, takeOff, net: price.net });

/**
 * Computes what a confirmation names from the frozen files of its revision. Its price is the one that was agreed.
 * Codes: `cli/change-not-read`, and the warning `cli/change-recomputed`.
 */
export function orderedTable(
  folder: string,
  slug: string,
  { chosen }: EntryOf<'confirmed'>,
  offers: readonly IssuedOffer[],
  kernels: Kernels,
): OrderedTable | { readonly problems: readonly Problem[] } {
  const read = readProposal(join(folder, 'issued', chosen.revision, 'in'), slug, { frozen: true });
  const refused = (found: string) => ({
    problems: [
      refusal('change-not-read', `${chosen.revision}, which was ordered, can not be computed from what was frozen with it`, {
        found,
        mend: `see what was touched: leafwright verify ${slug}`,
      }),
    ],
  });
  if (read.input === undefined || hasErrors(read.problems)) return refused(read.problems[0]?.title ?? 'no frozen files');
  const computed = tableOf(withoutChangeLines(read.input), kernels, chosen.design, chosen.options);
  if (computed === undefined) return refused(`design ${[chosen.design, ...chosen.options].join(' with ')}`);
  const { currency } = chosen;
  const earlier = earlierChanges({ ...computed.spec, proposal: read.input.proposal });
  const agreed = offers
    .find(({ revision }) => revision === chosen.revision)
    ?.designs.find(({ id }) => id === chosen.design)
    ?.combinations.find((one) => sameChoice(one.options, chosen.options));
  const net: Money = { currency, minor: agreed?.netMinor ?? computed.price.net.minor + earlier.minor };
  const own = minusMoney(net, earlier);
  const money = (amount: Money): string => formatMoney(amount, computed.spec.proposal.language);
  const warnings =
    own.minor === computed.price.net.minor
      ? []
      : [
          remark('change-recomputed', `the design ordered with ${chosen.revision} would have another price today`, {
            found: `${money(computed.price.net)} before tax, and ${money(own)} was agreed`,
            mend: 'the difference is taken from the price that was agreed',
          }),
        ];
  return { computed, priced: { ...pricedTable(computed), net: own }, earlier, net, warnings };
}
