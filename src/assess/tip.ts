import type { Vec2 } from '../solid/index.ts';
import type { WorstLoad } from './assessment.ts';
import type { Hull, HullPiece } from './convex.ts';
import { direction, dot, minus, supportPoint } from './convex.ts';
import { largestBetween } from './extremum.ts';
import type { Rim } from './rim.ts';

/** How a table stands: its weight, where the weight acts, and the hull of its contact with the floor. Rigid table, rigid level floor. */
export interface Stance {
  readonly weightN: number;
  readonly gravityMm: Vec2;
  readonly hull: Hull;
}

/** A load this close to the hull stands on it (share of the way). */
const onTheHull = 1e-9;

/** Two places are equally bad when their loads differ by less than this share; the first looked at is kept. */
const asBad = 1e-9;

/** Distance from the centre of gravity to the hull's edge along `normal`: the arm that holds the table down, mm. */
export function holdingArmMm(stance: Stance, normal: Vec2): number {
  return dot(minus(supportPoint(stance.hull, normal), stance.gravityMm), normal);
}

/** Whether the weight acts inside the hull: if not, the table falls by itself. */
export function standsByItself(stance: Stance): boolean {
  return stance.hull.pieces.length > 0 && leastArm(stance).armMm > 1e-6;
}

/**
 * Smallest vertical load at a place that begins to tip the table, N; `null` where no load there can.
 * The resultant of weight and load moves from the centre of gravity towards the load; it tips as the resultant leaves the hull.
 * With `s` the share of that way which lies inside, F = W s / (1 - s): the same as F = W dg / df about the edge it crosses.
 * @source rigid-body statics; the test's arrangement after ISO 7172:1988 (far leg begins to lift)
 */
export function tippingLoadN(stance: Stance, atMm: Vec2): number | null {
  const overreach = reachRatio(stance, atMm) - 1;
  return overreach <= onTheHull ? null : stance.weightN / overreach;
}

/** How many times as far from the centre of gravity as the hull's boundary a place is (1 on the boundary, more outside). */
export function reachRatio(stance: Stance, atMm: Vec2): number {
  let ratio = 0;
  const away = minus(atMm, stance.gravityMm);
  for (const piece of stance.hull.pieces) ratio = Math.max(ratio, ratioOver(piece, stance.gravityMm, away));
  return ratio;
}

function ratioOver(piece: HullPiece, gravityMm: Vec2, away: Vec2): number {
  if (piece.kind === 'edge') return dot(piece.normal, away) / (piece.offsetMm - dot(piece.normal, gravityMm));
  const { centreMm, rxMm, ryMm } = piece.ellipse;
  const o: Vec2 = [(gravityMm[0] - centreMm[0]) / rxMm, (gravityMm[1] - centreMm[1]) / ryMm];
  const d: Vec2 = [away[0] / rxMm, away[1] / ryMm];
  const a = dot(d, d);
  const b = dot(o, d);
  const rest = b * b - a * (dot(o, o) - 1);
  if (a === 0 || rest < 0) return 0;
  const share = (-b + Math.sqrt(rest)) / a;
  if (share <= 0) return 0;
  const normalRad = Math.atan2((o[1] + share * d[1]) / ryMm, (o[0] + share * d[0]) / rxMm);
  return turnsWithin(normalRad, piece.fromRad, piece.toRad) ? 1 / share : 0;
}

function turnsWithin(angleRad: number, fromRad: number, toRad: number): boolean {
  const turn = 2 * Math.PI;
  const past = (((angleRad - fromRad) % turn) + turn) % turn;
  return past <= toRad - fromRad + 1e-12 || past >= turn - 1e-12;
}

/**
 * Place on a curve where the smallest vertical load tips the table; `null` where none does.
 * The reach ratio is a convex function of the place, so its largest value on a convex curve lies at a corner of the curve, at its point
 * farthest along the normal of an edge of the hull, or, for a curve over a round foot, where both normals are the same.
 */
export function worstLoad(stance: Stance, rim: Rim): WorstLoad | null {
  const { pieces } = stance.hull;
  const candidates: Vec2[] = rim.edges.map((edge) => [(edge.from[0] + edge.to[0]) / 2, (edge.from[1] + edge.to[1]) / 2]);
  candidates.push(...rim.corners);
  if (rim.curved) {
    candidates.push(...[-1, 0, 1, 2].map((quarter) => rim.farthest(direction((quarter * Math.PI) / 2))));
    for (const piece of pieces) {
      if (piece.kind === 'edge') candidates.push(rim.farthest(piece.normal));
      else candidates.push(rim.farthest(direction(worstNormalRad(stance, rim, piece))));
    }
  }
  let worst: Vec2 | undefined;
  let ratio = 0;
  for (const place of candidates) {
    const here = reachRatio(stance, place);
    if (here > ratio * (1 + asBad)) {
      ratio = here;
      worst = place;
    }
  }
  const loadN = worst === undefined ? null : tippingLoadN(stance, worst);
  return worst === undefined || loadN === null ? null : { loadN, atMm: worst };
}

/** The lowest of `tippingLoadN` over a table and its loose top; 0 where one of them falls by itself. */
export function lowestLoadN(stances: readonly Stance[], atMm: Vec2): number | null {
  const loads = stances.map((stance) => (standsByItself(stance) ? tippingLoadN(stance, atMm) : 0)).filter((load) => load !== null);
  return loads.length === 0 ? null : Math.min(...loads);
}

/** The lowest of `worstLoad` over a table and its loose top; 0 where one of them falls by itself. */
export function lowestWorst(stances: readonly Stance[], rim: Rim): WorstLoad | null {
  return stances.reduce<WorstLoad | null>((lowest, stance) => {
    const worst = standsByItself(stance) ? worstLoad(stance, rim) : { loadN: 0, atMm: stance.gravityMm };
    return lowest === null || (worst !== null && worst.loadN < lowest.loadN) ? worst : lowest;
  }, null);
}

function worstNormalRad(stance: Stance, rim: Rim, arc: Extract<HullPiece, { kind: 'arc' }>): number {
  const ratio = (angleRad: number): number => {
    const normal = direction(angleRad);
    return dot(minus(rim.farthest(normal), stance.gravityMm), normal) / holdingArmMm(stance, normal);
  };
  return largestBetween(ratio, arc.fromRad, arc.toRad).x;
}

/** The nearest edge of the hull, or nearest point of a round foot (twice), seen from the centre of gravity. */
export function leastArm(stance: Stance): { readonly armMm: number; readonly normal: Vec2; readonly over: readonly [Vec2, Vec2] } {
  let armMm = Number.POSITIVE_INFINITY;
  let normal: Vec2 = [0, -1];
  let over: readonly [Vec2, Vec2] = [stance.gravityMm, stance.gravityMm];
  for (const towards of tippingNormals(stance.hull)) {
    const arm = holdingArmMm(stance, towards.normal);
    if (arm < armMm - 1e-9) {
      armMm = arm;
      normal = towards.normal;
      over = towards.over;
    }
  }
  for (const piece of stance.hull.pieces) {
    if (piece.kind !== 'arc') continue;
    const best = largestBetween((a) => -holdingArmMm(stance, direction(a)), piece.fromRad, piece.toRad);
    if (-best.value >= armMm - 1e-9) continue;
    armMm = -best.value;
    normal = direction(best.x);
    const at = supportPoint(stance.hull, normal);
    over = [at, at];
  }
  return { armMm: stance.hull.pieces.length === 0 ? 0 : armMm, normal, over };
}

/** Directions in which the table can tip: every edge, and the four quarters of a round foot that lie on the hull. */
export function tippingNormals(hull: Hull): readonly { readonly normal: Vec2; readonly over: readonly [Vec2, Vec2] }[] {
  return hull.pieces.flatMap((piece) => {
    if (piece.kind === 'edge') return [{ normal: piece.normal, over: [piece.from, piece.to] as const }];
    return [-1, 0, 1, 2].flatMap((quarter) => {
      const angleRad = (quarter * Math.PI) / 2;
      if (!turnsWithin(angleRad, piece.fromRad, piece.toRad)) return [];
      const at = supportPoint(hull, direction(angleRad));
      return [{ normal: direction(angleRad), over: [at, at] as const }];
    });
  });
}

/**
 * Smallest horizontal force at a height that begins to tip the table about the nearest edge; nothing slides.
 * H = W dg / h, least over all directions. @source rigid-body statics
 */
export function leastPush(
  stance: Stance,
  heightMm: number,
): { readonly forceN: number; readonly towards: Vec2; readonly overEdge: readonly [Vec2, Vec2] } {
  const { armMm, normal, over } = leastArm(stance);
  return { forceN: (stance.weightN * Math.max(0, armMm)) / heightMm, towards: normal, overEdge: over };
}

/** Angle at which the unloaded table falls, degrees: atan(dg / height of the centre of gravity). @source rigid-body statics */
export function tiltDeg(stance: Stance, gravityHeightMm: number): number {
  return (Math.atan2(Math.max(0, leastArm(stance).armMm), gravityHeightMm) * 180) / Math.PI;
}
