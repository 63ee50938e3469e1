import { describe, expect, test } from 'vitest';
import {
  BOARD_FOOT_M3,
  boardFeetOf,
  boardFeetOfM3,
  chooseTimber,
  grossOf,
  litresOf,
  lossOfGross,
  piecesPerBar,
  surfaceMeasure,
  tallyBoardFeet,
} from '../../src/takeoff/index.ts';
import { boardFeetRows, kerfRows, lumberChecks, surfaceMeasureRows, tallyRows } from '../published/trade-lumber.ts';
import { rates } from './rates.ts';

describe('published lumber measure', () => {
  test.each(boardFeetRows)('$id $says', ({ inputs, expected, tolerance }) => {
    const thicknessIn = inputs.thicknessIn ?? (inputs.thicknessQuarters ?? Number.NaN) / 4;
    const lengthFt = inputs.lengthFt ?? (inputs.lengthIn ?? Number.NaN) / 12;
    expect(Math.abs(boardFeetOf(thicknessIn, inputs.widthIn, lengthFt) - expected)).toBeLessThanOrEqual(tolerance);
    const m3 = thicknessIn * inputs.widthIn * lengthFt * 12 * 0.0254 ** 3;
    expect(boardFeetOfM3(m3)).toBeCloseTo(expected, 3);
  });
  test.each(surfaceMeasureRows)('$id $says', ({ inputs, expected }) => {
    expect(surfaceMeasure(inputs.widthIn, inputs.lengthFt)).toBe(expected);
  });
  test.each(tallyRows)('$id $says', ({ inputs, expected }) => {
    const thicknessIn = inputs.thicknessIn ?? (inputs.thicknessQuarters ?? Number.NaN) / 4;
    expect(tallyBoardFeet(inputs.widthIn, inputs.lengthFt, thicknessIn)).toBe(expected);
  });
  test.each(kerfRows)('$id $says', ({ inputs, expected }) => {
    expect(piecesPerBar(inputs.stock, inputs.piece, inputs.kerf)).toBe(expected);
  });
  test('the board foot and the cubic metre', () => {
    const foot = lumberChecks['bf-07'];
    expect(Math.abs(BOARD_FOOT_M3 - foot.expected)).toBeLessThanOrEqual(foot.tolerance);
    const metre = lumberChecks['bf-08'];
    expect(Math.abs(boardFeetOfM3(metre.inputs.m3) - metre.expected)).toBeLessThanOrEqual(metre.tolerance);
  });
  test('addition on the net and loss of the gross are two bases', () => {
    const { 'waste-01': lost, 'waste-02': added, 'waste-03': graded } = lumberChecks;
    const additionPercent = (share: number): number => (share / (1 - share)) * 100;
    expect(Math.abs(grossOf(lost.inputs.net, additionPercent(lost.inputs.lossOfGross)) - lost.expected)).toBeLessThanOrEqual(
      lost.tolerance,
    );
    expect(Math.abs(lossOfGross(added.inputs.added) - added.expected)).toBeLessThanOrEqual(added.tolerance);
    expect(Math.abs(grossOf(graded.inputs.net, additionPercent(1 - graded.inputs.yield)) - graded.expected)).toBeLessThanOrEqual(
      graded.tolerance,
    );
  });
  test('litres of finish', () => {
    const { inputs, expected, tolerance } = lumberChecks['cov-use'];
    expect(Math.abs(litresOf(inputs.areaM2, inputs.coats, inputs.coverage, inputs.loss * 100) - expected)).toBeLessThanOrEqual(tolerance);
  });
});

describe('choice of timber', () => {
  const choose = (lengthMm: number, thicknessMm: number) => chooseTimber(rates.timber, 'oak-european', lengthMm, thicknessMm);

  test.each([
    [900, 22, 'oak-27', 1],
    [900, 22.1, 'oak-40', 1],
    [1000, 34, 'oak-40', 1],
    [1001, 34, 'oak-65', 1],
    [2100, 31, 'oak-40', 1],
    [720, 62, 'oak-65', 1],
  ])('%d mm long, %d mm thick comes from %s', (lengthMm, thicknessMm, key, layers) => {
    expect(choose(lengthMm, thicknessMm)).toMatchObject({ key, layers });
  });

  test('what no board yields is laminated: the thinnest stack, then the fewest layers', () => {
    // 120 mm, short: 6 x 27 = 162, 4 x 40 = 160, 2 x 65 = 130.
    expect(choose(700, 120)).toMatchObject({ key: 'oak-65', layers: 2 });
    // 66 mm, short: 3 x 27 = 81 (yields 66), 2 x 40 = 80 (68), 2 x 65 = 130.
    expect(choose(700, 66)).toMatchObject({ key: 'oak-40', layers: 2 });
  });

  test('a wood that the shop does not buy has no timber', () => {
    expect(chooseTimber(rates.timber, 'walnut-black', 700, 20)).toBeUndefined();
  });
});
