import { existsSync, rmSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { addEntry } from '../../src/record/index.ts';
import { ownTemplate, told, workspaceOf } from './issue-workspace.ts';

const workspace = workspaceOf('oak', 'tollefsen-quill/r1');
const { at, change, read, run } = workspace;
const proposal = 'proposals/oak/proposal.yaml';
const rates = 'templates/rates/own.yaml';

/** A real commission, with rates and terms of the shop's own. */
beforeAll(() => {
  ownTemplate(workspace, 'rates/runa.yaml', 'rates/own.yaml');
  ownTemplate(workspace, 'terms/standard-eu.yaml', 'terms/own.yaml');
  change(proposal, /^invented: true$/m, 'invented: false');
  change(proposal, 'rates: runa', 'rates: own');
  change(proposal, 'terms: standard-eu', 'terms: own');
});

describe('what stands in the way of issuing', () => {
  test('nothing, of a whole draft in its days; an open note is told, and check says so ahead', async () => {
    expect(told((await run('check', 'oak', '--as-of', '2026-02-23')).stderr)['cli/note-open']).toBeUndefined();
    const place = { folder: at('proposals/oak'), shown: 'proposals/oak', at: '2026-02-20T10:00:00Z', zone: 'Europe/Dublin' };
    const added = await addEntry(place, () => ({
      body: { kind: 'note', on: '2026-02-20', how: 'telephone', person: 'maren', design: 'B' },
      sealed: { data: { person: 'maren', who: 'Maren', words: 'Could B be lighter?' }, random: new Uint8Array(16).fill(7) },
    }));
    expect(added.problems).toEqual([]);
    const ahead = told((await run('check', 'oak', '--as-of', '2026-02-23')).stderr);
    expect(ahead['cli/note-open']).toEqual([
      `warning[cli/note-open]: note 1 of 2026-02-20 about design B is open
  found: “Could B be lighter?”
  to mend: deal with it, then: leafwright note oak --settle 1 --as answered "what you answered"; or --as wish, draft or dropped`,
    ]);
    expect(
      Object.keys(ahead)
        .filter((code) => code.startsWith('cli/'))
        .sort(),
    ).toEqual(['cli/invented-maker', 'cli/note-open']);
  });

  test('today is the maker’s, where it is not yet that of UTC, or not any more', async () => {
    const { status, stderr } = await run('check', 'oak', '--as-of', '2026-03-25T23:30:00Z');
    expect([status, Object.keys(told(stderr)).includes('cli/offer-over')]).toEqual([0, false]);
    ownTemplate(workspace, 'maker.yaml', 'maker.yaml');
    change('templates/maker.yaml', 'Europe/Dublin', 'Pacific/Auckland');
    expect(told((await run('issue', 'oak', '--as-of', '2026-03-25T23:30:00Z')).stderr)['cli/offer-over']).toHaveLength(1);
    expect(told((await run('check', 'oak', '--as-of', '2026-03-25T23:30:00Z')).stderr)['cli/offer-over']).toHaveLength(1);
    change('templates/maker.yaml', 'Pacific/Auckland', 'America/Los_Angeles');
    const late = told((await run('issue', 'oak', '--as-of', '2026-03-26T06:30:00Z')).stderr);
    expect([late['cli/note-open']?.length, late['cli/offer-over']]).toEqual([1, undefined]);
    await run('new', 'late', '--as-of', '2026-03-26T06:30:00Z');
    expect(read('proposals/late/proposal.yaml')).toMatch(/^ {2}date: "?2026-03-25"?$/m);
    rmSync(at('proposals', 'late'), { recursive: true });
    rmSync(at('templates', 'maker.yaml'));
  });

  test('all reasons at once, each with how to mend it', async () => {
    change(proposal, /^exclusions:\n(?: {2}.*\n)+/m, 'exclusions: []\n');
    change(proposal, /^sample:\n(?: {2}.*\n)+/m, '');
    change(proposal, /^( {4}(?:maren|idris): \{ .*) \}$/gm, '$1, page: viewer }');
    change(proposal, /^language:/m, 'pages:\n  payer: { audience: payer }\n  viewer: { audience: no-price }\nlanguage:');
    change('proposals/oak/variants/a.yaml', /^ {2}w9: .*\n/m, '');
    change(rates, 'leastMargin: 10 %', 'leastMargin: 30 %');
    change('templates/terms/own.yaml', /^sections:\n(?:(?: {2}.*)?\n)+/m, 'sections: []\n');
    const { status, stdout, stderr } = await run('issue', 'oak', '--as-of', '2026-05-10');
    expect([status, stdout]).toEqual([1, '']);
    const all = told(stderr);
    expect(all['cli/wish-unanswered']).toMatchInlineSnapshot(`
      [
        "error[cli/wish-unanswered]: wish w9 is not answered, and nothing measures it (design A)
        proposals/oak/variants/a.yaml:5:1  answers
          4 | hours: 62
        > 5 | answers:
            | ^^^^^^^ found “Hot pans, pens, water”
        to mend: write answers: { w9: { result: enough, says: ... } } into the design; result is enough, limit or not-enough",
      ]
    `);
    expect(all['cli/note-open']?.[0]).toMatch(/^error\[cli\/note-open\]: note 1 of 2026-02-20 about design B is open\n/);
    expect(all['cli/price-below-floor']).toMatchInlineSnapshot(`
      [
        "error[cli/price-below-floor]: the price leaves less margin than your floor (design A)
        templates/rates/own.yaml:14:14  leastMargin
          13 | contingency: 2 %
        > 14 | leastMargin: 30 %
             |              ^^^^ found 12.4 % of €4,825.00, cost €4,225.10
        allowed: at least 30 %
        to mend: ask €6,035.86 before tax, or make it in fewer hours; or insist: leafwright issue oak --insist "why"",
        "error[cli/price-below-floor]: the price leaves less margin than your floor (design B)
        templates/rates/own.yaml:14:14  leastMargin
          13 | contingency: 2 %
        > 14 | leastMargin: 30 %
             |              ^^^^ found 12.2 % of €5,125.00, cost €4,501.31
        allowed: at least 30 %
        to mend: ask €6,430.44 before tax, or make it in fewer hours; or insist: leafwright issue oak --insist "why"",
        "error[cli/price-below-floor]: the price leaves less margin than your floor (design C)
        templates/rates/own.yaml:14:14  leastMargin
          13 | contingency: 2 %
        > 14 | leastMargin: 30 %
             |              ^^^^ found 12.4 % of €4,950.00, cost €4,337.79
        allowed: at least 30 %
        to mend: ask €6,196.84 before tax, or make it in fewer hours; or insist: leafwright issue oak --insist "why"",
      ]
    `);
    expect(all['cli/quotation-out']).toMatchInlineSnapshot(`
      [
        "error[cli/quotation-out]: the quotation of oak-40 has run out
        templates/rates/own.yaml:41:15  timber.oak-40.quotedOn
          40 |     addition: 35 %
        > 41 |     quotedOn: 2026-02-02
             |               ^^^^^^^^^^ found of 2 February 2026, held 90 days, until 3 May 2026
        allowed: good on 10 May 2026
        to mend: ask your merchant anew, write price and quotedOn; or insist: leafwright issue oak --insist "why"",
        "error[cli/quotation-out]: the quotation of oak-54 has run out
        templates/rates/own.yaml:49:15  timber.oak-54.quotedOn
          48 |     addition: 35 %
        > 49 |     quotedOn: 2026-02-02
             |               ^^^^^^^^^^ found of 2 February 2026, held 90 days, until 3 May 2026
        allowed: good on 10 May 2026
        to mend: ask your merchant anew, write price and quotedOn; or insist: leafwright issue oak --insist "why"",
        "error[cli/quotation-out]: the quotation of oak-65 has run out
        templates/rates/own.yaml:58:15  timber.oak-65.quotedOn
          57 |     addition: 35 %
        > 58 |     quotedOn: 2026-02-02
             |               ^^^^^^^^^^ found of 2 February 2026, held 90 days, until 3 May 2026
        allowed: good on 10 May 2026
        to mend: ask your merchant anew, write price and quotedOn; or insist: leafwright issue oak --insist "why"",
      ]
    `);
    expect(all['cli/no-exclusions']).toMatchInlineSnapshot(`
      [
        "error[cli/no-exclusions]: nothing is said to be excluded
        proposals/oak/proposal.yaml:130:1  exclusions
          129 |   - { says: The room cleared and the old table gone on the day, by: 2026-06-19 }
        > 130 | exclusions: []
              | ^^^^^^^^^^
        to mend: write what a client might take to be included: exclusions: ["Chairs.", "Work on floor or walls."]",
      ]
    `);
    expect(all['cli/no-terms']).toMatchInlineSnapshot(`
      [
        "error[cli/no-terms]: the terms have no section
        templates/terms/own.yaml:8:1  sections
          7 |
        > 8 | sections: []
            | ^^^^^^^^
        to mend: write sections into templates/terms/own.yaml, or name other terms: terms: standard-eu",
      ]
    `);
    expect(all['cli/nobody-decides']).toMatchInlineSnapshot(`
      [
        "error[cli/nobody-decides]: nobody who decides is shown a price, so nobody could order
        proposals/oak/proposal.yaml:13:1  deciders
          12 | # Who has to say yes: \`all\` of these people, or \`any\` of them.
        > 13 | deciders:
             | ^^^^^^^^ found maren, idris
        to mend: give one of them a page with audience: payer",
      ]
    `);
    expect(all['cli/offer-over']).toMatchInlineSnapshot(`
      [
        "error[cli/offer-over]: the last day of this offer has passed
        proposals/oak/proposal.yaml:109:15  revision.validUntil
          108 |   date: 2026-02-23
        > 109 |   validUntil: 2026-03-25
              |               ^^^^^^^^^^
        to mend: set a later validUntil before you issue it",
      ]
    `);
    expect(all['cli/no-sample']).toMatchInlineSnapshot(`
      [
        "warning[cli/no-sample]: there is no sample, so the scope says "subject to sample"
        to mend: make one, write sample: { id: ..., says: ... }, and record the yes: leafwright sample oak ID --who PERSON --yes",
      ]
    `);
    expect(all['price/margin-low']).toBeUndefined();
    expect(stderr.trimEnd()).toMatch(/Nothing was issued\.$/);
    expect(existsSync(at('proposals/oak/issued'))).toBe(false);
  });

  test('a reason lifts the floor and the quotation, and nothing else', async () => {
    const { status, stderr } = await run('issue', 'oak', '--as-of', '2026-05-10', '--insist', 'An old friend');
    const codes = Object.keys(told(stderr)).filter((code) => code.startsWith('cli/'));
    expect(status).toBe(1);
    expect(codes).not.toContain('cli/price-below-floor');
    expect(codes).not.toContain('cli/quotation-out');
    expect(codes).toEqual(expect.arrayContaining(['cli/wish-unanswered', 'cli/note-open', 'cli/no-exclusions', 'cli/no-terms']));
    expect(await run('issue', 'oak', '--insist', ' ')).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('--insist needs a reason'),
    });
  });
});
