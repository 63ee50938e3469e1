import type { AnyEntry, EntryOf } from '../chain/entries.ts';
import type { ClaimStanding, OpenDefect, Standing } from './standing.ts';

type Delivery = Pick<
  Standing,
  | 'delivered'
  | 'accepted'
  | 'failedDeliveries'
  | 'openDefects'
  | 'services'
  | 'claims'
  | 'care'
  | 'papers'
  | 'stored'
  | 'measured'
  | 'worked'
  | 'used'
>;

/** The storage in which a table still is: since a delivery that failed, until one does not. */
function storedAt(handOvers: readonly EntryOf<'hand-over'>[], today: string): Standing['stored'] {
  if (handOvers.some(({ failed }) => failed === undefined)) return undefined;
  const last = handOvers.findLast(({ storage }) => storage !== undefined);
  if (last?.failed === undefined || last.storage === undefined) return undefined;
  const { from, until } = last.storage;
  return until !== undefined && until < today ? undefined : { from, ...(until === undefined ? {} : { until }), n: last.n };
}

/** Claims to a hand-over, each with what was entered of it later. */
function claimsOf(entries: readonly AnyEntry[], handOver: number): readonly ClaimStanding[] {
  const all = entries.filter((entry) => entry.kind === 'claim');
  return all
    .filter(({ event, of }) => event === 'opened' && of === handOver)
    .map((opened) => {
      const later = all.filter(({ event, of }) => event !== 'opened' && of === opened.n);
      const settled = later.find(({ event }) => event === 'settled');
      return { opened, lookedAt: later.filter(({ event }) => event === 'looked-at'), ...(settled === undefined ? {} : { settled }) };
    });
}

/**
 * What hand-overs and services have come to, from entries in order.
 *
 * A hand-over that was left unsigned counts as accepted from the day on which a signed paper is attached to it. Only defects of
 * the hand-over that stands are open; a service that names them puts them right.
 */
export function deliveryOf(entries: readonly AnyEntry[], today: string): Delivery {
  const handOvers = entries.filter((entry) => entry.kind === 'hand-over');
  const delivered = handOvers.findLast(({ failed }) => failed === undefined);
  const after = delivered === undefined ? [] : entries.filter(({ n }) => n > delivered.n);
  const services = after.filter((entry) => entry.kind === 'service');
  const paper = after.find((entry) => entry.kind === 'attached' && entry.what === 'paper-signature' && entry.to === delivered?.n);
  const signed = delivered?.acceptance?.signed === 'signed' ? delivered : paper?.kind === 'attached' ? paper : undefined;
  const refinish = services.findLast(({ what, finish }) => what === 'refinish' && finish !== undefined);
  const care =
    refinish?.finish !== undefined
      ? { finish: refinish.finish, since: refinish.on, n: refinish.n }
      : delivered === undefined
        ? undefined
        : { finish: delivered.finish, since: delivered.finishedOn, n: delivered.n };
  const isMended = (defect: number): boolean =>
    services.some(({ of, defects }) => of === delivered?.n && defects?.includes(defect) === true);
  const openDefects = (delivered?.acceptance?.defects ?? []).flatMap(({ by }, i): readonly OpenDefect[] =>
    delivered === undefined || isMended(i + 1) ? [] : [{ n: delivered.n, defect: i + 1, by, isLate: today > by }],
  );
  const papers = after.findLast((entry) => entry.kind === 'care');
  const stored = storedAt(handOvers, today);
  return {
    measured: entries.filter((entry) => entry.kind === 'measured'),
    worked: entries.filter((entry) => entry.kind === 'worked'),
    used: entries.filter((entry) => entry.kind === 'used'),
    ...(papers === undefined ? {} : { papers }),
    ...(stored === undefined ? {} : { stored }),
    ...(delivered === undefined ? {} : { delivered }),
    ...(signed === undefined ? {} : { accepted: { on: signed.on, n: signed.n } }),
    failedDeliveries: handOvers.filter(({ failed }) => failed !== undefined),
    openDefects,
    services,
    claims: delivered === undefined ? [] : claimsOf(after, delivered.n),
    ...(care === undefined ? {} : { care }),
  };
}
