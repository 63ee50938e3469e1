import { areaVector, facePlane, loopPoints } from './polyhedron.ts';
import { greatestRadiusMm, ringPoints, sagittaMm, sidesFor } from './tessellate.ts';
import { EDGE_RAD } from './tolerance.ts';
import { triangulate } from './triangulate.ts';
import type { Mesh, Polyhedron, Ring, RingStack, Solid, Vec3 } from './types.ts';
import { dot, flatten, norm, planeBasis } from './vector.ts';

/**
 * Watertight triangles of a solid in its own axes, wound outwards, and its sharp edges. Every face of the solid has one number; the
 * triangles of a curved band share theirs, for smooth shading. Round parts lie inside by at most `chordErrorMm`.
 */
export const meshOf = (solid: Solid, chordErrorMm: number): Mesh =>
  solid.kind === 'polyhedron' ? meshOfPolyhedron(solid) : meshOfRings(solid, chordErrorMm);

type Triangle = readonly [number, number, number];
type Edge = readonly [number, number];

function meshOfPolyhedron(solid: Polyhedron): Mesh {
  const triangles: Triangle[] = [];
  const faceOf: number[] = [];
  solid.faces.forEach((face, number) => {
    const corners = face.loops.flat();
    const loops = face.loops.map((loop) => loopPoints(solid, loop));
    if (norm(areaVector(loops[0] ?? [])) < 1e-12) return;
    const basis = planeBasis(facePlane(solid, number).normal);
    for (const [a, b, c] of triangulate(loops.map((loop) => loop.map((p) => flatten(basis, p))))) {
      triangles.push([corners[a] as number, corners[b] as number, corners[c] as number]);
      faceOf.push(number);
    }
  });
  return {
    positions: solid.vertices,
    triangles,
    faceOf,
    smooth: solid.faces.map(() => false),
    edges: sharpEdges(solid),
    chordErrorMm: 0,
  };
}

/** Edges where the two faces turn by more than EDGE_RAD. */
function sharpEdges(solid: Polyhedron): readonly Edge[] {
  const sides = new Map<string, { readonly edge: Edge; readonly faces: number[] }>();
  solid.faces.forEach((face, number) => {
    for (const loop of face.loops) {
      loop.forEach((i, k) => {
        const j = loop[(k + 1) % loop.length] as number;
        const edge: Edge = i < j ? [i, j] : [j, i];
        const key = edge.join();
        const known = sides.get(key);
        if (known === undefined) sides.set(key, { edge, faces: [number] });
        else known.faces.push(number);
      });
    }
  });
  return [...sides.values()]
    .filter(({ faces: [a, b] }) => {
      if (a === undefined || b === undefined) return true;
      return dot(facePlane(solid, a).normal, facePlane(solid, b).normal) < Math.cos(EDGE_RAD);
    })
    .map(({ edge }) => edge);
}

function meshOfRings(solid: RingStack, chordErrorMm: number): Mesh {
  const sides = sidesFor(greatestRadiusMm(solid.rings), chordErrorMm);
  const positions: Vec3[] = [];
  const rows = solid.rings.map((ring) => {
    const isPoint = ring.rxMm === 0 && ring.ryMm === 0;
    const points = isPoint ? [[ring.xMm ?? 0, ring.yMm ?? 0, ring.zMm] as Vec3] : ringPoints(ring, sides);
    const start = positions.length;
    positions.push(...points);
    return { start, isPoint };
  });
  const triangles: Triangle[] = [];
  const faceOf: number[] = [];
  const smooth: boolean[] = [];
  const push = (triangle: Triangle): void => {
    triangles.push(triangle);
    faceOf.push(smooth.length - 1);
  };
  const corner = (row: number, k: number): number => {
    const { start, isPoint } = rows[row] as { start: number; isPoint: boolean };
    return isPoint ? start : start + (k % sides);
  };
  const cap = (row: number, up: boolean): void => {
    if (rows[row]?.isPoint !== false) return;
    smooth.push(false);
    for (let k = 1; k + 1 < sides; k++) {
      if (up) push([corner(row, 0), corner(row, k), corner(row, k + 1)]);
      else push([corner(row, 0), corner(row, k + 1), corner(row, k)]);
    }
  };
  cap(0, false);
  solid.rings.slice(1).forEach((upper, row) => {
    const lower = solid.rings[row] as Ring;
    smooth.push(upper.zMm > lower.zMm);
    for (let k = 0; k < sides; k++) {
      const [a, b, c, d] = [corner(row, k), corner(row, k + 1), corner(row + 1, k + 1), corner(row + 1, k)];
      if (a !== b) push([a, b, c]);
      if (c !== d) push([a, c, d]);
    }
  });
  cap(rows.length - 1, true);
  const edges = solid.rings.flatMap((_, row) =>
    rows[row]?.isPoint !== false || !isCrease(solid.rings, row)
      ? []
      : [...Array(sides).keys()].map((k): Edge => [corner(row, k), corner(row, k + 1)]),
  );
  return { positions, triangles, faceOf, smooth, edges, chordErrorMm: sagittaMm(greatestRadiusMm(solid.rings), sides) };
}

/** Does the profile turn at a ring by more than EDGE_RAD, along x or along y? The ends always do. */
function isCrease(list: readonly Ring[], row: number): boolean {
  const here = list[row];
  const below = list[row - 1];
  const above = list[row + 1];
  if (here === undefined || below === undefined || above === undefined) return true;
  const lean = (from: number, to: number, a: Ring, b: Ring): number => Math.atan2(to - from, b.zMm - a.zMm);
  const turns = (of: (r: Ring) => number): number =>
    Math.abs(lean(of(below), of(here), below, here) - lean(of(here), of(above), here, above));
  return turns((r) => r.rxMm) > EDGE_RAD || turns((r) => r.ryMm) > EDGE_RAD;
}
