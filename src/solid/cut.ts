import { facePlanes, type Plane } from './polyhedron.ts';
import { tessellateBand } from './tessellate.ts';
import { CHORD_MM, SPLINTER_MM } from './tolerance.ts';
import type { Polyhedron, Ring, Solid, Vec3 } from './types.ts';
import { add, dot, flatten, planeBasis, scale } from './vector.ts';

/**
 * What is left of a convex body behind a plane; `undefined` where nothing is.
 * The body itself comes back where the plane misses it.
 */
export function cutConvex(body: Polyhedron, plane: Plane): Polyhedron | undefined {
  const side = body.vertices.map((v) => {
    const d = dot(v, plane.normal) - plane.offsetMm;
    return Math.abs(d) < SPLINTER_MM ? 0 : d;
  });
  if (side.every((d) => d <= 0)) return body;
  if (side.every((d) => d >= 0)) return undefined;

  const vertices: Vec3[] = [...body.vertices];
  const crossings = new Map<number, number>();
  const crossing = (i: number, j: number): number => {
    const [from, to] = i < j ? [i, j] : [j, i];
    const key = from * body.vertices.length + to;
    const known = crossings.get(key);
    if (known !== undefined) return known;
    const a = side[from] as number;
    const b = side[to] as number;
    const t = a / (a - b);
    const p = body.vertices[from] as Vec3;
    const q = body.vertices[to] as Vec3;
    vertices.push(add(scale(p, 1 - t), scale(q, t)));
    crossings.set(key, vertices.length - 1);
    return vertices.length - 1;
  };

  const rim = new Set<number>();
  const loops: (readonly number[])[] = [];
  for (const face of body.faces) {
    const loop = face.loops[0] ?? [];
    const kept: number[] = [];
    loop.forEach((i, k) => {
      const j = loop[(k + 1) % loop.length] as number;
      const here = side[i] as number;
      const next = side[j] as number;
      if (here <= 0) kept.push(i);
      if (here === 0) rim.add(i);
      if (here * next < 0) {
        const c = crossing(i, j);
        kept.push(c);
        rim.add(c);
      }
    });
    if (kept.length > 2) loops.push(kept);
  }
  loops.push(aroundRim([...rim], vertices, plane.normal));
  return compact(vertices, loops);
}

/** Corners of the new face in order, counter-clockwise seen from outside. */
function aroundRim(rim: readonly number[], vertices: readonly Vec3[], normal: Vec3): readonly number[] {
  const basis = planeBasis(normal);
  const flat = rim.map((i) => flatten(basis, vertices[i] as Vec3));
  const cx = flat.reduce((s, p) => s + p[0], 0) / flat.length;
  const cy = flat.reduce((s, p) => s + p[1], 0) / flat.length;
  return rim
    .map((i, k) => ({ i, angle: Math.atan2((flat[k]?.[1] ?? 0) - cy, (flat[k]?.[0] ?? 0) - cx) }))
    .sort((a, b) => a.angle - b.angle)
    .map(({ i }) => i);
}

function compact(vertices: readonly Vec3[], loops: readonly (readonly number[])[]): Polyhedron {
  const place = new Map<number, number>();
  const kept: Vec3[] = [];
  const faces = loops.map((loop) => ({
    loops: [
      loop.map((i) => {
        const known = place.get(i);
        if (known !== undefined) return known;
        kept.push(vertices[i] as Vec3);
        place.set(i, kept.length - 1);
        return kept.length - 1;
      }),
    ],
  }));
  return { kind: 'polyhedron', vertices: kept, faces, convex: true };
}

/** What two convex bodies share; faces of `a` come first, then cuts by the faces of `b`. */
export function intersectConvex(a: Polyhedron, b: Polyhedron): Polyhedron | undefined {
  let left: Polyhedron | undefined = a;
  for (const plane of facePlanes(b)) {
    if (left === undefined) return undefined;
    left = cutConvex(left, plane);
  }
  return left;
}

/** Convex bodies that fill a solid; round bands become inscribed prisms within `chordMm`. */
export function convexPieces(solid: Solid, chordMm: number = CHORD_MM): readonly Polyhedron[] {
  if (solid.kind === 'polyhedron') return solid.convex ? [solid] : (solid.pieces ?? [solid]);
  return solid.rings.slice(1).flatMap((upper, k) => {
    const lower = solid.rings[k] as Ring;
    return upper.zMm > lower.zMm ? [tessellateBand(lower, upper, chordMm)] : [];
  });
}
