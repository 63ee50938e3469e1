import { isLater } from '../chain/entries.ts';
import type { Standing } from './standing.ts';

/** How an issued revision stands today: what fills the one empty slot of its frozen page. Days as 2027-02-14. */
export type RevisionState =
  | { readonly kind: 'open' | 'run-out' | 'approved' | 'closed' }
  | { readonly kind: 'cancelled'; readonly on: string }
  /** `isOpen`: the newest waits for an answer. */
  | { readonly kind: 'superseded'; readonly by: string; readonly isOpen: boolean }
  | { readonly kind: 'ordered' | 'delivered'; readonly on: string; readonly change?: OfferedChange };

/** A newer revision that has not taken the place of the order. */
export interface OfferedChange {
  readonly revision: string;
  readonly stands: 'open' | 'run-out' | 'approved';
}

/** How the newest revision stands that is neither ordered nor closed. */
function offerStands({ approved, newest }: Standing): OfferedChange['stands'] {
  if (approved !== undefined) return 'approved';
  return newest?.hasRunOut === true ? 'run-out' : 'open';
}

/**
 * The state of one issued revision. The one that was ordered stays so while a change of it is out; every other but the newest
 * is superseded by the newest.
 *
 * @param latest the newest issued revision
 */
export function revisionState(revision: string, latest: string, standing: Standing): RevisionState {
  const { closed, order, reached, delivered } = standing;
  const ordered = order?.confirmed.chosen.revision;
  const stands = offerStands(standing);
  if (revision !== latest && revision !== ordered)
    return { kind: 'superseded', by: latest, isOpen: closed === undefined && latest !== ordered && stands === 'open' };
  if (closed !== undefined) return closed.kind === 'cancelled' ? { kind: 'cancelled', on: closed.on } : { kind: 'closed' };
  if (order === undefined || revision !== ordered) return { kind: stands };
  const stood = reached.find(({ stage }) => stage === 'delivered' || isLater(stage, 'delivered')) ?? delivered;
  const change = latest === ordered ? {} : { change: { revision: latest, stands } };
  return stood === undefined ? { kind: 'ordered', on: order.on, ...change } : { kind: 'delivered', on: stood.on, ...change };
}
