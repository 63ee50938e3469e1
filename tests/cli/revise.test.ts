import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { type Ended, runIn } from './run.ts';

const repository = fileURLToPath(new URL('../..', import.meta.url));
const workspace = mkdtempSync(join(tmpdir(), 'leafwright-revise-'));
afterAll(() => rmSync(workspace, { recursive: true, force: true }));

const at = (...parts: string[]): string => join(workspace, 'proposals', ...parts);
const read = (...parts: string[]): string => readFileSync(at(...parts), 'utf8');

const run = (...args: string[]): Promise<Ended> => runIn(workspace, args);

const edit = (name: string, from: string | RegExp, to: string): void => {
  const before = read('quill', name);
  const after = before.replace(from, to);
  expect(after).not.toBe(before);
  writeFileSync(at('quill', name), after);
};

/** The lines of `revise` in the maker's own words. */
const rewritten = (): void =>
  edit('proposal.yaml', /TODO: say in your own words[^\n]*\n(?:\n(?: {4}- TODO: [^\n]*\n)+)?/, 'You asked for more air.\n');
const issue = (day: string): Promise<Ended> => run('issue', 'quill', '--as-of', day);

cpSync(join(repository, 'tests', 'demos', 'revisions', 'tollefsen-quill', 'r1'), at('quill'), { recursive: true });

describe('from the first revision to the third', () => {
  test('nothing was issued: there is nothing to revise', async () => {
    const { status, stderr } = await run('revise', 'quill');
    expect(status).toBe(1);
    expect(stderr).toContain(
      [
        'error[cli/revise-nothing-issued]: nothing of this proposal was issued, so there is nothing to revise',
        '  proposals/quill/proposal.yaml:104:7  revision.id',
      ].join('\n'),
    );
    expect(stderr).toContain(
      'found r1\n  to mend: go on with the draft, then: leafwright issue quill\n\n1 error in 1 file. Nothing was written.\n',
    );
  });

  test('the next revision: number, days and what was said; every other byte stays', async () => {
    edit('proposal.yaml', 'rounds: { included: 2,', 'rounds: { included: 1,');
    expect((await issue('2026-02-23')).status).toBe(0);
    expect(
      (
        await run(
          'note',
          'quill',
          'Our arms hit it.',
          '--who',
          'maren',
          '--how',
          'telephone',
          '--on',
          '2026-03-01',
          '--design',
          'A',
          '--as-of',
          '2026-03-02',
        )
      ).status,
    ).toBe(0);
    const before = read('quill', 'proposal.yaml');
    const { status, stdout, stderr } = await run('revise', 'quill', '--as-of', '2026-03-16');
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout).toBe(
      [
        'proposals/quill/proposal.yaml is the draft of r2 now, of 2026-03-16, open until 2026-04-15',
        '  one thing that was said of r1 stands under revision.changes',
        '  round 1; 1 is included; the next one costs €180.00 before tax',
        '',
        'Next: change the designs, write revision.changes anew, then: leafwright check quill',
        '',
      ].join('\n'),
    );
    const changes = [
      '  changes: |',
      '    TODO: say in your own words what is different from r1, and why. What was said of r1:',
      '',
      '    - TODO: Maren Tollefsen, 2026-03-01, by telephone, of design A: “Our arms hit it.”',
      '',
    ].join('\n');
    const after = before
      .replace('id: r1', 'id: r2')
      .replace('date: 2026-02-23', 'date: 2026-03-16')
      .replace('validUntil: 2026-03-25', 'validUntil: 2026-04-15')
      .replace('  audience: payer\n', `  audience: payer\n${changes}`);
    expect(read('quill', 'proposal.yaml')).toBe(after);
  });

  test('it is begun once', async () => {
    const { status, stderr } = await run('revise', 'quill');
    expect(status).toBe(1);
    expect(stderr).toContain('error[cli/revise-begun]: the draft is r2 already, and the last revision that was issued is r1');
    expect(stderr).toContain('to mend: go on with the draft, then: leafwright issue quill');
  });

  test('of a long mail the beginning stands in the draft, with the entry that holds the rest', async () => {
    const folder = at('long');
    cpSync(join(repository, 'tests', 'demos', 'revisions', 'tollefsen-quill', 'r1'), folder, { recursive: true });
    const mail = join(workspace, 'mail.txt');
    const words = `Dear Runa,\n\n${'the end is too hard for him, and we thought of it again; '.repeat(300)}`;
    writeFileSync(mail, words);
    expect((await run('issue', 'long', '--as-of', '2026-02-23')).status).toBe(0);
    await run('note', 'long', '--file', mail, '--who', 'maren', '--as-of', '2026-03-02');
    await run('note', 'long', 'x'.repeat(500), '--who', 'idris', '--as-of', '2026-03-02');
    expect((await run('revise', 'long', '--as-of', '2026-03-16')).status).toBe(0);
    const said = read('long', 'proposal.yaml')
      .split('\n')
      .filter((line) => /^ {4}- TODO: (?:Maren|Idris)/.test(line));
    expect(said).toEqual([
      '    - TODO: Maren Tollefsen, 2026-03-02, by message: “Dear Runa, the end is too hard for him, and we thought of it again; the end is too hard for him, and we thought of it again; the end is too hard for him, and …” (the rest: entry 2)',
      `    - TODO: Idris Quill, 2026-03-02: “${'x'.repeat(160)} …” (the rest: entry 3)`,
    ]);
    rmSync(folder, { recursive: true });
  });

  test('what was said is not issued as it stands', async () => {
    const { status, stderr } = await issue('2026-03-16');
    expect(status).toBe(1);
    expect(stderr).toContain('error[cli/changes-todo]: what changed is not yet in your own words');
    expect(stderr).toContain('to mend: say it in your own words, to the client, and take the TODO out');

    // What one reader said is not for every page: its line alone holds it up as well.
    const draft = read('quill', 'proposal.yaml');
    edit('proposal.yaml', /TODO: say in your own words[^\n]*/, 'You asked for more air.');
    expect((await issue('2026-03-16')).stderr).toContain('error[cli/changes-todo]');
    writeFileSync(at('quill', 'proposal.yaml'), draft);
  });

  test('a mix is written beside, assessed, and refused where it is not well asked', async () => {
    const { status, stdout, stderr } = await run('revise', 'quill', '--mix', 'B.top A.base C.finish', '--as-of', '2026-03-16');
    expect([status, stderr.includes('error')]).toEqual([0, false]);
    const [first, , size] = stdout.split('\n');
    expect(first).toBe('proposals/quill/variants/d.yaml is design D: the top of B on the base of A, finished as C');
    expect(size).toMatch(/^ {2}size(?:\s+2,100\s×\s820\s×\s745\smm){4}$/);
    // Base and top have the sizes of A: so has what follows from them.
    const row = (name: string): readonly string[] =>
      (stdout.split('\n').find((line) => line.trim().startsWith(name)) ?? '').trim().split(/ {3,}/);
    for (const name of ['weight', 'tips 50 mm inside', 'w4', 'w6', 'w7']) expect(row(name)[4], name).toBe(row(name)[2]);
    expect(read('quill', 'variants', 'd.yaml')).toMatch(
      /^# Top of B, base of A, finish of C\.\n\nname: Trestle top, Reed base\nwhy: \|\n {2}TODO: /,
    );
    expect((await issue('2026-03-16')).stderr).toContain('error[cli/changes-todo]: why design D is offered is not yet in your own words');
    rmSync(at('quill', 'variants', 'd.yaml'));

    const fault = async (mix: string, ...more: string[]): Promise<string> => (await run('revise', 'quill', '--mix', mix, ...more)).stderr;
    expect(await fault('A.top')).toBe(
      'leafwright: --mix does not say whose base it has\nwrite it as --mix "A.top B.base C.finish"; the finish is the top\'s where it is silent\n',
    );
    expect(await fault('A.top B.legs')).toMatch(/^leafwright: "B\.legs" is no part of a mix\n/);
    expect(await fault('A.top E.base')).toBe('leafwright: there is no design E\nthere are A, B, C\n');
    expect(await fault('A.top A.base')).toMatch(/^leafwright: that is design A as it stands, and no mix\n/);
    expect(await fault('A.top B.top')).toMatch(/^leafwright: the top is taken from A and from B\n/);
    expect(await fault('A.top B.base', '--as', 'c')).toBe(
      'leafwright: there is a design C already\nchoose another letter, or leave --as out\n',
    );
    expect(readdirSync(at('quill', 'variants'))).toEqual(['a.yaml', 'b.yaml', 'c.yaml']);
  });

  test('the new page begins with what changed, in figures and drawn over each other', async () => {
    rewritten();
    edit('table.yaml', 'width: 820 mm', 'width: 800 mm');
    expect(
      (await run('note', 'quill', 'The rails of A are thinner now.', '--settle', '2', '--as', 'answered', '--as-of', '2026-03-16')).status,
    ).toBe(0);
    expect((await issue('2026-03-16')).stderr).not.toContain('error');
    const page = read('quill', 'issued', 'r2', 'out', 'index.html');
    const changed = page.slice(page.indexOf('id="changed-title"'), page.indexOf('id="understood-title"'));
    expect(changed).toContain('You asked for more air.');
    expect(changed).toContain('First proposal');
    expect(changed.replaceAll(/[\u00a0\u202f]/g, ' ')).toMatch(/2,100 × 820 × 745 mm<\/bdi><\/td>\s*<td[^>]*><bdi>2,100 × 800 × 745 mm/);
    expect(changed.match(/class="over-a-(?:front|side)"/g)).toHaveLength(2);
    expect(changed).toContain('lw-former');
    const { changed: frozen } = JSON.parse(read('quill', 'issued', 'r2', 'data', 'client.json')) as {
      readonly changed: { readonly designs: readonly { readonly over: { readonly front: unknown } }[] };
    };
    expect(frozen.designs[0]?.over.front).toEqual({ sha256: expect.stringMatching(/^[0-9a-f]{64}$/) });
  });

  test('a round beyond those included costs its fee, as a line; or nothing, with a reason that stays in the workshop', async () => {
    const before = read('quill', 'proposal.yaml');
    const paid = await run('revise', 'quill', '--as-of', '2026-04-01', '--valid', '2026-04-20');
    expect(paid.stdout).toContain('  round 2; 1 is included, so €180.00 before tax is added as a line: --free "reason" leaves it out\n');
    expect(read('quill', 'proposal.yaml')).toContain('lines:\n  round-2: { says: "Round 2 of drawing", each: "180.00" }\n');
    expect(read('quill', 'proposal.yaml')).toContain('validUntil: 2026-04-20');
    writeFileSync(at('quill', 'proposal.yaml'), before);
    const free = await run('revise', 'quill', '--as-of', '2026-04-01', '--free', 'my own slip', '--json');
    expect(free.status).toBe(0);
    expect(JSON.parse(free.stdout)).toMatchObject({ id: 'r3', from: 'r2', round: { n: 2, included: 1, isBeyond: true }, problems: [] });
    expect(read('quill', 'proposal.yaml')).toContain(
      'lines:\n  round-2: { says: "Round 2 of drawing, free: my own slip", each: "0.00", shown: false }\n',
    );
    rewritten();
    expect((await issue('2026-04-01')).status).toBe(0);
    const page = read('quill', 'issued', 'r3', 'out', 'index.html');
    expect(page).not.toContain('my own slip');
    expect((await run('revise', 'quill', '--as-of', '2026-04-02', '--valid', '2026-04-01')).stderr).toBe(
      'leafwright: --valid 2026-04-01 is before the day of the revision, 2026-04-02\nname a later day\n',
    );
  });

  test('what can not be edited in place is said, and nothing is written', async () => {
    const before = read('quill', 'proposal.yaml');
    writeFileSync(
      at('quill', 'proposal.yaml'),
      before.replace('date: 2026-04-01', 'date: &day 2026-04-01').replace(/validUntil: .*/, 'validUntil: *day'),
    );
    const odd = read('quill', 'proposal.yaml');
    const { status, stderr } = await run('revise', 'quill', '--as-of', '2026-04-10');
    expect(status).toBe(1);
    expect(stderr).toContain(
      'error[cli/revise-by-hand]: revision.date can not be edited: an alias would stand for nothing, or for too much',
    );
    expect(stderr).toContain('to mend: write revision.id: r4 and its dates by hand');
    expect(read('quill', 'proposal.yaml')).toBe(odd);
    writeFileSync(at('quill', 'proposal.yaml'), before);
  });

  test('years on: a new proposal from a revision as it was issued', async () => {
    const { status, stdout } = await run('new', 'quill-again', '--from', 'quill@r2', '--as-of', '2033-05-01');
    expect(status).toBe(0);
    expect(stdout).toContain('\nFrom quill r2, as it was issued; people are kept, what was recorded is not.\n');
    const text = read('quill-again', 'proposal.yaml');
    expect(text).toMatch(/^# Begun from quill@r2\.\n/);
    expect(text).toContain('basedOn: quill@r2\n');
    expect(text).toMatch(/^ {2}id: r1\n {2}date: 2033-05-01\n {2}validUntil: 2033-05-31$/m);
    expect(text).not.toContain('changes:');
    expect(text).toContain('maren: { name: Maren Tollefsen');
    expect(read('quill-again', 'table.yaml')).toBe(read('quill', 'issued', 'r2', 'in', 'proposals', 'quill', 'table.yaml'));
    expect(existsSync(at('quill-again', 'issued')) || existsSync(at('quill-again', 'decisions.jsonl'))).toBe(false);
    expect((await run('check', 'quill-again', '--as-of', '2033-05-01')).status).toBe(0);
    expect((await run('new', 'third', '--from', 'quill@r9')).stderr).toBe(
      'leafwright: quill has no issued revision r9\nthere are r1, r2, r3\n',
    );
    expect((await run('new', 'quill-again', '--from', 'quill@r1')).stderr).toBe(
      'leafwright: there is a proposal quill-again already\nchoose another name, or edit that one\n',
    );
  });

  test('a frozen file that can not be edited in place without touching more is for the hand', async () => {
    const path = at('quill/issued/r2/in/proposals/quill/proposal.yaml');
    const before = readFileSync(path, 'utf8');
    const aliased = before.replace(/^ {2}date: (\S+)$/m, '  date: &day $1').replace(/surveyedOn: \S+/, 'surveyedOn: *day');
    writeFileSync(
      path,
      `${aliased.slice(aliased.indexOf('revision:')).match(/^revision:\n(?: {2}.*\n)+/)?.[0] ?? ''}${aliased.replace(/^revision:\n(?: {2}.*\n)+/m, '')}`,
    );
    const { status, stderr } = await run('new', 'by-hand', '--from', 'quill@r2', '--as-of', '2033-05-02');
    writeFileSync(path, before);
    expect([status, stderr, existsSync(at('by-hand'))]).toEqual([
      2,
      'leafwright: proposals/quill/proposal.yaml of that revision can not be begun anew: revision.date can not be edited: an alias would stand for nothing, or for too much\n' +
        'copy its files by hand from issued/, and write revision.id: r1 and its dates\n',
      false,
    ]);
  });

  test('a revision whose files were erased begins nothing', async () => {
    const first = 'leafwright: files of quill r1 are gone\nleafwright verify quill says which, and whether on purpose\n';
    const copy = at('gone');
    cpSync(at('quill'), copy, { recursive: true });
    expect((await run('erase', 'gone', '--person', 'maren', '--yes', '--as-of', '2033-05-01')).status).toBe(0);
    const { status, stderr } = await run('new', 'from-gone', '--from', 'gone@r1', '--as-of', '2033-05-02');
    expect([status, stderr, existsSync(at('from-gone'))]).toEqual([2, first.replaceAll('quill', 'gone'), false]);
    rmSync(copy, { recursive: true });
  });

  test('a template that has changed since is told', async () => {
    cpSync(join(repository, 'templates', 'rates', 'runa.yaml'), join(workspace, 'templates', 'rates', 'runa.yaml'), { recursive: true });
    const file = join(workspace, 'templates', 'rates', 'runa.yaml');
    writeFileSync(file, `${readFileSync(file, 'utf8')}# dearer now\n`);
    const { stdout } = await run('new', 'quill-dearer', '--from', 'quill@r1', '--as-of', '2033-05-01');
    expect(stdout).toContain("  templates/rates/runa.yaml has changed since: today's is used\n");
    expect(stdout).toContain('  days under supplied and choices are those of then\n');
  });
});
