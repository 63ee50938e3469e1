import type { Vec3 } from '../solid/index.ts';
import type { Projection } from './projection.ts';
import type { Shape, ShapeFace } from './shape.ts';
import { dot, newell, nth } from './vector.ts';

/** A face as the eye sees it. `slope` gives nearness = slope[0] u + slope[1] v + slope[2] over its plane. */
export interface SeenFace {
  readonly points: readonly Vec3[];
  readonly slope: Vec3;
  /**
   * Per side three numbers a, b, c: a u + b v + c is how far a point lies inside. Sides that end what the shape covers are
   * drawn in by the guard, sides beyond which the next face also looks at the eye are let out by it.
   */
  readonly sides: Float64Array;
  readonly box: readonly [number, number, number, number];
}

export interface SeenEdge {
  readonly a: Vec3;
  readonly b: Vec3;
}

/** A table in picture coordinates: the faces that look at the eye and the edges that could be drawn. */
export interface Stage {
  readonly projection: Projection;
  readonly shapes: readonly Shape[];
  readonly faces: readonly SeenFace[];
  readonly edges: readonly SeenEdge[];
}

/** Faces seen at less than this cosine (about 0.006 degrees) are edge-on: they cover nothing. */
const EDGE_ON = 1e-4;

export function boxOf(points: readonly Vec3[]): readonly [number, number, number, number] {
  let [left, low, right, high] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const [u, v] of points) {
    left = Math.min(left, u);
    right = Math.max(right, u);
    low = Math.min(low, v);
    high = Math.max(high, v);
  }
  return [left, low, right, high];
}

/** Guard at the sides of faces, mm of the world: an edge on the very rim of a face is not behind it. */
export const GUARD_MM = 1e-3;

const isSeen = (neighbour: number | undefined, looks: readonly boolean[]): boolean => neighbour !== undefined && looks[neighbour] === true;

function sidesOf(points: readonly Vec3[], shift: (side: number) => number): Float64Array {
  const out = new Float64Array(points.length * 3);
  points.forEach((p, i) => {
    const q = nth(points, i + 1);
    const [du, dv] = [q[0] - p[0], q[1] - p[1]];
    const length = Math.hypot(du, dv);
    const [a, b] = length === 0 ? [0, 0] : [-dv / length, du / length];
    out.set([a, b, length === 0 ? 1 : -(a * p[0] + b * p[1]) + shift(i)], 3 * i);
  });
  return out;
}

/**
 * The plane of a face, as nearness over the picture. A face may be warped, as the chamfer under an oval is: its plane is then moved
 * back until it lies in front of none of the corners, or the face would hide its own edges.
 */
function slopeOf(points: readonly Vec3[]): Vec3 {
  const [nu, nv, nd] = newell(points);
  const [su, sv] = [-nu / nd, -nv / nd];
  return [su, sv, Math.min(...points.map(([u, v, d]) => d - su * u - sv * v))];
}

export const looksAtEye = (face: ShapeFace, projection: Projection): boolean =>
  dot(face.normal, projection.toEye(nth(face.points, 0))) > EDGE_ON;

/** Sets the shapes on the stage: projects every face, keeps those that look at the eye, and the edges worth testing. */
export function setStage(shapes: readonly Shape[], projection: Projection): Stage {
  const guard = GUARD_MM * projection.unitsPerMm;
  const faces: SeenFace[] = [];
  const edges: SeenEdge[] = [];
  for (const shape of shapes) {
    const looks = shape.faces.map((face) => looksAtEye(face, projection));
    shape.faces.forEach((face, index) => {
      if (looks[index] !== true) return;
      const points = face.points.map(projection.project);
      const slope = slopeOf(points);
      const sides = sidesOf(points, (i) => (isSeen(face.neighbours[i], looks) ? guard : -guard));
      faces.push({ points, slope, sides, box: boxOf(points) });
    });
    for (const edge of shape.edges) {
      const turned = edge.faces.length === 2 && looks[nth(edge.faces, 0)] !== looks[nth(edge.faces, 1)];
      if (edge.kind === 'smooth' && !turned) continue;
      const a = projection.project(edge.a);
      const b = projection.project(edge.b);
      if (Math.hypot(b[0] - a[0], b[1] - a[1]) > 1e-6 * projection.unitsPerMm) edges.push({ a, b });
    }
  }
  return { projection, shapes, faces, edges };
}
