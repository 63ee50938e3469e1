import { areaVector, loopPoints } from './polyhedron.ts';
import type { Placement, Polyhedron, Ring, RingStack, Solid, Vec3 } from './types.ts';
import { AT_ORIGIN, add, cross, dot, scale, subtract, toTable } from './vector.ts';

/** Volume, and first moments about the planes through the origin of the part's own axes. */
export interface Moments {
  readonly volumeMm3: number;
  readonly firstMm4: Vec3;
}

/**
 * Exact volume and first moments of a solid in its own axes.
 * @source polyhedra: divergence theorem, e.g. Eberly, "Polyhedral Mass Properties", Geometric Tools (2002); ring stacks: integral of
 * the ellipse's area along the axis, a polynomial of third degree between two rings
 */
export const moments = (solid: Solid): Moments => (solid.kind === 'polyhedron' ? ofPolyhedron(solid) : ofRings(solid));

/** Volume in mm3. */
export const volumeMm3 = (solid: Solid): number => moments(solid).volumeMm3;

/** Middle of volume in the table's frame (in the part's own axes without a placement). */
export function centroidMm(solid: Solid, placement: Placement = AT_ORIGIN): Vec3 {
  const { volumeMm3: volume, firstMm4 } = moments(solid);
  return toTable(placement, scale(firstMm4, 1 / volume));
}

function ofPolyhedron(solid: Polyhedron): Moments {
  // Measured from a corner of the body, so that a far origin costs no digits.
  const origin = solid.vertices[0] ?? [0, 0, 0];
  let sixfold = 0;
  let moment: Vec3 = [0, 0, 0];
  for (const face of solid.faces) {
    for (const loop of face.loops) {
      const points = loopPoints(solid, loop).map((p) => subtract(p, origin));
      const a = points[0] ?? [0, 0, 0];
      for (let i = 1; i + 1 < points.length; i++) {
        const b = points[i] as Vec3;
        const c = points[i + 1] as Vec3;
        const tetra = dot(a, cross(b, c));
        sixfold += tetra;
        moment = add(moment, scale(add(a, add(b, c)), tetra));
      }
    }
  }
  const volume = sixfold / 6;
  return { volumeMm3: volume, firstMm4: add(scale(moment, 1 / 24), scale(origin, volume)) };
}

function ofRings(solid: RingStack): Moments {
  let volume = 0;
  let first: Vec3 = [0, 0, 0];
  solid.rings.slice(1).forEach((upper, k) => {
    const band = ofBand(solid.rings[k] as Ring, upper);
    volume += band.volumeMm3;
    first = add(first, band.firstMm4);
  });
  return { volumeMm3: volume, firstMm4: first };
}

/** Area(t) = c0 + c1 t + c2 t^2 and centre(t) linear, t from 0 at the lower ring to 1 at the upper. */
function ofBand(lower: Ring, upper: Ring): Moments {
  const h = upper.zMm - lower.zMm;
  const dx = upper.rxMm - lower.rxMm;
  const dy = upper.ryMm - lower.ryMm;
  const c0 = Math.PI * lower.rxMm * lower.ryMm;
  const c1 = Math.PI * (lower.rxMm * dy + lower.ryMm * dx);
  const c2 = Math.PI * dx * dy;
  const whole = h * (c0 + c1 / 2 + c2 / 3);
  const weighted = h * (c0 / 2 + c1 / 3 + c2 / 4);
  const along = (from: number, to: number): number => from * whole + (to - from) * weighted;
  return {
    volumeMm3: whole,
    firstMm4: [along(lower.xMm ?? 0, upper.xMm ?? 0), along(lower.yMm ?? 0, upper.yMm ?? 0), along(lower.zMm, upper.zMm)],
  };
}

/** Area of a plane face with holes, mm2. */
export function faceAreaMm2(solid: Polyhedron, face: number): number {
  const total = (solid.faces[face]?.loops ?? [])
    .map((loop) => areaVector(loopPoints(solid, loop)))
    .reduce<Vec3>((sum, v) => add(sum, v), [0, 0, 0]);
  return Math.hypot(...total) / 2;
}
