import { expect, test } from 'vitest';
import { type AnyEntry, type IssuedOffer, type Standing, stages, standingOf, workStages } from '../../src/record/index.ts';
import { type Reference, referenceFor } from './standing-reference.ts';
import { choice, confirmed, entriesFor, handOver, issued, no, offerFor, paid, type Told, yes } from './story.ts';

/** Numbers from 0 to 1 that follow from a seed. @source Marsaglia, Xorshift RNGs, Journal of Statistical Software 8 (2003), 13, 17, 5 */
function chanceFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}

const file = { path: 'records/9-paper.pdf', bytes: 1, sha256: '0'.repeat(64) };
const acceptances = [
  { inspected: true, defects: [], signed: 'signed' },
  { inspected: true, defects: [], signed: 'left-unsigned' },
  { inspected: true, defects: [{ by: '2027-02-19' }, { by: '2027-03-01' }], signed: 'signed' },
] as const;
const storages = [{}, { storage: { from: '2027-02-01' } }, { storage: { from: '2027-02-01', until: '2027-02-10' } }] as const;
const today = '2027-02-20';

const people = ['idris', 'maren', 'carrier'] as const;

const lastHandOver = (story: readonly Told[]): number => Math.max(1, story.findLastIndex(({ kind }) => kind === 'hand-over') + 1);

/** What may follow a hand-over, entry `of`, or something that is none. */
function afterwards(on: string, n: number, of: number, pick: <T>(list: readonly T[]) => T): Told {
  return pick<Told>([
    { kind: 'attached', on, to: pick([of, n - 1]), what: 'paper-signature', file },
    { kind: 'service', on, what: 'repair', of, defects: pick([[1], [2], [1, 2]]) },
    { kind: 'service', on, what: 'refinish', finish: 'shellac' },
    { kind: 'service', on, what: pick(['visit', 'repair'] as const) },
    { kind: 'service', on, what: 'refinish', finish: 'shellac' },
    { kind: 'care', on, edition: 1, of, files: '0'.repeat(64) },
    { kind: 'measured', on, what: 'humidity', when: 'later', percent: [48] },
    { kind: 'claim', on, event: 'opened', of, about: 'crack' },
    { kind: 'claim', on, event: 'looked-at', of: n - 1 },
    { kind: 'claim', on, event: 'settled', of: pick([n - 1, Math.max(1, n - 2)]), outcome: 'covered' },
  ]);
}

/** A story by chance: mostly what happens, now and then what should not. */
function storyFor(chance: () => number): readonly Told[] {
  const pick = <T>(list: readonly T[]): T => list[Math.floor(chance() * list.length)] as T;
  const story: Told[] = [];
  let revision = 0;
  let day = 0;
  const on = (): string => {
    day += Math.floor(chance() * 3);
    return new Date(Date.UTC(2027, 1, 1 + day)).toISOString().slice(0, 10);
  };
  const length = 3 + Math.floor(chance() * 25);
  for (let n = 1; n <= length; n += 1) {
    const what = chance();
    const now = `r${Math.max(1, revision - (chance() < 0.1 ? 1 : 0))}`;
    const chosen = pick([
      choice(now, 'A', ['ceramic'], 634_800),
      choice(now, 'A', ['ceramic'], 634_800),
      choice(now, 'A', ['ceramic']),
      choice(now, 'B', [], 645_000),
    ]);
    const person = pick(people);
    if (n === 1 || what < 0.08) {
      revision += 1;
      story.push(issued(on(), `r${revision}`));
    } else if (what < 0.42) story.push(yes(on(), person, chosen, chance() < 0.1 ? { insisted: ['reply/superseded'] } : {}));
    else if (what < 0.5) story.push(no(on(), person, now, chance() < 0.5 ? 'B' : undefined));
    else if (what < 0.65) story.push(confirmed(on(), now, pick([634_800, 700_000, 600_000])));
    else if (what < 0.8) story.push(paid(on(), pick([1, 1, 2, 3]), pick([253_920, 26_080, 100_000, -50_000, 280_000])));
    else if (what < 0.87) story.push({ kind: 'stage', on: on(), stage: pick(workStages) });
    else if (what < 0.9) {
      const failed = { failed: { reason: 'other' }, ...pick(storages) } as const;
      story.push(handOver(on(), chance() < 0.3 ? failed : { acceptance: pick(acceptances) }));
    } else if (what < 0.92) story.push(afterwards(on(), n, lastHandOver(story), pick));
    else if (what < 0.94) story.push({ kind: 'note', on: on(), how: 'visit' });
    else if (what < 0.96) story.push({ kind: 'note-settled', note: 1 + Math.floor(chance() * (n - 1)), as: 'dropped' });
    else if (what < 0.98) story.push({ kind: 'lost', on: on(), reason: 'price' });
    else story.push({ kind: 'cancelled', on: on(), stage: 'ordered', dueMinor: 100_000, currency: 'EUR' });
  }
  return story;
}

const asReference = (standing: Standing): Reference => ({
  stage: standing.stage,
  isClosed: standing.closed !== undefined,
  waits: standing.waitingFor.map(({ person }) => person),
  disagree: standing.disagree,
  approvedBy: standing.approved?.answers.map(({ n }) => n),
  confirmed: standing.confirmed?.n,
  order: standing.order?.confirmed.n,
  change: standing.changeWaits?.n,
  paidMinor: standing.paidMinor,
  openMinor: standing.openMinor,
  openNotes: standing.openNotes.map(({ n }) => n),
  instalments: standing.instalments.map(({ paidMinor, openMinor }) => [paidMinor, openMinor]),
  delivered: standing.delivered?.n,
  acceptedBy: standing.accepted?.n,
  openDefects: standing.openDefects.map(({ n, defect, isLate }) => [n, defect, isLate]),
  care: standing.care === undefined ? undefined : [standing.care.finish, standing.care.since, standing.care.n],
  papers: standing.papers?.n,
  stored: standing.stored?.n,
  measured: standing.measured.map(({ n }) => n),
  openClaims: standing.claims
    .filter(({ settled }) => settled === undefined)
    .map(({ opened, lookedAt }) => [opened.n, lookedAt.length > 0] as const),
});

/** What holds of every story, whatever the rules say. */
function invariants(entries: readonly AnyEntry[], offers: readonly IssuedOffer[], standing: Standing): void {
  expect(standing.approved !== undefined && standing.disagree).toBe(false);
  if (standing.approved !== undefined) expect(standing.waitingFor).toEqual([]);
  if (standing.delivered === undefined)
    expect([standing.care, standing.accepted, standing.papers, standing.openDefects]).toEqual([undefined, undefined, undefined, []]);
  else expect(standing.stored).toBeUndefined();
  if (standing.order !== undefined) {
    expect(standing.confirmed?.n).toBe(standing.order.confirmed.n);
    expect(standing.order.on >= standing.order.confirmed.on).toBe(true);
    expect(stages.indexOf(standing.stage)).toBeGreaterThanOrEqual(stages.indexOf('ordered'));
  }
  const moneyOfInstalments = standing.instalments.reduce((sum, one) => sum + one.paidMinor, 0);
  if (standing.confirmed !== undefined) expect(moneyOfInstalments).toBe(standing.paidMinor);
  for (const { paidOn, openMinor } of standing.instalments) expect(paidOn !== undefined).toBe(openMinor <= 0);
  const noise: AnyEntry = { ...entriesFor([{ kind: 'note', on: '2027-06-01', how: 'visit' }])[0], n: entries.length + 1 } as AnyEntry;
  const later = standingOf([...entries, noise], offers, today);
  expect({ ...later, openNotes: standing.openNotes }).toEqual(standing);
}

test.each(['all', 'any'] as const)('1200 stories by chance stand as they do when worked out a second way (%s)', (rule) => {
  const seen = new Map<string, number>();
  for (let seed = 1; seed <= 1200; seed += 1) {
    const entries = entriesFor(storyFor(chanceFrom(seed * 7919)));
    const offers = entries.flatMap((entry) => (entry.kind === 'issued' ? [offerFor(entry.revision, entry.n, { rule })] : []));
    const standing = standingOf(entries, offers, today);
    expect(asReference(standing), `seed ${seed}`).toEqual(referenceFor(entries, offers, today));
    invariants(entries, offers, standing);
    for (const key of [
      standing.stage,
      ...(standing.changeWaits === undefined ? [] : ['change']),
      ...(standing.disagree ? ['disagree'] : []),
      ...(standing.openDefects.length > 0 ? ['defects'] : []),
      ...(standing.stored === undefined ? [] : ['stored']),
      ...(standing.care?.finish === 'shellac' ? ['refinished'] : []),
      ...(standing.papers === undefined ? [] : ['papers']),
    ])
      seen.set(key, (seen.get(key) ?? 0) + 1);
  }
  for (const key of ['proposed', 'approved', 'ordered', 'accepted', 'change', 'disagree', 'defects', 'stored', 'refinished', 'papers'])
    expect(seen.get(key) ?? 0, key).toBeGreaterThan(5);
});
