import { byCodeUnit } from '../units/index.ts';
import type { Result, WishAnswer } from './assessment.ts';
import type { Finding, Findings } from './measure.ts';
import { find } from './measure.ts';

/** Around a target, at the limit: this share of it. */
const limitShare = 0.03;

/** What is drawn to the target reaches it in spite of rounding, as a share of the target. */
const roundingShare = 1e-6;

/** Every wish of the proposal with what was found, the target and the result; taste is answered by the maker's own words. */
export function answerWishes(findings: Findings): readonly WishAnswer[] {
  const { wishes } = findings.spec.proposal;
  const { answers } = findings.spec.variant;
  return Object.keys(wishes)
    .sort(byCodeUnit)
    .map((id): WishAnswer => {
      const wish = wishes[id] as (typeof wishes)[string];
      const answer = answers[id];
      const finding = find(wish.measure, findings);
      const judged = wish.measure.kind === 'judgement';
      return {
        id,
        kind: wish.measure.kind,
        result: judged ? (answer?.result ?? 'judgement') : (finding.result ?? judge(wish.measure.kind, finding)),
        ...(finding.value === undefined ? {} : { value: finding.value }),
        ...(finding.target === undefined ? {} : { target: finding.target }),
        ...(finding.unit === undefined ? {} : { unit: finding.unit }),
        ...(finding.why === undefined ? {} : { why: finding.why }),
        ...(answer === undefined ? {} : { says: answer.says }),
      };
    });
}

/**
 * Enough, at the limit or not enough.
 * A load or a mass is at the limit within 3 % of the target on either side: its density is not known more closely. What follows exactly
 * from the drawing or the price (a height, an inset, the open share, money) is at the limit from the target to 3 % better; short of it is
 * not enough, because an arm that hits a rail by 8 mm hits it. A size that was chosen and a count of places meet their bounds or do not.
 */
export function judge(kind: string, { value, target, exact }: Finding): Result {
  if (value === undefined || target === undefined) return 'enough';
  const spare = Math.min(
    target.atLeast === undefined ? Number.POSITIVE_INFINITY : shareOver(value, target.atLeast),
    target.atMost === undefined ? Number.POSITIVE_INFINITY : -shareOver(value, target.atMost),
  );
  if (kind === 'size' || kind === 'places') return spare >= -roundingShare ? 'enough' : 'not-enough';
  if (spare > limitShare) return 'enough';
  return spare >= (exact ? -roundingShare : -limitShare) ? 'limit' : 'not-enough';
}

function shareOver(value: number, target: number): number {
  return target === 0 ? Math.sign(value) : (value - target) / Math.abs(target);
}
