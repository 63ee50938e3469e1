import type { Contact, Outline, Vec2 } from '../solid/index.ts';
import { hull as cornersOf } from '../solid/index.ts';

/**
 * A piece of a convex boundary, counter-clockwise: a straight edge, or an arc of an ellipse whose outward normals
 * turn from `fromRad` to `toRad` (toRad > fromRad).
 */
export type HullPiece =
  | { readonly kind: 'edge'; readonly from: Vec2; readonly to: Vec2; readonly normal: Vec2; readonly offsetMm: number }
  | { readonly kind: 'arc'; readonly ellipse: Ellipse; readonly fromRad: number; readonly toRad: number };

export interface Ellipse {
  readonly kind: 'ellipse';
  readonly centreMm: Vec2;
  readonly rxMm: number;
  readonly ryMm: number;
}

/** Convex hull of polygons and ellipses, with its curved pieces exact; no pieces where everything is one point. */
export interface Hull {
  readonly points: readonly Vec2[];
  readonly ellipses: readonly Ellipse[];
  readonly pieces: readonly HullPiece[];
}

type Member = { readonly kind: 'point'; readonly at: Vec2 } | Ellipse;

const fullTurnRad = 2 * Math.PI;

/** Two normals closer than this are one direction: far above rounding, far below any drawn angle (rad). */
const sameAngleRad = 1e-11;

export function dot(a: Vec2, b: Vec2): number {
  return a[0] * b[0] + a[1] * b[1];
}

export function minus(a: Vec2, b: Vec2): Vec2 {
  return [a[0] - b[0], a[1] - b[1]];
}

/** Unit vector at an angle from +x, counter-clockwise. */
export function direction(angleRad: number): Vec2 {
  return [Math.cos(angleRad), Math.sin(angleRad)];
}

/** The plan outline of a top as a shape that hulls are made of. */
export function shapeOf(outline: Outline): Contact {
  return outline.kind === 'polygon' ? outline : { ...outline, centreMm: [0, 0] };
}

/** Point of the hull farthest along unit vector `normal`. */
export function supportPoint(hull: Pick<Hull, 'points' | 'ellipses'>, normal: Vec2): Vec2 {
  let best: Vec2 = [0, 0];
  let farthest = Number.NEGATIVE_INFINITY;
  for (const point of hull.points) {
    const reach = dot(point, normal);
    if (reach > farthest) {
      farthest = reach;
      best = point;
    }
  }
  for (const ellipse of hull.ellipses)
    if (reachOf(ellipse, normal) > farthest) {
      farthest = reachOf(ellipse, normal);
      best = farthestOf(ellipse, normal);
    }
  return best;
}

/**
 * Convex hull of any mix of polygons and ellipses (axes along x and y), exact up to rounding.
 * The support function of the hull is the largest of its members'; the pieces change where two of them are equal, that is at
 * common tangents, which have closed forms save for two unlike ellipses (bisection).
 * @source support functions: Schneider, Convex Bodies: The Brunn-Minkowski Theory, section 1.7 (from memory)
 */
export function hullOf(shapes: readonly Contact[]): Hull {
  const points = cornersOf(shapes.flatMap((shape) => (shape.kind === 'polygon' ? shape.points : [])));
  const ellipses = shapes.filter((shape) => shape.kind === 'ellipse' && shape.rxMm > 0 && shape.ryMm > 0) as readonly Ellipse[];
  const members = membersOf({ points, ellipses });
  const angles = turningAngles(points, ellipses);
  const first = members[0];
  if (first === undefined) return { points, ellipses, pieces: [] };
  if (angles.length === 0) return { points, ellipses, pieces: wholeArc(activeAt(members, 0)) };
  const spans = angles.map((fromRad, i) => {
    const next = angles[i + 1];
    const toRad = next ?? (angles[0] as number) + fullTurnRad;
    return { fromRad, toRad, member: activeAt(members, (fromRad + toRad) / 2) };
  });
  return { points, ellipses, pieces: joinSpans(spans) };
}

interface Span {
  readonly fromRad: number;
  readonly toRad: number;
  readonly member: Member;
}

function joinSpans(spans: readonly Span[]): HullPiece[] {
  const start = spans.findIndex((span, i) => span.member !== (spans[(i + spans.length - 1) % spans.length] as Span).member);
  if (start < 0) return wholeArc((spans[0] as Span).member);
  const joined: { fromRad: number; toRad: number; member: Member }[] = [];
  for (let i = 0; i < spans.length; i++) {
    const span = spans[(start + i) % spans.length] as Span;
    const last = joined.at(-1);
    const width = span.toRad - span.fromRad;
    if (last !== undefined && last.member === span.member) last.toRad += width;
    else joined.push({ fromRad: span.fromRad, toRad: span.fromRad + width, member: span.member });
  }
  const pieces: HullPiece[] = [];
  for (let i = 0; i < joined.length; i++) {
    const span = joined[i] as Span;
    const next = joined[(i + 1) % joined.length] as Span;
    if (span.member.kind === 'ellipse') pieces.push({ kind: 'arc', ellipse: span.member, fromRad: span.fromRad, toRad: span.toRad });
    const turned = direction(span.toRad);
    const from = farthestOf(span.member, turned);
    const to = farthestOf(next.member, turned);
    const normal = rightOf(minus(to, from)) ?? turned;
    pieces.push({ kind: 'edge', from, to, normal, offsetMm: dot(normal, from) });
  }
  return pieces;
}

/** Unit vector to the right of an edge, outward when it runs counter-clockwise: exact along the axes. */
function rightOf([x, y]: Vec2): Vec2 | undefined {
  const size = Math.hypot(x, y);
  return size < 1e-3 ? undefined : [y / size, x === 0 ? 0 : -x / size];
}

function wholeArc(member: Member): HullPiece[] {
  return member.kind === 'ellipse' ? [{ kind: 'arc', ellipse: member, fromRad: 0, toRad: fullTurnRad }] : [];
}

function membersOf(hull: Pick<Hull, 'points' | 'ellipses'>): Member[] {
  return [...hull.points.map((at): Member => ({ kind: 'point', at })), ...hull.ellipses];
}

function activeAt(members: readonly Member[], angleRad: number): Member {
  const normal = direction(angleRad);
  let best = members[0] as Member;
  for (const member of members) if (reachOf(member, normal) > reachOf(best, normal)) best = member;
  return best;
}

function reachOf(member: Member, normal: Vec2): number {
  if (member.kind === 'point') return dot(member.at, normal);
  return dot(member.centreMm, normal) + Math.sqrt((member.rxMm * normal[0]) ** 2 + (member.ryMm * normal[1]) ** 2);
}

function farthestOf(member: Member, normal: Vec2): Vec2 {
  if (member.kind === 'point') return member.at;
  const { centreMm, rxMm, ryMm } = member;
  const reach = Math.sqrt((rxMm * normal[0]) ** 2 + (ryMm * normal[1]) ** 2);
  return [centreMm[0] + (rxMm * rxMm * normal[0]) / reach, centreMm[1] + (ryMm * ryMm * normal[1]) / reach];
}

/** Angles at which the farthest member may change, sorted, in [0, 2 pi). */
function turningAngles(points: readonly Vec2[], ellipses: readonly Ellipse[]): number[] {
  const angles: number[] = [];
  for (let i = 0; i < points.length && points.length > 1; i++) {
    const edge = minus(points[(i + 1) % points.length] as Vec2, points[i] as Vec2);
    angles.push(Math.atan2(-edge[0], edge[1]));
  }
  for (const [i, ellipse] of ellipses.entries()) {
    for (const point of points) angles.push(...tangentsFrom(point, ellipse));
    for (const other of ellipses.slice(i + 1)) angles.push(...commonTangents(ellipse, other));
  }
  const turned = angles.map((a) => ((a % fullTurnRad) + fullTurnRad) % fullTurnRad).sort((a, b) => a - b);
  return turned.filter((a, i) => i === 0 || a - (turned[i - 1] as number) > sameAngleRad);
}

/** Normals of the two tangents through a point outside an ellipse: those of the unit circle after scaling the axes. */
function tangentsFrom(point: Vec2, { centreMm, rxMm, ryMm }: Ellipse): number[] {
  const x = (point[0] - centreMm[0]) / rxMm;
  const y = (point[1] - centreMm[1]) / ryMm;
  const distance = Math.hypot(x, y);
  if (distance <= 1) return [];
  const half = Math.acos(1 / distance);
  const middle = Math.atan2(y, x);
  return [middle - half, middle + half].map((a) => Math.atan2(Math.sin(a) / ryMm, Math.cos(a) / rxMm));
}

function commonTangents(a: Ellipse, b: Ellipse): number[] {
  const apart = minus(a.centreMm, b.centreMm);
  const distance = Math.hypot(apart[0], apart[1]);
  const towards = Math.atan2(apart[1], apart[0]);
  const alike = a.rxMm === b.rxMm && a.ryMm === b.ryMm;
  if (alike || (a.rxMm === a.ryMm && b.rxMm === b.ryMm)) {
    const difference = alike ? 0 : b.rxMm - a.rxMm;
    if (distance <= Math.abs(difference)) return [];
    const half = Math.acos(difference / distance);
    return [towards - half, towards + half];
  }
  const lead = (angleRad: number): number => reachOf(a, direction(angleRad)) - reachOf(b, direction(angleRad));
  return signChanges(lead);
}

/** Zeros of a function of direction: at most eight for two ellipses, so 720 steps part them; each by bisection. */
function signChanges(f: (angleRad: number) => number): number[] {
  const zeros: number[] = [];
  const steps = 720;
  for (let i = 0; i < steps; i++) {
    let low = (i * fullTurnRad) / steps;
    let high = ((i + 1) * fullTurnRad) / steps;
    const below = f(low) < 0;
    if (below === f(high) < 0) continue;
    for (let k = 0; k < 60; k++) {
      const middle = (low + high) / 2;
      if (f(middle) < 0 === below) low = middle;
      else high = middle;
    }
    zeros.push((low + high) / 2);
  }
  return zeros;
}
