import type { Vec2 } from '../solid/index.ts';
import type { Hull } from './convex.ts';
import { hullOf, shapeOf } from './convex.ts';
import { insetMm } from './inset.ts';
import { polygonOf } from './rim.ts';
import type { SeatingEdge, Span } from './seating-edge.ts';

/** Step along a shadow's outline where a round top asks which of it lies within reach, mm: its spans are exact to this. */
const stepMm = 1;

/** The rim, measured from +x counter-clockwise; a body within reach takes the rim that it subtends from the middle. */
export function rimEdge(rxMm: number, ryMm: number, kneeMm: number): SeatingEdge {
  const outline = hullOf([shapeOf({ kind: 'ellipse', rxMm, ryMm })]);
  const { lengthMm, alongMm } = rimLength(rxMm, ryMm);
  const isNear = (p: Vec2): boolean => depthMm(rxMm, ryMm, p) < kneeMm;
  const spansOf = (shadow: Hull): readonly Span[] => {
    if (insetMm(outline, shadow) >= kneeMm) return [];
    const angles = stepsAlong(polygonOf(shadow))
      .filter(isNear)
      .map((p) => Math.atan2(p[1] / ryMm, p[0] / rxMm))
      .sort((a, b) => a - b);
    // Within reach the nearest point to the middle is this far off, in the ellipse's own angle: a wider gap is free rim.
    const gapRad = (4 * stepMm) / Math.max(stepMm, Math.min(rxMm, ryMm) - kneeMm);
    return groupsOf(angles, gapRad).map(([low, high]): Span => [alongMm(low), alongMm(high)]);
  };
  return { id: 'rim', lengthMm, closed: true, spansOf };
}

/**
 * Distance from a place under the top to an elliptic rim, mm; 0 outside.
 * The nearest point is (a^2 x / (t + a^2), b^2 y / (t + b^2)) for the one t at which it lies on the ellipse; found by bisection.
 * @source Eberly, "Distance from a Point to an Ellipse", Geometric Tools (from memory)
 */
export function depthMm(rxMm: number, ryMm: number, at: Vec2): number {
  const [a, b] = [Math.max(rxMm, ryMm), Math.min(rxMm, ryMm)];
  const [x, y] = rxMm >= ryMm ? [Math.abs(at[0]), Math.abs(at[1])] : [Math.abs(at[1]), Math.abs(at[0])];
  if ((x / a) ** 2 + (y / b) ** 2 >= 1) return 0;
  if (a === b) return a - Math.sqrt(x * x + y * y);
  const onRim = (t: number): number => ((a * x) / (t + a * a)) ** 2 + ((b * y) / (t + b * b)) ** 2 - 1;
  let [low, high] = [-b * b + b * y, 0];
  for (let k = 0; k < 50; k++) {
    const middle = (low + high) / 2;
    if (onRim(middle) > 0) low = middle;
    else high = middle;
  }
  const nearX = (a * a * x) / (high + a * a);
  // On the long axis near the middle the nearest point lies to the side, where t + b^2 is 0.
  const nearY = y > 0 ? (b * b * y) / (high + b * b) : b * Math.sqrt(Math.max(0, 1 - (nearX / a) ** 2));
  return Math.sqrt((x - nearX) ** 2 + (y - nearY) ** 2);
}

/** Length of an ellipse, and the length from +x to an angle of its parameter, by 3,600 chords (short by less than 1 in 1e6). */
function rimLength(rxMm: number, ryMm: number): { readonly lengthMm: number; readonly alongMm: (angleRad: number) => number } {
  const steps = 3600;
  const sums = [0];
  for (let i = 0; i < steps; i++) {
    const [a, b] = [(2 * Math.PI * i) / steps, (2 * Math.PI * (i + 1)) / steps];
    sums.push((sums[i] as number) + Math.hypot(rxMm * (Math.cos(b) - Math.cos(a)), ryMm * (Math.sin(b) - Math.sin(a))));
  }
  const lengthMm = sums[steps] as number;
  const alongMm = (angleRad: number): number => {
    const turns = Math.floor(angleRad / (2 * Math.PI));
    const exact = ((angleRad - turns * 2 * Math.PI) * steps) / (2 * Math.PI);
    const i = Math.min(steps - 1, Math.floor(exact));
    return turns * lengthMm + (sums[i] as number) + (exact - i) * ((sums[i + 1] as number) - (sums[i] as number));
  };
  return { lengthMm, alongMm };
}

function stepsAlong(polygon: readonly Vec2[]): Vec2[] {
  return polygon.flatMap((from, i) => {
    const to = polygon[(i + 1) % polygon.length] as Vec2;
    const count = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / stepMm));
    return Array.from(
      { length: count },
      (_, k): Vec2 => [from[0] + (k / count) * (to[0] - from[0]), from[1] + (k / count) * (to[1] - from[1])],
    );
  });
}

/** Stretches of sorted angles without a gap, across the seam at pi where they join up; the whole turn where there is no gap at all. */
function groupsOf(angles: readonly number[], gapRad: number): (readonly [number, number])[] {
  const groups: [number, number][] = [];
  for (const angle of angles) {
    const last = groups.at(-1);
    if (last !== undefined && angle - last[1] <= gapRad) last[1] = angle;
    else groups.push([angle, angle]);
  }
  const [first, last] = [groups[0], groups.at(-1)];
  if (first === undefined || last === undefined || first[0] + 2 * Math.PI - last[1] > gapRad) return groups;
  if (first === last) return [[0, 2 * Math.PI]];
  return [[last[0], first[1] + 2 * Math.PI], ...groups.slice(1, -1)];
}
