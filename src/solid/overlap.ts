import { boundsMeet, boundsMm, placedReachMm } from './bounds.ts';
import { convexPieces, intersectConvex } from './cut.ts';
import { moments } from './moments.ts';
import { areaVector, facePlanes, loopPoints, moved, type Plane } from './polyhedron.ts';
import { CHORD_MM, SPLINTER_MM } from './tolerance.ts';
import type { Placement, Polyhedron, Solid, Vec3 } from './types.ts';
import { add, directionToTable, dot, norm, scale, toTable } from './vector.ts';

/** A solid and where it stands. */
export interface Placed {
  readonly solid: Solid;
  readonly placement: Placement;
}

/** Convex pieces of a placed solid in the table's frame. */
export const placedPieces = ({ solid, placement }: Placed, chordMm: number = CHORD_MM): readonly Polyhedron[] =>
  convexPieces(solid, chordMm).map((piece) => moved(piece, (p) => toTable(placement, p)));

/** Material that two bodies claim both. */
export interface Overlap {
  readonly volumeMm3: number;
  /** Its middle in the table's frame. */
  readonly centroidMm: Vec3;
  /** Faces of `a` inside `b` (of `b` inside `a` where only `b` has plane faces): where they would be glued; loops in the table's frame. */
  readonly mouth: readonly (readonly Vec3[])[];
}

const NOTHING: Overlap = { volumeMm3: 0, centroidMm: [0, 0, 0], mouth: [] };

/**
 * Shared volume of two placed solids: exact for plane-faced bodies by half-space cuts. Round bodies count as inscribed prisms within
 * CHORD_MM, so that a peg in its hole, or a post beside a rail, errs to no overlap.
 */
export function overlapOf(a: Placed, b: Placed): Overlap {
  if (!boundsMeet(boundsMm(a.solid, a.placement), boundsMm(b.solid, b.placement), 0)) return NOTHING;
  // Most parts that meet only touch: a face of one keeps the other out.
  if (widestSlitMm(a, b, false) > -SPLINTER_MM || widestSlitMm(b, a, false) > -SPLINTER_MM) return NOTHING;
  let volume = 0;
  let first: Vec3 = [0, 0, 0];
  const mouth: (readonly Vec3[])[] = [];
  const byOther = a.solid.kind === 'rings' && b.solid.kind === 'polyhedron';
  const others = placedPieces(b).map((body) => ({ body, box: boundsMm(body), planes: facePlanes(body) }));
  for (const piece of placedPieces(a)) {
    const box = boundsMm(piece);
    const own = facePlanes(piece);
    for (const other of others) {
      if (!boundsMeet(box, other.box, 0)) continue;
      const shared = intersectConvex(piece, other.body);
      if (shared === undefined) continue;
      const m = moments(shared);
      volume += m.volumeMm3;
      first = add(first, m.firstMm4);
      mouth.push(...(byOther ? facesOn(shared, other.planes, own) : facesOn(shared, own, other.planes)));
    }
  }
  if (volume <= 0) return NOTHING;
  return { volumeMm3: volume, centroidMm: scale(first, 1 / volume), mouth };
}

/** Material that three bodies claim at once, as `overlapOf`; without faces. */
export function overlapOfThree(a: Placed, b: Placed, c: Placed): Omit<Overlap, 'mouth'> {
  let volume = 0;
  let first: Vec3 = [0, 0, 0];
  const [bs, cs] = [placedPieces(b), placedPieces(c)];
  for (const one of placedPieces(a)) {
    for (const two of bs) {
      const both = intersectConvex(one, two);
      if (both === undefined) continue;
      for (const three of cs) {
        const shared = intersectConvex(both, three);
        if (shared === undefined) continue;
        const m = moments(shared);
        volume += m.volumeMm3;
        first = add(first, m.firstMm4);
      }
    }
  }
  return { volumeMm3: volume, centroidMm: volume > 0 ? scale(first, 1 / volume) : [0, 0, 0] };
}

/** Faces of `body` that lie on one of `planes` and on none of `except`. */
function facesOn(body: Polyhedron, planes: readonly Plane[], except: readonly Plane[]): readonly (readonly Vec3[])[] {
  return body.faces.flatMap((face) => {
    const points = loopPoints(body, face.loops[0] ?? []);
    const twice = areaVector(points);
    const size = norm(twice);
    if (size < 1e-9) return [];
    const normal = scale(twice, 1 / size);
    const offset = dot(normal, points[0] as Vec3);
    const lies = (p: Plane): boolean => dot(p.normal, normal) > 1 - 1e-9 && Math.abs(p.offsetMm - offset) < 1e-6;
    return planes.some(lies) && !except.some(lies) ? [points] : [];
  });
}

/**
 * Distance between two placed convex bodies, mm, as the widest slit that a plane along one of their faces shows: exact where faces look at
 * each other, a lower bound past corners; 0 where they touch or overlap.
 */
export const gapMm = (a: Placed, b: Placed): number => Math.max(0, widestSlitMm(a, b, true), widestSlitMm(b, a, true));

/** Widest slit between two solids along a face of `from`, mm; below 0 where each such plane cuts `to`. */
function widestSlitMm(from: Placed, to: Placed, aroundToo: boolean): number {
  let most = Number.NEGATIVE_INFINITY;
  for (const normal of outwardNormals(from.solid, aroundToo)) {
    const outward = directionToTable(from.placement, normal);
    const nearest = -placedReachMm(to.solid, to.placement, scale(outward, -1));
    most = Math.max(most, nearest - placedReachMm(from.solid, from.placement, outward));
  }
  return most;
}

/** Normals of plane faces; of a round body its two ends and, where wanted, directions around it. */
function outwardNormals(solid: Solid, aroundToo: boolean): readonly Vec3[] {
  if (solid.kind === 'polyhedron') return facePlanes(solid).map((p) => p.normal);
  return aroundToo ? [...ENDS, ...AROUND] : ENDS;
}

const ENDS: readonly Vec3[] = [
  [0, 0, 1],
  [0, 0, -1],
];
const AROUND: readonly Vec3[] = [...Array(32).keys()].map((k): Vec3 => [Math.cos((Math.PI * k) / 16), Math.sin((Math.PI * k) / 16), 0]);
