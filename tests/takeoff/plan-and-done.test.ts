import { describe, expect, test } from 'vitest';
import { median, type OperationDone, planAndDone, proposedRates, type TakeOff } from '../../src/takeoff/index.ts';

/** Sums by hand; a table of two operations and one wood. */
const takeOff = {
  cuttingList: [
    // Rough: larger than what stands in the table.
    { wood: 'oak', netM3: 0.06 },
    { wood: 'oak', netM3: 0.03 },
  ],
  timber: [{ wood: 'oak', grossM3: 0.1 }],
  operations: [
    { id: 'glue-up', says: 'Glue up', hours: { low: 3, mid: 4, high: 6 } },
    { id: 'sanding', says: 'Sand', hours: { low: 2, mid: 2.5, high: 4 } },
  ],
  hours: { low: 5, mid: 6.5, high: 10 },
} as unknown as TakeOff;
const finished = { oak: 0.06 };

describe('what was reckoned and what it took', () => {
  test('hours are added up, corrections too; work that nothing counts stands apart', () => {
    const { operations, unplanned, hours } = planAndDone(
      takeOff,
      finished,
      [
        { operation: 'glue-up', hours: 4 },
        { operation: 'glue-up', hours: 2.5 },
        { operation: 'glue-up', hours: -0.5 },
        { operation: 'unplanned', hours: 1 },
      ],
      [],
    );
    // 4 + 2.5 - 0.5 = 6 over 4: one and a half times.
    expect(operations.map(({ id, hours: done, ratio }) => [id, done, ratio])).toEqual([
      ['glue-up', 6, 1.5],
      ['sanding', 0, undefined],
    ]);
    expect([unplanned, hours.done]).toEqual([[{ operation: 'unplanned', hours: 1 }], 7]);
  });

  test('yield is what is in the table over what was used less what came back', () => {
    const board = { wood: 'oak', lengthMm: 2500, widthMm: 200, thicknessMm: 50, boards: 5, isOffcut: false };
    // 5 boards of 0.025 m3 are 0.125; 0.005 came back: 0.06 of 0.12 is half.
    const offcut = { wood: 'oak', lengthMm: 1000, widthMm: 100, thicknessMm: 50, boards: 1, isOffcut: true };
    const [oak] = planAndDone(takeOff, finished, [], [board, offcut]).timber;
    expect(oak?.usedM3).toBeCloseTo(0.125, 12);
    expect(oak?.offcutM3).toBeCloseTo(0.005, 12);
    expect(oak?.yieldPercent).toBeCloseTo(50, 10);
    expect(planAndDone(takeOff, finished, [], []).timber[0]).not.toHaveProperty('yieldPercent');
  });
});

describe('rates that finished tables speak for', () => {
  const rates = { 'glue-up': { says: 'Glue up', per: 'table', low: 3, mid: 4, high: 6, finishing: false } } as const;
  const table = (ratio: number): readonly OperationDone[] => [
    { id: 'glue-up', says: 'Glue up', planned: { low: 3, mid: 4, high: 6 }, hours: 4 * ratio, ratio },
  ];

  /** @source definition of the median: the middle of an odd count, the mean of the middle two of an even one */
  test.each([
    [[3, 1, 2], 2],
    [[4, 1, 3, 2], 2.5],
    [[7], 7],
  ])('median of %j', (numbers, middle) => {
    expect(median(numbers)).toBe(middle);
  });

  test('two tables say nothing; three do, and one odd one does not move it', () => {
    expect(proposedRates([table(1.5), table(1.5)], rates)).toEqual([]);
    const [proposal] = proposedRates([table(1.25), table(1.2), table(4)], rates);
    // Median 1.25: usual 5. Fewest: the lesser of 3 x 1.25 and 4 x 1.2; most: the greater of 6 x 1.25 and 4 x 4.
    expect([proposal?.tables, proposal?.medianRatio, proposal?.proposed]).toEqual([3, 1.25, { low: 3.75, mid: 5, high: 16 }]);
  });

  test('what is close to the rate leaves it', () => {
    expect(proposedRates([table(1.02), table(1.04), table(0.98)], rates)).toEqual([]);
  });
});
