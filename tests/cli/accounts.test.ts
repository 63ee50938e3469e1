/**
 * What is due, was paid and is open: the rows of a statement and of the workshop's page come to their totals, to the cent, however the
 * order ended. Amounts are reckoned by hand from the demo's 6,348.00 in 2,539.20, 2,539.20 and 1,269.60; people and prices are invented.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { recordShown } from '../../src/cli/on-record/workshop-record.ts';
import { paperPage } from '../../src/cli/order/papers.ts';
import { statementOf } from '../../src/cli/order/statement.ts';
import { readProposal } from '../../src/read/index.ts';
import { type AnyBody, addEntry, issuedOffers, standingOf } from '../../src/record/index.ts';
import { letterText, letterTo } from './answers.ts';
import { openRecordBench } from './record-bench.ts';

type Bench = ReturnType<typeof openRecordBench>;
const today = '2027-03-20';

async function add({ folder }: Bench, body: AnyBody): Promise<void> {
  const place = { folder, shown: 'proposals/tarrow', at: '2027-03-12T12:00:00Z', zone: 'Europe/London' };
  const { entry, problems } = await addEntry(place, () => ({ body }));
  if (entry === undefined) throw new Error(JSON.stringify(problems));
}
const cancel = (bench: Bench, dueMinor: number): Promise<void> =>
  add(bench, { kind: 'cancelled', on: '2027-03-12', stage: 'ordered', dueMinor, currency: 'EUR' });

function accounts(bench: Bench) {
  const { input } = readProposal(bench.workspace, 'tarrow');
  if (input === undefined) throw new Error('not read');
  const { account } = recordShown(bench.folder, input, `${today}T12:00:00Z`).record;
  const entries = bench.entries();
  const standing = standingOf(entries, issuedOffers(bench.folder), today);
  if (standing.confirmed === undefined || account === undefined) throw new Error('nothing is confirmed');
  return { account, statement: statementOf({ entries, standing, today }, standing.confirmed), standing };
}

/** What the rows of both come to, and that they come to the same as the totals. */
function adds(bench: Bench): { readonly paidMinor: number; readonly openMinor: number } {
  const { account, statement, standing } = accounts(bench);
  for (const { instalments, elsewhereMinor } of [account, statement])
    expect(instalments.reduce((sum, { paidMinor }) => sum + paidMinor, elsewhereMinor)).toBe(standing.paidMinor);
  const moved = statement.movements.reduce((sum, one) => (one.kind === 'paid' ? sum + one.amountMinor : sum), 0);
  expect(moved).toBe(standing.paidMinor);
  const { closed, openMinor, paidMinor } = account;
  const agreed = account.instalments.reduce((sum, { amountMinor }) => sum + amountMinor, 0);
  expect((closed?.dueMinor ?? agreed) - paidMinor).toBe(openMinor);
  if (closed !== undefined) expect(statement.closed).toEqual({ ...closed, paidMinor, returnedMinor: account.returnedMinor, openMinor });
  return { paidMinor, openMinor };
}

describe('rows and totals agree', () => {
  test('an order that stands, and money for an instalment that there is not', async () => {
    const bench = openRecordBench();
    await bench.ordered();
    expect(adds(bench)).toEqual({ paidMinor: 253_920, openMinor: 380_880 });
    await bench.run(['pay', 'tarrow', '--instalment', '4', '--amount', '100', '--insist', 'so said the bank']);
    expect(accounts(bench).account).toMatchObject({ elsewhereMinor: 10_000 });
    expect(adds(bench)).toEqual({ paidMinor: 263_920, openMinor: 370_880 });
  });

  test('cancelled: 2,539.20 paid, 600.00 due, 1,000.00 of the 1,939.20 went back', async () => {
    const bench = openRecordBench();
    await bench.ordered();
    await cancel(bench, 60_000);
    expect(adds(bench)).toEqual({ paidMinor: 253_920, openMinor: -193_920 });
    await bench.run('pay tarrow --instalment 1 --amount 1000 --back', '2027-03-14');
    expect(adds(bench)).toEqual({ paidMinor: 153_920, openMinor: -93_920 });
    expect((await bench.run('status', today)).out.split('\n')[0]).toBe('  tarrow   cancelled on 2027-03-12; €939.20 to be returned');
    const beyond = await bench.run('pay tarrow --instalment 1 --amount 939.21 --back', '2027-03-14');
    expect([
      beyond.code,
      beyond.err
        .split('\n')
        .slice(0, 3)
        .map((line) => line.trim()),
    ]).toEqual([
      1,
      ['error[cli/back-too-much]: more would go back than tarrow left to be returned', 'found: €939.21', 'allowed: up to €939.20'],
    ]);
    expect(accounts(bench).account).toMatchObject({
      returnedMinor: 100_000,
      closed: { kind: 'cancelled', on: '2027-03-12', dueMinor: 60_000 },
    });
  });

  test('cancelled with more due than was paid: the rest came later', async () => {
    const bench = openRecordBench();
    await bench.ordered();
    await cancel(bench, 300_000);
    expect(adds(bench)).toEqual({ paidMinor: 253_920, openMinor: 46_080 });
    await bench.run('pay tarrow --instalment 2 --amount 460.80', '2027-03-14');
    expect(adds(bench)).toEqual({ paidMinor: 300_000, openMinor: 0 });
  });

  test('lost before it was an order: all that came is to go back', async () => {
    const bench = openRecordBench();
    await bench.approved();
    await bench.run('confirm tarrow --hold 2027-03-15');
    await bench.run('pay tarrow --instalment 1 --amount 500');
    await bench.run(['lost', 'tarrow', '--reason', 'time', 'Not before June, so no.']);
    expect(adds(bench)).toEqual({ paidMinor: 50_000, openMinor: -50_000 });
    expect(accounts(bench).statement.closed).toMatchObject({ kind: 'lost', dueMinor: 0 });
  });

  test('taken up again after a cancellation: the account begins anew, and the old money is in none of its rows', async () => {
    const bench = openRecordBench();
    await bench.ordered();
    await cancel(bench, 60_000);
    await bench.run('pay tarrow --instalment 1 --amount 1939.20 --back', '2027-03-12');
    const r2 = await bench.issue('r2', { validUntil: '2027-04-20' });
    for (const person of ['maren', 'idris']) await bench.record(letterText(letterTo(r2, person)), '--as-of', '2027-03-13');
    expect((await bench.run('confirm tarrow --hold 2027-04-15', '2027-03-13')).code).toBe(0);
    expect(adds(bench)).toEqual({ paidMinor: 0, openMinor: 634_800 });
    // The 600.00 that stayed with the first order are no part of this one: the whole instalment is open, and none of it too much.
    const paid = await bench.run('pay tarrow --instalment 1 --amount 2539.20', '2027-03-14');
    expect([paid.code, paid.err]).toEqual([0, '']);
    expect(adds(bench)).toEqual({ paidMinor: 253_920, openMinor: 380_880 });
  });
});

test("a paper of a page that was frozen without a text has today's, and its own where it has one", () => {
  const bench = openRecordBench();
  const data = join(bench.folder, 'issued', 'r1', 'data');
  mkdirSync(data, { recursive: true });
  const view = { audience: 'payer', language: 'en-US', texts: { 'paper.statement-title': 'How we stand' }, revision: { id: 'r1' } };
  writeFileSync(join(data, 'client.json'), JSON.stringify(view));
  const texts = paperPage(bench, { revision: 'r1', fingerprint: 'ab'.repeat(32) }, 'payer')?.texts;
  expect(texts?.['paper.statement-title']).toBe('How we stand');
  expect(texts?.['paper.statement-returned']).toBe('Returned to you so far');
});
