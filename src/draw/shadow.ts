import type { Vec2, Vec3 } from '../solid/index.ts';
import { LIGHT } from './colour.ts';
import type { Mark, PathStep } from './display-list.ts';
import { closed } from './paint.ts';
import type { Projection } from './projection.ts';
import type { Shape } from './shape.ts';
import { hull, unit } from './vector.ts';

/** How wide the light is, as a share of its distance; how much it leans, as a share of the shading light. */
const LIGHT_SPREAD = 0.17;
const LEAN = 0.3;
const RAYS = 26;
/** The thinnest veil that eight bits a colour can show, so that no single rim is seen; all of them together darken the floor by a tenth. */
const VEIL = 0.0039;

/** Points of a light with width: sunflower order, the middle first. @source H. Vogel, "A better way to construct the sunflower head", 1979 (from memory) */
function lightDirections(): Vec3[] {
  return Array.from({ length: RAYS }, (_, i) => {
    const away = LIGHT_SPREAD * Math.sqrt((i + 0.5) / RAYS);
    const angle = i * 2.399963229728653;
    return unit([LIGHT[0] * LEAN * 0.2 + away * Math.cos(angle), LIGHT[1] * LEAN + away * Math.sin(angle), LIGHT[2]]);
  });
}

/** The outlines, one per convex piece, that the table shades on the floor for a light in one direction. */
function shadowOutlines(shapes: readonly Shape[], direction: Vec3): Vec2[][] {
  const [kx, ky] = [direction[0] / direction[2], direction[1] / direction[2]];
  return shapes.flatMap(({ pieces }) => pieces.map(({ points }) => hull(points.map(([x, y, z]): Vec2 => [x - kx * z, y - ky * z]))));
}

/**
 * The soft shadow on the floor: a wide light as a handful of rays, each a thin veil with the true outline of the shadow.
 * Sharp where a foot stands, soft under the top; the pieces of one ray share a path, so that they do not darken each other.
 */
export function softShadow(shapes: readonly Shape[], projection: Projection, toSheet: (p: Vec3) => Vec2): Mark[] {
  return lightDirections().map((direction): Mark => {
    const steps = shadowOutlines(shapes, direction).flatMap((outline): PathStep[] =>
      closed(outline.map(([x, y]) => toSheet(projection.project([x, y, 0])))),
    );
    return { kind: 'face', fill: '#1d1c1a', opacity: VEIL, steps };
  });
}

/** Corners of the floor that the shadow reaches, for the size of the picture. */
export const shadowReach = (shapes: readonly Shape[]): Vec3[] =>
  lightDirections().flatMap((d) => shadowOutlines(shapes, d).flatMap((o) => o.map(([x, y]): Vec3 => [x, y, 0])));
