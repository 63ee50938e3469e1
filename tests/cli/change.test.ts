/** `change` on the first of the worked commissions: a top 100 mm wider after the glue-up. People, prices and places are invented. */
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { changeProblems, notComparable } from '../../src/cli/change/change-problems.ts';
import { makeClientFiles, openTools } from '../../src/cli/draft/produce.ts';
import { readyMessage } from '../../src/cli/offer/issue-message.ts';
import { formatProblem } from '../../src/problem/index.ts';
import { readProposal } from '../../src/read/index.ts';
import { issuedOffers, standingOf } from '../../src/record/index.ts';
import { pagesOf } from '../../src/spec/index.ts';
import { changeBench } from './change-bench.ts';

/** The problem of a run with this code, as it was printed. */
const problem = (err: string, code: string): string | undefined =>
  err
    .split('\n\n')
    .find((one) => one.includes(`[cli/${code}]`))
    ?.trim();

describe('900 wide after the glue-up', () => {
  test('the room refuses it before there is a price', async () => {
    const bench = await changeBench();
    await bench.order('timber-bought', 'cut', 'glued');
    bench.draft(900);
    const { code, out, err } = await bench.run('change');
    expect([code, out]).toEqual([1, '']);
    expect(`\n${err}\n`).toMatchInlineSnapshot(`
      "
      error[cli/change-breaks-wish]: design A would no longer meet wish w2, which the order meets: “The garden door must open with somebody sitting there”
        proposal.wishes.w2
        found: 890 mm
        allowed: at least 930 mm
        to mend: draw it otherwise, or price it all the same: --insist "why"

      error[cli/change-breaks-wish]: design A would no longer meet wish w3, which the order meets: “Past the radiator without turning sideways”
        proposal.wishes.w3
        found: 780 mm
        allowed: at least 810 mm
        to mend: draw it otherwise, or price it all the same: --insist "why"

      2 errors. Nothing was priced.
      "
    `);
    expect(await bench.run('change', '--write')).toMatchObject({ code: 1, out: '' });
    expect(bench.read('proposal.yaml')).not.toContain('change-');
  });

  /**
   * The makers' own estimate on paper was "scrap, 9 h again, 3 weeks". The top alone is 9 h here as well: planing 1.80, edges 3.15,
   * glue-up 1.10, trimming 0.50, and 2.40 of buying its oak again make 8.95. The wider top also sets the legs further apart, so
   * both end aprons are made anew: their joints, planing and assembly are the other 2.55 h.
   */
  test('insisted on, it is priced from the stage glued', async () => {
    const bench = await changeBench();
    await bench.order('timber-bought', 'cut', 'glued');
    bench.draft(900);
    const before = bench.read('proposal.yaml');
    const { code, out, err } = await bench.run('change', '--insist', 'they move the radiator');
    expect(code).toBe(0);
    expect(problem(err, 'change-breaks-wish')).toContain('warning[cli/change-breaks-wish]: design A would no longer meet wish w2');
    expect(`\n${out}\n`).toMatchInlineSnapshot(`
      "
      tollefsen-quill r4: design A with ceramic, in place of design A with ceramic of r3
      from the stage glued; lost: Top, 2 × End apron

        Difference of the designs                                     €225.00
        Material already bought or used, of no use in the new table   €417.69
        Work done already, to be done again                           €772.80
        Drawing, checking and planning the change                     €134.40
        The change, before tax                                        €1,549.89

        Total as ordered, with tax                  €6,258.00
        Total as changed, with tax                  €8,117.87
        Paid                                        €2,503.20
        Instalment 1, with your yes                 €3,247.15 (was €2,503.20)
        Instalment 2, when the top is glued up      €3,247.15 (was €2,503.20)
        Instalment 3, when it stands in your room   €1,623.57 (was €1,251.60)
        Due with the yes to the change              €743.95

      New date: 3 weeks later, an estimate: 11.5 h done again, 2 h of planning, 2.8 h that the new design takes more, and the days that timber, things bought anew, glue and finish wait.
      The work goes back to ordered once it takes the order’s place: what is made anew begins with the buying; what stays is not charged again.

      For you alone: cost, and what it is asked for
        European oak, 40 mm, cut                    0.105 m³   3400.00 a m³    €357.00   €417.69
        Rough cut, joint, plane, thickness          1.80 h     57.93 an hour   €104.27   €120.96
        Edges jointed, matched, glued, cleaned      3.15 h     57.93 an hour   €182.48   €211.68
        Glue-up set up                              1.10 h     57.93 an hour   €63.72    €73.92
        Panel trimmed and squared                   0.50 h     57.93 an hour   €28.97    €33.60
        Mortise and tenon                           1.60 h     57.93 an hour   €92.69    €107.52
        Buying and selecting timber                 2.40 h     57.93 an hour   €139.03   €161.28
        Dry fit and assembly                        0.60 h     57.93 an hour   €34.76    €40.32
        Angled shoulders of the splayed frame       0.35 h     57.93 an hour   €20.28    €23.52
        Drawing, checking and planning the change   2.00 h     57.93 an hour   €115.86   €134.40
        Of the top, hours of your own are not counted: Angled shoulders of the splayed frame

      Nothing was written. The same with --write puts it into the draft.
      "
    `);
    expect(bench.read('proposal.yaml')).toBe(before);
  });

  test('written into the draft, issued only while the stage stands, and then the order until it is paid', async () => {
    const bench = await changeBench();
    await bench.order('timber-bought', 'cut', 'glued');
    bench.draft(900);
    const { code, out } = await bench.run('change', '--insist', 'they move the radiator', '--write');
    expect(code).toBe(0);
    expect(out).toContain(
      [
        'written into proposals/tollefsen-quill/proposal.yaml: the lines and revision.change',
        'Next: leafwright issue tollefsen-quill; the order stands as it is until the change is approved, confirmed and paid',
      ].join('\n'),
    );
    const text = bench.read('proposal.yaml');
    expect(text.split('\n').filter((line) => /^ +change[-:]/.test(line))).toEqual([
      '  change: { of: r3, design: A, options: [ceramic], stage: glued, weeks: 3, again: ordered, because: "they move the radiator" }',
      '  change-lost: { says: "Material already bought or used, of no use in the new table", each: "417.69" }',
      '  change-redone: { says: "Work done already, to be done again", each: "772.80" }',
      '  change-handling: { says: "Drawing, checking and planning the change", each: "134.40" }',
    ]);
    expect(text).toContain('# Price lines beyond the table, by id');

    // Where what changed is still to be written, that comes first.
    bench.edit('proposal.yaml', /^ {2}changes: \|\n {4}/m, '  changes: |\n    TODO: ');
    expect((await bench.run('change', '--insist', 'they move the radiator', '--write')).out).toContain(
      'Next: write revision.changes anew, in your own words, then: leafwright issue tollefsen-quill; the order stands',
    );
    bench.edit('proposal.yaml', 'TODO: ', '');

    // The same again changes nothing, and what it reckons is what stands in the file.
    expect((await bench.run('change', '--insist', 'they move the radiator', '--write')).code).toBe(0);
    expect(bench.read('proposal.yaml')).toBe(text);

    await bench.record({ kind: 'stage', on: '2027-03-05', stage: 'finished' });
    const moved = await bench.run('issue');
    expect(moved.code).toBe(1);
    expect(problem(moved.err, 'change-stage-moved')).toMatchInlineSnapshot(`
      "error[cli/change-stage-moved]: the work has gone on since this change was priced
        proposals/tollefsen-quill/proposal.yaml:115:3  revision.change
          114 |     The table itself costs what it did; the ceramic coat that you asked for is in, and adds its own price.
        > 115 |   change: { of: r3, design: A, options: [ceramic], stage: glued, weeks: 3, again: ordered, because: "they move
              |   ^^^^^^ found priced from glued, and it is finished now
        to mend: price it anew: leafwright change tollefsen-quill --write"
    `);
    expect(bench.entries().filter(({ kind }) => kind === 'issued')).toHaveLength(1);
  });

  test('what is wrong with a design that nobody ordered holds up neither the change nor its revision', async () => {
    const bench = await changeBench();
    await bench.order('timber-bought');
    bench.edit('proposal.yaml', 'id: r3', 'id: r4');
    bench.edit('table.yaml', /thickness: 28 mm/, 'thickness: 32 mm');
    // The trestle's bearer would stand in the thicker top: an error of design B, on which the other designs do not wait.
    expect(() => bench.view()).toThrow(/bearer|overlap|same place/i);
    const { code, err } = await bench.run('change', '--insist', 'they want it thicker', '--write');
    expect([code, err]).toEqual([0, expect.not.stringContaining('error')]);
    expect(bench.view().designs.map(({ id }) => id)).toEqual(['A']);
  });

  test('work that goes on while it is out is told, and what was priced from before is not confirmed without a reason', async () => {
    const bench = await changeBench();
    await bench.order('timber-bought', 'cut');
    bench.draft(900);
    await bench.run('change', '--insist', 'they move the radiator', '--write');
    const r4 = await bench.issue('r4');
    const combination = r4.designs[0]?.combinations[0];
    if (combination === undefined) throw new Error('nothing is on offer');
    const { fingerprint, revision } = r4;
    const chosen = { revision, fingerprint, design: 'A', options: ['ceramic'], totalMinor: combination.totalMinor, currency: 'EUR' };
    for (const person of ['maren', 'idris'])
      await bench.record({ kind: 'answer', on: '2027-03-10', person, verdict: 'yes', revision, fingerprint, chosen, by: 'code' });
    expect(problem((await bench.run('stage', 'glued')).err, 'stage-past-change')).toBe(
      `warning[cli/stage-past-change]: r4 changes the order, and was priced from cut
  found: it is on offer
  to mend: what is done from now on at parts that it changes is in no price; wait for it, or price it anew: leafwright change tollefsen-quill`,
    );
    expect(problem((await bench.run('confirm')).err, 'change-stage-moved')).toContain('found: priced from cut, and it is glued now');
    expect((await bench.run('confirm', '--insist', 'I bear the glue-up')).code).toBe(0);
    const needs = combination.instalmentsMinor[0] ?? 0;
    await bench.record({ kind: 'paid', on: '2027-03-10', amountMinor: needs - 250320, currency: 'EUR', instalment: 1 });
    expect(JSON.parse((await bench.run('status', '--json')).out).proposals[0]).toMatchObject({ stage: 'ordered' });
    // The base was glued up by the time; of the top that was, nothing is asked.
    const { out } = await bench.run('cancel');
    expect(out).toMatch(/Dry fit and assembly +\d/);
    expect(out).not.toMatch(/Glue-up set up|Panel trimmed/);
  });

  test('as a revision of its own it offers one design with its options fixed, at the price that was told', async () => {
    const bench = await changeBench();
    await bench.order('timber-bought', 'cut', 'glued');
    bench.draft(900);
    await bench.run('change', '--insist', 'they move the radiator', '--write');
    bench.edit('proposal.yaml', 'lastStage: timber-bought', 'lastStage: finished');
    const view = bench.view();
    expect(view.designs.map(({ id }) => id)).toEqual(['A']);
    expect(view.choices.at(-1)?.replace(/\s/g, ' ')).toBe('Width and length of the top: until 13 April 2026, before it is finished');
    expect(view.leadTime.replace(/\s/g, ' ')).toBe(
      'Eleven weeks from your yes and the first instalment; the change to the order of r3 adds about 3 weeks, an estimate',
    );
    // Amounts of whole lines alone: no hour, no rate, no cost, and no word on why it was priced.
    const seen = JSON.stringify(view);
    for (const amount of ['417.69', '772.80', '134.40']) expect(seen).toContain(amount);
    for (const secret of ['357.00', '667.16', '115.86', '57.93', '11.5 h', '0.105', 'they move']) expect(seen).not.toContain(secret);

    // Page, scope and message say that the order stands until the change is agreed.
    const { input } = readProposal(bench.workspace, 'tollefsen-quill');
    const [page] = input === undefined ? [] : pagesOf(input.proposal);
    const { orderStands } = view.revision;
    if (input === undefined || page === undefined || orderStands === undefined) throw new Error('it is no change');
    expect(orderStands).toContain('I make the table as it was ordered');
    expect(readyMessage(view, page, 'a'.repeat(26), input).text).toContain(orderStands);
    const files = await makeClientFiles(view, openTools());
    const html = files.find(({ path }) => path === 'index.html')?.bytes ?? new Uint8Array();
    expect(Buffer.from(html).toString('utf8')).toContain(orderStands);
    const scope = join(bench.workspace, 'scope.pdf');
    writeFileSync(scope, files.find(({ path }) => path === 'scope-a.pdf')?.bytes ?? new Uint8Array());
    expect(execFileSync('pdftotext', [scope, '-'], { encoding: 'utf8' }).replaceAll(/\s+/g, ' ')).toContain(orderStands);

    const offer = await bench.issue('r4');
    expect(offer.change).toEqual({ of: 'r3', design: 'A', stage: 'glued', again: 'ordered' });
    expect(offer.designs.map(({ id, options, combinations }) => [id, options, combinations])).toEqual([
      ['A', ['ceramic'], [{ options: ['ceramic'], netMinor: 676489, totalMinor: 811787, instalmentsMinor: [324715, 324715, 162357] }]],
    ]);
    // Old net 5,215.00, and the change.
    expect(676489).toBe(521500 + 154989);

    // Approved and confirmed, but not paid: the old order stands, and a further change would be priced against it.
    await bench.confirm(offer, ['ceramic'], { replaces: 4 });
    const draft = async () => JSON.parse((await bench.run('change', '--json', '--insist', 'so they said')).out);
    bench.edit('proposal.yaml', 'id: r4', 'id: r5');
    expect(await draft()).toMatchObject({ ordered: { revision: 'r3' }, earlierMinor: 0, changeNetMinor: 154989 });

    // Paid: the change is the order, and top and aprons begin with the buying of timber. Legs and long aprons are there to be
    // charged, with their own hours alone.
    await bench.record({ kind: 'paid', on: '2027-03-08', amountMinor: 74395, currency: 'EUR', instalment: 1 });
    expect(JSON.parse((await bench.run('status', '--json')).out).proposals[0]).toMatchObject({
      stage: 'ordered',
      next: 'buy what is made anew after the change',
    });
    const cancelled = await bench.run('cancel');
    expect(cancelled.out).toContain('cancelled at the stage ordered: the work done and what was bought for it');
    expect(cancelled.out).toMatch(/Leg, tapered, splayed or shaped +5.20 h/);
    expect(cancelled.out).not.toMatch(/Glue-up set up|Edges jointed/);
    // 0.112 m3 less 0.105 of the top and the end aprons, which the change charges.
    expect(cancelled.out).toMatch(/European oak, 40 mm +0.007 m³/);

    // Back to 800 before any of it is made: the difference less, the hours of planning, and nothing lost.
    bench.edit('table.yaml', 'width: 900 mm', 'width: 800 mm');
    const early = await draft();
    expect(early).toMatchObject({
      ordered: { revision: 'r4' },
      earlierMinor: 132489,
      differenceMinor: -22500,
      lostMinor: 0,
      redoneMinor: 0,
    });
    expect(early.again).toBeNull();

    // The same once it is glued again: the new top and aprons are lost.
    for (const [stage, on] of [
      ['timber-bought', '2027-03-09'],
      ['cut', '2027-03-10'],
      ['glued', '2027-03-11'],
    ] as const)
      await bench.record({ kind: 'stage', on, stage });
    const back = await draft();
    expect(back).toMatchObject({ ordered: { revision: 'r4' }, earlierMinor: 132489, differenceMinor: -22500, again: 'ordered' });
    const ids = back.lines.map(({ id }: { readonly id: string }) => id);
    expect(ids).toEqual(['change-earlier', 'change-lost', 'change-redone', 'change-handling']);
    expect(back.netMinor).toBe(676489 - 22500 + back.lostMinor + back.redoneMinor + back.handlingMinor);
  });
});

describe('what is said instead of a price', () => {
  test('there is no order yet', async () => {
    const bench = await changeBench();
    await bench.issue('r3');
    expect(await bench.run('change')).toMatchObject({ code: 1, out: '', err: expect.any(String) });
    expect((await bench.run('change')).err).toMatchInlineSnapshot(`
      "error[cli/change-without-order]: tollefsen-quill is no order yet, so there is nothing to change
        found: it is proposed
        to mend: what is wanted goes into the next revision: leafwright revise tollefsen-quill

      1 error. Nothing was priced."
    `);
  });

  test('it is delivered, or cancelled', async () => {
    const bench = await changeBench();
    await bench.order('delivered');
    expect((await bench.run('change')).err).toMatchInlineSnapshot(`
      "error[cli/change-delivered]: the table is delivered, so its order can not be changed any more
        found: it is delivered
        to mend: begin a proposal from it: leafwright new tollefsen-quill-again --from tollefsen-quill@r3

      1 error. Nothing was priced."
    `);
    await bench.record({ kind: 'cancelled', on: '2027-03-09', stage: 'delivered', dueMinor: 0, currency: 'EUR' });
    expect((await bench.run('change')).err).toContain('error[cli/is-closed]: tollefsen-quill is closed already');
  });

  test('the draft was issued, makes more tables, or has an error', async () => {
    const bench = await changeBench();
    await bench.order();
    expect(problem((await bench.run('change', '--write')).err, 'change-draft-issued')).toMatchInlineSnapshot(`
      "error[cli/change-draft-issued]: r3 was issued already, so no change can be written into it
        to mend: begin the next draft: leafwright revise tollefsen-quill"
    `);
    bench.edit('proposal.yaml', 'quantity: 1', 'quantity: 2');
    expect(problem((await bench.run('change')).err, 'change-quantity')).toMatchInlineSnapshot(`
      "error[cli/change-quantity]: the draft makes another number of tables than the order
        proposal.quantity
        found: 2
        allowed: 1
        to mend: write quantity: 1; more or fewer tables are a proposal of their own"
    `);
    bench.edit('table.yaml', 'thickness: 28 mm', 'thickness: 280 mm');
    const faulty = await bench.run('change', '--insist', 'why not');
    expect([faulty.code, faulty.out]).toEqual([1, '']);
    expect(faulty.err).toContain('error[spec/out-of-range]');
    expect(faulty.err.endsWith('Nothing was priced.')).toBe(true);
  });

  test('a design or options that the draft has not', async () => {
    const bench = await changeBench();
    await bench.order();
    await expect(bench.run('change', '--design', 'z')).rejects.toMatchObject({
      message: 'the draft has no design Z',
      mend: '--design says which: there are A, B, C',
    });
    await expect(bench.run('change', '--options', 'gold')).rejects.toMatchObject({
      message: 'design A can not be had with gold',
      mend: '--options says which: ceramic   none',
    });
    await expect(bench.run('change', '--insist', ' ')).rejects.toMatchObject({ message: '--insist needs a reason' });
    const bare = JSON.parse((await bench.run('change', '--options', 'none', '--json', '--insist', 'no need')).out);
    // The ceramic coat is 240.00 of its own; planning 134.40.
    expect(bare).toMatchObject({ options: [], differenceMinor: -24000, handlingMinor: 13440, changeNetMinor: -10560, weeks: 1 });
    expect(bare.problems).toMatchObject([{ code: 'cli/nothing-to-insist', severity: 'warning' }]);
  });

  test('what was ordered would have another price today: the agreed one counts', async () => {
    const bench = await changeBench();
    await bench.order();
    bench.edit('issued/r3/in/program/templates/rates/runa.yaml', 'roundUpTo: "25.00"', 'roundUpTo: "400.00"');
    const { code, out, err } = await bench.run('change');
    expect(code).toBe(0);
    expect(out).toMatch(/Difference of the designs +€0\.00/);
    expect(err).toMatchInlineSnapshot(`
      "warning[cli/change-nothing]: the draft makes the very table that is ordered: there is nothing to price beyond handling
        found: design A with ceramic
        to mend: draw the change into the draft first, or say what it becomes: --design, --options

      warning[cli/change-recomputed]: the design ordered with r3 would have another price today
        found: €5,515.00 before tax, and €5,215.00 was agreed
        to mend: the difference is taken from the price that was agreed

      2 warnings.
      "
    `);
  });

  test('the very table that is ordered is told; the least that differs is a change', async () => {
    const bench = await changeBench();
    await bench.order();
    bench.edit('proposal.yaml', 'id: r3', 'id: r4');
    expect((await bench.run('change')).err).toBe(
      [
        'warning[cli/change-nothing]: the draft makes the very table that is ordered: there is nothing to price beyond handling',
        '  found: design A with ceramic',
        '  to mend: draw the change into the draft first, or say what it becomes: --design, --options',
        '',
        '1 warning.',
        '',
      ].join('\n'),
    );
    expect((await bench.run('change', '--options', 'none')).err).not.toContain('change-nothing');
    bench.edit('table.yaml', 'width: 800 mm', 'width: 801 mm');
    expect((await bench.run('change', '--insist', 'a millimetre')).err).not.toContain('change-nothing');
  });

  test('what was ordered can not be read any more', async () => {
    const bench = await changeBench();
    await bench.order();
    bench.edit('issued/r3/in/proposals/tollefsen-quill/proposal.yaml', 'use: dining', 'use: dinning');
    expect((await bench.run('change')).err).toMatchInlineSnapshot(`
      "error[cli/change-not-read]: r3, which was ordered, can not be computed from what was frozen with it
        found: there is no use with load cases called dinning
        to mend: see what was touched: leafwright verify tollefsen-quill

      1 error. Nothing was priced."
    `);
  });

  test('what was ordered was erased with somebody’s data', async () => {
    const bench = await changeBench();
    await bench.order('cut');
    expect((await bench.run('erase', '--person', 'maren', '--yes')).code).toBe(0);
    const { code, err } = await bench.run('change');
    expect(code).toBe(1);
    expect(problem(err, 'change-not-read')).toMatch(/found: its sources were erased for good with the data of maren, by entry \d+\n/);
    expect(problem(err, 'change-not-read')).toContain(
      'to mend: it can not be priced from it any more; agree on what it comes to, and note that',
    );
  });
});

test('a plain draft after the order is warned of; a change of another order, or of none, is refused', async () => {
  const bench = await changeBench();
  await bench.order('timber-bought');
  const { input } = readProposal(bench.workspace, 'tollefsen-quill');
  const proposal = input?.proposal;
  if (proposal === undefined) throw new Error('the draft can not be read');
  const standing = standingOf(bench.entries(), issuedOffers(bench.folder), '2027-03-10');
  const change = { of: 'r3', design: 'A', options: ['ceramic'], stage: 'timber-bought', weeks: 1 } as const;
  const said = (over: object | undefined, of = standing) =>
    changeProblems(
      { ...proposal, revision: { ...proposal.revision, ...(over === undefined ? {} : { change: { ...change, ...over } }) } },
      of,
      'oak',
    )
      .map((one) => formatProblem(one, { colour: false }))
      .join('\n');
  expect(said({})).toBe('');
  const { order: _order, ...none } = standing;
  expect(said(undefined, none)).toBe('');
  expect(`\n${[said(undefined), said({ of: 'r2' }), said({}, { ...none, stage: 'approved' })].join('\n')}`).toMatchInlineSnapshot(`
    "
    warning[cli/change-not-priced]: there is an order, and this draft was not priced as a change to it
      proposal.revision.id
      found: r3 is ordered, and the work is timber-bought
      to mend: price it: leafwright change oak --write

    error[cli/change-of-another]: the draft changes r2, and r3 is what is ordered
      proposal.revision.change
      to mend: price it anew: leafwright change oak --write

    error[cli/change-without-order]: the draft changes an order, and there is none
      proposal.revision.change
      found: it is approved
      to mend: take revision.change and its lines out
    "
  `);
  // 2,503.20 was paid, 564.47 of it is due by the stage reached.
  const closed = { kind: 'cancelled', on: '2027-03-09', n: 9 } as const;
  expect(`\n${said(undefined, { ...standing, closed, openMinor: 56_447 - 250_320 })}\n`).toMatchInlineSnapshot(`
    "
    error[cli/account-open]: money is open of what was cancelled on 2027-03-09, and a new revision begins another account
      proposal.revision.id
      found: €1,938.73 to be returned
      to mend: settle it first: leafwright pay oak --instalment 1 --amount ... --back; what stays for the new order is entered there anew; or insist: --insist "why"

    "
  `);
  expect(said(undefined, { ...standing, closed, openMinor: 0 })).toBe('');
  expect(
    notComparable(proposal, { ...proposal, currency: 'USD' }).map((one) => formatProblem(one, { colour: false })),
  ).toMatchInlineSnapshot(`
    [
      "error[cli/change-currency]: the draft and the order are in different currencies
      proposal.currency
      found: USD
      allowed: EUR
      to mend: write currency: EUR
    ",
    ]
  `);
});
