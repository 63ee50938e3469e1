import { movementRangeMm, type WoodSpec } from '../spec/index.ts';
import { equilibriumMoisturePercent } from './moisture.ts';
import { changeOf } from './movement.ts';

/** A panel as it was measured, and the air that it stands in now. */
export interface ThenAndNow {
  readonly wood: WoodSpec;
  readonly sawn: 'flat' | 'quarter';
  /** Across the grain, as it was built. */
  readonly builtMm: number;
  /** Of the boards when that was measured, percent of dry mass. */
  readonly moisturePercent: number;
  /** The air, or the moisture of the boards themselves, which is nearer to the wood and goes before it. */
  readonly humidityPercent?: number;
  readonly celsius: number;
  readonly moistureNowPercent?: number;
  /** Across the grain, as it measures now. */
  readonly measuredMm?: number;
}

/** What wood was to be expected to do since then, and whether it did; a calculation and no verdict. */
export interface SinceThen {
  /** What the boards come to in that air, once they have had weeks in it; or what was measured in them. */
  readonly moistureNowPercent: number;
  readonly builtMm: number;
  /** Signed: negative where it shrinks. The lesser change first. */
  readonly expectedChangeMm: readonly [number, number];
  readonly expectedMm: readonly [number, number];
  readonly measuredChangeMm?: number;
  readonly result?: 'as-expected' | 'more-than-expected' | 'less-than-expected';
}

/** A tape over a table: what two measurings may differ by, mm. @source common practice */
export const TAPE_MM = 1;

function moistureNow({ moistureNowPercent, humidityPercent, celsius }: ThenAndNow): number {
  if (moistureNowPercent !== undefined) return moistureNowPercent;
  if (humidityPercent === undefined) throw new RangeError('neither the air nor the boards were measured');
  return equilibriumMoisturePercent(celsius, humidityPercent);
}

/**
 * What a panel was to be expected to do across the grain between the moisture at which it was built and the air that it stands in,
 * beside what it did.
 *
 * @throws RangeError where neither air nor boards were measured
 * @source Wood Handbook, FPL-GTR-190 (2010): Eq. 4-5 for the moisture, Eq. 13-2 and 13-3 for the change; between flat-sawn and half-way to
 * quarter, and a tape's millimetre: common practice
 */
export function sinceThen(of: ThenAndNow): SinceThen {
  const { wood, sawn, builtMm, moisturePercent, measuredMm } = of;
  const moistureNowPercent = moistureNow(of);
  const [low, high] = [Math.min(moisturePercent, moistureNowPercent), Math.max(moisturePercent, moistureNowPercent)];
  const sign = moistureNowPercent < moisturePercent ? -1 : 1;
  const { lowMm, highMm } = movementRangeMm(changeOf(wood, sawn, builtMm, low, high).changeMm, sawn, wood);
  const expected = {
    moistureNowPercent,
    builtMm,
    expectedChangeMm: [sign * lowMm, sign * highMm] as const,
    expectedMm: [builtMm + sign * lowMm, builtMm + sign * highMm] as const,
  };
  if (measuredMm === undefined) return expected;
  const [least, most] = [Math.min(...expected.expectedMm) - TAPE_MM, Math.max(...expected.expectedMm) + TAPE_MM];
  const isWithin = measuredMm >= least && measuredMm <= most;
  // On the far side of what the air explains it moved more; short of it, or the other way, less.
  const isBeyond = sign < 0 ? measuredMm < least : measuredMm > most;
  return {
    ...expected,
    measuredChangeMm: measuredMm - builtMm,
    result: isWithin ? 'as-expected' : isBeyond ? 'more-than-expected' : 'less-than-expected',
  };
}
