/** Constructors of solids in a part's own axes: bottom at z = 0 unless said, centred on the z axis. All lengths in mm. */
import { clockwise, counterClockwise, isConvexLoop } from './polygon.ts';
import { isConvexBody } from './polyhedron.ts';
import { triangulate } from './triangulate.ts';
import type { Polyhedron, Region, Ring, RingStack, Solid, Vec2, Vec3 } from './types.ts';

/** A rectangle at a height: middle and full sides along x and y. */
export interface Level {
  readonly zMm: number;
  readonly xMm: number;
  readonly yMm: number;
  readonly alongXMm: number;
  readonly alongYMm: number;
}

/**
 * Body between outlines at rising heights, each with the same number of corners, counter-clockwise from above.
 * Neighbouring outlines must have parallel sides, so that the faces between them are plane.
 */
export function loft(levels: readonly (readonly Vec3[])[]): Polyhedron {
  const body = loftConvex(levels);
  if (isConvexBody(body)) return body;
  return { ...body, convex: false, pieces: levels.slice(1).map((upper, k) => loftConvex([levels[k] ?? [], upper])) };
}

/** As `loft`, where the caller knows that the body is convex. */
export function loftConvex(levels: readonly (readonly Vec3[])[]): Polyhedron {
  const n = levels[0]?.length ?? 0;
  const last = (levels.length - 1) * n;
  const ring = [...Array(n).keys()];
  const sides = levels
    .slice(1)
    .flatMap((_, k) => ring.map((i) => ({ loops: [[k * n + i, k * n + ((i + 1) % n), (k + 1) * n + ((i + 1) % n), (k + 1) * n + i]] })));
  return {
    kind: 'polyhedron',
    vertices: levels.flat(),
    faces: [{ loops: [[...ring].reverse()] }, { loops: [ring.map((i) => last + i)] }, ...sides],
    convex: true,
  };
}

const rectangle = ({ zMm, xMm, yMm, alongXMm: lx, alongYMm: ly }: Level): readonly Vec3[] => [
  [xMm - lx / 2, yMm - ly / 2, zMm],
  [xMm + lx / 2, yMm - ly / 2, zMm],
  [xMm + lx / 2, yMm + ly / 2, zMm],
  [xMm - lx / 2, yMm + ly / 2, zMm],
];

/** Body between rectangles at rising heights: tapered and splayed legs, plates with a chamfer. */
export const stack = (levels: readonly Level[]): Polyhedron => loft(levels.map(rectangle));

/** Box with its bottom centre at the origin. */
export const box = (xMm: number, yMm: number, zMm: number): Polyhedron => frustum([xMm, yMm], [xMm, yMm], zMm);

/** Prism between two rectangles; `shiftMm` moves the upper one in plan. */
export const frustum = (bottomMm: Vec2, topMm: Vec2, heightMm: number, shiftMm: Vec2 = [0, 0]): Polyhedron =>
  stack([
    { zMm: 0, xMm: 0, yMm: 0, alongXMm: bottomMm[0], alongYMm: bottomMm[1] },
    { zMm: heightMm, xMm: shiftMm[0], yMm: shiftMm[1], alongXMm: topMm[0], alongYMm: topMm[1] },
  ]);

/** Rectangular plate whose lower edge is chamfered: `inMm` from the edge, `upMm` from the underside. */
export function plate(xMm: number, yMm: number, thickMm: number, chamfer?: { readonly inMm: number; readonly upMm: number }): Polyhedron {
  if (chamfer === undefined) return box(xMm, yMm, thickMm);
  const full = { xMm: 0, yMm: 0, alongXMm: xMm, alongYMm: yMm };
  return stack([
    { ...full, zMm: 0, alongXMm: xMm - 2 * chamfer.inMm, alongYMm: yMm - 2 * chamfer.inMm },
    { ...full, zMm: chamfer.upMm },
    { ...full, zMm: thickMm },
  ]);
}

/** Regular octagon by its width across flats, flats along x and y. */
export function octagon(acrossFlatsMm: number, zMm: number): readonly Vec3[] {
  const a = acrossFlatsMm / 2;
  const b = a * (Math.SQRT2 - 1);
  return [
    [a, -b, zMm],
    [a, b, zMm],
    [b, a, zMm],
    [-b, a, zMm],
    [-a, b, zMm],
    [-a, -b, zMm],
    [-b, -a, zMm],
    [b, -a, zMm],
  ];
}

/** Octagonal prism or frustum, widths across flats. */
export const octagonalPost = (bottomMm: number, topMm: number, heightMm: number): Polyhedron =>
  loft([octagon(bottomMm, 0), octagon(topMm, heightMm)]);

/** Polygon with holes in the part's own x and y, extruded along z. Loops may run either way; they must not cross. */
export function extrude(region: Region, heightMm: number): Polyhedron {
  const loops = [counterClockwise(region.outer), ...region.holes.map(clockwise)];
  const starts = loops.map((_, k) => loops.slice(0, k).reduce((sum, loop) => sum + loop.length, 0));
  const count = loops.reduce((sum, loop) => sum + loop.length, 0);
  const ringOf = (k: number): number[] => (loops[k] ?? []).map((_, i) => (starts[k] ?? 0) + i);
  const flat = loops.flat();
  const rings = loops.map((_, k) => ringOf(k));
  const sides = rings.flatMap((ring) =>
    ring.map((i, k) => {
      const next = ring[(k + 1) % ring.length] as number;
      return { loops: [[i, next, next + count, i + count]] };
    }),
  );
  const body: Polyhedron = {
    kind: 'polyhedron',
    vertices: [...flat.map((p): Vec3 => [p[0], p[1], 0]), ...flat.map((p): Vec3 => [p[0], p[1], heightMm])],
    faces: [{ loops: rings.map((ring) => [...ring].reverse()) }, { loops: rings.map((ring) => ring.map((i) => i + count)) }, ...sides],
    convex: loops.length === 1 && isConvexLoop(loops[0] ?? []),
  };
  if (body.convex) return body;
  const pieces = triangulate(loops)
    .map((triangle) => triangle.map((i) => flat[i] as Vec2))
    .filter((points) => Math.abs(twiceArea(points)) > 1e-9)
    .map((points) => extrude({ outer: points, holes: [] }, heightMm));
  return { ...body, pieces };
}

const twiceArea = ([a, b, c]: readonly Vec2[]): number =>
  a === undefined || b === undefined || c === undefined ? 0 : (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** Cylinder, or cone where the diameters differ. */
export const cone = (bottomDiameterMm: number, topDiameterMm: number, heightMm: number): RingStack =>
  rings([
    { zMm: 0, rxMm: bottomDiameterMm / 2, ryMm: bottomDiameterMm / 2 },
    { zMm: heightMm, rxMm: topDiameterMm / 2, ryMm: topDiameterMm / 2 },
  ]);

/** Round or oval plate, its lower edge chamfered where asked. */
export function disc(xMm: number, yMm: number, thickMm: number, chamfer?: { readonly inMm: number; readonly upMm: number }): RingStack {
  const full = { rxMm: xMm / 2, ryMm: yMm / 2 };
  const top = { ...full, zMm: thickMm };
  if (chamfer === undefined) return rings([{ ...full, zMm: 0 }, top]);
  return rings([{ zMm: 0, rxMm: full.rxMm - chamfer.inMm, ryMm: full.ryMm - chamfer.inMm }, { ...full, zMm: chamfer.upMm }, top]);
}

/** A stack of ellipses in order of rising z. */
export const rings = (list: readonly Ring[]): RingStack => ({ kind: 'rings', rings: list });

/** Mirror image across the part's own plane x = 0, faces still pointing outwards. */
export function mirrored(solid: Solid): Solid {
  if (solid.kind === 'rings') return rings(solid.rings.map((r) => (r.xMm === undefined ? r : { ...r, xMm: -r.xMm })));
  return mirroredBody(solid);
}

function mirroredBody(solid: Polyhedron): Polyhedron {
  return {
    kind: 'polyhedron',
    vertices: solid.vertices.map((v): Vec3 => [-v[0], v[1], v[2]]),
    faces: solid.faces.map((face) => ({ loops: face.loops.map((loop) => [...loop].reverse()) })),
    convex: solid.convex,
    ...(solid.pieces === undefined ? {} : { pieces: solid.pieces.map(mirroredBody) }),
  };
}
