import type { EffectiveSpec, FreeLineSpec, ProposalInput } from '../spec/index.ts';
import type { DecimalText, Money } from '../units/index.ts';
import { decimalOfMoney, sumMoney } from '../units/index.ts';
import type { ChangePrice } from './change.ts';
import { linesOf } from './free-lines.ts';

/** Ids of the shown lines that a change writes; `change-earlier` holds those of the changes before. */
export const CHANGE_LINES = ['change-earlier', 'change-lost', 'change-redone', 'change-handling'] as const;
export type ChangeLineId = (typeof CHANGE_LINES)[number];

/** Whether a line of the proposal belongs to a change. */
export const isChangeLine = (id: string): id is ChangeLineId => (CHANGE_LINES as readonly string[]).includes(id);

/** A proposal without the lines of a change: what its designs cost by themselves. */
export function withoutChangeLines(input: ProposalInput): ProposalInput {
  const lines = Object.fromEntries(Object.entries(input.proposal.lines).filter(([id]) => !isChangeLine(id)));
  return { ...input, proposal: { ...input.proposal, lines } };
}

/** What earlier changes to an order asked, net: it stays due whatever is changed after. */
export function earlierChanges(ordered: EffectiveSpec): Money {
  return sumMoney(
    ordered.library.rates.currency,
    linesOf(ordered, true)
      .filter(({ id }) => isChangeLine(id))
      .map(({ amount }) => amount),
  );
}

/** The lines that a change puts into the draft, amounts as decimals; none of nothing. */
export function changeLinesOf(price: ChangePrice, earlier: Money): readonly { readonly id: ChangeLineId; readonly each: DecimalText }[] {
  const amounts: Readonly<Record<ChangeLineId, Money>> = {
    'change-earlier': earlier,
    'change-lost': price.shown.lost,
    'change-redone': price.shown.redone,
    'change-handling': price.shown.handling,
  };
  return CHANGE_LINES.filter((id) => amounts[id].minor !== 0).map((id) => ({ id, each: decimalOfMoney(amounts[id]) }));
}

/** A proposal with these lines in it: what `issue` will make of the draft. */
export function withChangeLines(
  input: ProposalInput,
  lines: readonly { readonly id: ChangeLineId; readonly each: DecimalText }[],
  says: (id: ChangeLineId) => string,
): ProposalInput {
  const bare = withoutChangeLines(input);
  const added = lines.map(({ id, each }): readonly [string, FreeLineSpec] => [
    id,
    { says: says(id), each, quantity: 1, certainty: 'fixed', shown: true, tax: input.proposal.tax, provisional: false },
  ]);
  return { ...bare, proposal: { ...bare.proposal, lines: { ...bare.proposal.lines, ...Object.fromEntries(added) } } };
}
