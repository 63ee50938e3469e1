import type { Vec2, Vec3 } from '../solid/index.ts';

export const plus = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const minus = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const times = (a: Vec3, k: number): Vec3 => [a[0] * k, a[1] * k, a[2] * k];
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vec3, b: Vec3): Vec3 => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
export const size = (a: Vec3): number => Math.hypot(a[0], a[1], a[2]);

/** Unit vector; the zero vector stays zero. */
export function unit(a: Vec3): Vec3 {
  const length = size(a);
  return length === 0 ? a : times(a, 1 / length);
}

export const between = (a: Vec3, b: Vec3, t: number): Vec3 => [
  a[0] + (b[0] - a[0]) * t,
  a[1] + (b[1] - a[1]) * t,
  a[2] + (b[2] - a[2]) * t,
];

/** Element of a closed list: index -1 is the last one. Throws on an empty list. */
export function nth<T>(list: readonly T[], index: number): T {
  const value = list[((index % list.length) + list.length) % list.length];
  if (value === undefined) throw new Error('an empty list has no elements');
  return value;
}

/** Normal of a closed polygon (Newell), not of unit length: twice the area. */
export function newell(points: readonly Vec3[]): Vec3 {
  let x = 0;
  let y = 0;
  let z = 0;
  let a = nth(points, -1);
  for (const b of points) {
    x += (a[1] - b[1]) * (a[2] + b[2]);
    y += (a[2] - b[2]) * (a[0] + b[0]);
    z += (a[0] - b[0]) * (a[1] + b[1]);
    a = b;
  }
  return [x, y, z];
}

export function centre(points: readonly Vec3[]): Vec3 {
  let sum: Vec3 = [0, 0, 0];
  for (const p of points) sum = plus(sum, p);
  return times(sum, 1 / Math.max(1, points.length));
}

/** Convex hull in the plane, counter-clockwise, without collinear points. */
export function hull(points: readonly Vec2[]): Vec2[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (list: readonly Vec2[]): Vec2[] => {
    const chain: Vec2[] = [];
    for (const p of list) {
      while (chain.length >= 2) {
        const a = nth(chain, -2);
        const b = nth(chain, -1);
        if ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) > 1e-12) break;
        chain.pop();
      }
      chain.push(p);
    }
    chain.pop();
    return chain;
  };
  return [...half(sorted), ...half(sorted.toReversed())];
}

/** The part of a convex polygon where `side` is not negative; `side` is linear. Empty when nothing is left. */
export function keepSide<P extends readonly number[]>(
  points: readonly P[],
  side: (p: P) => number,
  mix: (a: P, b: P, t: number) => P,
): P[] {
  const out: P[] = [];
  points.forEach((b, i) => {
    const a = nth(points, i - 1);
    const da = side(a);
    const db = side(b);
    if (da < 0 !== db < 0 && da !== db) out.push(mix(a, b, da / (da - db)));
    if (db >= 0) out.push(b);
  });
  return out.length >= 3 ? out : [];
}
