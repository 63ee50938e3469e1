import { describe, expect, test } from 'vitest';
import { sinceThen } from '../../src/assess/index.ts';
import { woods } from '../care/read-rules.ts';

const wood = woods['oak-white'];
if (wood === undefined) throw new Error('no white oak');
const top = { wood, sawn: 'flat', builtMm: 800, moisturePercent: 9, celsius: 21.1 } as const;

describe('what a top was to be expected to do since it was built', () => {
  /**
   * White oak, 800 mm across, built at 9 % and standing at 65 % (12.0 % by Table 4-2): 800 x 0.00365 x 3 = 8.76 mm flat-sawn; half-way to
   * quarter (0.00180): 800 x 0.002725 x 3 = 6.54 mm.
   * @source Wood Handbook, FPL-GTR-190 (2010), Tables 4-2 and 13-5, Eq. 13-2; by hand
   */
  test('it widens in damp air, by the handbook', () => {
    const { moistureNowPercent, expectedChangeMm, expectedMm } = sinceThen({ ...top, humidityPercent: 65 });
    expect(moistureNowPercent).toBeCloseTo(12, 1);
    expect(expectedChangeMm[1]).toBeCloseTo(8.76, 0);
    expect(expectedChangeMm[0]).toBeCloseTo(6.54, 0);
    expect(expectedMm[1] - 800).toBeCloseTo(expectedChangeMm[1], 12);
  });

  test.each([
    // 35 % is 7.1 % by Table 4-2: it shrinks by 800 x 0.00365 x 1.9 = 5.5 mm, or 4.1 half-way to quarter.
    [35, 795, 'as-expected'],
    [35, 791, 'more-than-expected'],
    [35, 799, 'less-than-expected'],
    [65, 807, 'as-expected'],
    [65, 813, 'more-than-expected'],
    [65, 799, 'less-than-expected'],
  ] as const)('at %d %% it measures %d mm: %s', (humidityPercent, measuredMm, result) => {
    expect(sinceThen({ ...top, humidityPercent, measuredMm }).result).toBe(result);
  });
});
