import type { Vec3 } from '../solid/index.ts';
import { cross, dot, minus, plus, times, unit } from './vector.ts';

/**
 * World mm to picture: [right, up, nearness]. Planes stay planes and lines stay lines in all three coordinates,
 * so hidden lines and the order of faces are found the same way for a drawing and for a perspective.
 */
export interface Projection {
  readonly project: (world: Vec3) => Vec3;
  /** Unit vector from a point to the eye. */
  readonly toEye: (world: Vec3) => Vec3;
  /** Share of the way in the world that belongs to a share `t` of the way in the picture between two points of the picture. */
  readonly worldShare: (a: Vec3, b: Vec3, t: number) => number;
  /** Picture units per mm of the world, at the middle of the table: what a tolerance in mm is multiplied with. */
  readonly unitsPerMm: number;
}

/** A view of the drawing office: the eye far off along right x up. Picture units are mm of the world. */
export function orthographic(right: Vec3, up: Vec3): Projection {
  const eye = cross(right, up);
  return { project: (p) => [dot(p, right), dot(p, up), dot(p, eye)], toEye: () => eye, worldShare: (_a, _b, t) => t, unitsPerMm: 1 };
}

export interface Camera {
  readonly eyeMm: Vec3;
  /** A point that falls on the middle of the picture. */
  readonly targetMm: Vec3;
  /** Sheet mm per mm of the world at the target. */
  readonly unitsPerMm: number;
}

/**
 * Perspective on an upright plane, as through a lens shifted down: uprights stay upright and parallel.
 * @source common practice of architectural photography (shift lens)
 */
export function perspective({ eyeMm, targetMm, unitsPerMm }: Camera): Projection {
  const toTarget = minus(targetMm, eyeMm);
  const forward = unit([toTarget[0], toTarget[1], 0]);
  const right = cross(forward, [0, 0, 1]);
  const distanceMm = dot(toTarget, forward);
  const onAxis = plus(eyeMm, times(forward, distanceMm));
  const dropMm = targetMm[2] - onAxis[2];
  const scale = unitsPerMm * distanceMm;
  const project = (p: Vec3): Vec3 => {
    const d = minus(p, eyeMm);
    const w = dot(d, forward);
    return [(scale * dot(d, right)) / w, (scale * d[2]) / w - unitsPerMm * dropMm, (scale * distanceMm) / w];
  };
  // Nearness is a constant over depth, so the depths' inverses are at hand.
  const worldShare = (a: Vec3, b: Vec3, t: number): number => (t * b[2]) / ((1 - t) * a[2] + t * b[2]);
  return { project, toEye: (p) => unit(minus(eyeMm, p)), worldShare, unitsPerMm };
}
