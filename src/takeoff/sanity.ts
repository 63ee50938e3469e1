import type { Problem } from '../problem/index.ts';
import type { EffectiveSpec } from '../spec/index.ts';

/**
 * Usual share of surface preparation and finishing in the hours of a table.
 *
 * @source common practice; "finishing is often about 30 % of a job's time" (Jones, "How to price the job").
 */
export const USUAL_FINISHING_SHARE = { low: 0.2, high: 0.35 };

/** The maker's own estimate and the counted hours may differ by this share of the estimate. */
export const HOURS_MAY_DIFFER = 0.2;

/**
 * Two warnings for the maker: `takeoff/finishing-share` where finishing takes an unusual share of the hours, `takeoff/hours-differ` where the
 * counted hours are more than a fifth off the maker's own estimate for the variant.
 */
export function checkHours(spec: EffectiveSpec, midHours: number, finishingShare: number): readonly Problem[] {
  const problems: Problem[] = [];
  const { low, high } = USUAL_FINISHING_SHARE;
  if (midHours > 0 && (finishingShare < low || finishingShare > high)) {
    problems.push({
      code: 'takeoff/finishing-share',
      severity: 'warning',
      title: `preparing and finishing the surfaces takes an unusually ${finishingShare < low ? 'small' : 'large'} share of the hours`,
      path: ['library', 'rates', 'operations'],
      found: `${(finishingShare * 100).toFixed(1)} % of ${midHours.toFixed(1)} h`,
      allowed: `${low * 100} to ${high * 100} % is usual (common practice)`,
      mend: 'look at the hours for sanding, flattening and coats in the shop rates',
    });
  }
  const own = spec.variant.hours;
  if (own !== undefined && Math.abs(midHours - own) > HOURS_MAY_DIFFER * own) {
    problems.push({
      code: 'takeoff/hours-differ',
      severity: 'warning',
      title: 'the hours counted from the table are far from your own estimate',
      path: ['variant', 'hours'],
      found: `${own} h estimated, ${midHours.toFixed(1)} h counted`,
      allowed: `${((1 - HOURS_MAY_DIFFER) * own).toFixed(1)} to ${((1 + HOURS_MAY_DIFFER) * own).toFixed(1)} h`,
      mend: 'correct the estimate, the shop rates, or add what is not counted under work',
    });
  }
  return problems;
}
