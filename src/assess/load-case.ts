import type { Vec2 } from '../solid/index.ts';
import type { LoadCaseSpec } from '../spec/index.ts';
import type { CaseResult } from './assessment.ts';
import { direction, dot, supportPoint } from './convex.ts';
import { largestBetween } from './extremum.ts';
import type { Rim } from './rim.ts';
import type { Stance } from './tip.ts';
import { holdingArmMm, leastPush, standsByItself, tippingNormals, worstLoad } from './tip.ts';

/**
 * One screening check: safety factor against tipping, least over all places and directions; `null` where the load tips nothing.
 * `stances`: the whole table, and a loose top on its base, for which only the load counts. `rim` is the inner parallel curve at the case's
 * own inset. A table that falls by itself has factor 0.
 * Enough from the wanted factor, not enough below the least or below 1 (the load tips the table), at the limit between.
 */
export function answerCase(id: string, spec: LoadCaseSpec, stances: readonly Stance[], rim: Rim, heightMm: number): CaseResult {
  const loadN = spec.kind === 'push' ? 0 : (spec.load?.n ?? 0);
  const pushN = spec.kind === 'vertical' ? 0 : (spec.push?.n ?? 0);
  const safetyFactor = lowestFactor(spec, stances, rim, heightMm, loadN, pushN);
  const { wanted, least } = spec;
  const result = safetyFactor === null || safetyFactor >= wanted ? 'enough' : safetyFactor >= Math.max(1, least) ? 'limit' : 'not-enough';
  return { id, loadN, pushN, safetyFactor, wanted, least, result };
}

function lowestFactor(
  spec: LoadCaseSpec,
  stances: readonly Stance[],
  rim: Rim,
  heightMm: number,
  loadN: number,
  pushN: number,
): number | null {
  const factors = stances.map((stance, i) => {
    if (!standsByItself(stance)) return 0;
    return factorOf(spec, stance, rim, heightMm, loadN, i === 0 ? pushN : 0);
  });
  const limited = factors.filter((factor) => factor !== null);
  return limited.length === 0 ? null : Math.min(...limited);
}

function factorOf(spec: LoadCaseSpec, stance: Stance, rim: Rim, heightMm: number, loadN: number, pushN: number): number | null {
  const places = spec.at === 'corner' && rim.corners.length > 0 ? { ...rim, edges: [] } : rim;
  if (pushN === 0) {
    const worst = loadN === 0 ? null : worstLoad(stance, places);
    return worst === null ? null : worst.loadN / loadN;
  }
  if (loadN === 0) return leastPush(stance, heightMm).forceN / pushN;
  return combinedFactor(stance, places, heightMm, loadN, pushN);
}

/**
 * Load on the curve and push outward at full height together, both where they are worst: about each edge, the holding moments (weight,
 * and the load where it stands inside) over the tipping moments, least over all edges.
 * @source rigid-body statics
 */
function combinedFactor(stance: Stance, rim: Rim, heightMm: number, loadN: number, pushN: number): number {
  const about = (normal: Vec2): number => factorAbout(stance, rim.farthest(normal), normal, heightMm, loadN, pushN);
  let least = Number.POSITIVE_INFINITY;
  for (const { normal } of tippingNormals(stance.hull)) least = Math.min(least, about(normal));
  for (const piece of stance.hull.pieces) {
    if (piece.kind === 'arc') least = Math.min(least, -largestBetween((a) => -about(direction(a)), piece.fromRad, piece.toRad).value);
  }
  return least;
}

function factorAbout(stance: Stance, atMm: Vec2, normal: Vec2, heightMm: number, loadN: number, pushN: number): number {
  const loadArmMm = dot(atMm, normal) - dot(supportPoint(stance.hull, normal), normal);
  const holding = stance.weightN * holdingArmMm(stance, normal) + loadN * Math.max(0, -loadArmMm);
  return holding / (pushN * heightMm + loadN * Math.max(0, loadArmMm));
}
