import type { AnyBody, AnyEntry, IssuedOffer } from '../../src/record/index.ts';

const hex = (n: number): string => String(n).repeat(64).slice(0, 64);

/** An entry of a story: a body as a command adds it, or a revision that is issued. */
export type Told = AnyBody | { readonly kind: 'issued'; readonly revision: string; readonly on: string };

/** Fingerprint of a revision in these stories. */
export const fingerprintOf = (revision: string): string => hex(Number(revision.slice(1)));

/** The chain's entries of a story, without proof: each dated at noon of its day. */
export function entriesFor(story: readonly Told[]): readonly AnyEntry[] {
  return story.map((told, i) => {
    const line = { n: i + 1, prev: hex(0), at: `${'on' in told ? told.on : '2027-01-01'}T12:00:00Z`, zone: 'Europe/London' };
    return told.kind === 'issued'
      ? { ...line, kind: 'issued', revision: told.revision, fingerprint: fingerprintOf(told.revision), files: hex(0) }
      : ({ ...line, ...told } as AnyEntry);
  });
}

/** An offer of two designs, A with and without `ceramic`, and B; amounts as in the first of the worked commissions. */
export function offerFor(revision: string, n: number, more: Partial<IssuedOffer> = {}): IssuedOffer {
  const combination = (options: readonly string[], totalMinor: number) => ({
    options,
    netMinor: Math.round(totalMinor / 1.2),
    totalMinor,
    instalmentsMinor: thirds(totalMinor),
  });
  return {
    format: 'leafwright/offer/1',
    proposal: 'tarrow',
    revision,
    language: 'en-GB',
    currency: 'EUR',
    date: '2027-02-14',
    validUntil: '2027-03-31',
    level: 'full',
    rule: 'all',
    people: [
      { id: 'idris', audience: 'payer' },
      { id: 'maren', audience: 'payer' },
    ],
    terms: { payer: hex(7) },
    designs: [
      { id: 'A', name: 'Reed', options: ['ceramic'], combinations: [combination([], 606_000), combination(['ceramic'], 634_800)] },
      { id: 'B', name: 'Trestle', options: [], combinations: [combination([], 645_000)] },
    ],
    instalments: [
      { percent: 40, when: 'with the order' },
      { percent: 40, when: 'before the finish' },
      { percent: 20, when: 'on delivery' },
    ],
    fingerprint: fingerprintOf(revision),
    n,
    ...more,
  };
}

/** 40, 40 and 20 percent, for totals of whole fives. */
export const thirds = (totalMinor: number): readonly number[] => [totalMinor * 0.4, totalMinor * 0.4, totalMinor * 0.2];

/** What is chosen: design, options and total of a revision. */
export const choice = (revision: string, design: string, options: readonly string[], totalMinor?: number) => ({
  revision,
  fingerprint: fingerprintOf(revision),
  design,
  options,
  ...(totalMinor === undefined ? {} : { totalMinor, currency: 'EUR' }),
});

type Answer = Extract<AnyBody, { kind: 'answer' }>;

export const yes = (on: string, person: string, chosen: ReturnType<typeof choice>, more: Partial<Answer> = {}): Answer => ({
  kind: 'answer',
  on,
  person,
  verdict: 'yes',
  revision: chosen.revision,
  fingerprint: chosen.fingerprint,
  chosen,
  by: 'code',
  ...more,
});

export const no = (on: string, person: string, revision: string, design?: string): Answer => ({
  kind: 'answer',
  on,
  person,
  verdict: 'no',
  revision,
  fingerprint: fingerprintOf(revision),
  ...(design === undefined ? {} : { design }),
  by: 'code',
});

export const confirmed = (
  on: string,
  revision: string,
  totalMinor: number,
  more: Partial<Extract<AnyBody, { kind: 'confirmed' }>> = {},
): Extract<AnyBody, { kind: 'confirmed' }> => ({
  kind: 'confirmed',
  on,
  chosen: { ...choice(revision, 'A', ['ceramic']), totalMinor, currency: 'EUR' },
  answers: [],
  instalmentsMinor: thirds(totalMinor),
  holdUntil: '2027-04-15',
  ...more,
});

export const paid = (on: string, instalment: number, amountMinor: number): Extract<AnyBody, { kind: 'paid' }> => ({
  kind: 'paid',
  on,
  amountMinor,
  currency: 'EUR',
  instalment,
});

export const issued = (on: string, revision: string): Told => ({ kind: 'issued', on, revision });

type HandOver = Extract<AnyBody, { kind: 'hand-over' }>;

/** A hand-over with all that a later claim is measured by. */
export const handOver = (on: string, more: Partial<HandOver> = {}): HandOver => ({
  kind: 'hand-over',
  on,
  piece: 'RS-2026-07',
  finishedOn: '2027-02-01',
  finish: 'hardwax-oil',
  batch: 'HWO 41-2207',
  moisturePercent: [9.5],
  humidityPercent: { glueUp: 45, finish: 48, delivery: 52 },
  asBuilt: [],
  photographs: [{ path: 'records/6-before-loading.jpg', bytes: 1, sha256: hex(5) }],
  ...more,
});
