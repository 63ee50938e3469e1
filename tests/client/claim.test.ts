import { describe, expect, test } from 'vitest';
import { type ClaimReader, type ClaimSource, claimSheet } from '../../src/client/index.ts';
import { formatMoney } from '../../src/units/index.ts';
import { textsOf } from './commission.ts';

/** What the sheet of a claim tells, and what its copy may tell. People, table and figures are invented. */
const REMARK = 'between ourselves: 18 hours at my own cost';
const measured = { moisturePercent: [], sizes: [], photographs: [] };

const source: ClaimSource = {
  table: {
    piece: 'AO-2027-03',
    finishedOn: '2027-05-28',
    deliveredOn: '2027-06-18',
    asBuilt: [
      { what: 'top.width', agreedMm: 800, builtMm: 801, toleranceMm: 3 },
      { what: 'base.legs.footSize', agreedMm: 42, builtMm: 43, toleranceMm: 1 },
    ],
    finish: { spec: { name: 'Hardwax oil' } },
    otherFinish: [],
    moisturePercent: [9],
    humidityPercent: { glueUp: 50, delivery: 55 },
  },
  handOver: 12,
  photographs: [{ path: 'records/files/12-before-loading-1.jpg', sha256: 'ab'.repeat(32) }],
  inspected: true,
  defects: [],
  services: [{ on: '2027-09-01', what: 'repair', defects: [], words: REMARK }],
  measuredLater: [{ on: '2027-08-01', what: 'humidity', percent: [61] }],
  warranty: { title: 'If something is wrong', says: 'Two years.', until: '2029-06-18' },
  opened: { n: 31, on: '2029-06-18', about: 'crack', words: 'A gap at its end', ...measured },
  lookedAt: [{ n: 32, on: '2029-06-20', words: REMARK, ...measured, sizes: [{ what: 'base.legs.footSize', mm: 44 }] }],
  expected: {
    what: 'top.width',
    builtMm: 801,
    isMeasured: true,
    moisturePercent: 9,
    celsius: 20,
    room: { lowPercent: 35, highPercent: 60 },
    airs: [{ humidityPercent: 45, moisturePercent: 8.5, expectedMm: [799, 800] }],
  },
};

function sheet(
  of: Partial<ClaimSource> = {},
  { isCopy = false, level = 'full' }: Partial<Pick<ClaimReader, 'isCopy'>> & { level?: 'sketch' | 'agreed' | 'full' } = {},
) {
  const page = { language: 'en-GB', texts: textsOf('en-GB'), level, title: 'A table' } as const;
  return claimSheet({ ...source, ...of }, { page, people: [], show: 'mm', isCopy });
}
const told = (...args: Parameters<typeof sheet>): string => JSON.stringify(sheet(...args)).replaceAll(/[\u00a0\u2009\u202f]/g, ' ');
const part = (of: ReturnType<typeof sheet>, id: string) => of.sections.find((one) => one.id === id);

describe('the copy that leaves', () => {
  test('holds no remark of the maker, whether of a look or of a repair, and no amount', () => {
    expect(told()).toContain(REMARK);
    const copy = told({}, { isCopy: true });
    expect(copy).not.toContain('between ourselves');
    expect(copy).toContain('A gap at its end');
    expect(copy).not.toContain(formatMoney({ minor: 100, currency: 'EUR' }, 'en-GB').slice(0, 1));
  });

  test('holds the sizes that its page shows and no other, and says so', () => {
    for (const [level, feet] of [
      ['sketch', false],
      ['agreed', false],
      ['full', true],
    ] as const) {
      const copy = told({}, { isCopy: true, level });
      expect([copy.includes('801 mm'), copy.includes('43 mm'), copy.includes('44 mm')]).toEqual([true, feet, feet]);
      expect(copy).toContain('of the sizes that your page shows');
    }
    // In the maker's own hands every size stands, whatever the page shows.
    expect(told({}, { level: 'sketch' })).toContain('43 mm');
  });
});

test('what is not on record is named, and nothing that is', () => {
  const says = part(sheet(), 'baseline')?.small[0];
  expect(says).toBe('Not on record, so that nothing can be measured by it: the humidity at finishing; the batch of the finish.');
  const bare = { ...source.table, moisturePercent: [], humidityPercent: {}, asBuilt: [] };
  const all = part(sheet({ table: bare, photographs: [] }), 'baseline')?.small[0] ?? '';
  for (const word of ['moisture of the boards', 'at glue-up', 'at finishing', 'at delivery', 'batch', 'sizes', 'photographs'])
    expect(all).toContain(word);
});

test('the last day of what was agreed is within it, the day after is not; rights by law stand beside it', () => {
  const until = (on: string) => part(sheet({ opened: { ...source.opened, on } }), 'agreed');
  expect(until('2029-06-18')?.rows[1]?.[1]).toBe('until 18 June 2029; the claim of 18 June 2029 is within it');
  expect(until('2029-06-19')?.rows[1]?.[1]).toBe('until 18 June 2029; the claim of 19 June 2029 came later');
  expect(until('2029-06-19')?.small[0]).toContain('Rights by law');
});

test('what was since then stands by its days', () => {
  expect(part(sheet(), 'since')?.rows.map(([on]) => on)).toEqual(['1 August 2027', '1 September 2027']);
});

test('for the visit a width that nobody measured when it was built is told as that, and only an open claim has such a page', () => {
  const rows = (of: Partial<ClaimSource>) => part(sheet(of), 'visit')?.table?.rows ?? [];
  const across = (of: Partial<ClaimSource>) => rows(of).find(([what]) => what?.includes('across its boards'));
  expect(across({})?.[1]?.replaceAll('\u00a0', ' ').replaceAll('\u202f', ' ')).toBe('801 mm');
  const [, foot] = source.table.asBuilt;
  if (source.expected === undefined || foot === undefined) throw new Error('no table');
  const drawn = { table: { ...source.table, asBuilt: [foot] }, expected: { ...source.expected, isMeasured: false } };
  expect(across(drawn)?.[1]).toBe('not measured');
  expect(part(sheet({ settled: { n: 33, on: '2029-07-01', outcome: 'covered', ...measured } }), 'visit')).toBeUndefined();
});
