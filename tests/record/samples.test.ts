import { cpSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { entryBodies, issuedOffers, issuedRevisions, readEntries, standingOf } from '../../src/record/index.ts';
import { verifyProposal } from '../../src/record/proof/verify.ts';
import { add, makeWorkspace } from './workshop.ts';

const samples = fileURLToPath(new URL('samples', import.meta.url));
const look = (folder: string) => verifyProposal(folder, 'proposals/tarrow', 'tarrow');

/**
 * Records as versions of the program wrote them, kept byte for byte: what was issued is read for as long as somebody may ask.
 * `record-1`: issued revisions alone, nothing that can be answered. `record-2`: entries of every kind before there were
 * hand-overs, sealed words, files beside the record, offers, a revision of two pages; the same after a person was erased; and a
 * revision whose `content.json` holds the reason why the maker insisted, which is sealed since. `record-3`: that, with hand-overs
 * and services. `record-4`: that, with claims, and a table that was weighed.
 */
describe('records of older versions', () => {
  test.each([
    ['record-1/tarrow', 2, ['r1', 'r2'], ['r1', 'r2'], 0],
    ['record-2/tarrow', 18, ['r1', 'r2', 'r3'], ['r1', 'r2', 'r3'], 0],
    ['record-2/erased', 19, ['r1', 'r2', 'r3'], [], 15],
    ['record-2/insisted', 2, ['r1'], ['r1'], 0],
    ['record-3/tarrow', 30, ['r1', 'r2', 'r3'], ['r1', 'r2', 'r3'], 0],
    ['record-3/erased', 31, ['r1', 'r2', 'r3'], [], 22],
    ['record-4/tarrow', 33, ['r1', 'r2', 'r3'], ['r1', 'r2', 'r3'], 0],
    ['record-4/erased', 34, ['r1', 'r2', 'r3'], [], 24],
  ] as const)('%s is read and proven', (name, entries, revisions, published, erased) => {
    const folder = join(samples, name);
    const verified = look(folder);
    expect(verified.problems).toEqual([]);
    expect(verified.revisions.map(({ revision }) => revision)).toEqual(revisions);
    expect([verified.entries, readEntries(folder).length, verified.erased.length]).toEqual([entries, entries, erased]);
    expect(issuedRevisions(folder).map(({ revision }) => revision)).toEqual(published);
  });

  test('every one of them is tried here, and one of them has every kind of entry', () => {
    expect(readdirSync(samples).flatMap((version) => readdirSync(join(samples, version)).map((name) => `${version}/${name}`))).toEqual([
      'record-1/tarrow',
      'record-2/erased',
      'record-2/insisted',
      'record-2/tarrow',
      'record-3/erased',
      'record-3/tarrow',
      'record-4/erased',
      'record-4/tarrow',
    ]);
    const kinds = new Set(readEntries(join(samples, 'record-4/erased')).map(({ kind }) => kind));
    expect([...kinds].sort()).toEqual(Object.keys(entryBodies).sort());
  });

  test('how they stand: without an offer nobody is waited for; with one, both', () => {
    const of = (name: string) => standingOf(readEntries(join(samples, name)), issuedOffers(join(samples, name)), '2027-03-06');
    expect([of('record-1/tarrow').stage, of('record-1/tarrow').waitingFor]).toEqual(['proposed', []]);
    expect(of('record-2/tarrow').waitingFor.map(({ person }) => person)).toEqual(['idris', 'maren']);
    expect(of('record-2/erased').newest).toEqual({
      revision: 'r3',
      issuedOn: '2027-03-05',
      validUntil: '2027-03-31',
      rule: 'all',
      hasRunOut: false,
    });
    for (const name of ['record-4/tarrow', 'record-4/erased']) {
      const { claims, delivered } = of(name);
      expect(claims.map(({ opened, lookedAt, settled }) => [opened.about, lookedAt.length, settled?.outcome])).toEqual([
        ['crack', 1, 'goodwill'],
      ]);
      expect(delivered?.massKg).toBe(52.5);
    }
    for (const name of ['record-3/tarrow', 'record-3/erased', 'record-4/tarrow', 'record-4/erased']) {
      const { delivered, accepted, care, openDefects, failedDeliveries } = of(name);
      expect([delivered?.piece, accepted, care]).toEqual([
        'RS-2026-07',
        { on: '2027-07-17', n: 25 },
        { finish: 'ceramic-over-hardwax', since: '2031-05-02', n: 28 },
      ]);
      expect([openDefects, failedDeliveries.map(({ n }) => n)]).toEqual([[], [23]]);
    }
  });

  test.each([
    ...['record-1/tarrow', 'record-2/tarrow', 'record-2/erased', 'record-2/insisted'],
    ...['record-3/tarrow', 'record-3/erased', 'record-4/tarrow', 'record-4/erased'],
  ])('%s is gone on with', async (name) => {
    const { folder } = makeWorkspace();
    cpSync(join(samples, name), folder, { recursive: true });
    const n = readEntries(folder).length;
    expect((await add(folder, { kind: 'note', on: '2032-10-01', how: 'visit' }, { words: 'years later' })).entry?.n).toBe(n + 1);
    expect(look(folder).problems).toEqual([]);
  });
});
