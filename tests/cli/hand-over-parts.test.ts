/** Parts of the hand-over by themselves: tolerances, numbers of pieces, what storage costs, what is measured. */
import { describe, expect, test } from 'vitest';
import { agreedSize, measurablePaths, overallPaths, toleranceFor, toleranceKind } from '../../src/cli/handing/as-built.ts';
import { initialsOf, nextPiece } from '../../src/cli/handing/piece-number.ts';
import { sheetProblems } from '../../src/cli/handing/sheet-problems.ts';
import { storageCost, storageWords } from '../../src/cli/handing/storage.ts';
import { readProposal } from '../../src/read/index.ts';
import { standingOf } from '../../src/record/index.ts';
import { checkSpec, SCHEMAS, termsLaws, toleranceMm } from '../../src/spec/index.ts';
import type { DecimalText } from '../../src/units/index.ts';
import { choice, confirmed, entriesFor, handOver, issued, offerFor, paid, type Told, yes } from '../record/story.ts';
import { fault, openRecordBench } from './record-bench.ts';

const root = new URL('../../', import.meta.url).pathname;

describe('tolerances', () => {
  /** 1/8 in = 3.175 mm and 1/32 in = 0.79375 mm by the inch of 25.4 mm. @source international inch of 1959 */
  test.each([
    ['± 3 mm', 3],
    ['±3mm', 3],
    ['+/- 2 mm', 2],
    ['± 1/8 in', 3.175],
    ['± 1/32 in', 0.79375],
    ['± 0.5 cm', 5],
    ['2 mm per metre', undefined],
    ['8 to 10 %', undefined],
    ['± 3', undefined],
    ['as the sample', undefined],
  ])('%s', (value, mm) => {
    const read = toleranceMm(value);
    if (mm === undefined) expect(read).toBeUndefined();
    else expect(read).toBeCloseTo(mm, 9);
  });

  test('are of the plan, the height, a thickness, a section or a place', () => {
    const kinds = [
      'height',
      'top.length',
      'top.diameter',
      'top.thickness',
      'base.legs.size',
      'base.legs.endOverhang',
      'base.stretchers.at',
    ];
    expect(kinds.map(toleranceKind)).toEqual(['height', 'plan', 'plan', 'thickness', 'section', 'place', 'place']);
  });

  test('come from the terms that state an amount, else from common practice', () => {
    const terms = {
      tolerances: [
        { says: 'Height', value: '± 2 mm', of: 'height' },
        { says: 'Plan', value: 'as drawn' },
      ],
    } as const;
    expect(toleranceFor('height', terms)).toEqual({ mm: 2, from: 'terms' });
    expect(toleranceFor('top.width', terms)).toEqual({ mm: 3, from: 'common-practice' });
    expect(toleranceFor('base.legs.size', terms)).toEqual({ mm: 1, from: 'common-practice' });
  });

  test('that are measured by need an amount, and one for each kind of size', () => {
    const found = termsLaws({
      tolerances: [
        { value: '± 3 mm', of: 'plan' },
        { value: 'as drawn', of: 'height' },
        { value: '± 1 mm', of: 'plan' },
        { value: 'as the sample' },
      ],
    });
    expect(found.map(({ code, path, title }) => [code, path.join('.'), title])).toEqual([
      ['spec/contradiction', 'library.terms.tolerances.1.value', 'a tolerance that is measured by has no amount'],
      ['spec/contradiction', 'library.terms.tolerances.2.of', 'one kind of size has two tolerances'],
    ]);
  });

  test.each(['tollefsen-quill', 'farrant', 'lindqvaar-wren'])('every size of %s has a path by which it is found again', (slug) => {
    const { input } = readProposal(root, slug);
    const tables = input?.variants.flatMap(({ combinations }) => combinations.map(({ table }) => table)) ?? [];
    expect(tables.length).toBeGreaterThan(0);
    for (const table of tables) {
      expect(overallPaths(table)).toContain('height');
      expect(overallPaths(table).length).toBeGreaterThanOrEqual(3);
      for (const path of measurablePaths(table)) expect(agreedSize(table, path)?.mm).toBeTypeOf('number');
      expect([agreedSize(table, 'top'), agreedSize(table, 'top.kind'), agreedSize(table, 'top.nothing'), agreedSize(table, '')]).toEqual(
        Array.from({ length: 4 }),
      );
    }
  });
});

describe('a sheet against the record', () => {
  const plain = {
    piece: 'RS-2027-01',
    finished: '2027-06-10',
    delivered: '2027-07-01',
    finish: { is: 'oil' },
    acceptance: { inspected: 'true', signed: 'false' },
  };
  const sheet = checkSpec(SCHEMAS.handOver.mm, plain, []).value;
  const chosen = choice('r1', 'A', ['ceramic'], 634_800);
  const ordered: readonly Told[] = [
    issued('2027-02-14', 'r1'),
    yes('2027-02-20', 'maren', chosen),
    yes('2027-02-22', 'idris', chosen),
    confirmed('2027-02-23', 'r1', 634_800, { answers: [2, 3] }),
    paid('2027-03-01', 1, 253_920),
  ];
  const found = (story: readonly Told[]) => {
    const entries = entriesFor(story);
    const offers = [offerFor('r1', 1), offerFor('r2', 6)];
    const standing = standingOf(entries, offers, '2027-07-02');
    if (sheet === undefined) throw new Error('no sheet');
    const grounds = { slug: 'tarrow', today: '2027-07-02', entries, standing, people: ['idris', 'maren'], pieces: [] };
    return sheetProblems(sheet, grounds).map(({ code, severity, title }) => [code, severity, title]);
  };

  test('nothing is wrong with a plain one', () => expect(found(ordered)).toEqual([]));

  test('a change that waits for its payment is told', () => {
    const change = [issued('2027-04-01', 'r2'), confirmed('2027-04-03', 'r2', 700_000)];
    expect(found([...ordered, ...change])).toEqual([
      [
        'cli/hand-over-change-waits',
        'warning',
        'a change to the order waits for its first payment, so the sheet is held against the order without it',
      ],
    ]);
  });

  test('another day for the last coat, and another number than a delivery that failed had, are told', () => {
    const story: readonly Told[] = [
      ...ordered,
      { kind: 'stage', on: '2027-06-12', stage: 'finished' },
      handOver('2027-06-20', { piece: 'RS-2027-07', failed: { reason: 'weather' } }),
    ];
    expect(found(story).map(([code, severity]) => [code, severity])).toEqual([
      ['cli/hand-over-other-day', 'warning'],
      ['cli/hand-over-other-piece', 'warning'],
    ]);
  });
});

describe('numbers of pieces', () => {
  test.each([
    ['Runa Stavely', 'RS'],
    ['Ása Þorsdóttir', 'A'],
    ['Élodie van der Meer', 'EVD'],
    ['Joan Smith-Tarn', 'JST'],
    ['木工', 'T'],
  ])('%s', (name, initials) => expect(initialsOf(name)).toBe(initials));

  test('go on from the highest of the year, whatever else was written', () => {
    const taken = ['RS-2027-01', 'RS-2027-09', 'RS-2026-40', 'XY-2027-77', 'RS-2027-10-b', 'RS-2027-x'].map((piece) => ({
      proposal: 'a',
      piece,
    }));
    expect(nextPiece('Runa Stavely', 2027, taken)).toBe('RS-2027-10');
    expect(nextPiece('Runa Stavely', 2028, taken)).toBe('RS-2028-01');
  });
});

describe('storage', () => {
  const now = { today: '2028-03-31', currency: 'EUR', language: 'en-GB' };
  const terms = { says: 'I keep it 30 days.', freeDays: 30, perWeek: '25.00' as DecimalText };

  /** Counted on a calendar: 2028-02-01 is the first day, the 29 days of that February and 1 March are free, the fee begins on 2 March. */
  test.each([
    ['2028-02-29', 0, 0],
    ['2028-03-01', 0, 0],
    ['2028-03-02', 1, 2500],
    ['2028-03-08', 1, 2500],
    ['2028-03-09', 2, 5000],
    ['2028-03-31', 5, 12_500],
  ])('up to %s', (today, weeks, feeMinor) => {
    expect(storageCost({ from: '2028-02-01' }, terms, { ...now, today })).toEqual({ freeUntil: '2028-03-01', weeks, feeMinor });
  });

  test('ends with its own last day', () => {
    expect(storageCost({ from: '2028-02-01', until: '2028-03-02' }, terms, now)).toMatchObject({ weeks: 1 });
  });

  test('costs what the terms say, and nothing that they do not', () => {
    const { perWeek: _fee, ...free } = terms;
    const from = { from: '2028-02-01' };
    expect(storageWords(from, undefined, now)).toBe('the agreed terms say nothing of storage, so nothing can be asked for it');
    expect(storageWords(from, free, now)).toBe(
      'no longer free of charge since 2028-03-01; the agreed terms name no fee, so name it before you ask for it',
    );
    expect(storageWords(from, terms, now)).toBe('€125.00 for 5 weeks begun, by the agreed terms');
    expect(storageWords(from, terms, { ...now, today: '2028-02-20' })).toBe('free of charge until 2028-03-01, by the agreed terms');
    expect(storageWords(from, { ...terms, freeDays: 0 }, { ...now, today: '2028-02-03' })).toBe(
      '€25.00 for 1 week begun, by the agreed terms',
    );
  });
});

describe('measure', () => {
  test('keeps what was shown, once for all boards', async () => {
    const bench = openRecordBench();
    const ran = await bench.run('measure tarrow moisture 8.9 9.2% 9.4 --at glue-up');
    expect(ran).toMatchObject({ code: 0, err: '' });
    expect(ran.out).toContain('entry 1: moisture at glue-up, 2027-03-01: 8.9 %, 9.2 %, 9.4 %');
    expect(bench.entries()).toMatchObject([{ kind: 'measured', what: 'moisture', when: 'glue-up', percent: [8.9, 9.2, 9.4] }]);
    expect(bench.problems()).toEqual([]);
  });

  test('says what is unusual and records it all the same', async () => {
    const bench = openRecordBench();
    const { err } = await bench.run('measure tarrow moisture 8 11.5 19 --at glue-up');
    expect(err).toContain('warning[cli/measured-unusual]: this moisture is unusual\n  found: 19 %\n  allowed: usually 5 to 16 %');
    expect(err).toContain('warning[cli/measured-uneven]: boards of one glue-up differ in moisture\n  found: 11 points');
    expect((await bench.run('measure tarrow humidity 20 --at delivery')).err).toContain('allowed: usually 25 to 75 %');
    expect((await bench.run('measure tarrow moisture 8 14 --at delivery-of-timber')).err).toBe('');
    expect(bench.entries().length).toBe(3);
  });

  test.each([
    ['measure tarrow moisture 9,2 --at glue-up', '9,2 is no percentage: a comma as the decimal point\nwrite 9.2'],
    ['measure tarrow moisture wet --at glue-up', /^wet is no percentage: /],
    ['measure tarrow moisture 0.5 --at glue-up', 'a moisture of 0.5 can not be\nwrite one of 1 to 60, in percent'],
    ['measure tarrow humidity 101 --at finish', 'a humidity of 101 can not be\nwrite one of 1 to 100, in percent'],
    ['measure tarrow wetness 9 --at glue-up', /^what is measured wetness is not known/],
    ['measure tarrow moisture 9', '--at is missing\nwrite one of delivery-of-timber, glue-up, finish, delivery, later'],
    ['measure tarrow moisture 9 --at glueup', /^--at glueup is not known; did you mean glue-up\?/],
    ['measure tarrow moisture 9 --at glue-up --on 2027-03-02', /is still to come/],
  ])('is refused: %s', async (line, says) => {
    const bench = openRecordBench();
    expect(await fault(bench.run(line))).toMatch(says);
    expect(bench.entries()).toEqual([]);
  });
});
