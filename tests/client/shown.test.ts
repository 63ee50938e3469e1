import { describe, expect, test } from 'vitest';
import { roundTo, shownIn } from '../../src/client/shown.ts';
import { withInches } from '../../src/client/terms-view.ts';
import { movementRangeMm } from '../../src/spec/index.ts';

const plain = (text: string | undefined): string => (text ?? '').replaceAll(/[\u00a0\u2009\u202f]/g, ' ');

describe('figures for a client are rounded to the safe side', () => {
  const shown = shownIn('en-GB', 'mm', 'EUR');

  test('a load that tips goes down, a weight to be lifted up, noise of floating point nowhere', () => {
    // 116.9 kg x 9.80665 m/s2
    expect(plain(shown.load(116.9 * 9.80665, 'down'))).toBe('116 kg');
    expect(plain(shown.load(116 * 9.80665, 'down'))).toBe('116 kg');
    expect(plain(shown.mass(32.1, 'up'))).toBe('33 kg');
    expect(plain(shown.mass(32.00000001, 'up'))).toBe('32 kg');
    expect(plain(shown.force(999, 'down'))).toBe('990 N');
    expect(plain(shown.percent(87.96, 'down'))).toBe('87 %');
    expect(roundTo(664.9999999, 1, 'down')).toBe(665);
  });

  test('pounds and inches for those who think in them', () => {
    const american = shownIn('en-US', 'in', 'USD');
    // NIST SP 811: 1 lbf = 4.4482216152605 N
    expect(plain(american.load(135 * 4.4482216152605, 'down'))).toBe('135 lb');
    expect(american.force(600, 'down')).toBeUndefined();
    expect(plain(american.length(665, 'down'))).toBe('26⅛″');
    expect(plain(american.money(540000))).toBe('$5,400.00');
    expect(plain(american.wholeMoney(540000))).toBe('$5,400');
    // 144 cubic inches
    expect(plain(american.volume(144 * 25.4 ** 3))).toBe('1.0 bf');
  });

  test('a range is given outward, and as one figure where both ends fall together', () => {
    expect(plain(shown.lengthRange(2.2, 3.1, 'to'))).toBe('2 to 4 mm');
    expect(plain(shown.lengthRange(0.4, 0.9, 'to'))).toBe('1 mm');
  });

  test('flat-sawn boards move at most as computed, quarter-sawn ones at least', () => {
    const oak = { changeRadial: 0.0018, changeTangential: 0.00365 };
    const flat = movementRangeMm(13, 'flat', oak);
    expect(flat.highMm).toBe(13);
    expect(flat.lowMm).toBeCloseTo((13 * (0.0018 + 0.00365)) / 2 / 0.00365, 9);
    const quarter = movementRangeMm(6, 'quarter', oak);
    expect(quarter.lowMm).toBe(6);
    expect(quarter.highMm).toBeGreaterThan(6);
  });
});

test.each([
  ['± 1/8 in', '± ⅛″'],
  ['1/32 in per 16 in', '1⁄32″ per 16″'],
  ['± 3 mm', '± 3 mm'],
  ['2 mm per metre', '2 mm per metre'],
  ['7 to 9 %', '7 to 9 %'],
  ['one in ten, 1 in 10', 'one in ten, 1 in 10'],
])('inches of the tolerance %j are set as %j', (written, shown) => {
  expect(withInches(written, 'en-US')).toBe(shown);
});
