import type { AnyEntry, IssuedOffer } from '../../src/record/index.ts';

/**
 * How a proposal stands, worked out a second time and slowly: each rule by itself, from the whole story, by asking of every
 * prefix of it. Shares no code with the room.
 */
export interface Reference {
  readonly stage: string;
  readonly isClosed: boolean;
  readonly waits: readonly string[];
  readonly disagree: boolean;
  readonly approvedBy: readonly number[] | undefined;
  readonly confirmed: number | undefined;
  readonly order: number | undefined;
  readonly change: number | undefined;
  readonly paidMinor: number;
  readonly openMinor: number;
  readonly openNotes: readonly number[];
  readonly instalments: readonly (readonly [number, number])[];
  readonly delivered: number | undefined;
  readonly acceptedBy: number | undefined;
  /** Numbers of entry and defect, and whether it is late. */
  readonly openDefects: readonly (readonly [number, number, boolean])[];
  /** Finish, day and entry. */
  readonly care: readonly [string, string, number] | undefined;
  readonly papers: number | undefined;
  readonly stored: number | undefined;
  readonly measured: readonly number[];
  /** Claims that are open, and whether they were looked at. */
  readonly openClaims: readonly (readonly [number, boolean])[];
}

const stageNames = ['enquiry', 'proposed', 'approved', 'ordered', 'timber-bought', 'cut', 'glued', 'finished', 'delivered', 'accepted'];

export function referenceFor(all: readonly AnyEntry[], offers: readonly IssuedOffer[], today: string): Reference {
  const numbered = (n: number | undefined): AnyEntry | undefined => all.find((entry) => entry.n === n);
  const last = (test: (entry: AnyEntry) => boolean, upTo = Infinity): number | undefined => {
    let found: number | undefined;
    for (const entry of all) if (entry.n <= upTo && test(entry)) found = entry.n;
    return found;
  };
  const isEnd = (entry: AnyEntry): boolean => entry.kind === 'lost' || entry.kind === 'cancelled';

  /** Closed: an end with no revision after it. */
  const lastEnd = last(isEnd);
  const lastIssue = last((entry) => entry.kind === 'issued');
  const isClosed = lastEnd !== undefined && (lastIssue === undefined || lastIssue < lastEnd);

  /** The account begins with the first revision after the last end that has one after it. */
  let begin = 1;
  for (const end of all.filter(isEnd)) {
    const next = all.find((entry) => entry.kind === 'issued' && entry.n > end.n);
    if (next !== undefined && next.n > begin) begin = next.n;
  }
  const isOfAccount = (entry: AnyEntry): boolean => entry.n >= begin;
  const stop = isClosed ? (lastEnd ?? 0) : Infinity;

  /** The answers that count. */
  const issue = numbered(lastIssue);
  const revision = issue?.kind === 'issued' ? issue.revision : '';
  const offer = offers.find((one) => one.revision === revision);
  const people = offer === undefined ? [] : offer.people.map(({ id }) => id);
  const answerOf = (person: string): AnyEntry | undefined =>
    numbered(
      last(
        (entry) =>
          entry.kind === 'answer' &&
          entry.person === person &&
          entry.n > (lastIssue ?? Infinity) &&
          (entry.revision === revision || (entry.insisted ?? []).includes('reply/superseded')),
      ),
    );
  const given = people.map(answerOf).filter((entry) => entry?.kind === 'answer');
  const chosenText = (entry: AnyEntry): string => {
    if (entry.kind !== 'answer') return '';
    const { chosen } = entry;
    return chosen === undefined ? '' : `${chosen.revision}/${chosen.design}/${chosen.options.join('+')}`;
  };
  const yes = given.filter((entry) => entry.verdict === 'yes' && entry.chosen !== undefined);
  const totals = new Set(yes.flatMap((entry) => entry.chosen?.totalMinor ?? []));
  const isOne = new Set(yes.map(chosenText)).size <= 1 && totals.size <= 1;
  const isEnough = offer?.rule === 'any' ? yes.length > 0 : people.length > 0 && yes.length === people.length;
  const isApproved = offer !== undefined && isEnough && isOne;
  const verdicts = new Set(
    given.map((entry) => (entry.verdict === 'yes' ? `yes ${chosenText(entry)}` : `${entry.verdict} ${entry.design} ${entry.base}`)),
  );
  const isAnyDiffer = offer?.rule === 'any' && yes.length > 1 && !isOne;
  const isWanted = given.some(({ verdict }) => verdict === 'yes' || verdict === 'mix');
  const isAllDiffer = given.length > 0 && given.length === people.length && isWanted && (verdicts.size > 1 || !isOne);
  const disagree = !isApproved && (isAnyDiffer || isAllDiffer);

  /** Money by any moment: all payments of the account up to it. */
  const paidBy = (n: number): number => {
    let sum = 0;
    for (const entry of all) if (entry.kind === 'paid' && isOfAccount(entry) && entry.n <= n) sum += entry.amountMinor;
    return sum;
  };
  const firstOf = (confirmation: AnyEntry, count: number): number => {
    let sum = 0;
    if (confirmation.kind === 'confirmed') for (let i = 0; i < count; i += 1) sum += confirmation.instalmentsMinor[i] ?? 0;
    return sum;
  };

  /** The order as it is at a moment: for each moment anew, from the one before. */
  const orderAt = (n: number): { order?: number; change?: number; needs?: number; confirmed?: number } => {
    const entry = numbered(n);
    if (n < begin || entry === undefined) return {};
    let { order, change, needs, confirmed } = orderAt(n - 1);
    if (entry.kind === 'issued') {
      change = undefined;
      if (order === undefined) confirmed = undefined;
    }
    if (entry.kind === 'confirmed' && order === undefined) confirmed = n;
    else if (entry.kind === 'confirmed') {
      const old = numbered(order);
      let held = 0;
      for (let count = 1; count <= (old?.kind === 'confirmed' ? old.instalmentsMinor.length : 0); count += 1)
        if (old !== undefined && held === count - 1 && firstOf(old, count) <= paidBy(n)) held = count;
      change = n;
      needs = firstOf(entry, held === 0 ? 1 : held);
    }
    const first = numbered(confirmed);
    if (
      order === undefined &&
      first !== undefined &&
      (entry.kind === 'confirmed' || entry.kind === 'paid') &&
      paidBy(n) >= firstOf(first, 1)
    )
      order = confirmed;
    if (change !== undefined && paidBy(n) >= (needs ?? 0)) {
      order = change;
      confirmed = change;
      change = undefined;
    }
    return {
      ...(order === undefined ? {} : { order }),
      ...(change === undefined ? {} : { change }),
      ...(needs === undefined ? {} : { needs }),
      ...(confirmed === undefined ? {} : { confirmed }),
    };
  };
  const { order, change, confirmed } = orderAt(Math.min(all.length, stop - 1));
  const confirmation = numbered(confirmed);

  let best = order !== undefined ? 3 : isApproved ? 2 : issue !== undefined ? 1 : 0;
  for (const entry of all) if (entry.kind === 'stage' && isOfAccount(entry)) best = Math.max(best, stageNames.indexOf(entry.stage));
  const broughtLast = all.filter((entry) => entry.kind === 'hand-over' && entry.failed === undefined && isOfAccount(entry)).at(-1);
  if (broughtLast?.kind === 'hand-over') {
    const isSigned =
      broughtLast.acceptance?.signed === 'signed' || all.some((entry) => entry.kind === 'attached' && entry.to === broughtLast.n);
    best = Math.max(best, stageNames.indexOf(isSigned ? 'accepted' : 'delivered'));
  }

  /** What was brought: the last that did not fail, and what speaks of it afterwards. */
  const brought = all.filter((entry) => entry.kind === 'hand-over' && isOfAccount(entry));
  const stays = broughtLast?.kind === 'hand-over' ? broughtLast : undefined;
  const since = all.filter((entry) => stays !== undefined && entry.n > stays.n);
  const paper = since.find((entry) => entry.kind === 'attached' && entry.what === 'paper-signature' && entry.to === stays?.n);
  const defects: (readonly [number, number, boolean])[] = [];
  for (let i = 1; stays !== undefined && i <= (stays.acceptance?.defects.length ?? 0); i += 1) {
    const by = stays.acceptance?.defects[i - 1]?.by ?? '';
    const isMended = since.some((entry) => entry.kind === 'service' && entry.of === stays.n && (entry.defects ?? []).includes(i));
    if (!isMended) defects.push([stays.n, i, by < today]);
  }
  let care: readonly [string, string, number] | undefined;
  if (stays !== undefined) care = [stays.finish, stays.finishedOn, stays.n];
  for (const entry of since)
    if (entry.kind === 'service' && entry.what === 'refinish' && entry.finish !== undefined) care = [entry.finish, entry.on, entry.n];
  let stored: number | undefined;
  for (const entry of brought) {
    if (entry.kind !== 'hand-over') continue;
    if (entry.failed !== undefined && entry.storage !== undefined) stored = (entry.storage.until ?? '9999') < today ? undefined : entry.n;
  }

  if (stays !== undefined) stored = undefined;

  const paidMinor = paidBy(all.length);
  const end = numbered(lastEnd);
  const due = !isClosed
    ? confirmation?.kind === 'confirmed'
      ? confirmation.chosen.totalMinor
      : undefined
    : end?.kind === 'cancelled'
      ? end.dueMinor
      : 0;
  return {
    stage: stageNames[best] ?? '',
    isClosed,
    waits: isClosed || isApproved ? [] : people.filter((person) => answerOf(person) === undefined),
    disagree,
    approvedBy: isApproved ? yes.map(({ n }) => n).sort((a, b) => a - b) : undefined,
    confirmed,
    order,
    change,
    paidMinor,
    openMinor: due === undefined ? 0 : due - paidMinor,
    openNotes: all
      .filter((entry) => entry.kind === 'note' && !all.some((other) => other.kind === 'note-settled' && other.note === entry.n))
      .map(({ n }) => n),
    delivered: stays?.n,
    acceptedBy: stays === undefined ? undefined : stays.acceptance?.signed === 'signed' ? stays.n : paper?.n,
    openDefects: defects,
    care,
    papers: since.findLast((entry) => entry.kind === 'care')?.n,
    stored,
    openClaims: since
      .filter((entry) => entry.kind === 'claim' && entry.event === 'opened' && entry.of === stays?.n)
      .filter(({ n }) => !all.some((entry) => entry.kind === 'claim' && entry.event === 'settled' && entry.of === n))
      .map(({ n }) => [n, all.some((entry) => entry.kind === 'claim' && entry.event === 'looked-at' && entry.of === n)] as const),
    measured: all.filter((entry) => entry.kind === 'measured' && isOfAccount(entry)).map(({ n }) => n),
    instalments:
      confirmation?.kind === 'confirmed'
        ? confirmation.instalmentsMinor.map((amount, i) => {
            let sum = 0;
            for (const entry of all)
              if (entry.kind === 'paid' && isOfAccount(entry) && entry.instalment === i + 1) sum += entry.amountMinor;
            return [sum, amount - sum] as const;
          })
        : [],
  };
}
