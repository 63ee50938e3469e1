import type { Mat3, Placement, Vec2, Vec3 } from './types.ts';

export type Axis = 'x' | 'y' | 'z';

/** The table's own axes. */
export const IDENTITY: Mat3 = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** A part that lies in the table's frame as it was built. */
export const AT_ORIGIN: Placement = { originMm: [0, 0, 0], axes: IDENTITY };

export const add = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const subtract = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scale = (a: Vec3, by: number): Vec3 => [a[0] * by, a[1] * by, a[2] * by];
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vec3, b: Vec3): Vec3 => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
export const norm = (a: Vec3): number => Math.hypot(a[0], a[1], a[2]);

/** Same direction, length 1; throws a RangeError for the zero vector. */
export function unit(a: Vec3): Vec3 {
  const n = norm(a);
  if (n === 0) throw new RangeError('the zero vector has no direction');
  return [a[0] / n, a[1] / n, a[2] / n];
}

/** Unit vector along an axis. */
export const along = (axis: Axis): Vec3 => (axis === 'x' ? [1, 0, 0] : axis === 'y' ? [0, 1, 0] : [0, 0, 1]);

/** Matrix times vector. */
export const times = (m: Mat3, v: Vec3): Vec3 => [dot(m[0], v), dot(m[1], v), dot(m[2], v)];

/** Rows become columns: the inverse of a rotation. */
export const transposed = (m: Mat3): Mat3 => [
  [m[0][0], m[1][0], m[2][0]],
  [m[0][1], m[1][1], m[2][1]],
  [m[0][2], m[1][2], m[2][2]],
];

/** `a` after `b`. */
export function product(a: Mat3, b: Mat3): Mat3 {
  const columns = transposed(b);
  const row = (r: Vec3): Vec3 => [dot(r, columns[0]), dot(r, columns[1]), dot(r, columns[2])];
  return [row(a[0]), row(a[1]), row(a[2])];
}

/** Turn about an axis, counter-clockwise for an eye that the axis points at; quarter turns are exact. */
export function rotation(about: Axis, deg: number): Mat3 {
  const quarter = (((deg / 90) % 4) + 4) % 4;
  const exact = Number.isInteger(quarter);
  const c = exact ? ([1, 0, -1, 0][quarter] ?? 1) : Math.cos((deg * Math.PI) / 180);
  const s = exact ? ([0, 1, 0, -1][quarter] ?? 0) : Math.sin((deg * Math.PI) / 180);
  if (about === 'x')
    return [
      [1, 0, 0],
      [0, c, -s],
      [0, s, c],
    ];
  if (about === 'y')
    return [
      [c, 0, s],
      [0, 1, 0],
      [-s, 0, c],
    ];
  return [
    [c, -s, 0],
    [s, c, 0],
    [0, 0, 1],
  ];
}

/** A part's own point in the table's frame. */
export const toTable = (placement: Placement, local: Vec3): Vec3 => add(placement.originMm, times(placement.axes, local));

/** A part's own direction in the table's frame. */
export const directionToTable = (placement: Placement, local: Vec3): Vec3 => times(placement.axes, local);

/** A direction of the table's frame along the part's own axes. */
export const directionToLocal = (placement: Placement, direction: Vec3): Vec3 => times(transposed(placement.axes), direction);

/** Two unit vectors that make a right-handed frame with `normal`: first x second = normal. */
export function planeBasis(normal: Vec3): { readonly first: Vec3; readonly second: Vec3 } {
  const least = Math.abs(normal[0]) < 0.5 ? along('x') : along('y');
  const second = unit(cross(normal, least));
  return { first: cross(second, normal), second };
}

/** Coordinates of a point in a plane basis. */
export const flatten = (basis: { readonly first: Vec3; readonly second: Vec3 }, p: Vec3): Vec2 => [
  dot(p, basis.first),
  dot(p, basis.second),
];
