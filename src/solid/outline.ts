import { offsetRegions } from './clip.ts';
import { distanceToSegmentMm, isConvexLoop, isInLoop, signedAreaMm2 } from './polygon.ts';
import type { Outline, Vec2 } from './types.ts';

const DIRECTIONS = 1e-12;
/** What rounding leaves of a polygon that was shrunk to a line, mm2. */
const NO_AREA_MM2 = 1e-6;

/** How far an outline reaches along a direction of length 1, mm from the origin, and where. Exact. */
export function supportOf(outline: Outline, towards: Vec2): { readonly reachMm: number; readonly atMm: Vec2 } {
  const [ux, uy] = towards;
  if (outline.kind === 'ellipse') {
    const reach = Math.hypot(outline.rxMm * ux, outline.ryMm * uy);
    if (reach < DIRECTIONS) return { reachMm: 0, atMm: [0, 0] };
    return { reachMm: reach, atMm: [(outline.rxMm * outline.rxMm * ux) / reach, (outline.ryMm * outline.ryMm * uy) / reach] };
  }
  let best: Vec2 = outline.points[0] ?? [0, 0];
  for (const p of outline.points) if (p[0] * ux + p[1] * uy > best[0] * ux + best[1] * uy) best = p;
  return { reachMm: best[0] * ux + best[1] * uy, atMm: best };
}

/** Largest inset for which the inner parallel curve of an ellipse stays smooth, mm: the least radius of curvature, b^2 / a. */
export function smoothInsetMm(rxMm: number, ryMm: number): number {
  const short = Math.min(rxMm, ryMm);
  return (short * short) / Math.max(rxMm, ryMm);
}

/** Point of the inner parallel curve of an ellipse at a distance, by the eccentric angle of its foot on the ellipse. */
export function parallelPoint(rxMm: number, ryMm: number, insetMm: number, angleRad: number): Vec2 {
  const c = Math.cos(angleRad);
  const s = Math.sin(angleRad);
  const nx = ryMm * c;
  const ny = rxMm * s;
  const size = Math.hypot(nx, ny);
  return [rxMm * c - (insetMm * nx) / size, ryMm * s - (insetMm * ny) / size];
}

/**
 * Inner parallel curve of an outline at a distance: exact corners for a convex polygon, support function for an ellipse.
 * `undefined` where nothing is left, or where the curve of an ellipse would cross itself (inset beyond `smoothInsetMm`).
 */
export type InnerCurve =
  | { readonly kind: 'polygon'; readonly points: readonly Vec2[] }
  | { readonly kind: 'ellipse-parallel'; readonly rxMm: number; readonly ryMm: number; readonly insetMm: number };

export function innerCurve(outline: Outline, insetMm: number): InnerCurve | undefined {
  if (outline.kind === 'ellipse') {
    const { rxMm, ryMm } = outline;
    return insetMm < smoothInsetMm(rxMm, ryMm) ? { kind: 'ellipse-parallel', rxMm, ryMm, insetMm } : undefined;
  }
  const points = insetPolygon(outline.points, insetMm);
  return points === undefined ? undefined : { kind: 'polygon', points };
}

/** How far an inner parallel curve reaches along a direction of length 1, and where. Exact. */
export function supportOfInner(curve: InnerCurve, towards: Vec2): { readonly reachMm: number; readonly atMm: Vec2 } {
  if (curve.kind === 'polygon') return supportOf(curve, towards);
  const rim = supportOf({ kind: 'ellipse', rxMm: curve.rxMm, ryMm: curve.ryMm }, towards);
  return {
    reachMm: rim.reachMm - curve.insetMm,
    atMm: [rim.atMm[0] - curve.insetMm * towards[0], rim.atMm[1] - curve.insetMm * towards[1]],
  };
}

/**
 * Points at least `insetMm` inside a counter-clockwise polygon, as a polygon. Convex: exact, by moving every side in and keeping what is
 * behind all of them. Otherwise: clipped on a grid of 0.001 mm, the largest piece. `undefined` where nothing is left.
 */
export function insetPolygon(points: readonly Vec2[], insetMm: number): readonly Vec2[] | undefined {
  if (insetMm === 0) return points;
  if (!isConvexLoop(points)) {
    const left = offsetRegions([{ outer: points, holes: [] }], -insetMm).map((r) => r.outer);
    return left.sort((a, b) => b.length - a.length)[0];
  }
  let left: readonly Vec2[] = points;
  points.forEach((a, i) => {
    const b = points[(i + 1) % points.length] as Vec2;
    const size = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (size === 0) return;
    const normal: Vec2 = [(a[1] - b[1]) / size, (b[0] - a[0]) / size];
    left = behindLine(left, normal, normal[0] * a[0] + normal[1] * a[1] + insetMm);
  });
  return left.length > 2 && signedAreaMm2(left) > NO_AREA_MM2 ? left : undefined;
}

/** Part of a convex loop where `dot(normal, p) >= from`. Sutherland and Hodgman (1974). */
function behindLine(loop: readonly Vec2[], normal: Vec2, from: number): readonly Vec2[] {
  const kept: Vec2[] = [];
  loop.forEach((p, i) => {
    const q = loop[(i + 1) % loop.length] as Vec2;
    const a = p[0] * normal[0] + p[1] * normal[1] - from;
    const b = q[0] * normal[0] + q[1] * normal[1] - from;
    if (a >= 0) kept.push(p);
    if (a * b < 0) kept.push([p[0] + (a / (a - b)) * (q[0] - p[0]), p[1] + (a / (a - b)) * (q[1] - p[1])]);
  });
  return kept;
}

/** How far a point lies outside an outline, mm; 0 inside or on it. */
export function outsideMm(outline: Outline, p: Vec2): number {
  if (outline.kind === 'polygon') {
    const { points } = outline;
    if (isInLoop(points, p)) return 0;
    return Math.min(...points.map((a, i) => distanceToSegmentMm(p, a, points[(i + 1) % points.length] as Vec2)));
  }
  const { rxMm, ryMm } = outline;
  const [x, y] = [Math.abs(p[0]), Math.abs(p[1])];
  if ((x / rxMm) ** 2 + (y / ryMm) ** 2 <= 1) return 0;
  return distanceToEllipseMm(rxMm, ryMm, x, y);
}

/** Outside point to ellipse by bisection on the Lagrange multiplier. @source Eberly, "Distance from a Point to an Ellipse", Geometric Tools (2013) */
function distanceToEllipseMm(rxMm: number, ryMm: number, x: number, y: number): number {
  const excess = (t: number): number => ((rxMm * x) / (t + rxMm * rxMm)) ** 2 + ((ryMm * y) / (t + ryMm * ryMm)) ** 2 - 1;
  let low = 0;
  let high = Math.hypot(rxMm * x, ryMm * y);
  for (let i = 0; i < 200 && high - low > 1e-12 * (1 + high); i++) {
    const middle = (low + high) / 2;
    if (excess(middle) > 0) low = middle;
    else high = middle;
  }
  const t = (low + high) / 2;
  return Math.hypot(x - (rxMm * rxMm * x) / (t + rxMm * rxMm), y - (ryMm * ryMm * y) / (t + ryMm * ryMm));
}
