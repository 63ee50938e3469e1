import { existsSync, lstatSync, mkdirSync, readdirSync, readFileSync, rmSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { makeCode } from '../../src/reply/index.ts';
import { letterText, letterTo } from './answers.ts';
import { fault, openRecordBench } from './record-bench.ts';

const insist = '--insist "why" records it all the same';

describe('note', () => {
  test('keeps words apart from the chain, lists open ones first, settles each once', async () => {
    const bench = openRecordBench();
    expect(await bench.run(['note', 'tarrow', 'No, not that', '--how', 'telephone', '--who', 'maren', '--wish', 'w3'])).toEqual({
      code: 0,
      err: '',
      out: 'note 1 of Maren Tollefsen, 2027-03-01, is kept; it is open until you settle it\n\nNext: answer note 1',
    });
    await bench.run(['note', 'tarrow', 'They like the rail.', '--who', 'Bodil Raun', '--on', '2027-02-27', '--design', 'a']);
    const [first, second] = bench.entries();
    expect(first).toMatchObject({ kind: 'note', on: '2027-03-01', how: 'telephone', person: 'maren', wish: 'w3' });
    expect(second).toMatchObject({ kind: 'note', on: '2027-02-27', how: 'other', design: 'A' });
    expect(bench.read('decisions.jsonl')).not.toMatch(/Tollefsen|Bodil|not that/);
    expect(bench.sealed(first)).toEqual({ data: { person: 'maren', who: 'Maren Tollefsen', words: 'No, not that' } });
    expect((await bench.run(['note', 'tarrow', '--settle', '1', '--as', 'wish', 'became wish w9', '--wish', 'w9'])).out).toContain(
      'note 1 became wish w9; 1 note is open',
    );
    expect((await bench.run('note tarrow')).out).toBe(
      [
        '    2   2027-02-27, Bodil Raun, design A; open',
        '        They like the rail.',
        '    1   2027-03-01, Maren Tollefsen, telephone, wish w3',
        '        No, not that',
        '        became wish w9: became wish w9',
        '',
        'Next: leafwright note tarrow --settle 2 --as answered "what you answered"',
      ].join('\n'),
    );
    expect(bench.problems()).toEqual([]);
  });

  test('takes a pasted mail from a file', async () => {
    const bench = openRecordBench();
    const file = join(bench.workspace, 'mail.txt');
    writeFileSync(file, 'Dear Runa,\r\nthe end is too hard.\r\n');
    await bench.run(['note', 'tarrow', '--file', file, '--who', 'idris']);
    expect(bench.entries()[0]).toMatchObject({ how: 'message', person: 'idris' });
    expect(bench.sealed(bench.entries()[0])).toMatchObject({ data: { words: 'Dear Runa,\nthe end is too hard.' } });
  });

  test('refusals', async () => {
    const bench = openRecordBench();
    await bench.run(['note', 'tarrow', 'One']);
    await bench.run(['note', 'tarrow', '--settle', '1', '--as', 'dropped', 'of no account']);
    expect(await bench.run(['note', 'tarrow', '--settle', '1', '--as', 'dropped', 'again'])).toEqual({
      code: 1,
      out: '',
      err: 'error[cli/note-settled]: note 1 is settled already\n  to mend: add a new note for what is new\n\n1 error. Nothing was recorded.',
    });
    expect((await bench.run(['note', 'tarrow', '--settle', '2', '--as', 'dropped', 'x'])).err).toBe(
      'error[cli/no-note]: entry 2 is no note\n  allowed: one of 1\n  to mend: leafwright note tarrow lists them\n\n1 error. Nothing was recorded.',
    );
    expect(await fault(bench.run(['note', 'tarrow', 'x', '--who', 'idri']))).toBe(
      'nobody here is called idri; did you mean idris?\nfor somebody else write the name with a capital',
    );
    expect(await fault(bench.run(['note', 'tarrow', 'x', '--wish', 'w99']))).toMatch(
      /^there is no wish w99; did you mean w9\?\nthere are w1, /,
    );
    expect(await fault(bench.run(['note', 'tarrow', 'x', '--how', 'phone']))).toContain('--how phone is not known');
    expect(await fault(bench.run(['note', 'tarrow', 'x', '--on', '2027-03-02']))).toBe(
      '--on 2027-03-02 is still to come: today is 2027-03-01\nrecord it when it has happened',
    );
    expect(await fault(bench.run(['note', 'tarrow', ' ']))).toBe(
      'the words are missing\nwrite them in quotes, or name a text file: --file mail.txt',
    );
    expect(await fault(bench.run(['note', 'tarrow', '--settle', '1', '--as', 'wish', 'x']))).toBe(
      '--as wish needs --wish\nname the wish that it became: --wish w9',
    );
    expect(bench.entries().length).toBe(2);
  });
});

describe('confirm', () => {
  test('only what is approved by all', async () => {
    const bench = openRecordBench();
    const issued = await bench.issue('r1');
    await bench.record(letterText(letterTo(issued, 'maren')));
    expect(await bench.run('confirm tarrow')).toEqual({
      code: 1,
      out: '',
      err: [
        'error[cli/not-approved]: nothing is approved in tarrow',
        '  found: maren: yes to A with ceramic; waiting for Idris Quill since 2027-02-11',
        '  to mend: record the answer: leafwright record tarrow --file mail.txt',
        '',
        '1 error. Nothing was recorded.',
      ].join('\n'),
    });
    await bench.record(letterText(letterTo(issued, 'idris', { design: 'B', on: [] })));
    expect((await bench.run('confirm tarrow')).err).toContain(
      'error[cli/not-approved]: those who decide on tarrow disagree, so nothing is approved\n  found: idris: yes to B; maren: yes to A with ceramic\n  to mend: a revision that they can agree on: leafwright revise tarrow; or a new answer: leafwright record tarrow --file mail.txt\n',
    );
    expect(bench.entries().some(({ kind }) => kind === 'confirmed')).toBe(false);
  });

  test('design, options, total and instalments from the offer; the message says it all and that it is no order', async () => {
    const bench = openRecordBench();
    await bench.approved({ sample: 'S-041' });
    const ran = await bench.run('confirm tarrow --hold 2027-03-15');
    expect(ran.err).toBe(
      'warning[cli/sample-open]: sample S-041 is not approved, so the scope is subject to it\n  to mend: leafwright sample tarrow S-041 --who PERSON --yes\n\n1 warning.\n',
    );
    expect(ran.out).toBe(
      [
        'entry 4: tarrow r1 is confirmed: design A with ceramic, €6,348.00',
        '  instalments   €2,539.20, €2,539.20, €1,269.60',
        '  held until    2027-03-15; it is no order until the first instalment is in',
        '  message       proposals/tarrow/outbox/r1-confirmation.txt',
        '  message       proposals/tarrow/outbox/r1-confirmation.eml',
        '',
        'Next: request instalment 1',
      ].join('\n'),
    );
    expect(bench.entries().at(-1)).toMatchObject({
      kind: 'confirmed',
      answers: [2, 3],
      instalmentsMinor: [253_920, 253_920, 126_960],
      holdUntil: '2027-03-15',
      chosen: { design: 'A', options: ['ceramic'], totalMinor: 634_800, currency: 'EUR' },
    });
    const text = bench.read('outbox', 'r1-confirmation.txt').replaceAll(/\s+/g, ' ');
    for (const part of [
      'Dear Maren Tollefsen and Idris Quill,',
      'Design A Reed',
      'Maren Tollefsen on 1 March 2027',
      'Total with tax €6,348.00',
      '1. €2,539.20, with your yes 2. €2,539.20, when the top is glued up 3. €1,269.60, when it stands in your room',
      'It is no order yet. It becomes one when the first instalment, €2,539.20, is in.',
      'Until 15 March 2027 I hold the price',
      'pay the first instalment, €2,539.20, by 15 March 2027',
      'I choose to answer electronically.',
      'To take it back: Write to',
    ])
      expect(text).toContain(part);
    expect(
      Math.max(
        ...bench
          .read('outbox', 'r1-confirmation.txt')
          .split('\n')
          .map((line) => line.length),
      ),
    ).toBeLessThanOrEqual(78);
    expect(bench.read('outbox', 'r1-confirmation.eml')).toMatch(/^To: .*maren\.tollefsen@example\.invalid.*idris/ms);
    expect(bench.problems()).toEqual([]);
  });

  test('where one yes is enough, the no of another is told', async () => {
    const bench = openRecordBench();
    const issued = await bench.issue('r1', { rule: 'any' });
    await bench.record(letterText(letterTo(issued, 'maren')));
    await bench.record(letterText(letterTo(issued, 'idris', { verdict: 'no', design: 'A' })));
    const { code, err } = await bench.run('confirm tarrow');
    expect([code, err]).toEqual([
      0,
      'warning[cli/one-refused]: one yes is enough, and Idris Quill said otherwise\n  found: no on 2027-03-01\n  to mend: speak with them before the message goes out\n\n1 warning.\n',
    ]);
  });

  test('a remark with a yes: told to the maker, quoted to those who see prices, and said to be no part of the price', async () => {
    const bench = openRecordBench();
    const issued = await bench.issue('r1');
    await bench.record(letterText(letterTo(issued, 'maren', { remark: 'Oiled below too, please.' })));
    await bench.record(`And not before May.\n\n> ${letterText(letterTo(issued, 'idris')).replaceAll('\n', '\n> ')}`);
    const { code, err } = await bench.run('confirm tarrow');
    expect([code, err]).toEqual([
      0,
      [
        'warning[cli/said-with-yes]: Maren Tollefsen said yes and something more; it changes neither design nor price',
        '  found: “Oiled below too, please.”',
        '  to mend: read the message over before it is sent; what is asked for: leafwright note tarrow "what it is" --who maren',
        '',
        'warning[cli/said-with-yes]: Idris Quill said yes and something more; it changes neither design nor price',
        '  found: “And not before May.”',
        '  to mend: read the message over before it is sent; what is asked for: leafwright note tarrow "what it is" --who idris',
        '',
        '2 warnings.',
        '',
      ].join('\n'),
    ]);
    expect(bench.read('outbox', 'r1-confirmation.txt').replaceAll(/\s+/g, ' ')).toContain(
      'Maren Tollefsen wrote with the yes: “Oiled below too, please.” I have read it. The design and the price above are without it;',
    );
  });

  test('words of a letter that come after its code was confirmed are told, and the confirmation stands', async () => {
    const bench = openRecordBench();
    const issued = await bench.issue('r1');
    const letter = letterTo(issued, 'maren', { remark: 'Oiled below too, please.' });
    await bench.record(makeCode(letter));
    await bench.record(letterText(letterTo(issued, 'idris')));
    await bench.run('confirm tarrow');
    const count = bench.entries().length;
    const { code, out } = await bench.record(letterText(letter));
    expect([code, bench.entries().length]).toEqual([0, count]);
    expect(out).toContain(
      'so nothing was written: maren says yes to design A of r1 with ceramic, €6,348.00\nwith the remark:\n  | Oiled below too',
    );
  });

  test('again it drafts the message anew and adds nothing; another day is confirmed anew', async () => {
    const bench = openRecordBench();
    await bench.approved();
    await bench.run('confirm tarrow');
    expect(bench.entries().at(-1)).toMatchObject({ holdUntil: '2027-03-15' });
    const count = bench.entries().length;
    rmSync(join(bench.folder, 'outbox'), { recursive: true });
    expect(await bench.run('confirm tarrow', '2027-03-02')).toEqual({
      code: 0,
      err: '',
      out: [
        'confirmed already on 2027-03-01, held until 2027-03-15; the message is drafted anew',
        '  proposals/tarrow/outbox/r1-confirmation.txt',
        '  proposals/tarrow/outbox/r1-confirmation.eml',
        '',
        'Next: request instalment 1',
      ].join('\n'),
    });
    expect(bench.outbox()).toEqual(['r1-confirmation.eml', 'r1-confirmation.txt']);
    rmSync(join(bench.folder, 'outbox'), { recursive: true });
    const { code, out } = await bench.run('confirm tarrow --json', '2027-03-02');
    expect([code, JSON.parse(out)]).toMatchObject([0, { entry: { n: count, kind: 'confirmed' }, isOnRecord: true, problems: [] }]);
    expect(bench.outbox()).toEqual(['r1-confirmation.eml', 'r1-confirmation.txt']);
    expect(bench.entries().length).toBe(count);
    expect((await bench.run('confirm tarrow --hold 2027-03-20', '2027-03-16')).code).toBe(0);
    expect(bench.entries().length).toBe(count + 1);
  });

  test('a change again: as long as it is held nothing is added; after its day it is confirmed anew', async () => {
    const bench = openRecordBench();
    await bench.ordered();
    const change = { of: 'r1', design: 'A', stage: 'ordered' };
    const second = await bench.issue('r2', { change });
    for (const person of ['maren', 'idris']) await bench.record(letterText(letterTo(second, person, { design: 'B', on: [] })));
    expect((await bench.run('confirm tarrow', '2027-03-02')).code).toBe(0);
    const waits = bench.entries().at(-1);
    expect(waits).toMatchObject({ kind: 'confirmed', replaces: 4, holdUntil: '2027-03-16' });
    const again = await bench.run('confirm tarrow', '2027-03-16');
    expect([again.code, again.err]).toEqual([0, '']);
    expect(again.out).toContain('confirmed already on 2027-03-02, held until 2027-03-16; the message is drafted anew');
    expect(bench.entries().at(-1)).toEqual(waits);
    expect((await bench.run('confirm tarrow', '2027-03-17')).code).toBe(0);
    expect(bench.entries().at(-1)).toMatchObject({ kind: 'confirmed', replaces: 4, holdUntil: '2027-03-31', on: '2027-03-17' });
    expect(bench.entries().length).toBe((waits?.n ?? 0) + 1);
  });

  test('those who are shown no price get a message of their own without any amount', async () => {
    const bench = openRecordBench();
    const path = join(bench.folder, 'proposal.yaml');
    const before = readFileSync(path, 'utf8');
    const brand = '{ name: Rooms of Tarrow, email: rooms@example.invalid }';
    const pages = `pages:\n  payer: { audience: payer }\n  viewer: { audience: no-price, brand: ${brand} }\n`;
    const after = before.replace(/^( +maren: \{.*?) \}$/m, '$1, page: viewer }').replace(/^deciders:/m, `${pages}deciders:`);
    expect(after).toMatch(/maren: .*page: viewer/);
    writeFileSync(path, after);
    const people = [
      { id: 'idris', audience: 'payer' as const },
      { id: 'maren', audience: 'no-price' as const },
    ];
    await bench.approved({ people });
    const { code, out } = await bench.run('confirm tarrow');
    expect([code, out]).toEqual([0, expect.stringContaining('outbox/r1-confirmation-viewer.eml')]);
    const name = 'r1-confirmation-viewer';
    expect(bench.outbox().filter((one) => one.endsWith('.txt'))).toEqual([`${name}.txt`, 'r1-confirmation.txt']);
    const text = bench.read('outbox', `${name}.txt`);
    for (const part of ['Dear Maren Tollefsen,', 'Idris Quill on 1 March 2027', 'Rooms of Tarrow', 'held']) expect(text).toContain(part);
    // No amount, no instalment, and under a name of its own not the maker's.
    expect(text).not.toMatch(/[€£$]|\d\.\d\d|[Ii]nstalment|Total|Runa/);
    const mail = bench.read('outbox', `${name}.eml`);
    expect(mail).toMatch(/^From: .*rooms@example\.invalid/m);
    expect(mail).toMatch(/^To: .*maren\.tollefsen@example\.invalid/m);
    expect(mail).not.toMatch(/idris\.quill|Runa/i);
    expect(bench.read('outbox', 'r1-confirmation.eml')).not.toMatch(/^To: .*maren/m);
  });

  test('an offer that has run out, a closed proposal, an order', async () => {
    const bench = openRecordBench();
    await bench.approved();
    expect((await bench.run('confirm tarrow', '2027-04-01')).err).toBe(
      [
        'error[cli/offer-run-out]: the offer of r1 has run out',
        '  found: valid until 2027-03-20, approved on 2027-03-01',
        `  to mend: look at timber and price anew first; ${insist}`,
        '',
        '1 error. Nothing was recorded.',
      ].join('\n'),
    );
    expect(await fault(bench.run('confirm tarrow --hold 2027-02-01'))).toBe(
      '--hold 2027-02-01 has passed: today is 2027-03-01\nname a day to come',
    );
    const late = await bench.run(['confirm', 'tarrow', '--insist', 'timber bought in January'], '2027-04-01');
    expect([late.code, late.err]).toEqual([0, expect.stringContaining('warning[cli/offer-run-out]')]);
    expect(bench.entries().at(-1)).toMatchObject({ insisted: ['cli/offer-run-out'] });
    expect(bench.sealed(bench.entries().at(-1))).toEqual({ data: { reason: 'timber bought in January' } });
    await bench.run('pay tarrow --instalment 1 --amount 2539.20', '2027-04-02');
    expect((await bench.run('confirm tarrow', '2027-04-03')).err).toContain(
      'error[cli/is-ordered]: what was approved in tarrow is the order already\n  found: ordered on 2027-04-02\n  to mend: what comes next: leafwright status tarrow; what is wanted otherwise: leafwright change tarrow\n',
    );
    const other = openRecordBench();
    await other.approved();
    await other.run(['lost', 'tarrow', '--reason', 'price', 'Too dear after all']);
    expect((await other.run('confirm tarrow')).err).toContain(
      'error[cli/order-closed]: tarrow is closed: there is nothing to confirm\n  found: lost on 2027-03-01\n  to mend: a new revision takes it up again\n',
    );
  });
});

describe('pay', () => {
  test('part, rest, and what becomes of it', async () => {
    const bench = openRecordBench();
    await bench.approved();
    await bench.run('confirm tarrow');
    expect((await bench.run('pay tarrow --instalment 1 --amount 1000')).out).toBe(
      'entry 5: €1,000.00 for instalment 1 came on 2027-03-01\n  €1,539.20 of it is still open\n  open of the total: €5,348.00\n\nNext: request the rest of instalment 1',
    );
    expect((await bench.run('pay tarrow --instalment 1 --amount 1539.20', '2027-03-03')).out).toBe(
      'entry 6: €1,539.20 for instalment 1 came on 2027-03-03\n  it is paid in full\n  this makes the order, on 2027-03-03\n  open of the total: €3,808.80\n\nNext: buy the timber',
    );
    expect((await bench.run('pay tarrow --instalment 1 --amount 39.20 --back', '2027-03-04')).out).toContain(
      'entry 7: €39.20 of instalment 1 went back on 2027-03-04\n  €39.20 of it is still open\n',
    );
  });

  test('refusals', async () => {
    const bench = openRecordBench();
    await bench.approved();
    const pay = async (rest: string) => (await bench.run(`pay tarrow ${rest}`)).err;
    expect(await pay('--instalment 1 --amount 2539.20')).toBe(
      `error[cli/not-confirmed]: nothing is confirmed in tarrow, so nothing is due\n  to mend: first: leafwright confirm tarrow; ${insist}\n\n1 error. Nothing was recorded.`,
    );
    await bench.run('confirm tarrow');
    expect(await pay('--instalment 1 --amount 2539.21')).toBe(
      `error[cli/over-paid]: more was paid than is open of instalment 1\n  found: €2,539.21\n  allowed: up to €2,539.20\n  to mend: enter the rest for the next instalment; ${insist}\n\n1 error. Nothing was recorded.`,
    );
    expect(await pay('--instalment 4 --amount 1')).toBe(
      `error[cli/no-such-instalment]: there is no instalment 4\n  allowed: 1 to 3\n  to mend: ${insist}\n\n1 error. Nothing was recorded.`,
    );
    expect(await pay('--instalment 1 --amount 10USD')).toBe(
      'error[cli/other-currency]: the order is in EUR, not in USD\n  found: US$10.00\n  to mend: write what your bank booked in EUR\n\n1 error. Nothing was recorded.',
    );
    expect(await pay('--instalment 1 --amount 10 --back')).toBe(
      `error[cli/back-too-much]: more would go back than was paid for instalment 1\n  found: €10.00\n  allowed: up to €0.00\n  to mend: name the instalment that it was paid for: leafwright statement tarrow lists them; ${insist}\n\n1 error. Nothing was recorded.`,
    );
    expect(await fault(bench.run('pay tarrow --instalment 1 --amount 2.539,20'))).toBe(
      '--amount 2.539,20 is no amount\nwrite digits and a decimal point, nothing between thousands: 2539.20',
    );
    expect(await fault(bench.run('pay tarrow --instalment 1 --amount 1.005'))).toBe(
      '--amount 1.005 has more than 2 decimals\nEUR is paid in steps of 0.01',
    );
    expect(await fault(bench.run('pay tarrow --instalment 1 --amount 0'))).toBe(
      '--amount is nothing\nwrite what came, as --amount 2539.20',
    );
    expect(await fault(bench.run('pay tarrow --amount 1'))).toBe('--instalment is missing\nwrite its number, as --instalment 1');
    expect(bench.entries().filter(({ kind }) => kind === 'paid')).toEqual([]);
  });

  test('insisting keeps the code in the chain and the reason apart; where nothing stood against it, it says so', async () => {
    const bench = openRecordBench();
    await bench.approved();
    await bench.run('confirm tarrow');
    const over = await bench.run(['pay', 'tarrow', '--instalment', '1', '--amount', '3000', '--insist', 'they rounded up']);
    expect([over.code, over.out.split('\n')[1]]).toEqual([0, '  it is overpaid by €460.80']);
    expect(bench.entries().at(-1)).toMatchObject({ amountMinor: 300_000, insisted: ['cli/over-paid'] });
    expect(bench.sealed(bench.entries().at(-1))).toEqual({ data: { reason: 'they rounded up' } });
    const plain = await bench.run(['pay', 'tarrow', '--instalment', '2', '--amount', '100', '--insist', 'why not']);
    expect(plain.err).toContain('warning[cli/nothing-to-insist]: nothing stood against it, so the reason was not recorded');
    expect(bench.entries().at(-1)).not.toHaveProperty('insisted');
  });
});

describe('stage', () => {
  test('not before the order, not back, not twice; a stage left out is told', async () => {
    const bench = openRecordBench();
    await bench.approved();
    expect((await bench.run('stage tarrow cut')).err).toBe(
      `error[cli/no-order]: tarrow is no order yet, so the work does not begin\n  found: approved\n  to mend: first: leafwright confirm tarrow, and the first instalment; ${insist}\n\n1 error. Nothing was recorded.`,
    );
    await bench.run('confirm tarrow');
    await bench.run('pay tarrow --instalment 1 --amount 2539.20');
    expect((await bench.run('stage tarrow glued')).err).toContain('warning[cli/stage-skipped]: timber bought and cut were not recorded');
    expect((await bench.run('stage tarrow cut')).err).toBe(
      `error[cli/stage-back]: cut comes before glued, which was recorded already\n  found: glued on 2027-03-01\n  to mend: what must be made again belongs to a change; ${insist}\n\n1 error. Nothing was recorded.`,
    );
    expect((await bench.run('stage tarrow glued')).err).toContain('error[cli/stage-back]: glued was recorded already\n');
    expect(await fault(bench.run('stage tarrow gleud'))).toBe(
      'the stage gleud is not known; did you mean glued?\nwrite one of timber-bought, cut, glued, finished, delivered, accepted',
    );
  });

  test('the balance is no stage: the two commands for its money are said, with what is open of it', async () => {
    const bench = openRecordBench();
    await bench.approved();
    const said = async (word: string): Promise<string> => {
      const { code, err } = await bench.run(`stage tarrow ${word}`);
      expect(code).toBe(1);
      return err;
    };
    expect(await said('deposit')).toContain('to mend: first: leafwright confirm tarrow\n');
    await bench.run('confirm tarrow');
    expect(await said('deposit')).toContain('leafwright pay tarrow --instalment 1 --amount 2539.20\n');
    await bench.run('pay tarrow --instalment 1 --amount 2539.20');
    // The last of 2,539.20, 2,539.20 and 1,269.60.
    expect(await said('balance')).toBe(
      'error[cli/stage-is-money]: balance is money, and no stage of the work\n  found: instalment 3 of 3, when it stands in your room: €1,269.60 open\n  to mend: to ask for it: leafwright request tarrow --instalment 3; when it has come: leafwright pay tarrow --instalment 3 --amount 1269.60\n\n1 error. Nothing was recorded.',
    );
    expect(await said('paid')).toContain('instalment 2 of 3');
    await bench.run('pay tarrow --instalment 3 --amount 1269.60');
    await bench.run('pay tarrow --instalment 2 --amount 2539.20');
    expect(await said('balance')).toContain('found: every instalment is paid\n');
    expect(bench.entries().some(({ kind }) => kind === 'stage')).toBe(false);
  });

  test('a delivery is a hand-over; recorded as a bare stage with a reason, and not while what was due is open', async () => {
    const bench = openRecordBench();
    await bench.ordered();
    for (const stage of ['timber-bought', 'cut', 'glued', 'finished']) await bench.run(`stage tarrow ${stage}`);
    const handOver = `error[cli/stage-hand-over]: a delivery is recorded by its hand-over\n  to mend: leafwright hand-over tarrow, which asks for what a later claim is measured by; ${insist}\n\n`;
    expect((await bench.run('stage tarrow delivered')).err).toBe(
      `${handOver}error[cli/money-open]: money that is due before delivery is open\n  found: instalment 2, €2,539.20\n  to mend: record it first: leafwright pay tarrow --instalment 2 --amount ...; ${insist}\n\n2 errors. Nothing was recorded.`,
    );
    await bench.run('pay tarrow --instalment 2 --amount 2539.20');
    expect((await bench.run('stage tarrow delivered')).err).toBe(`${handOver}1 error. Nothing was recorded.`);
    const insisted = await bench.run(['stage', 'tarrow', 'delivered', '--insist', 'a bench top, without papers']);
    expect(insisted.out).toBe('entry 11: tarrow, delivered on 2027-03-01\n\nNext: request instalment 3');
    expect(bench.entries().at(-1)).toMatchObject({ kind: 'stage', stage: 'delivered', insisted: ['cli/stage-hand-over'] });
  });

  test('a choice whose last stage or day has passed is told while it is listed as open', async () => {
    const bench = openRecordBench();
    await bench.ordered();
    const path = join(bench.folder, 'proposal.yaml');
    const before = readFileSync(path, 'utf8');
    const after = before.replace(
      /^choices:\n(?: {2}- .*\n)+/m,
      'choices:\n  - { says: Oil or varnish, lastStage: cut }\n  - { says: Width, lastStage: before we buy, lastDay: 2027-02-28 }\n',
    );
    expect(after).not.toBe(before);
    writeFileSync(path, after);
    const bought = await bench.run('stage tarrow timber-bought');
    expect(bought.err).toBe(
      'warning[cli/choice-open]: a choice is still open, and its last stage has passed: Width\n  found: before we buy, 2027-02-28\n  to mend: ask for it now; once it is made, take it out of choices in proposal.yaml\n\n1 warning.\n',
    );
    const cut = (await bench.run('stage tarrow cut')).err;
    expect(cut).toContain('its last stage has passed: Oil or varnish\n  found: cut\n');
    expect(cut).not.toContain('Width');
    expect(cut).toContain('warning[cli/choice-open]: one choice that was told before is still open\n');
    expect((await bench.run('stage tarrow glued')).err).toBe(
      'warning[cli/choice-open]: 2 choices that were told before are still open\n\n1 warning.\n',
    );
  });
});

test('no reason lifts another currency; what comes after the end is said, and what goes back has its instalment', async () => {
  const bench = openRecordBench();
  await bench.ordered();
  const dollars = await bench.run(['pay', 'tarrow', '--instalment', '2', '--amount', '10 USD', '--insist', 'it came']);
  expect([dollars.code, dollars.err]).toEqual([1, expect.stringContaining('error[cli/other-currency]')]);
  expect((await bench.run('pay tarrow --instalment 2 --amount 10 --back')).err).toBe(
    `error[cli/back-too-much]: more would go back than was paid for instalment 2\n  found: €10.00\n  allowed: up to €0.00\n  to mend: name the instalment that it was paid for: leafwright statement tarrow lists them; ${insist}\n\n1 error. Nothing was recorded.`,
  );
  const lost = openRecordBench();
  await lost.approved();
  await lost.run(['lost', 'tarrow', '--reason', 'price', 'Too dear']);
  const late = await lost.run('pay tarrow --instalment 1 --amount 10');
  expect([late.code, late.err]).toEqual([1, expect.stringContaining('error[cli/order-closed]: tarrow is closed: nothing is due')]);
});

describe('sample, attach, lost', () => {
  test('a sample is an approval of its own, with its picture by digest', async () => {
    const bench = openRecordBench();
    const picture = join(bench.workspace, 'Maren in the shop.JPG');
    writeFileSync(picture, Buffer.from([0xff, 0xd8, 0xff, 0xe0]));
    const ran = await bench.run(['sample', 'tarrow', 'S-041', '--who', 'maren', '--yes', '--picture', picture]);
    expect(ran.out).toContain(
      'entry 1: sample S-041 approved by Maren Tollefsen on 2027-03-01; each keeps one half\n  picture   records/files/1-sample.jpg',
    );
    expect(bench.entries()[0]).toMatchObject({
      verdict: 'yes',
      keeps: 'half-each',
      picture: { path: 'records/files/1-sample.jpg', bytes: 4 },
    });
    expect(await fault(bench.run('sample tarrow S-041 --who maren'))).toBe('say --yes or --no\none of them: was it approved or refused?');
    expect(await fault(bench.run('sample tarrow S-041 --who mraen --no'))).toBe(
      'nobody who decides here is called mraen; did you mean maren?\nthere are idris, maren',
    );
    expect((await bench.run('sample tarrow S-9 --who maren --no')).err).toContain(
      'warning[cli/other-sample]: the proposal names sample S-041, not S-9',
    );
    expect(bench.problems()).toEqual([]);
  });

  test('the same yes again is on record; what is new in it is recorded', async () => {
    const bench = openRecordBench();
    const yes = ['sample', 'tarrow', 'S-041', '--who', 'maren', '--yes'];
    await bench.run([...yes, '--words', 'It is lovely.']);
    const again = await bench.run(yes, '2027-03-04');
    expect([again.code, again.err, again.out.split('\n')[0]]).toEqual([0, '', 'on record already as entry 1, so nothing was written']);
    const json = await bench.run([...yes, '--words', 'It is lovely.', '--json'], '2027-03-04');
    expect([json.code, JSON.parse(json.out)]).toMatchObject([0, { entry: { n: 1 }, isOnRecord: true }]);
    expect(bench.entries().length).toBe(1);

    const picture = join(bench.workspace, 'sample.png');
    writeFileSync(picture, 'invented');
    const anew: readonly (readonly string[])[] = [
      [...yes, '--words', 'Still lovely.'],
      [...yes, '--picture', picture],
      [...yes, '--on', '2027-02-27'],
      [...yes, '--keeps', 'maker'],
      ['sample', 'tarrow', 'S-041', '--who', 'idris', '--yes'],
      ['sample', 'tarrow', 'S-041', '--who', 'maren', '--yes', '--of', 'boards'],
      ['sample', 'tarrow', 'S-041', '--who', 'maren', '--no'],
      yes,
    ];
    for (const [i, line] of anew.entries()) {
      expect(JSON.parse((await bench.run([...line, '--json'], '2027-03-05')).out)).toMatchObject({ isOnRecord: false });
      expect(bench.entries().length).toBe(i + 2);
    }
    expect(bench.problems()).toEqual([]);
  });

  test('a file of any name is kept under a name of the record; what is no file, empty or huge is refused', async () => {
    const bench = openRecordBench();
    await bench.issue('r1');
    const at = (name: string): string => join(bench.workspace, name);
    writeFileSync(at('..maren; rm -rf .p%00d/f'.replaceAll('/', '_')), 'scan');
    writeFileSync(at('other'), 'page');
    symlinkSync(at('other'), at('link.PDF'));
    symlinkSync(at('nowhere'), at('dangling.pdf'));
    mkdirSync(at('folder.pdf'));
    writeFileSync(at('empty.pdf'), '');
    writeFileSync(at('huge.pdf'), '');
    truncateSync(at('huge.pdf'), 25_000_001);
    const attach = (name: string) => bench.run(['attach', 'tarrow', at(name), '--to', '1', '--what', 'letter']);
    expect((await attach('..maren; rm -rf .p%00d_f')).out).toContain('entry 2: records/files/2-letter.p00df, 4 bytes, belongs to entry 1');
    expect((await attach('link.PDF')).out).toContain('entry 3: records/files/3-letter.pdf, 4 bytes, belongs to entry 1');
    expect(lstatSync(join(bench.folder, 'records', 'files', '3-letter.pdf')).isFile()).toBe(true);
    for (const name of ['missing.pdf', 'dangling.pdf', 'folder.pdf'])
      expect(await fault(attach(name))).toBe(`there is no file ${at(name)}\nname the file as it lies on the disk; a folder is none`);
    expect(await fault(attach('empty.pdf'))).toBe(`${at('empty.pdf')} is empty\nsave or scan it again`);
    expect(await fault(attach('huge.pdf'))).toBe(`${at('huge.pdf')} is larger than 25 MB\nscan or save it smaller`);
    expect(bench.entries().length).toBe(3);
    expect(bench.problems()).toEqual([]);
  });

  test('a file belongs to an entry; its name tells nobody', async () => {
    const bench = openRecordBench();
    await bench.issue('r1');
    const scan = join(bench.workspace, 'maren.pdf');
    writeFileSync(scan, '%PDF-1.7');
    expect((await bench.run(['attach', 'tarrow', scan, '--to', '1', '--what', 'paper-signature', '--who', 'maren'])).out).toContain(
      'entry 2: records/files/2-paper-signature.pdf, 8 bytes, belongs to entry 1',
    );
    expect((await bench.run(['attach', 'tarrow', scan, '--to', '9'])).err).toBe(
      'error[cli/no-entry]: there is no entry 9\n  allowed: 1 to 2\n  to mend: the workshop page of tarrow lists them\n\n1 error. Nothing was recorded.',
    );
    expect(await fault(bench.run(['attach', 'tarrow', 'nowhere.pdf', '--to', '1']))).toBe(
      'there is no file nowhere.pdf\nname the file as it lies on the disk; a folder is none',
    );
    expect(await fault(bench.run(['attach', 'tarrow', scan]))).toBe(
      '--to is missing\nwrite the number of the entry that it belongs to, as --to 14',
    );
    expect(bench.problems()).toEqual([]);
  });

  test('the same file for the same entry is on record; for another entry, of another person or once it is gone, it is recorded', async () => {
    const bench = openRecordBench();
    await bench.issue('r1');
    const scan = join(bench.workspace, 'scan.pdf');
    writeFileSync(scan, '%PDF-1.7');
    const attach = ['attach', 'tarrow', scan, '--to', '1'];
    const signed = [...attach, '--what', 'paper-signature', '--who', 'maren'];
    await bench.run(signed, '2027-03-02');
    for (const line of [signed, [...attach, '--who', 'maren'], attach]) {
      const again = await bench.run(line, '2027-03-04');
      expect([again.code, again.err, again.out.split('\n').slice(0, 2)]).toEqual([
        0,
        '',
        [
          'this file lies beside entry 1 already, as entry 2 of 2 March 2027, so nothing was written',
          '  records/files/2-paper-signature.pdf',
        ],
      ]);
    }
    expect(JSON.parse((await bench.run([...signed, '--json'])).out)).toMatchObject({ entry: { n: 2 }, isOnRecord: true });
    expect(bench.entries().length).toBe(2);

    const anew = [[...attach, '--what', 'paper-signature', '--who', 'idris'], [...attach, '--what', 'letter'], attach.with(-1, '2')];
    for (const [i, line] of anew.entries()) {
      expect(JSON.parse((await bench.run([...line, '--json'], '2027-03-05')).out)).toMatchObject({ isOnRecord: false });
      expect(bench.entries().length).toBe(i + 3);
    }
    writeFileSync(scan, '%PDF-1.7 page two');
    expect((await bench.run(signed)).out).toContain('entry 6: records/files/6-paper-signature.pdf');
    expect(bench.problems()).toEqual([]);
    // Erased, or lost from the disk: the file is laid there again.
    rmSync(join(bench.folder, 'records', 'files', '6-paper-signature.pdf'));
    expect((await bench.run(signed)).out).toContain('entry 7: records/files/7-paper-signature.pdf');
  });

  test('lost with its reason, once, and never an order', async () => {
    const bench = openRecordBench();
    await bench.issue('r1');
    expect((await bench.run(['lost', 'tarrow', '--reason', 'price', 'Two thousand over.'])).out).toBe(
      'entry 2: tarrow is lost since 2027-03-01; reason: price',
    );
    expect((await bench.run(['lost', 'tarrow', '--reason', 'time', 'x'])).err).toBe(
      'error[cli/is-closed]: tarrow is closed already\n  found: lost on 2027-03-01\n  to mend: a revision that is issued takes it up again: leafwright revise tarrow\n\n1 error. Nothing was recorded.',
    );
    expect((await bench.run('status')).out).toBe('  tarrow   lost on 2027-03-01; reason: price\n      “Two thousand over.”');
    const other = openRecordBench();
    await other.ordered();
    expect((await other.run(['lost', 'tarrow', '--reason', 'time', 'x'])).err).toBe(
      'error[cli/order-stands]: tarrow is an order, so it can not be lost\n  found: ordered on 2027-03-01\n  to mend: an order is cancelled: leafwright cancel tarrow --help\n\n1 error. Nothing was recorded.',
    );
  });
});

test('erase deletes the drafts that are to the person alone, and names those that are for others too', async () => {
  const bench = openRecordBench();
  await bench.approved();
  await bench.run(['record', 'tarrow', '--understood', 'A', '--who', 'maren']);
  await bench.run(['record', 'tarrow', '--understood', 'A', '--who', 'idris']);
  await bench.run('confirm tarrow');
  const outbox = join(bench.folder, 'outbox');
  mkdirSync(join(outbox, 'sent'));
  writeFileSync(join(outbox, 'sent', 'request-1.pdf'), 'invented');
  writeFileSync(join(outbox, 'room.txt'), 'The room is 3.4 m wide.');
  const mail = (to: string): string => `From: Runa <bench@example.invalid>\r\nTo: ${to}\r\nSubject: x\r\n\r\nDear both,\r\n`;
  writeFileSync(join(outbox, 'to-her.eml'), mail('Maren Tollefsen <m@example.invalid>'));
  writeFileSync(join(outbox, 'to-both.eml'), mail('Maren Tollefsen <m@example.invalid>, Idris Quill <i@example.invalid>'));
  const all = () => readdirSync(outbox, { recursive: true, encoding: 'utf8' }).sort();
  const before = all();
  const hers = before.filter((name) => /^confirm-\d+-maren\.|^to-her/.test(name));
  expect(hers).toHaveLength(3);

  const said = await bench.run('erase tarrow --person maren');
  expect(said.out).toMatch(/^ {2}3 +drafts in outbox\/ that are to the person alone$/m);
  expect(all()).toEqual(before);
  const { out } = await bench.run('erase tarrow --person maren --yes');
  expect(all()).toEqual(before.filter((name) => !hers.includes(name)));
  const named = (name: string, why: string) => expect.stringMatching(new RegExp(`^ {2}proposals/tarrow/outbox/${name} +${why}`));
  expect(out.split('\n').filter((one) => one.includes('tarrow/outbox'))).toEqual([
    named('r1-confirmation.eml', 'names the person, and is for others too'),
    named('r1-confirmation.txt', 'names the person, and is for others too'),
    named('sent/request-1.pdf', 'a paper that may name the person'),
    named('to-both.eml', 'names the person, and is for others too'),
  ]);
  expect(bench.problems().filter(({ severity }) => severity === 'error')).toEqual([]);

  writeFileSync(join(outbox, 'confirm-9-maren.txt'), 'left behind by a run that was killed');
  expect((await bench.run('erase tarrow --person maren --yes')).code).toBe(0);
  expect(all()).not.toContain('confirm-9-maren.txt');
  expect((await bench.run('erase tarrow --person maren --yes')).code).toBe(1);
});

test('erase says first what goes and what remains, and does it only with --yes', async () => {
  const bench = openRecordBench();
  await bench.ordered();
  await bench.run(['note', 'tarrow', 'Maren would rather have it lower', '--who', 'idris']);
  const said = await bench.run('erase tarrow --person maren');
  expect(said.out).toContain('would be erased from the records of tarrow, for good:');
  expect(said.out).toMatch(/proposals\/tarrow\/proposal\.yaml +names the person in line \d+/);
  expect(said.out).toMatch(/entry 6 +somebody else's words, in which the name stands/);
  expect(said.out).toContain('Nothing was erased. Next: the same with --yes');
  const answer = bench.entries().find((entry) => entry.kind === 'answer' && entry.person === 'maren');
  const seal = join(bench.folder, ...(answer?.sealed?.file ?? '').split('/'));
  expect(existsSync(seal)).toBe(true);
  const before = bench.read('proposal.yaml');
  expect((await bench.run('erase tarrow --person maren --yes')).out).toContain('erased from the records of tarrow:');
  expect(existsSync(seal)).toBe(false);
  expect(bench.read('proposal.yaml')).toBe(before);
  expect(bench.problems().filter(({ severity }) => severity === 'error')).toEqual([]);
  expect((await bench.run('note tarrow')).out).toContain('Maren would rather have it lower');
});
