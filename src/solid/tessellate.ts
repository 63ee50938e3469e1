import { loftConvex } from './build.ts';
import type { Polyhedron, Ring, Vec3 } from './types.ts';

/** Fewest and most sides of a round part's polygon: a multiple of four, so that the extremes along x and y are corners. */
const LEAST_SIDES = 16;
const MOST_SIDES = 2048;

/** Sides of an inscribed polygon that stays within `chordMm` of a circle: the sagitta is r (1 - cos(pi / n)). */
export function sidesFor(radiusMm: number, chordMm: number): number {
  if (radiusMm <= chordMm) return LEAST_SIDES;
  const n = Math.PI / Math.acos(1 - chordMm / radiusMm);
  return Math.min(MOST_SIDES, Math.max(LEAST_SIDES, 4 * Math.ceil(n / 4)));
}

/** Largest distance between a circle and its inscribed polygon, mm. */
export const sagittaMm = (radiusMm: number, sides: number): number => radiusMm * (1 - Math.cos(Math.PI / sides));

/** Corners of an inscribed polygon, counter-clockwise from the +x extreme; quarter points are exact. */
export function ringPoints(ring: Ring, sides: number): readonly Vec3[] {
  return [...Array(sides).keys()].map((k): Vec3 => {
    const quarter = (4 * k) / sides;
    const exact = Number.isInteger(quarter);
    const c = exact ? ([1, 0, -1, 0][quarter] ?? 0) : Math.cos((2 * Math.PI * k) / sides);
    const s = exact ? ([0, 1, 0, -1][quarter] ?? 0) : Math.sin((2 * Math.PI * k) / sides);
    return [(ring.xMm ?? 0) + ring.rxMm * c, (ring.yMm ?? 0) + ring.ryMm * s, ring.zMm];
  });
}

/** Greatest radius of a list of rings, mm. */
export const greatestRadiusMm = (list: readonly Ring[]): number => Math.max(...list.map((r) => Math.max(r.rxMm, r.ryMm)));

/** The body between two rings as an inscribed convex prism. */
export function tessellateBand(lower: Ring, upper: Ring, chordMm: number): Polyhedron {
  const sides = sidesFor(greatestRadiusMm([lower, upper]), chordMm);
  return loftConvex([ringPoints(lower, sides), ringPoints(upper, sides)]);
}
