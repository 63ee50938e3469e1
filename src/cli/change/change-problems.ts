import type { WishAnswer } from '../../assess/index.ts';
import type { ComputedTable } from '../../compute.ts';
import type { ChangePrice } from '../../price/index.ts';
import type { Problem } from '../../problem/index.ts';
import type { Standing } from '../../record/index.ts';
import { isReached, type ProposalSpec } from '../../spec/index.ts';
import { formatForce, formatLength, formatMass, formatMoney, formatNumber, formatPercent } from '../../units/index.ts';
import { alreadyClosed, refusal, remark } from '../refusal.ts';

type Rest = Pick<Problem, 'found' | 'allowed' | 'mend'>;

const ofChange = (code: string, title: string, rest: Rest): Problem => ({
  ...refusal(code, title, rest),
  path: ['proposal', 'revision', 'change'],
});

/** Why no change can be priced now. Codes: `cli/is-closed change-without-order change-delivered`. */
export function notChangeable(slug: string, { closed, order, stage }: Standing): readonly Problem[] {
  if (closed !== undefined) return [alreadyClosed(slug, closed)];
  if (order === undefined)
    return [
      refusal('change-without-order', `${slug} is no order yet, so there is nothing to change`, {
        found: `it is ${stage}`,
        mend: `what is wanted goes into the next revision: leafwright revise ${slug}`,
      }),
    ];
  if (isReached('delivered', stage))
    return [
      refusal('change-delivered', 'the table is delivered, so its order can not be changed any more', {
        found: `it is ${stage}`,
        mend: `begin a proposal from it: leafwright new ${slug}-again --from ${slug}@${order.confirmed.chosen.revision}`,
      }),
    ];
  return [];
}

/** What is against comparing two tables. Codes: `cli/change-quantity change-currency`. */
export function notComparable(ordered: ProposalSpec, draft: ProposalSpec): readonly Problem[] {
  const problems: Problem[] = [];
  if (ordered.quantity !== draft.quantity)
    problems.push({
      ...refusal('change-quantity', 'the draft makes another number of tables than the order', {
        found: String(draft.quantity),
        allowed: String(ordered.quantity),
        mend: `write quantity: ${ordered.quantity}; more or fewer tables are a proposal of their own`,
      }),
      path: ['proposal', 'quantity'],
    });
  if (ordered.currency !== draft.currency)
    problems.push({
      ...refusal('change-currency', 'the draft and the order are in different currencies', {
        found: draft.currency,
        allowed: ordered.currency,
        mend: `write currency: ${ordered.currency}`,
      }),
      path: ['proposal', 'currency'],
    });
  return problems;
}

/** A figure of a wish as the proposal shows it. */
function inWords(unit: WishAnswer['unit'], value: number, { show, language, currency }: ProposalSpec): string {
  if (unit === 'mm') return formatLength(value, { style: show, locale: language });
  if (unit === 'N') return formatForce(value, show, language);
  if (unit === 'kg') return formatMass(value, show, language);
  if (unit === 'percent') return formatPercent(value, language);
  if (unit === 'minor') return formatMoney({ currency, minor: value }, language);
  return formatNumber(value, language, 1);
}

/** The draft's table is the ordered one in every part, hour and piece of hardware, at the same price. Code: `cli/change-nothing`, a warning. */
export function sameTable(
  ordered: ComputedTable,
  draft: ComputedTable,
  { difference }: Pick<ChangePrice, 'difference'>,
): readonly Problem[] {
  const made = ({ table, takeOff }: ComputedTable): string => JSON.stringify([table, takeOff]);
  if (difference.minor !== 0 || made(ordered) !== made(draft)) return [];
  return [
    remark('change-nothing', 'the draft makes the very table that is ordered: there is nothing to price beyond handling', {
      found: `design ${[draft.spec.variant.id, ...draft.choice].join(' with ')}`,
      mend: 'draw the change into the draft first, or say what it becomes: --design, --options',
    }),
  ];
}

const isMet = (answer: WishAnswer | undefined): boolean => answer?.result === 'enough' || answer?.result === 'limit';

/** Wishes that the ordered table meets and the changed one does not. Code: `cli/change-breaks-wish`. */
export function brokenWishes(ordered: ComputedTable, draft: ComputedTable): readonly Problem[] {
  const { proposal, variant } = draft.spec;
  return draft.assessment.wishes.flatMap(({ id, result, value, target, unit }): readonly Problem[] => {
    if (result !== 'not-enough' || !isMet(ordered.assessment.wishes.find((one) => one.id === id))) return [];
    const shown = (figure: number): string => inWords(unit, figure, proposal);
    const bounds = [
      ...(target?.atLeast === undefined ? [] : [`at least ${shown(target.atLeast)}`]),
      ...(target?.atMost === undefined ? [] : [`at most ${shown(target.atMost)}`]),
    ];
    return [
      {
        ...refusal(
          'change-breaks-wish',
          `design ${variant.id} would no longer meet wish ${id}, which the order meets: “${proposal.wishes[id]?.says ?? id}”`,
          {
            ...(value === undefined ? {} : { found: shown(value) }),
            ...(bounds.length === 0 ? {} : { allowed: bounds.join(', ') }),
          },
        ),
        path: ['proposal', 'wishes', id],
      },
    ];
  });
}

/** A revision that takes up again what was closed begins another account: what is open of the old one would be in none. */
function accountProblems({ language }: ProposalSpec, { closed, currency, openMinor }: Standing, slug: string): readonly Problem[] {
  if (closed === undefined || currency === undefined || openMinor === 0) return [];
  const amount = formatMoney({ currency, minor: Math.abs(openMinor) }, language);
  return [
    {
      ...refusal('account-open', `money is open of what was ${closed.kind} on ${closed.on}, and a new revision begins another account`, {
        found: openMinor < 0 ? `${amount} to be returned` : `${amount} due`,
        mend: `settle it first: leafwright pay ${slug} --instalment 1 --amount ...${openMinor < 0 ? ' --back; what stays for the new order is entered there anew' : ''}; or insist: --insist "why"`,
      }),
      path: ['proposal', 'revision', 'id'],
    },
  ];
}

/**
 * Whether a draft may still be issued as the change to an order that it says it is, and what is open of an order that was closed.
 * Codes: `cli/change-without-order change-of-another change-stage-moved account-open` (errors), `cli/change-not-priced` (a warning).
 */
export function changeProblems(proposal: ProposalSpec, standing: Standing, slug: string): readonly Problem[] {
  const { change } = proposal.revision;
  const { order, closed, stage } = standing;
  const again = `price it anew: leafwright change ${slug} --write`;
  if (change === undefined) {
    if (closed !== undefined) return accountProblems(proposal, standing, slug);
    if (order === undefined) return [];
    return [
      {
        ...remark('change-not-priced', 'there is an order, and this draft was not priced as a change to it', {
          found: `${order.confirmed.chosen.revision} is ordered, and the work is ${stage}`,
          mend: `price it: leafwright change ${slug} --write`,
        }),
        path: ['proposal', 'revision', 'id'],
      },
    ];
  }
  if (order === undefined || closed !== undefined)
    return [
      ofChange('change-without-order', 'the draft changes an order, and there is none', {
        found: closed === undefined ? `it is ${stage}` : `${closed.kind} on ${closed.on}`,
        mend: 'take revision.change and its lines out',
      }),
    ];
  const { revision: ordered } = order.confirmed.chosen;
  if (change.of !== ordered)
    return [ofChange('change-of-another', `the draft changes ${change.of}, and ${ordered} is what is ordered`, { mend: again })];
  if (change.stage !== stage)
    return [
      ofChange('change-stage-moved', 'the work has gone on since this change was priced', {
        found: `priced from ${change.stage}, and it is ${stage} now`,
        mend: again,
      }),
    ];
  return [];
}
