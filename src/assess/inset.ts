import type { Vec2 } from '../solid/index.ts';
import type { Hull } from './convex.ts';
import { direction, dot, supportPoint } from './convex.ts';
import { largestBetween } from './extremum.ts';

/**
 * Shortest way in plan from the rim of a convex outline inward to a convex shadow, mm; negative where the shadow sticks out.
 * For points inside, the distance to the rim is the least over all directions n of H(n) - n . p, H the outline's support function;
 * straight edges ask their own normals only.
 * @source Schneider, Convex Bodies: The Brunn-Minkowski Theory, section 3.1, inner parallel bodies (from memory)
 */
export function insetMm(outline: Hull, shadow: Hull): number {
  let least = Number.POSITIVE_INFINITY;
  for (const piece of outline.pieces) {
    if (piece.kind === 'edge') least = Math.min(least, insetAlongMm(outline, shadow, piece.normal));
    else least = Math.min(least, -largestBetween((a) => -insetAlongMm(outline, shadow, direction(a)), piece.fromRad, piece.toRad).value);
  }
  return least;
}

/** Way inward from the outline's farthest point in one direction to the shadow's, mm. */
export function insetAlongMm(outline: Hull, shadow: Hull, normal: Vec2): number {
  return dot(supportPoint(outline, normal), normal) - dot(supportPoint(shadow, normal), normal);
}
