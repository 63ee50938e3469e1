import { type AnyEntry, type EntryOf, isLater, type Stage, stages } from '../chain/entries.ts';
import type { IssuedOffer } from './offer.ts';
import type { InstalmentStanding, TakenOrder } from './standing.ts';

type Confirmed = EntryOf<'confirmed'>;

/** What confirmations and money have come to. */
export interface OrderState {
  readonly confirmed?: Confirmed;
  readonly order?: { readonly confirmed: Confirmed; readonly on: string };
  /** The order as it first became one, then each change that took its place. */
  readonly orders: readonly TakenOrder[];
  /** The furthest stage that was recorded since the last change that put the work back, and that one's; `ordered` before any. */
  readonly work: Stage;
  /** Where a change put the work back and it has not come so far again: how far it was. */
  readonly againFrom?: Stage;
  readonly changeWaits?: Confirmed;
  /** How many of its first instalments a change that waits has to see paid. */
  readonly changeDueCount?: number;
}

/** What one payment request asks for, instalment by instalment. */
export const askedBy = ({
  instalment,
  amountMinor,
  also = [],
}: EntryOf<'requested'>): readonly { readonly instalment: number; readonly amountMinor: number }[] => [
  { instalment, amountMinor },
  ...also,
];

export const sum = (amounts: readonly number[]): number => amounts.reduce((total, one) => total + one, 0);

/** What the first `count` instalments come to. */
const upTo = (confirmed: Confirmed, count: number): number => sum(confirmed.instalmentsMinor.slice(0, count));

/** How many instalments of a confirmation an amount covers in full, from the first on. */
function covered(confirmed: Confirmed, paidMinor: number): number {
  let count = 0;
  while (count < confirmed.instalmentsMinor.length && paidMinor >= upTo(confirmed, count + 1)) count += 1;
  return count;
}

/**
 * Follows confirmations and money through entries, in order.
 *
 * A confirmation becomes the order once the money paid, for whatever instalment, comes to its first one; it became one on the
 * day of the confirmation or of the last payment that it took, whichever is later. Money that goes back later does not undo it.
 * A confirmation without order is dropped by a new revision; an order is not.
 *
 * A change takes the place of the order once the money paid comes to as many of its instalments as it covered of the old
 * order's when the change was confirmed, and at least the first: so that nothing that was due before the change is open after
 * it. What it adds to later instalments is due with those. A revision issued while it waits drops it; the old order stands.
 *
 * With a change the work goes back to the stage that its offer names, if it was further: what is made anew starts from there. Where it
 * has gone on since the change was priced, it goes back to the stage from which it was: what was done since is known of kept parts alone.
 */
export function followOrder(entries: readonly AnyEntry[], offers: readonly IssuedOffer[]): OrderState {
  let state: Pick<OrderState, 'confirmed' | 'order'> = {};
  const orders: TakenOrder[] = [];
  let work: Stage = 'ordered';
  let againFrom: Stage | undefined;
  let paidMinor = 0;
  let paidOn = '';
  let change: { readonly confirmed: Confirmed; readonly dueCount: number; readonly needsMinor: number } | undefined;
  const ordered = (confirmed: Confirmed): Pick<OrderState, 'confirmed' | 'order'> => {
    const order = { confirmed, on: confirmed.on > paidOn ? confirmed.on : paidOn };
    orders.push({ ...order, stage: work });
    return { confirmed, order };
  };
  const putBack = ({ chosen }: Confirmed): void => {
    const change = offers.find(({ revision }) => revision === chosen.revision)?.change;
    const again = change?.again ?? stages.find((stage) => stage === change?.stage);
    if (again === undefined || !isLater(work, again)) return;
    againFrom = againFrom === undefined || isLater(work, againFrom) ? work : againFrom;
    work = again;
  };
  const settle = (): void => {
    const { confirmed, order } = state;
    if (order === undefined && confirmed !== undefined && paidMinor >= upTo(confirmed, 1)) state = ordered(confirmed);
    if (change === undefined || paidMinor < change.needsMinor) return;
    state = ordered(change.confirmed);
    putBack(change.confirmed);
    change = undefined;
  };
  for (const entry of entries) {
    if (entry.kind === 'issued') {
      if (state.order === undefined) state = {};
      change = undefined;
    } else if (entry.kind === 'confirmed') {
      if (state.order === undefined) state = { confirmed: entry };
      else {
        const dueCount = Math.max(1, covered(state.order.confirmed, paidMinor));
        change = { confirmed: entry, dueCount, needsMinor: upTo(entry, dueCount) };
      }
      settle();
    } else if (entry.kind === 'paid') {
      paidMinor += entry.amountMinor;
      if (entry.on > paidOn) paidOn = entry.on;
      settle();
    } else if (entry.kind === 'stage' && isLater(entry.stage, work)) {
      work = entry.stage;
      if (againFrom !== undefined && !isLater(againFrom, work)) againFrom = undefined;
    }
  }
  return {
    ...state,
    orders,
    work,
    ...(againFrom === undefined ? {} : { againFrom }),
    ...(change === undefined ? {} : { changeWaits: change.confirmed, changeDueCount: change.dueCount }),
  };
}

/** The day on which payments came to an amount for the last time, going through them in order; nothing where they fall short. */
function completedOn(payments: readonly EntryOf<'paid'>[], amountMinor: number): string | undefined {
  let paidMinor = 0;
  let on: string | undefined;
  for (const payment of payments) {
    paidMinor += payment.amountMinor;
    if (paidMinor < amountMinor) on = undefined;
    else on ??= payment.on;
  }
  return on;
}

/**
 * Whether a request still stands for an instalment: one that asked for less than a change has made of it is answered once that is paid,
 * and the rest was not asked for.
 */
function stillAsks(
  request: EntryOf<'requested'>,
  payments: readonly EntryOf<'paid'>[],
  { instalment, amountMinor }: Pick<InstalmentStanding, 'instalment' | 'amountMinor'>,
): boolean {
  const paidMinor = sum(payments.map((one) => one.amountMinor));
  const before = sum(payments.filter(({ n }) => n < request.n).map((one) => one.amountMinor));
  const asked = before + sum(askedBy(request).map((one) => (one.instalment === instalment ? one.amountMinor : 0)));
  return asked >= amountMinor || paidMinor < asked || paidMinor >= amountMinor;
}

/** Instalments of a confirmation; money counts for the instalment that it was entered for, also money paid before a change. */
export function instalmentsOf(
  confirmed: Confirmed | undefined,
  entries: readonly AnyEntry[],
  offers: readonly IssuedOffer[],
): readonly InstalmentStanding[] {
  if (confirmed === undefined) return [];
  const when = offers.find(({ revision }) => revision === confirmed.chosen.revision)?.instalments ?? [];
  return confirmed.instalmentsMinor.map((amountMinor, i): InstalmentStanding => {
    const isThis = (entry: { readonly instalment: number }): boolean => entry.instalment === i + 1;
    const payments = entries.filter((entry) => entry.kind === 'paid').filter(isThis);
    const request = entries.filter((entry) => entry.kind === 'requested').findLast((entry) => askedBy(entry).some(isThis));
    const paidMinor = sum(payments.map((one) => one.amountMinor));
    const paidOn = completedOn(payments, amountMinor);
    return {
      instalment: i + 1,
      when: when[i]?.when ?? '',
      amountMinor,
      paidMinor,
      openMinor: amountMinor - paidMinor,
      ...(request === undefined || !stillAsks(request, payments, { instalment: i + 1, amountMinor })
        ? {}
        : { requested: { number: request.number, on: request.on, due: request.due } }),
      ...(paidOn === undefined ? {} : { paidOn }),
    };
  });
}
