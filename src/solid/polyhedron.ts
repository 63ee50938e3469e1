import type { Polyhedron, Vec3 } from './types.ts';
import { cross, dot, norm, scale, subtract, unit } from './vector.ts';

/** Unit normal and offset: a point p lies inside where `dot(normal, p) <= offsetMm`. */
export interface Plane {
  readonly normal: Vec3;
  readonly offsetMm: number;
}

const at = <T>(list: readonly T[], i: number): T => list[i % list.length] as T;

/** Twice the area of a loop as a vector along its normal (Newell's method): exact for any plane loop. */
export function areaVector(loop: readonly Vec3[]): Vec3 {
  const origin = loop[0] ?? [0, 0, 0];
  let [x, y, z] = [0, 0, 0];
  for (let i = 1; i + 1 < loop.length; i++) {
    const c = cross(subtract(at(loop, i), origin), subtract(at(loop, i + 1), origin));
    x += c[0];
    y += c[1];
    z += c[2];
  }
  return [x, y, z];
}

/** Points of one loop of a face. */
export const loopPoints = (solid: Polyhedron, loop: readonly number[]): readonly Vec3[] => loop.map((i) => solid.vertices[i] as Vec3);

/** Plane of a face, its normal pointing outwards. */
export function facePlane(solid: Polyhedron, face: number): Plane {
  const points = loopPoints(solid, solid.faces[face]?.loops[0] ?? []);
  const normal = unit(areaVector(points));
  return { normal, offsetMm: dot(normal, points[0] ?? [0, 0, 0]) };
}

/** Planes of all faces in order; faces without area are left out. */
export function facePlanes(solid: Polyhedron): readonly Plane[] {
  const planes: Plane[] = [];
  for (const face of solid.faces) {
    const points = loopPoints(solid, face.loops[0] ?? []);
    const twice = areaVector(points);
    const size = norm(twice);
    if (size < 1e-12) continue;
    const normal = scale(twice, 1 / size);
    planes.push({ normal, offsetMm: dot(normal, points[0] ?? [0, 0, 0]) });
  }
  return planes;
}

/** Do all corners lie behind every face? `slackMm` forgives rounding. */
export function isConvexBody(solid: Polyhedron, slackMm = 1e-7): boolean {
  const planes = facePlanes(solid);
  return solid.vertices.every((v) => planes.every((p) => dot(p.normal, v) <= p.offsetMm + slackMm));
}

/** The same body in other coordinates; `move` must keep lengths and handedness. */
export function moved(solid: Polyhedron, move: (p: Vec3) => Vec3): Polyhedron {
  return {
    ...solid,
    vertices: solid.vertices.map(move),
    ...(solid.pieces === undefined ? {} : { pieces: solid.pieces.map((p) => moved(p, move)) }),
  };
}
