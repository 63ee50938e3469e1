import type { Body } from '../../record/index.ts';
import type { TermsSpec } from '../../spec/index.ts';
import { addDays, dayNumber, exact, exactDecimal, formatMoney, isoDate, parseDate, roundMinor, times } from '../../units/index.ts';

type Storage = NonNullable<Body<'hand-over'>['storage']>;

/** What keeping a table costs by the agreed terms. */
export interface StorageCost {
  /** The last day free of charge. */
  readonly freeUntil: string;
  /** Weeks begun after it. */
  readonly weeks: number;
  /** Minor units; absent where the terms name no fee. */
  readonly feeMinor?: number;
}

/** What storage costs up to a day, or to its own last one; nothing where the terms say nothing of it. */
export function storageCost(
  { from, until }: Storage,
  terms: TermsSpec['storage'],
  { today, currency }: { readonly today: string; readonly currency: string },
): StorageCost | undefined {
  const first = parseDate(from);
  const last = parseDate(until !== undefined && until < today ? until : today);
  if (terms === undefined || first === undefined || last === undefined) return undefined;
  const days = Math.max(0, dayNumber(last) - dayNumber(first) + 1);
  const weeks = Math.ceil(Math.max(0, days - terms.freeDays) / 7);
  return {
    freeUntil: isoDate(addDays(first, terms.freeDays - 1)),
    weeks,
    ...(terms.perWeek === undefined
      ? {}
      : { feeMinor: roundMinor(times(exactDecimal(terms.perWeek), exact(BigInt(weeks))), currency).minor }),
  };
}

/** The same in a sentence for the maker: no more than the agreed terms say. */
export function storageWords(
  storage: Storage,
  terms: TermsSpec['storage'],
  now: { readonly today: string; readonly currency: string; readonly language: string },
): string {
  const cost = storageCost(storage, terms, now);
  if (cost === undefined || terms === undefined) return 'the agreed terms say nothing of storage, so nothing can be asked for it';
  if (terms.freeDays > 0 && cost.weeks === 0) return `free of charge until ${cost.freeUntil}, by the agreed terms`;
  const since = terms.freeDays === 0 ? '' : ` since ${cost.freeUntil}`;
  if (cost.feeMinor === undefined)
    return `no longer free of charge${since}; the agreed terms name no fee, so name it before you ask for it`;
  const amount = formatMoney({ currency: now.currency, minor: cost.feeMinor }, now.language);
  return `${amount} for ${cost.weeks === 1 ? '1 week' : `${cost.weeks} weeks`} begun, by the agreed terms`;
}

/** The storage of a table as it is told after recording it, line by line; nothing where there is none. */
export function storageLines(
  storage: Storage | undefined,
  terms: TermsSpec['storage'],
  now: { readonly today: string; readonly currency: string; readonly language: string },
): readonly string[] {
  if (storage === undefined) return [];
  const until = storage.until === undefined ? '' : ` until ${storage.until}`;
  return [`  stored        from ${storage.from}${until}`, `  its cost      ${storageWords(storage, terms, now)}`];
}
