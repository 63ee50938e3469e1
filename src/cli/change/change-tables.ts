import { type ComputedTable, computeProposal, type Kernels } from '../../compute.ts';
import { earlierChanges, type PricedTable, withoutChangeLines } from '../../price/index.ts';
import type { Problem } from '../../problem/index.ts';
import type { EntryOf, IssuedOffer, Standing } from '../../record/index.ts';
import type { ProposalInput } from '../../spec/index.ts';
import { type Brought, broughtBy } from '../../takeoff/index.ts';
import { formatMoney, type Money, minusMoney } from '../../units/index.ts';
import { computeOrdered, orderedInput, sameChoice, tableIn } from '../order/ordered.ts';
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

/** One table of a proposal; nothing where its design has errors or there is no such choice. */
export function tableOf(input: ProposalInput, kernels: Kernels, design: string, options: readonly string[]): ComputedTable | undefined {
  const { computed } = computeProposal({ ...input, variants: input.variants.filter(({ variant }) => variant.id === design) }, kernels);
  return computed === undefined ? undefined : tableIn(computed, options);
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
  confirmed: EntryOf<'confirmed'>,
  offers: readonly IssuedOffer[],
  kernels: Kernels,
): OrderedTable | { readonly problems: readonly Problem[] } {
  const { chosen } = confirmed;
  const input = orderedInput(folder, slug, confirmed);
  const made = 'found' in input ? input : computeOrdered(withoutChangeLines(input), confirmed, kernels);
  if ('found' in input || 'found' in made) {
    const { found, isErased } = 'found' in made ? made : { found: '', isErased: undefined };
    return {
      problems: [
        refusal('change-not-read', `${chosen.revision}, which was ordered, can not be computed from what was frozen with it`, {
          found,
          mend: isErased
            ? 'it can not be priced from it any more; agree on what it comes to, and note that'
            : `see what was touched: leafwright verify ${slug}`,
        }),
      ],
    };
  }
  const { table: computed } = made;
  const { currency } = chosen;
  const earlier = earlierChanges({ ...computed.spec, proposal: input.proposal });
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

/** The order that stands, with what of those before it serves in it. */
export interface StandingOrder {
  readonly ordered: OrderedTable;
  /** Absent where it took no other order's place. */
  readonly brought?: Brought;
}

/** Computes an order and what each change before it left of the one that it took the place of. Throws where there is no order. Codes: as `orderedTable`. */
export function standingOrder(
  folder: string,
  slug: string,
  { orders }: Pick<Standing, 'orders'>,
  offers: readonly IssuedOffer[],
  kernels: Kernels,
): StandingOrder | { readonly problems: readonly Problem[] } {
  let now: StandingOrder | undefined;
  for (const { confirmed, stage } of orders) {
    const next = orderedTable(folder, slug, confirmed, offers, kernels);
    if ('problems' in next) return next;
    const brought =
      now === undefined
        ? undefined
        : broughtBy(now.ordered.computed, next.computed, { stage, ...(now.brought === undefined ? {} : { brought: now.brought }) });
    now = { ordered: next, ...(brought === undefined ? {} : { brought }) };
  }
  if (now === undefined) throw new Error(`${slug} has no order`);
  return now;
}
