import type { Vec2 } from '../solid/index.ts';
import type { Hull, HullPiece } from './convex.ts';
import { direction, dot, hullOf, minus, supportPoint } from './convex.ts';

/** A closed convex curve on the top on which a load may stand. */
export interface Rim {
  readonly corners: readonly Vec2[];
  readonly edges: readonly { readonly from: Vec2; readonly to: Vec2; readonly normal: Vec2 }[];
  readonly curved: boolean;
  /** Point of the curve farthest along a unit vector. */
  readonly farthest: (normal: Vec2) => Vec2;
}

/** Chord error where curved pieces are taken as polygons, mm: far below what can be drawn or cut. */
const chordMm = 1e-3;

/** The hull as a polygon, counter-clockwise; its arcs as inscribed chords within 0.001 mm. */
export function polygonOf(hull: Hull): Vec2[] {
  return hull.pieces.length === 0 ? [...hull.points] : hull.pieces.flatMap((piece) => pointsOf(piece));
}

/** The very edge of the top. */
export function outerRim(outline: Hull): Rim {
  const edges = outline.pieces.filter((piece) => piece.kind === 'edge');
  const corners = edges.length > 0 ? edges.flatMap((edge) => [edge.from, edge.to]) : outline.points;
  return {
    corners: withoutRepeats(corners),
    edges,
    curved: outline.pieces.some((piece) => piece.kind === 'arc'),
    farthest: (normal) => supportPoint(outline, normal),
  };
}

/**
 * The inner parallel curve of the outline. Exact for polygons (each edge moved in) and for one ellipse (with the corner that appears
 * on the long axis once the distance exceeds the smallest radius of curvature); an outline of both is taken as a polygon within 0.001 mm.
 * Where the top is too narrow for the distance, the largest distance that it holds is used.
 */
export function innerRim(outline: Hull, insetMm: number): Rim {
  const only = outline.pieces.length === 1 ? outline.pieces[0] : undefined;
  if (only?.kind === 'arc') return innerEllipse(only, insetMm);
  const polygon = polygonOf(outline);
  let corners = insetPolygon(polygon, insetMm);
  if (corners.length === 0) {
    let holds = 0;
    let fails = insetMm;
    for (let k = 0; k < 50; k++) {
      const middle = (holds + fails) / 2;
      if (insetPolygon(polygon, middle).length > 0) holds = middle;
      else fails = middle;
    }
    corners = insetPolygon(polygon, holds);
  }
  return outerRim(hullOf([{ kind: 'polygon', points: corners }]));
}

function innerEllipse(piece: Extract<HullPiece, { kind: 'arc' }>, insetMm: number): Rim {
  const { centreMm, rxMm, ryMm } = piece.ellipse;
  const long = Math.max(rxMm, ryMm);
  const short = Math.min(rxMm, ryMm);
  const inset = Math.min(insetMm, short);
  const alongX = rxMm >= ryMm;
  const trims = inset > (short * short) / long;
  // The offset curve meets the long axis where cos(t)^2 = (a^2 - d^2 a^2 / b^2) / (a^2 - b^2), at a (1 - b^2 / a^2) cos(t).
  const cos = trims ? Math.sqrt(Math.max(0, (long * long - (inset * long) ** 2 / (short * short)) / (long * long - short * short))) : 1;
  const tip = (long - (short * short) / long) * cos;
  const place = (along: number, across: number): Vec2 =>
    alongX ? [centreMm[0] + along, centreMm[1] + across] : [centreMm[0] + across, centreMm[1] + along];
  const farthest = (normal: Vec2): Vec2 => {
    const [n, m] = alongX ? normal : [normal[1], normal[0]];
    const reach = Math.hypot(long * n, short * m);
    const along = (long * long * n) / reach - inset * n;
    const across = (short * short * m) / reach - inset * m;
    const folded = trims && across * m <= 0;
    return folded ? place(Math.sign(n) * tip, 0) : place(along, across);
  };
  return { corners: trims ? [place(-tip, 0), place(tip, 0)] : [], edges: [], curved: true, farthest };
}

/** Corners of a convex polygon whose edges have all been moved in; empty where nothing is left. */
function insetPolygon(polygon: readonly Vec2[], insetMm: number): Vec2[] {
  let kept: Vec2[] = [...polygon];
  for (const [i, from] of polygon.entries()) {
    const to = polygon[(i + 1) % polygon.length] as Vec2;
    const along = minus(to, from);
    const length = Math.hypot(along[0], along[1]);
    if (length === 0) continue;
    const normal: Vec2 = [along[1] / length, -along[0] / length];
    kept = cut(kept, normal, dot(normal, from) - insetMm);
  }
  return kept;
}

/** What is left of a convex polygon where `normal . p <= offsetMm`. */
export function cut(polygon: readonly Vec2[], normal: Vec2, offsetMm: number): Vec2[] {
  const kept: Vec2[] = [];
  for (const [i, from] of polygon.entries()) {
    const to = polygon[(i + 1) % polygon.length] as Vec2;
    const a = dot(normal, from) - offsetMm;
    const b = dot(normal, to) - offsetMm;
    if (a <= 0) kept.push(from);
    if (a < 0 !== b < 0 && a !== b) {
      const share = a / (a - b);
      kept.push([from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])]);
    }
  }
  return kept;
}

function pointsOf(piece: HullPiece): Vec2[] {
  if (piece.kind === 'edge') return [piece.from];
  const radius = Math.max(piece.ellipse.rxMm, piece.ellipse.ryMm);
  const turn = piece.toRad - piece.fromRad;
  const count = Math.max(2, Math.ceil(turn / (2 * Math.acos(1 - chordMm / radius))));
  const hull = { points: [], ellipses: [piece.ellipse] };
  return Array.from({ length: count }, (_, i) => supportPoint(hull, direction(piece.fromRad + (i * turn) / count)));
}

function withoutRepeats(points: readonly Vec2[]): Vec2[] {
  return points.filter((p, i) => points.findIndex((q) => q[0] === p[0] && q[1] === p[1]) === i);
}
