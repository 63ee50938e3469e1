import { expect, test } from 'vitest';
import { revisionState } from '../../src/record/standing/revision-state.ts';
import { standingOf } from '../../src/record/standing/standing-of.ts';
import { entriesFor, fingerprintOf, offerFor, type Told, thirds } from './story.ts';

const issued = (revision: string): Told => ({ kind: 'issued', revision, on: '2027-03-01' });
const chosen = { revision: 'r2', fingerprint: fingerprintOf('r2'), design: 'A', options: [], totalMinor: 606_000, currency: 'EUR' };
const yes = (person: string): Told => ({
  kind: 'answer',
  on: '2027-03-02',
  person,
  verdict: 'yes',
  revision: 'r2',
  fingerprint: fingerprintOf('r2'),
  chosen,
  by: 'code',
});
const confirmed: Told = {
  kind: 'confirmed',
  on: '2027-03-03',
  chosen,
  answers: [3, 4],
  instalmentsMinor: thirds(606_000),
  holdUntil: '2027-03-20',
};
const paid: Told = { kind: 'paid', on: '2027-03-05', amountMinor: 242_400, currency: 'EUR', instalment: 1 };
const both = [issued('r1'), issued('r2')];
const approved = [...both, yes('maren'), yes('idris')];
const ordered = [...approved, confirmed, paid];
const offers = [offerFor('r1', 1), offerFor('r2', 2), offerFor('r3', 7)];

/** States of all revisions in order. */
function states(story: readonly Told[], today = '2027-03-10') {
  const entries = entriesFor(story);
  const names = entries.flatMap((entry) => (entry.kind === 'issued' ? [entry.revision] : []));
  const standing = standingOf(entries, offers, today);
  return names.map((name) => revisionState(name, names.at(-1) ?? '', standing));
}

const old = { kind: 'superseded', by: 'r2', isOpen: false };
const asked = { ...old, isOpen: true };
test.each([
  ['approved', approved, { kind: 'approved' }],
  ['confirmed is no order', [...approved, confirmed], { kind: 'approved' }],
  ['ordered', ordered, { kind: 'ordered', on: '2027-03-05' }],
  [
    'still ordered while the work goes on',
    [...ordered, { kind: 'stage', on: '2027-03-08', stage: 'glued' }],
    { kind: 'ordered', on: '2027-03-05' },
  ],
  ['delivered', [...ordered, { kind: 'stage', on: '2027-03-09', stage: 'delivered' }], { kind: 'delivered', on: '2027-03-09' }],
  ['lost', [...both, { kind: 'lost', on: '2027-03-09', reason: 'price' }], { kind: 'closed' }],
  [
    'cancelled',
    [...ordered, { kind: 'cancelled', on: '2027-03-09', stage: 'ordered', dueMinor: 0, currency: 'EUR' }],
    { kind: 'cancelled', on: '2027-03-09' },
  ],
] as const)('the newest: %s; the older one is superseded whatever happens', (_says, story, state) => {
  expect(states(story as readonly Told[])).toEqual([old, state]);
});

test('the older one says whether the newest still waits for an answer', () => {
  expect(states(both)).toEqual([asked, { kind: 'open' }]);
});

test('an offer runs out after its last day, unless it was approved', () => {
  expect(states(both, '2027-03-31')).toEqual([asked, { kind: 'open' }]);
  expect(states(both, '2027-04-01')).toEqual([old, { kind: 'run-out' }]);
  expect(states(approved, '2027-04-01')).toEqual([old, { kind: 'approved' }]);
});

test('the old order stands while a change of it is out, and says how that stands', () => {
  const out = [...ordered, issued('r3')];
  const on = '2027-03-05';
  const change = (stands: string) => ({ kind: 'ordered', on, change: { revision: 'r3', stands } });
  const toChange = { ...chosen, revision: 'r3', fingerprint: fingerprintOf('r3') };
  const agreed = (['maren', 'idris'] as const).map(
    (person) => ({ ...yes(person), revision: 'r3', fingerprint: fingerprintOf('r3'), chosen: toChange }) as Told,
  );
  expect(states(out)).toEqual([{ kind: 'superseded', by: 'r3', isOpen: true }, change('open'), { kind: 'open' }]);
  expect(states(out, '2027-04-01').slice(1)).toEqual([change('run-out'), { kind: 'run-out' }]);
  expect(states([...out, ...agreed]).slice(1)).toEqual([change('approved'), { kind: 'approved' }]);
  const taken: Told = { ...confirmed, on: '2027-03-09', chosen: toChange, answers: [8, 9] } as Told;
  const more: Told = { ...paid, on: '2027-03-09', amountMinor: 400_000 } as Told;
  expect(states([...out, ...agreed, taken, more])).toEqual([
    { kind: 'superseded', by: 'r3', isOpen: false },
    { kind: 'superseded', by: 'r3', isOpen: false },
    { kind: 'ordered', on: '2027-03-09' },
  ]);
});

test('a revision that is issued after a loss takes it up again', () => {
  expect(states([issued('r1'), { kind: 'lost', on: '2027-03-02', reason: 'time' }, issued('r2')])).toEqual([asked, { kind: 'open' }]);
});
