import { expect, test } from 'vitest';
import { nextStep } from '../../src/cli/next-step.ts';
import { type Body, standingOf } from '../../src/record/index.ts';
import { entriesFor, fingerprintOf, handOver, offerFor, type Told, thirds } from '../record/story.ts';

const issued: Told = { kind: 'issued', revision: 'r1', on: '2027-03-01' };
const chosen = {
  revision: 'r1',
  fingerprint: fingerprintOf('r1'),
  design: 'A',
  options: ['ceramic'],
  totalMinor: 634_800,
  currency: 'EUR',
};
const yes = (person: string, over: Partial<typeof chosen> = {}): Body<'answer'> => ({
  kind: 'answer',
  on: '2027-03-02',
  person,
  verdict: 'yes',
  revision: 'r1',
  fingerprint: fingerprintOf('r1'),
  chosen: { ...chosen, ...over },
  by: 'code',
});
const no = (person: string, verdict: 'no' | 'mix' = 'no'): Told => ({
  kind: 'answer',
  on: '2027-03-02',
  person,
  verdict,
  revision: 'r1',
  fingerprint: fingerprintOf('r1'),
  ...(verdict === 'mix' ? { design: 'A', base: 'B' } : {}),
  by: 'code',
});
const note: Told = { kind: 'note', on: '2027-03-02', how: 'visit' };
const confirmed: Body<'confirmed'> = {
  kind: 'confirmed',
  on: '2027-03-03',
  chosen,
  answers: [2, 3],
  instalmentsMinor: thirds(634_800),
  holdUntil: '2027-03-20',
};
const requested = (instalment: number, due: string): Told => ({
  kind: 'requested',
  on: '2027-03-04',
  number: `q-${instalment}`,
  instalment,
  amountMinor: 1,
  currency: 'EUR',
  due,
});
const paid = (instalment: number, amountMinor: number): Told => ({
  kind: 'paid',
  on: '2027-03-05',
  amountMinor,
  currency: 'EUR',
  instalment,
});
const vain = (more: object): Told => handOver('2027-03-09', { failed: { reason: 'nobody-there' }, ...more });
const brought = (signed: 'signed' | 'left-unsigned', by: readonly string[]): Told =>
  handOver('2027-03-09', { acceptance: { inspected: true, defects: by.map((day) => ({ by: day })), signed } });
const papers = (of: number): Told => ({ kind: 'care', on: '2027-03-09', edition: 1, of, files: '0'.repeat(64) });
const stage = (one: 'timber-bought' | 'cut' | 'glued' | 'finished' | 'delivered' | 'accepted'): Told => ({
  kind: 'stage',
  on: '2027-03-06',
  stage: one,
});
const approved = [issued, yes('maren'), yes('idris')];
const ordered = [...approved, confirmed, paid(1, 253_920)];
const all = [stage('timber-bought'), stage('cut'), stage('glued'), stage('finished')];

const cases: readonly (readonly [says: string, story: readonly Told[], next: string, today?: string])[] = [
  ['nothing issued', [], 'issue the first revision'],
  ['a note comes before all else', [note, issued], 'answer note 1'],
  ['also when there is an order', [...ordered, note], 'answer note 6'],
  ['two are waited for', [issued], 'wait for the answer of idris and maren since 2027-03-01'],
  ['one is waited for', [issued, yes('maren')], 'wait for the answer of idris since 2027-03-01'],
  ['the offer has run out', [issued], 'ask anew or record it as lost: the offer ran out on 2027-03-31', '2027-04-01'],
  [
    'they disagree',
    [issued, yes('maren'), yes('idris', { design: 'B', options: [], totalMinor: 645_000 })],
    'issue the next revision: idris and maren disagree',
  ],
  ['all said no', [issued, no('maren'), no('idris')], 'issue the next revision: idris and maren said no'],
  ['both want a mix', [issued, no('maren', 'mix'), no('idris', 'mix')], 'draft what idris wants: top of one design on the base of another'],
  ['approved', approved, 'confirm'],
  ['confirmed', [...approved, confirmed], 'request instalment 1'],
  ['requested', [...approved, confirmed, requested(1, '2027-03-15')], 'wait for instalment 1, due on 2027-03-15'],
  ['requested and late', [...approved, confirmed, requested(1, '2027-03-06')], 'remind them of instalment 1, due since 2027-03-06'],
  ['paid in part', [...approved, confirmed, paid(1, 100_000)], 'request the rest of instalment 1'],
  [
    'the hold has passed',
    [...approved, confirmed],
    'confirm anew or record it as lost: price and place were held until 2027-03-20',
    '2027-03-21',
  ],
  ['ordered', ordered, 'buy the timber'],
  ['timber bought', [...ordered, stage('timber-bought')], 'cut the parts'],
  ['cut', [...ordered, stage('cut')], 'glue up'],
  ['glued: the second instalment is asked for', [...ordered, stage('glued')], 'request instalment 2'],
  ['asked for, so the work goes on', [...ordered, stage('glued'), requested(2, '2027-03-30')], 'finish it'],
  ['and waits before delivery', [...ordered, ...all, requested(2, '2027-03-30')], 'wait for instalment 2, due on 2027-03-30'],
  ['paid: deliver', [...ordered, ...all, paid(2, 253_920)], 'deliver it'],
  ['delivered: the last is asked for', [...ordered, ...all, paid(2, 253_920), stage('delivered')], 'request instalment 3'],
  ['all is paid', [...ordered, ...all, paid(2, 253_920), stage('delivered'), paid(3, 126_960)], 'have it accepted'],
  ['done', [...ordered, ...all, paid(2, 253_920), paid(3, 126_960), stage('accepted')], ''],
  ['brought in vain', [...ordered, ...all, paid(2, 253_920), vain({})], 'agree on another day for the delivery that failed on 2027-03-09'],
  [
    'brought in vain, and stored',
    [...ordered, ...all, paid(2, 253_920), vain({ storage: { from: '2027-03-09' } })],
    'agree on another day for the delivery that failed on 2027-03-09; it is stored since 2027-03-09',
  ],
  ['handed over: its papers come first', [...ordered, ...all, brought('left-unsigned', ['2027-03-20'])], 'make the papers of RS-2026-07'],
  ['then money', [...ordered, ...all, brought('left-unsigned', ['2027-03-20']), papers(10)], 'request instalment 2'],
  [
    'a defect that is late comes before money',
    [...ordered, ...all, brought('left-unsigned', ['2027-03-20', '2027-03-12']), papers(10)],
    'put defect 2 right, promised by 2027-03-12',
    '2027-03-13',
  ],
  [
    'then defects by their day',
    [...ordered, ...all, paid(2, 253_920), paid(3, 126_960), brought('left-unsigned', ['2027-03-20', '2027-03-12']), papers(12)],
    'put defect 2 right by 2027-03-12',
  ],
  [
    'then the signature',
    [...ordered, ...all, paid(2, 253_920), paid(3, 126_960), brought('left-unsigned', []), papers(12)],
    'have the hand-over signed, and attach the paper to entry 12',
  ],
  ['signed for', [...ordered, ...all, paid(2, 253_920), paid(3, 126_960), brought('signed', []), papers(12)], ''],
  ['lost', [issued, { kind: 'lost', on: '2027-03-03', reason: 'price' }], ''],
  [
    'lost, and they come back',
    [issued, { kind: 'lost', on: '2027-03-03', reason: 'price' }, { kind: 'note', on: '2027-03-09', how: 'telephone' }],
    'answer note 3',
  ],
  [
    'cancelled with something due',
    [...ordered, { kind: 'cancelled', on: '2027-03-08', stage: 'cut', dueMinor: 300_000, currency: 'EUR' }],
    'send a statement of what the cancellation left due',
  ],
  [
    'cancelled with money to go back',
    [...ordered, { kind: 'cancelled', on: '2027-03-08', stage: 'ordered', dueMinor: 50_000, currency: 'EUR' }],
    'pay back what was paid beyond what is due',
  ],
];

test.each(cases.map(([says, ...rest]) => ({ says, rest })))('next step: $says', ({ rest: [story, next, today = '2027-03-10'] }) => {
  const standing = standingOf(entriesFor(story), [offerFor('r1', 1)], today);
  expect(nextStep(standing, today)).toBe(next);
});

test('where one yes is enough, one of them is waited for', () => {
  const offers = [{ ...offerFor('r1', 1), rule: 'any' as const }];
  expect(nextStep(standingOf(entriesFor([issued]), offers, '2027-03-10'), '2027-03-10')).toBe(
    'wait for the answer of idris or maren since 2027-03-01',
  );
});

test('a change to the order: its answer, its confirmation, its money', () => {
  const change = { of: 'r1', design: 'A', stage: 'glued' };
  const offers = [offerFor('r1', 1), offerFor('r2', 6, { change })];
  const wider = { ...chosen, revision: 'r2', fingerprint: fingerprintOf('r2') };
  const agree = (person: string): Told => ({ ...yes(person), revision: 'r2', fingerprint: fingerprintOf('r2'), chosen: wider });
  const out: readonly Told[] = [...ordered, { kind: 'issued', revision: 'r2', on: '2027-03-07' }];
  const next = (story: readonly Told[]): string => nextStep(standingOf(entriesFor(story), offers, '2027-03-10'), '2027-03-10');
  expect(next(out)).toBe('wait for the answer of idris and maren since 2027-03-07');
  expect(next([...out, agree('maren'), agree('idris')])).toBe('confirm the change');
  const change2: Told = {
    ...confirmed,
    chosen: { ...wider, totalMinor: 700_000 },
    instalmentsMinor: thirds(700_000),
    replaces: 4,
  };
  const waits: readonly Told[] = [...out, agree('maren'), agree('idris'), change2];
  expect(next(waits)).toBe('request what the change adds to instalment 1');
  expect(next([...waits, requested(1, '2027-03-20')])).toBe('wait for what the change adds to instalment 1, due on 2027-03-20');
  expect(next([...waits, requested(1, '2027-03-09')])).toBe('remind them of instalment 1, due since 2027-03-09');
});

test('a change that adds to two instalments: asked for in one paper or in two, and told truly after each', () => {
  const change = { of: 'r1', design: 'A', stage: 'glued' };
  const offers = [offerFor('r1', 1), offerFor('r2', 7, { change })];
  const wider = { ...chosen, revision: 'r2', fingerprint: fingerprintOf('r2') };
  const [first = 0, second = 0] = thirds(634_800);
  const [more = 0, more2 = 0] = thirds(700_000);
  const agree = (person: string): Told => ({ ...yes(person), revision: 'r2', fingerprint: fingerprintOf('r2'), chosen: wider });
  const waits: readonly Told[] = [
    ...ordered,
    paid(2, second),
    { kind: 'issued', revision: 'r2', on: '2027-03-07' },
    agree('maren'),
    agree('idris'),
    { ...confirmed, chosen: { ...wider, totalMinor: 700_000 }, instalmentsMinor: thirds(700_000), replaces: 4 },
  ];
  const standing = (story: readonly Told[]) => standingOf(entriesFor(story), offers, '2027-03-10');
  const next = (story: readonly Told[]): string => nextStep(standing(story), '2027-03-10');
  expect(next(waits)).toBe('request what the change adds to instalments 1 and 2');
  const one = requested(1, '2027-03-20');
  expect(next([...waits, one])).toBe('request what the change adds to instalment 2');
  expect(next([...waits, one, requested(2, '2027-03-22')])).toBe('wait for what the change adds to instalments 1 and 2, due on 2027-03-20');
  const both = { ...one, also: [{ instalment: 2, amountMinor: 1 }] } as Told;
  expect(next([...waits, both])).toBe('wait for what the change adds to instalments 1 and 2, due on 2027-03-20');
  expect(standing([...waits, both]).changeInstalments?.map(({ requested: asked }) => asked?.number)).toEqual(['q-1', 'q-1', undefined]);
  const half = [...waits, both, paid(1, more - first)];
  expect(next(half)).toBe('wait for what the change adds to instalment 2, due on 2027-03-20');
  expect(standing([...half, paid(2, more2 - second)]).order?.confirmed.chosen.revision).toBe('r2');
});
