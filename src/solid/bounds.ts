import type { Mat3, Placement, Solid, Vec3 } from './types.ts';
import { AT_ORIGIN, along, directionToLocal, dot, IDENTITY, scale, transposed } from './vector.ts';

/** How far a solid reaches along a unit direction of its own axes, mm: exact for round bodies too. */
export function reachMm(solid: Solid, direction: Vec3): number {
  if (solid.kind === 'polyhedron') {
    let most = Number.NEGATIVE_INFINITY;
    for (const v of solid.vertices) most = Math.max(most, dot(v, direction));
    return most;
  }
  let most = Number.NEGATIVE_INFINITY;
  for (const r of solid.rings) {
    const middle = (r.xMm ?? 0) * direction[0] + (r.yMm ?? 0) * direction[1] + r.zMm * direction[2];
    most = Math.max(most, middle + Math.hypot(r.rxMm * direction[0], r.ryMm * direction[1]));
  }
  return most;
}

/** How far a placed solid reaches along a unit direction of the table's frame, mm from the origin. */
export const placedReachMm = (solid: Solid, placement: Placement, direction: Vec3): number =>
  reachMm(solid, directionToLocal(placement, direction)) + dot(placement.originMm, direction);

/** Box along three axes: least and greatest coordinates. */
export interface Bounds {
  readonly minMm: Vec3;
  readonly maxMm: Vec3;
}

/** Smallest box along the columns of `frame` (the table's axes without one). Exact. */
export function boundsMm(solid: Solid, placement: Placement = AT_ORIGIN, frame: Mat3 = IDENTITY): Bounds {
  const axes = transposed(frame);
  const reach = (axis: Vec3): number => placedReachMm(solid, placement, axis);
  return {
    minMm: [-reach(scale(axes[0], -1)), -reach(scale(axes[1], -1)), -reach(scale(axes[2], -1))],
    maxMm: [reach(axes[0]), reach(axes[1]), reach(axes[2])],
  };
}

/** Box around several boxes. */
export function boundsOfAll(boxes: readonly Bounds[]): Bounds {
  const pick = (choose: (...n: number[]) => number, which: (b: Bounds) => Vec3): Vec3 => [
    choose(...boxes.map((b) => which(b)[0])),
    choose(...boxes.map((b) => which(b)[1])),
    choose(...boxes.map((b) => which(b)[2])),
  ];
  return { minMm: pick(Math.min, (b) => b.minMm), maxMm: pick(Math.max, (b) => b.maxMm) };
}

/** Do two boxes come within `slackMm` of each other? */
export const boundsMeet = (a: Bounds, b: Bounds, slackMm: number): boolean =>
  [0, 1, 2].every(
    (i) => (a.minMm[i] as number) <= (b.maxMm[i] as number) + slackMm && (b.minMm[i] as number) <= (a.maxMm[i] as number) + slackMm,
  );

/** Lowest point above the floor, mm. */
export const lowestMm = (solid: Solid, placement: Placement): number => -placedReachMm(solid, placement, scale(along('z'), -1));

/** Highest point above the floor, mm. */
export const highestMm = (solid: Solid, placement: Placement): number => placedReachMm(solid, placement, along('z'));
