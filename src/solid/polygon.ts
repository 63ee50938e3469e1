import type { Region, Vec2 } from './types.ts';

const at = <T>(list: readonly T[], i: number): T => list[((i % list.length) + list.length) % list.length] as T;

/** Area of a loop, mm2: positive counter-clockwise. Shoelace formula. */
export function signedAreaMm2(loop: readonly Vec2[]): number {
  const [x0, y0] = loop[0] ?? [0, 0];
  let twice = 0;
  for (let i = 1; i + 1 < loop.length; i++) {
    const [ax, ay] = at(loop, i);
    const [bx, by] = at(loop, i + 1);
    twice += (ax - x0) * (by - y0) - (ay - y0) * (bx - x0);
  }
  return twice / 2;
}

/** Area of regions that do not overlap, holes taken off, mm2. */
export function areaMm2(regions: readonly Region[]): number {
  let sum = 0;
  for (const region of regions) {
    sum += Math.abs(signedAreaMm2(region.outer));
    for (const hole of region.holes) sum -= Math.abs(signedAreaMm2(hole));
  }
  return sum;
}

/** Middle of area of a loop; the mean of its points where it has no area. */
export function centreOfLoop(loop: readonly Vec2[]): Vec2 {
  const [x0, y0] = loop[0] ?? [0, 0];
  let twice = 0;
  let mx = 0;
  let my = 0;
  for (let i = 1; i + 1 < loop.length; i++) {
    const [ax, ay] = at(loop, i);
    const [bx, by] = at(loop, i + 1);
    const c = (ax - x0) * (by - y0) - (ay - y0) * (bx - x0);
    twice += c;
    mx += c * (ax + bx - 2 * x0);
    my += c * (ay + by - 2 * y0);
  }
  if (twice !== 0) return [x0 + mx / (3 * twice), y0 + my / (3 * twice)];
  const n = Math.max(1, loop.length);
  return [loop.reduce((s, p) => s + p[0], 0) / n, loop.reduce((s, p) => s + p[1], 0) / n];
}

/** Counter-clockwise copy of a loop. */
export const counterClockwise = (loop: readonly Vec2[]): readonly Vec2[] => (signedAreaMm2(loop) < 0 ? [...loop].reverse() : loop);

/** Clockwise copy of a loop. */
export const clockwise = (loop: readonly Vec2[]): readonly Vec2[] => (signedAreaMm2(loop) > 0 ? [...loop].reverse() : loop);

/** Does no corner of a counter-clockwise loop turn inwards? Straight corners are allowed. */
export function isConvexLoop(loop: readonly Vec2[]): boolean {
  for (let i = 0; i < loop.length; i++) {
    const a = at(loop, i);
    const b = at(loop, i + 1);
    const c = at(loop, i + 2);
    const turn = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]);
    const scaleMm2 = Math.hypot(b[0] - a[0], b[1] - a[1]) * Math.hypot(c[0] - b[0], c[1] - b[1]);
    if (turn < -1e-12 * scaleMm2) return false;
  }
  return true;
}

/**
 * Convex hull, counter-clockwise, corners only; one or two points where all lie on a point or a line.
 * @source Andrew, "Another efficient algorithm for convex hulls in two dimensions", Information Processing Letters 9 (1979)
 */
export function hull(points: readonly Vec2[]): readonly Vec2[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const unique = sorted.filter((p, i) => i === 0 || p[0] !== at(sorted, i - 1)[0] || p[1] !== at(sorted, i - 1)[1]);
  if (unique.length < 3) return unique;
  const half = (list: readonly Vec2[]): Vec2[] => {
    const chain: Vec2[] = [];
    for (const p of list) {
      while (chain.length > 1) {
        const a = chain[chain.length - 2] as Vec2;
        const b = chain[chain.length - 1] as Vec2;
        const turn = (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
        const size = Math.hypot(b[0] - a[0], b[1] - a[1]) * Math.hypot(p[0] - a[0], p[1] - a[1]);
        if (turn > 1e-12 * size) break;
        chain.pop();
      }
      chain.push(p);
    }
    chain.pop();
    return chain;
  };
  return [...half(unique), ...half([...unique].reverse())];
}

/** Is a point inside a loop, on its line, or outside within `edgeMm` of it? Even-odd rule. */
export function isInLoop(loop: readonly Vec2[], [x, y]: Vec2, edgeMm = 0): boolean {
  let inside = false;
  for (let i = 0; i < loop.length; i++) {
    const [ax, ay] = at(loop, i);
    const [bx, by] = at(loop, i + 1);
    if (distanceToSegmentMm([x, y], [ax, ay], [bx, by]) <= edgeMm) return true;
    if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) inside = !inside;
  }
  return inside;
}

/** Is a point in one of the regions and in none of its holes? */
export const isInRegions = (regions: readonly Region[], p: Vec2, edgeMm = 0): boolean =>
  regions.some((r) => isInLoop(r.outer, p, edgeMm) && !r.holes.some((h) => isInLoop(h, p)));

/** Distance from a point to a segment, mm. */
export function distanceToSegmentMm(p: Vec2, a: Vec2, b: Vec2): number {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const size = dx * dx + dy * dy;
  const t = size === 0 ? 0 : Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / size));
  return Math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy);
}
