import { isLater } from '../chain/entries.ts';
import type { Standing } from './standing.ts';

/** How an issued revision stands today: what fills the one empty slot of its frozen page. Days as 2027-02-14. */
export type RevisionState =
  | { readonly kind: 'open' | 'run-out' | 'approved' | 'closed' }
  | { readonly kind: 'superseded'; readonly by: string }
  | { readonly kind: 'ordered' | 'delivered'; readonly on: string };

/**
 * The state of one issued revision. The one that was ordered stays so while a change of it is out; every other but the newest
 * is superseded by the newest.
 *
 * @param latest the newest issued revision
 */
export function revisionState(revision: string, latest: string, standing: Standing): RevisionState {
  const { closed, order, approved, newest, reached, delivered } = standing;
  const isOrdered = order?.confirmed.chosen.revision === revision;
  if (revision !== latest && !isOrdered) return { kind: 'superseded', by: latest };
  if (closed !== undefined) return { kind: 'closed' };
  if (order !== undefined && isOrdered) {
    const stood = reached.find(({ stage }) => stage === 'delivered' || isLater(stage, 'delivered')) ?? delivered;
    return stood === undefined ? { kind: 'ordered', on: order.on } : { kind: 'delivered', on: stood.on };
  }
  if (approved !== undefined) return { kind: 'approved' };
  return { kind: newest?.hasRunOut === true ? 'run-out' : 'open' };
}
