import { createHash } from 'node:crypto';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { UsageFault } from '../../src/cli/command.ts';
import { type AnyBody, addEntry, issueRevision, readEntries } from '../../src/record/index.ts';
import { makeCode, readReply } from '../../src/reply/index.ts';
import { mailDraft } from '../../src/write/client/index.ts';
import { request } from '../record/workshop.ts';
import { letterText, letterTo, offer, openBench, quotedUnder, terms } from './answers.ts';

/** The first line of a problem and how to mend it. */
const told = (err: string): readonly string[] => err.split('\n').filter((line) => /^(?:error|warning)\[|^ {2}to mend/.test(line));
const insist = 'if you hold to it all the same: --insist "the reason", which is recorded';

describe('an answer that fits', () => {
  test('is recorded with its words apart, whoever is still waited for is named, and at the end all have said yes', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    const text = letterText(letterTo(r1, 'maren', { remark: 'The feet slender, please.' }));
    const first = await bench.record(quotedUnder('Here it is!', text));
    expect([first.code, first.err, first.out]).toEqual([
      0,
      '',
      'entry 2: maren says yes to design A of r1 with ceramic, €6,348.00\nwith the remark:\n  | The feet slender, please.\nbeside the letter was written, and is for you to weigh:\n  | Here it is!\nwhat is asked for there is kept open by: leafwright note tarrow "what it is" --who maren\n\nStill waited for: idris (since 2027-02-11).',
    ]);
    const [, entry] = bench.entries();
    expect(entry).toMatchObject({
      kind: 'answer',
      on: '2027-03-01',
      person: 'maren',
      verdict: 'yes',
      revision: 'r1',
      fingerprint: r1.fingerprint,
      chosen: { revision: 'r1', fingerprint: r1.fingerprint, design: 'A', options: ['ceramic'], totalMinor: 634800, currency: 'EUR' },
      terms: terms.payer,
      by: 'code',
    });
    expect(JSON.stringify(entry)).not.toMatch(/slender|Tollefsen/);
    expect(bench.sealed(entry)).toMatchObject({
      data: {
        person: 'maren',
        name: 'Maren Tollefsen',
        remark: 'The feet slender, please.',
        own: 'Here it is!',
        text: expect.stringContaining('> My answer.'),
      },
    });
    const second = await bench.record(makeCode(letterTo(r1, 'idris')));
    expect(told(second.err)).toEqual([
      'warning[reply/words-missing]: the reply code came without the name and the remark that it was made with',
      '  to mend: ask for the whole letter if there was a remark in it',
    ]);
    expect(second.out).toBe(
      'entry 3: idris says yes to design A of r1 with ceramic, €6,348.00\n\nAll have said yes: design A of r1 is approved.\n\nNext: leafwright confirm tarrow',
    );
    expect(bench.problems()).toEqual([]);
  });

  test('is written once, in whatever form it comes again', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    const letter = letterTo(r1, 'maren', { remark: 'Soon.' });
    await bench.record(letterText(letter));
    for (const again of [
      quotedUnder('As I wrote:', letterText(letter)),
      makeCode(letter),
      JSON.stringify({ letter: letterText(letter) }),
    ]) {
      const { code, out } = await bench.record(again);
      expect([code, out.split('\n')[0]]).toEqual([
        0,
        'on record already as entry 2, so nothing was written: maren says yes to design A of r1 with ceramic, €6,348.00',
      ]);
    }
    expect(bench.entries().length).toBe(2);
    await bench.record(letterText({ ...letter, remark: 'And a question: when?', date: '2027-03-02' }));
    expect(bench.entries().length).toBe(3);
  });

  test('may be what a form posted, whole or by its fields', async () => {
    for (const posted of [
      (text: string) => ({ letter: text, name: 'Maren Tollefsen', remark: '5½ cm «please»', code: '' }),
      (text: string) => ({ name: 'Maren Tollefsen', remark: '5½ cm «please»', code: text.trim().split('\n').at(-1) ?? '' }),
    ]) {
      const bench = openBench();
      const r1 = await bench.issue('r1');
      const text = letterText(letterTo(r1, 'maren', { remark: '5½ cm «please»' }));
      const file = join(bench.workspace, 'posted.json');
      writeFileSync(file, JSON.stringify(posted(text)));
      const { code, err } = await bench.record('--file', file);
      expect([code, err]).toEqual([0, '']);
      expect(bench.entries().at(-1)).toMatchObject({ kind: 'answer', by: 'form', person: 'maren' });
    }
  });

  test('data for programs', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    const data = JSON.parse((await bench.record(letterText(letterTo(r1, 'maren')), '--json')).out);
    expect(data).toMatchObject({
      schema: 'leafwright/recorded/1',
      proposal: 'tarrow',
      isOnRecord: false,
      entries: [{ n: 2, kind: 'answer' }],
      standing: { stage: 'proposed', disagree: false, waitingFor: [{ person: 'idris', since: '2027-02-11' }] },
      problems: [],
    });
    const refused = JSON.parse((await bench.record('LW1-0000', '--json')).out);
    expect(refused.problems[0].code).toMatch(/^reply\//);
  });
});

describe('an answer that does not fit is told of in one sentence, and nothing is written', () => {
  test.each([
    [
      'fingerprint',
      { fingerprint: 'd'.repeat(20) },
      [],
      'unknown-revision',
      'no revision of this proposal has the fingerprint of the letter',
      'look whether it belongs to another proposal than tarrow; --words keeps it as plain words',
    ],
    [
      'design',
      { design: 'D', options: [] },
      [],
      'unknown-design',
      'r1 has no design D',
      'ask which design is meant; --words keeps it as plain words',
    ],
    [
      'number of options',
      { options: [true] },
      [],
      'options-differ',
      'the letter counts 1 option, and design A of r1 has 3',
      'ask for the options by name; --words keeps it as plain words',
    ],
    [
      'options',
      { options: [false, true, true] },
      [],
      'unknown-options',
      'design A of r1 is not offered with these options: pale, white',
      `ask which of them are wanted; ${insist}`,
    ],
    [
      'total',
      { total: { minor: 600000, currency: 'EUR' } },
      [],
      'total-differs',
      'the letter says €6,000.00, and r1 says €6,348.00',
      `find out which page was answered; ${insist}`,
    ],
    [
      'no total',
      { total: undefined },
      [],
      'total-missing',
      'the letter names no total, and it comes from somebody who was shown one',
      `ask for the letter of the page with prices; ${insist}`,
    ],
    [
      'terms',
      { terms: '8'.repeat(8) },
      [],
      'terms-differ',
      'the letter agrees to other terms than those of r1',
      `ask for an answer to the page as it stands; ${insist}`,
    ],
    [
      'person',
      { decider: 7 },
      [],
      'unknown-decider',
      'the letter is from somebody who is not among those who decide',
      'those who decide are idris, maren: --who',
    ],
    [
      'nobody',
      { decider: undefined },
      [],
      'person-missing',
      'the letter does not say which of those who decide it is from',
      'say whose it is: --who idris or --who maren',
    ],
    [
      'somebody else',
      {},
      ['--who', 'idris'],
      'person-differs',
      'the letter is from maren, and you say that it is idris’s',
      `leave --who out to follow the letter; ${insist}`,
    ],
    [
      'day',
      {},
      ['--as-of', '2027-03-21'],
      'too-late',
      'it came on 2027-03-21, and r1 could be accepted until 2027-03-20',
      `issue tarrow again with a later day; if it came earlier: --on DATE; ${insist}`,
    ],
  ] as const)('%s', async (_name, over, args, code, title, mend) => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    const { code: exit, err, out } = await bench.record(letterText(letterTo(r1, 'maren', over)), ...args);
    expect([exit, out]).toEqual([1, '']);
    expect(told(err)).toEqual([`error[reply/${code}]: ${title}`, `  to mend: ${mend}`]);
    expect(err).toContain('Nothing was recorded.');
    expect(bench.entries().length).toBe(1);
  });

  test('it counts by the day on which it came, not by the day on which it is recorded', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    const { code } = await bench.record(letterText(letterTo(r1, 'maren')), '--as-of', '2027-03-25', '--on', '2027-03-20');
    expect([code, bench.entries().at(-1)]).toEqual([0, expect.objectContaining({ on: '2027-03-20' })]);
  });

  test('insisting needs a reason; code and reason are recorded, the reason apart', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    const text = letterText(letterTo(r1, 'maren', { total: { minor: 600000, currency: 'EUR' } }));
    await expect(bench.record(text, '--insist', ' ')).rejects.toThrow('--insist needs a reason');
    const { code, err } = await bench.record(text, '--insist', 'Rounded for them on the telephone');
    expect([code, told(err)]).toEqual([
      0,
      ['warning[reply/total-differs]: the letter says €6,000.00, and r1 says €6,348.00', '  to mend: recorded with your reason'],
    ]);
    const entry = bench.entries().at(-1);
    expect(entry).toMatchObject({ insisted: ['reply/total-differs'], chosen: { totalMinor: 600000 } });
    expect(bench.sealed(entry)).toMatchObject({ data: { reason: 'Rounded for them on the telephone' } });
    expect(JSON.stringify(entry)).not.toContain('telephone');
  });

  test.each([{ fingerprint: 'd'.repeat(20) }, { design: 'D', options: [] }, { decider: 7 }, { options: [true] }])(
    'nobody can insist on what can not be compared, case %#',
    async (over) => {
      const bench = openBench();
      const r1 = await bench.issue('r1');
      const { code } = await bench.record(letterText(letterTo(r1, 'maren', over)), '--insist', 'I know them');
      expect([code, bench.entries().length]).toEqual([1, 1]);
    },
  );

  test('an older revision; and the reason with which it counts', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    await bench.issue('r2');
    const text = letterText(letterTo(r1, 'maren'));
    const refused = await bench.record(text);
    expect(told(refused.err)).toEqual([
      'error[reply/superseded]: the letter answers r1, and r2 has taken its place',
      `  to mend: ask for an answer to the newest; ${insist}`,
    ]);
    expect((await bench.record(text, '--insist', 'They want the older one')).code).toBe(0);
    expect(bench.entries().at(-1)).toMatchObject({ revision: 'r1', insisted: ['reply/superseded'] });
  });

  test('a name that was changed, a cut code, a wrong sign, two codes', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    const text = letterText(letterTo(r1, 'maren'));
    const code = makeCode(letterTo(r1, 'maren'));
    const cases: readonly (readonly [string, string, string])[] = [
      [text.replace('Maren T', 'Marie T'), 'reply/words-differ', `ask what was meant; ${insist}`],
      [code.slice(0, -9), 'reply/cut', 'paste the code to its end, or ask for it again; --words keeps the text as plain words'],
      [
        code.replace(/.$/, (sign) => (sign === '0' ? '8' : '0')),
        'reply/mistyped',
        'compare it sign by sign, or ask for it again; --words keeps the text as plain words',
      ],
      [`${code}\n\n${makeCode(letterTo(r1, 'idris'))}`, 'reply/several', 'leave the one that counts'],
    ];
    for (const [given, problem, mend] of cases) {
      const { err } = await bench.record(given);
      expect(told(err)).toEqual([expect.stringContaining(`error[${problem}]: `), `  to mend: ${mend}`]);
    }
    expect(bench.entries().length).toBe(1);
  });

  test('where nothing was issued, and where what was issued holds no offer', async () => {
    const bench = openBench();
    const { code, err } = await bench.record('yes');
    expect([code, told(err)]).toEqual([
      1,
      [
        'error[reply/nothing-offered]: nothing of tarrow is issued yet',
        '  to mend: issue a revision to be answered: leafwright issue tarrow',
      ],
    ]);
    await issueRevision(request(bench.folder, 'r1'));
    expect(told((await bench.record('yes')).err)[0]).toBe(
      'error[reply/nothing-offered]: r1 was issued before answers were held against an offer',
    );
  });
});

describe('somebody who sees no price', () => {
  const people = [
    { id: 'idris', audience: 'no-price' },
    { id: 'maren', audience: 'payer' },
  ] as const;

  test('answers without a total and on the terms that they were shown', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1', { people });
    const first = await bench.record(letterText(letterTo(r1, 'idris')));
    expect(first.out).toBe('entry 2: idris says yes to design A of r1 with ceramic\n\nStill waited for: maren (since 2027-02-11).');
    const [, entry] = bench.entries();
    expect(entry).toMatchObject({ terms: terms['no-price'] });
    expect(JSON.stringify(entry)).not.toContain('634800');
    const second = await bench.record(letterText(letterTo(r1, 'maren')));
    expect(second.out).toContain('All have said yes: design A of r1 is approved.');
  });

  test('is asked without one as well', async () => {
    const bench = openBench();
    await bench.issue('r1', { people });
    await bench.record('Yes, the first one', '--who', 'idris', '--understood', 'A ceramic');
    const text = bench.read('outbox', 'confirm-3-idris.txt');
    expect(text).not.toMatch(/6,?348|2,?539|€|EUR/);
    expect(text).toContain('design A, Reed');
  });
});

describe('two who decide', () => {
  test('disagree: nothing is approved, and what to do next is said', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    const no = await bench.record(letterText(letterTo(r1, 'maren', { verdict: 'no', design: 'B', remark: 'A site office.' })));
    expect(no.out).toBe(
      'entry 2: maren says no to design B of r1\nbecause:\n  | A site office.\n\nAll must say yes, so r1 is not approved as it stands.\nStill waited for: idris (since 2027-02-11).\n\nNext: leafwright revise tarrow',
    );
    const yes = await bench.record(letterText(letterTo(r1, 'idris', { design: 'B', on: [] })));
    expect(yes.out).toBe(
      'entry 3: idris says yes to design B of r1, €6,450.00\n\nThey disagree: nothing is approved. maren: no to design B of r1; idris: yes to design B of r1, €6,450.00.\n\nNext: leafwright revise tarrow',
    );
    const changed = await bench.record(
      letterText(letterTo(r1, 'maren', { design: 'B', on: [], date: '2027-03-02' })),
      '--as-of',
      '2027-03-02',
    );
    expect(changed.out).toContain('All have said yes: design B of r1 is approved.');
  });

  test('the same design with another option is another answer', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    await bench.record(letterText(letterTo(r1, 'maren')));
    expect((await bench.record(letterText(letterTo(r1, 'idris', { on: [] })))).out).toContain('They disagree: nothing is approved.');
  });

  test('one wants the top of A with the base of B: the draft of it is one command', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    const mix = { verdict: 'mix', design: 'A', base: 'B', remark: 'Light above, sturdy below.' } as const;
    await bench.record(letterText(letterTo(r1, 'maren', mix)));
    const { out } = await bench.record(letterText(letterTo(r1, 'idris', mix)));
    expect(out).toBe(
      'entry 3: idris says the top of A with the base of B, of r1\nwith the remark:\n  | Light above, sturdy below.\n\nNobody has said yes to r1: nothing is approved.\n\nNext: leafwright revise tarrow --mix "A.top B.base"',
    );
  });

  test('one is enough where the rule says so', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1', { rule: 'any' });
    const { out } = await bench.record(letterText(letterTo(r1, 'maren')));
    expect(out).toContain('One yes is enough: design A of r1 is approved.\n\nNext: leafwright confirm tarrow');
    const against = await bench.record(letterText(letterTo(r1, 'idris', { verdict: 'no', design: 'A' })));
    expect(against.out).toBe(
      'entry 3: idris says no to design A of r1\n\nOne yes is enough: design A of r1 is approved.\nNot everyone agrees: idris: no to design A of r1.\n\nNext: leafwright confirm tarrow',
    );
  });

  test('an old mail does not undo what came after it', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    const early = letterText(letterTo(r1, 'maren'));
    await bench.record(early);
    await bench.record(letterText(letterTo(r1, 'maren', { verdict: 'no', design: '', remark: 'We thought again.' })));
    const { code, err } = await bench.record(early);
    expect([code, told(err)]).toEqual([
      1,
      [
        'error[reply/overtaken]: this letter is on record as entry 2, and maren has answered since: entry 3',
        `  to mend: an old mail was probably given again; ${insist}`,
      ],
    ]);
  });
});

describe('what the record says against it', () => {
  const add = (folder: string, body: AnyBody) =>
    addEntry({ folder, shown: 'proposals/tarrow', at: '2027-03-02T12:00:00Z', zone: 'Europe/Dublin' }, () => ({ body }));

  test('what was confirmed is changed by a change to the order, not by another answer', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1', { rule: 'any' });
    await bench.record(letterText(letterTo(r1, 'maren')));
    const chosen = { revision: 'r1', fingerprint: r1.fingerprint, design: 'A', options: ['ceramic'], totalMinor: 634800, currency: 'EUR' };
    const instalmentsMinor = [253920, 253920, 126960];
    await add(bench.folder, { kind: 'confirmed', on: '2027-03-02', chosen, answers: [2], instalmentsMinor, holdUntil: '2027-03-16' });
    const { code, err } = await bench.record(letterText(letterTo(r1, 'maren', { design: 'B', on: [] })), '--as-of', '2027-03-03');
    expect([code, told(err)]).toEqual([
      1,
      [
        'error[reply/already-confirmed]: design A of r1 was confirmed on 2027-03-02, and this answer says otherwise',
        `  to mend: a changed mind is a change to the order now: leafwright change tarrow --help; ${insist}`,
      ],
    ]);
    const late = await bench.record(letterText(letterTo(r1, 'idris')), '--as-of', '2027-03-03');
    expect([late.code, late.out.split('\n').at(-3)]).toEqual([0, 'Design A of r1 is confirmed.']);
  });

  test('a closed proposal', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    await add(bench.folder, { kind: 'lost', on: '2027-03-02', reason: 'silence' });
    const { code, err } = await bench.record(letterText(letterTo(r1, 'maren')), '--as-of', '2027-03-03');
    expect([code, told(err)]).toEqual([
      1,
      ['error[reply/closed]: the proposal was closed on 2027-03-02: lost', `  to mend: issue a new revision of tarrow first; ${insist}`],
    ]);
  });
});

describe('a saved mail', () => {
  const people = { maren: 'maren.tollefsen@example.invalid', idris: 'idris.quill@example.invalid' };
  const saved = async (folder: string, from: keyof typeof people, text: string, date = '2027-02-27T23:30:00Z'): Promise<string> => {
    const path = join(folder, 'reply.eml');
    const to = [{ address: 'runa@bench.example.invalid' }];
    writeFileSync(
      path,
      await mailDraft({ from: { name: from, address: people[from] }, to, subject: 'Re: table', text, date, messageIdSeed: text }),
    );
    return path;
  };

  test('is dated by itself; its plain words are those of whom the address says', async () => {
    const bench = openBench();
    await bench.issue('r1');
    const file = await saved(bench.workspace, 'idris', 'Yes, the light one, gladly!');
    expect((await bench.record('--file', file)).code).toBe(0);
    const entry = bench.entries().at(-1);
    expect(entry).toMatchObject({ kind: 'evidence', on: '2027-02-27', how: 'message', person: 'idris' });
    expect(bench.sealed(entry)).toMatchObject({ data: { person: 'idris', who: 'idris <idris.quill@example.invalid>' } });
    expect(JSON.stringify(entry)).not.toMatch(/idris\.quill|light one/);
  });

  test('from the address of the other who decides is noted', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    const file = await saved(bench.workspace, 'idris', quotedUnder('From us both', letterText(letterTo(r1, 'maren'))));
    const { code, err } = await bench.record('--file', file);
    expect([code, told(err)]).toEqual([
      0,
      [
        'warning[reply/sender-differs]: the mail came from the address of idris, and the answer is maren’s',
        '  to mend: ask whether both have answered for themselves',
      ],
    ]);
    expect(readEntries(bench.folder).at(-1)).toMatchObject({ kind: 'answer', person: 'maren', on: '2027-02-27' });
  });

  test('a file that is no text is refused', async () => {
    const bench = openBench();
    await bench.issue('r1');
    const path = join(bench.workspace, 'photo.bin');
    writeFileSync(path, Buffer.from([1, 0, 2, 0]));
    await expect(bench.record('--file', path)).rejects.toThrow('is no text and no mail');
    await expect(bench.record('--file', `${path}.txt`)).rejects.toThrow('there is no file');
    await expect(bench.record('yes', '--file', path)).rejects.toThrow('say it once');
    await expect(bench.record('{"other": 1}')).rejects.toThrow('what this form posted holds no letter');
  });
});

describe('plain words', () => {
  test('are kept apart and approve nothing', async () => {
    const bench = openBench();
    await bench.issue('r1');
    const words = 'Yes, the one with the thick legs!';
    const { code, out } = await bench.record(words, '--who', 'maren', '--how', 'telephone', '--on', '2027-02-28');
    expect([code, out]).toEqual([
      0,
      'entry 2: the words of maren are kept as they are; they approve nothing\n\nNext: ask what is meant: leafwright record tarrow --who maren --understood "A"',
    ]);
    const [, entry] = bench.entries();
    expect(entry).toMatchObject({ kind: 'evidence', on: '2027-02-28', how: 'telephone', person: 'maren', revision: 'r1' });
    expect(JSON.stringify(entry)).not.toContain('thick');
    expect(bench.sealed(entry)).toEqual({ data: { person: 'maren', who: 'Maren Tollefsen', words } });
    expect((await bench.record(words, '--who', 'maren')).out).toContain('on record already as entry 2');
    expect(bench.entries().length).toBe(2);
  });

  test('lead to a question whose yes approves once the maker has read it', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    const asked = await bench.record('The first one, with the hard coat', '--who', 'maren', '--understood', 'A ceramic');
    expect(asked.out.split('\n').slice(0, 4)).toEqual([
      'entry 2: the words of maren are kept as they are; they approve nothing',
      'entry 3: a confirmation is drafted of what you understood: design A of r1 with ceramic, €6,348.00',
      '  proposals/tarrow/outbox/confirm-3-maren.txt',
      '  proposals/tarrow/outbox/confirm-3-maren.eml',
    ]);
    expect(bench.entries()[2]).toMatchObject({
      kind: 'asked',
      person: 'maren',
      evidence: 2,
      chosen: { design: 'A', options: ['ceramic'], totalMinor: 634800 },
    });
    const question = bench.read('outbox', 'confirm-3-maren.txt');
    for (const part of [
      'design A, Reed',
      'with: ceramic',
      '€6,348.00',
      '€2,539.20 (40 %) with your yes',
      '€1,269.60 (20 %)',
      '77777777',
      '20 March 2027',
      '1 March 2027',
    ])
      expect(question).toContain(part);
    expect(readReply(question).letter).toMatchObject({ after: 3, decider: 1, verdict: 'yes', name: 'Maren Tollefsen' });

    const mail = quotedUnder('Yes! All of it.', question);
    const unread = await bench.record(mail);
    expect([unread.code, unread.err]).toEqual([
      1,
      [
        'What was written around the question:',
        '  | Yes! All of it.',
        '',
        'error[reply/unread]: this is the code of your question, entry 3: it comes back with any answer',
        '  to mend: read the words above: if they are a yes, add --yes; if not, --words keeps them as plain words',
        '',
        '1 error. Nothing was recorded.',
      ].join('\n'),
    ]);
    const yes = await bench.record(mail, '--yes');
    expect([yes.code, yes.out.split('\n')[0]]).toEqual([0, 'entry 4: maren says yes to design A of r1 with ceramic, €6,348.00']);
    const entry = bench.entries()[3];
    expect(entry).toMatchObject({ kind: 'answer', by: 'confirmation', after: 3, fingerprint: r1.fingerprint, terms: terms.payer });
    expect(bench.sealed(entry)).toMatchObject({ data: { own: 'Yes! All of it.' } });
    expect((await bench.record(mail, '--yes')).out).toContain('on record already as entry 4');
    expect(bench.problems()).toEqual([]);
  });

  test('a no that comes back with the code is shown, and kept as words', async () => {
    const bench = openBench();
    await bench.issue('r1');
    await bench.record('The first one', '--who', 'maren', '--understood', 'A');
    const mail = quotedUnder('No! We said the other one.', bench.read('outbox', 'confirm-3-maren.txt'));
    expect((await bench.record(mail)).err).toContain('  | No! We said the other one.');
    const kept = await bench.record(mail, '--words', '--who', 'maren');
    expect([kept.code, bench.entries().map(({ kind }) => kind)]).toEqual([0, ['issued', 'evidence', 'asked', 'evidence']]);
    expect(kept.out).toContain('they approve nothing');
  });

  test('the same question is asked once, and its draft written anew', async () => {
    const bench = openBench();
    await bench.issue('r1');
    await bench.record('--who', 'maren', '--understood', 'a CERAMIC');
    const before = bench.read('outbox', 'confirm-2-maren.txt');
    writeFileSync(join(bench.folder, 'outbox', 'confirm-2-maren.txt'), 'spoilt');
    const again = await bench.record('--who', 'maren', '--understood', 'A ceramic', '--as-of', '2027-03-05');
    expect(again.out).toContain('entry 2: asked already; the draft is written anew');
    expect(bench.read('outbox', 'confirm-2-maren.txt')).toBe(before);
    expect(bench.entries().length).toBe(2);
    await bench.record('--who', 'maren', '--understood', 'B');
    expect(bench.outbox()).toEqual(['confirm-2-maren.eml', 'confirm-2-maren.txt', 'confirm-3-maren.eml', 'confirm-3-maren.txt']);
  });

  test('a question of another person, or of something else, is no question', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    await bench.record('--who', 'maren', '--understood', 'A ceramic');
    for (const letter of [
      letterTo(r1, 'idris', { after: 2 }),
      letterTo(r1, 'maren', { after: 2, on: [] }),
      letterTo(r1, 'maren', { after: 1 }),
    ]) {
      const { code, err } = await bench.record(letterText(letter), '--yes', '--insist', 'I know it');
      const who = letter.decider === 0 ? 'idris' : 'maren';
      expect([code, told(err)]).toEqual([
        1,
        [
          `error[reply/unknown-question]: the answer is to entry ${letter.after}, and that entry does not ask ${who} for this`,
          '  to mend: draft a new confirmation with --understood; --words keeps this as plain words',
        ],
      ]);
    }
  });

  test('what can not have been understood is told with what can', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    await expect(bench.record('--who', 'maren', '--understood', 'D')).rejects.toThrow('r1 has no design D');
    await expect(bench.record('--who', 'maren', '--understood', 'A ceramic pale')).rejects.toThrow('design A of r1 is not offered so');
    await expect(bench.record('--understood', 'A')).rejects.toThrow('--understood needs --who');
    await expect(bench.record('yes', '--who', 'marne')).rejects.toThrow('did you mean maren?');
    await expect(bench.record(makeCode(letterTo(r1, 'maren')), '--understood', 'A')).rejects.toThrow('this text holds a reply code');
    await expect(bench.record()).rejects.toThrow(UsageFault);
    await expect(bench.record('yes', '--how', 'phone')).rejects.toThrow(UsageFault);
    expect(bench.entries().length).toBe(1);
  });
});

describe('a scope signed on paper', () => {
  const pdf = Buffer.from('%PDF-1.4\n%%EOF\n', 'latin1');
  const scanIn = (workspace: string, bytes: Uint8Array = pdf): string => {
    mkdirSync(join(workspace, 'scans'), { recursive: true });
    const path = join(workspace, 'scans', 'signed.pdf');
    writeFileSync(path, bytes);
    return path;
  };
  const printed = (fingerprint: string): string => (fingerprint.slice(0, 20).match(/.{5}/g) ?? []).join(' ').toUpperCase();

  test('is an answer, and its scan lies beside the record by digest', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    const paper = ['--paper', scanIn(bench.workspace), '--who', 'maren', '--design', 'a', '--options', 'ceramic', '--revision', 'r1'];
    const { code, out } = await bench.record(
      ...paper,
      '--fingerprint',
      printed(r1.fingerprint),
      '--total',
      '6,348.00',
      '--on',
      '2027-02-28',
    );
    expect([code, out.split('\n')[0]]).toEqual([0, 'entry 2: maren says yes to design A of r1 with ceramic, €6,348.00']);
    const [, answer, attached] = bench.entries();
    expect(answer).toMatchObject({ kind: 'answer', by: 'paper', on: '2027-02-28', terms: terms.payer, chosen: { totalMinor: 634800 } });
    expect(attached).toMatchObject({ kind: 'attached', to: 2, what: 'paper-signature', person: 'maren', file: { bytes: pdf.length } });
    if (attached?.kind === 'attached') expect(bench.read(attached.file.path)).toBe(pdf.toString('latin1'));
    expect((await bench.record(...paper, '--fingerprint', printed(r1.fingerprint).slice(0, 11), '--on', '2027-02-28')).out).toContain(
      'on record already',
    );
    expect(bench.entries().length).toBe(3);
    expect(bench.problems()).toEqual([]);
  });

  test('whose scan can not be kept is on record all the same, and told', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    const paper = ['--paper', scanIn(bench.workspace), '--who', 'maren', '--design', 'A', '--options', 'ceramic', '--revision', 'r1'];
    const kept = `records/files/${createHash('sha256').update(pdf).digest('hex').slice(0, 16)}.pdf`;
    const inTheWay = join(bench.folder, kept);
    mkdirSync(dirname(inTheWay), { recursive: true });
    writeFileSync(inTheWay, 'something else');
    const { code, out, err } = await bench.record(...paper, '--fingerprint', printed(r1.fingerprint), '--on', '2027-02-28');
    expect(code).toBe(1);
    expect(out).toContain('entry 2: maren says yes to design A of r1');
    expect(told(err)).toEqual([
      `error[record/file-added]: proposals/tarrow/${kept} is there already and is another file`,
      `  to mend: move proposals/tarrow/${kept} elsewhere if it is yours, then run this again`,
    ]);
    rmSync(inTheWay);
    await bench.record(...paper, '--fingerprint', printed(r1.fingerprint), '--on', '2027-02-28');
    expect(bench.entries().map(({ kind }) => kind)).toEqual(['issued', 'answer', 'attached']);
  });

  test('is held against what was issued like any other answer', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    const scan = scanIn(bench.workspace);
    const run = (...args: string[]) => bench.record('--paper', scan, '--who', 'maren', '--design', 'A', '--revision', 'r1', ...args);
    const right = ['--fingerprint', printed(r1.fingerprint)];
    expect(told((await run('--fingerprint', '00000 11111')).err)[0]).toBe(
      'error[reply/unknown-revision]: the fingerprint on the paper is not that of r1',
    );
    expect(told((await run(...right, '--total', '6 000')).err)[0]).toBe(
      'error[reply/total-differs]: the letter says €6,000.00, and r1 says €6,060.00',
    );
    expect(told((await run(...right, '--options', 'none', '--total', '6 000')).err)[0]).toBe(
      'error[reply/total-differs]: the letter says €6,000.00, and r1 says €6,060.00',
    );
    expect(told((await run(...right, '--options', 'pale,white')).err)[0]).toBe(
      'error[reply/unknown-options]: design A of r1 is not offered with these options: pale, white',
    );
    await expect(run('--fingerprint', '0000')).rejects.toThrow('--fingerprint takes the first ten signs at least');
    await expect(run(...right, '--options', 'gold')).rejects.toThrow('design A of r1 has no option gold');
    await expect(run(...right, 'yes')).rejects.toThrow('say it once');
    await expect(bench.record('--paper', scan)).rejects.toThrow('--paper needs --design, --who, --revision, --fingerprint as well');
    scanIn(bench.workspace, Buffer.from('hello'));
    const { err } = await run(...right);
    expect(told(err)).toEqual([
      expect.stringMatching(/^error\[reply\/paper-unreadable\]: .*signed\.pdf is neither PDF nor picture$/),
      '  to mend: give the scan as PDF, JPEG or PNG',
    ]);
    expect(bench.entries().length).toBe(1);
  });
});

test('the offer of these tests is one that the program reads', async () => {
  const bench = openBench();
  expect(await bench.issue('r1')).toMatchObject(offer('r1'));
});
