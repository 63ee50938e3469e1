import type { Vec3 } from '../solid/index.ts';
import type { Shape, ShapeFace } from './shape.ts';
import type { Stage } from './stage.ts';
import { boxOf, looksAtEye } from './stage.ts';
import { cross, dot, minus, newell, nth, size, times, unit } from './vector.ts';

/** A plane in picture coordinates: inside is where `normal . p <= offset`. */
export interface Plane {
  readonly normal: Vec3;
  readonly offset: number;
}

/** A convex piece in picture coordinates, with the faces of it that are seen. */
export interface SeenPiece {
  readonly shape: Shape;
  readonly points: readonly Vec3[];
  readonly planes: readonly Plane[];
  /** Directions of its edges, for bodies that only a plane through two edges parts. */
  readonly directions: readonly Vec3[];
  readonly faces: readonly PieceFace[];
  readonly box: readonly [number, number, number, number];
}

/** Part of a seen face: whole, or what a cut left of it. */
export interface PieceFace {
  readonly shape: Shape;
  /** Faces of one run do not hide each other: those of one convex piece. */
  readonly run: number;
  readonly face: ShapeFace;
  /** In the picture, and the same corners in the table's frame. */
  readonly points: readonly Vec3[];
  readonly world: readonly Vec3[];
}

const planeThrough = (normal: Vec3, at: Vec3): Plane => ({ normal, offset: dot(normal, at) });

function directionsOf(loops: readonly (readonly Vec3[])[]): Vec3[] {
  const found: Vec3[] = [];
  for (const loop of loops) {
    if (loop.length > 8) continue;
    loop.forEach((p, i) => {
      const d = unit(minus(nth(loop, i + 1), p));
      if (found.length < 24 && !found.some((f) => Math.abs(dot(f, d)) > 1 - 1e-7)) found.push(d);
    });
  }
  return found;
}

/** The pieces on a stage that show at least one face. */
export function piecesOf(stage: Stage): SeenPiece[] {
  const { projection } = stage;
  const project = projection.project;
  let run = 0;
  return stage.shapes.flatMap((shape) =>
    shape.pieces.flatMap((piece): SeenPiece[] => {
      run += 1;
      const faces = piece.faces.flatMap((face): PieceFace[] =>
        looksAtEye(face, projection) ? [{ shape, run, face, points: face.points.map(project), world: face.points }] : [],
      );
      if (faces.length === 0) return [];
      const loops = piece.faces.map((face) => face.points.map(project));
      const planes = loops.map((loop) => planeThrough(unit(newell(loop)), nth(loop, 0)));
      for (const cut of piece.cuts) planes.push(projectedPlane(cut.normal, cut.at, project));
      const points = piece.points.map(project);
      return [{ shape, points, planes, directions: directionsOf(loops), faces, box: boxOf(points) }];
    }),
  );
}

/** A plane of the world in picture coordinates, by three of its points. */
function projectedPlane(normal: Vec3, at: Vec3, project: (p: Vec3) => Vec3): Plane {
  const some: Vec3 = Math.abs(normal[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0];
  const a = unit(cross(some, normal));
  const b = cross(normal, a);
  const [p, q, r] = [project(at), project([at[0] + a[0], at[1] + a[1], at[2] + a[2]]), project([at[0] + b[0], at[1] + b[1], at[2] + b[2]])];
  return planeThrough(unit(cross(minus(q, p), minus(r, p))), p);
}

/** How far all points lie beyond a plane: negative when some reach behind it. */
function clearance({ normal, offset }: Plane, points: readonly Vec3[], enough: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (const p of points) {
    const d = dot(normal, p) - offset;
    if (d < least) {
      least = d;
      if (least < enough) return least;
    }
  }
  return least;
}

/**
 * Which of two convex pieces must be painted first: -1 for `a` (it lies behind), 1 for `b`, 0 when neither can hide the other,
 * undefined when they run into each other by more than `tolerance`: then only their faces can be ordered.
 * Any plane that parts the two decides, because the eye is on one side of it.
 * @source separating axis theorem: S. Gottschalk, M. C. Lin, D. Manocha, "OBBTree", SIGGRAPH 1996 (from memory); order by a parting plane: common practice
 */
export function orderOf(a: SeenPiece, b: SeenPiece, tolerance: number): -1 | 0 | 1 | undefined {
  if (a.box[0] >= b.box[2] || b.box[0] >= a.box[2] || a.box[1] >= b.box[3] || b.box[1] >= a.box[3]) return 0;
  const verdict = (nearness: number, beyond: -1 | 1): -1 | 0 | 1 => {
    if (Math.abs(nearness) < 1e-9) return 0;
    return nearness > 0 === (beyond === 1) ? -1 : 1;
  };
  let best: { readonly gap: number; readonly result: -1 | 0 | 1 } | undefined;
  const consider = (gap: number, nearness: number, beyond: -1 | 1): void => {
    if (gap >= -tolerance && (best === undefined || gap > best.gap)) best = { gap, result: verdict(nearness, beyond) };
  };
  for (const plane of a.planes) consider(clearance(plane, b.points, best?.gap ?? -tolerance), plane.normal[2], 1);
  for (const plane of b.planes) consider(clearance(plane, a.points, best?.gap ?? -tolerance), plane.normal[2], -1);
  if (best !== undefined) return best.result;
  for (const da of a.directions) {
    for (const db of b.directions) {
      const axis = cross(da, db);
      if (size(axis) < 1e-6) continue;
      const normal = unit(axis);
      for (const sign of [1, -1]) {
        const n = times(normal, sign);
        const reach = Math.max(...a.points.map((p) => dot(n, p)));
        const gap = clearance({ normal: n, offset: reach }, b.points, -tolerance);
        if (gap >= -tolerance) return verdict(n[2], 1);
      }
    }
  }
  return undefined;
}
