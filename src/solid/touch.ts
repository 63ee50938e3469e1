import { type Bounds, boundsMeet, boundsMm } from './bounds.ts';
import { intersectionOf } from './clip.ts';
import { faceAreaMm2 } from './moments.ts';
import type { Placed } from './overlap.ts';
import { areaMm2 } from './polygon.ts';
import { facePlane, loopPoints } from './polyhedron.ts';
import { ringPoints, sidesFor } from './tessellate.ts';
import { CHORD_MM, CONTACT_MM2, PARALLEL_RAD, TOUCH_MM } from './tolerance.ts';
import type { Placement, Region, Ring, Solid, Vec2, Vec3 } from './types.ts';
import { add, directionToTable, dot, flatten, planeBasis, scale, toTable } from './vector.ts';

/** Plane area along which two placed solids touch. */
export interface Touch {
  readonly areaMm2: number;
  /** In the table's frame, counter-clockwise seen from outside `a`. */
  readonly outer: readonly Vec3[];
  readonly holes: readonly (readonly Vec3[])[];
  /** Unit normal out of `a`. */
  readonly normal: Vec3;
}

/** A plane face of a placed solid, in the table's frame. */
export interface FlatFace {
  readonly normal: Vec3;
  readonly point: Vec3;
  readonly loops: readonly (readonly Vec3[])[];
}

/** Plane faces of a placed solid; the flats of a ring stack as inscribed polygons. */
export function flatFaces({ solid, placement }: Placed): readonly FlatFace[] {
  const place = (p: Vec3): Vec3 => toTable(placement, p);
  if (solid.kind === 'polyhedron') {
    return solid.faces.flatMap((face, i) => {
      if (faceAreaMm2(solid, i) < CONTACT_MM2) return [];
      const loops = face.loops.map((loop) => loopPoints(solid, loop).map(place));
      return [{ normal: directionToTable(placement, facePlane(solid, i).normal), point: loops[0]?.[0] ?? [0, 0, 0], loops }];
    });
  }
  return ringFlats(solid, placement);
}

function ringFlats(solid: Solid & { readonly kind: 'rings' }, placement: Placement): readonly FlatFace[] {
  const list = solid.rings;
  const flats: FlatFace[] = [];
  const addFlat = (outer: Ring, up: boolean, inner?: Ring): void => {
    if (outer.rxMm === 0 || outer.ryMm === 0) return;
    const points = (ring: Ring, counter: boolean): readonly Vec3[] => {
      const placed = ringPoints(ring, sidesFor(Math.max(ring.rxMm, ring.ryMm), CHORD_MM)).map((p) => toTable(placement, p));
      return counter ? placed : [...placed].reverse();
    };
    const outerLoop = points(outer, up);
    const loops = inner === undefined || inner.rxMm === 0 ? [outerLoop] : [outerLoop, points(inner, !up)];
    flats.push({ normal: directionToTable(placement, [0, 0, up ? 1 : -1]), point: outerLoop[0] ?? [0, 0, 0], loops });
  };
  const first = list[0];
  const last = list[list.length - 1];
  if (first !== undefined) addFlat(first, false);
  list.slice(1).forEach((upper, k) => {
    const lower = list[k] as Ring;
    if (upper.zMm !== lower.zMm || upper.rxMm === lower.rxMm) return;
    if (lower.rxMm > upper.rxMm) addFlat(lower, true, upper);
    else addFlat(upper, false, lower);
  });
  if (last !== undefined) addFlat(last, true);
  return flats;
}

/** The box around some points. */
export function boxOf(points: readonly Vec3[]): Bounds {
  const edge = (choose: (...n: number[]) => number): Vec3 => [
    choose(...points.map((p) => p[0])),
    choose(...points.map((p) => p[1])),
    choose(...points.map((p) => p[2])),
  ];
  return { minMm: edge(Math.min), maxMm: edge(Math.max) };
}

/**
 * Where two placed solids touch: faces that look at each other, parallel within PARALLEL_RAD and no farther apart than TOUCH_MM, and
 * share at least CONTACT_MM2. A round side against anything touches along a line and gives nothing.
 */
export function touchesOf(a: Placed, b: Placed): readonly Touch[] {
  if (!boundsMeet(boundsMm(a.solid, a.placement), boundsMm(b.solid, b.placement), TOUCH_MM)) return [];
  const found: Touch[] = [];
  const others = flatFaces(b);
  for (const face of flatFaces(a)) {
    const facing = others.filter((other) => dot(face.normal, other.normal) < -Math.cos(PARALLEL_RAD));
    for (const other of facing) {
      if (!boundsMeet(boxOf(face.loops[0] ?? []), boxOf(other.loops[0] ?? []), TOUCH_MM)) continue;
      found.push(...sharedArea(face, other));
    }
  }
  return found;
}

function sharedArea(face: FlatFace, other: FlatFace): readonly Touch[] {
  const basis = planeBasis(face.normal);
  const offsetMm = dot(face.normal, face.point);
  const flat = (loops: readonly (readonly Vec3[])[]): Region => {
    const [outer = [], ...holes] = loops.map((loop) => loop.map((p) => flatten(basis, p)));
    return { outer, holes };
  };
  const lift = ([x, y]: Vec2): Vec3 => add(add(scale(basis.first, x), scale(basis.second, y)), scale(face.normal, offsetMm));
  // Along the facing normal the other plane lies at `apart`; both must agree all over what they share.
  const apart = (p: Vec3): number => dot(other.normal, p) - dot(other.normal, other.point);
  return intersectionOf([flat(face.loops)], [flat(other.loops)]).flatMap((region) => {
    const area = areaMm2([region]);
    const outer = region.outer.map(lift);
    if (area < CONTACT_MM2 || outer.some((p) => Math.abs(apart(p)) > TOUCH_MM)) return [];
    return [{ areaMm2: area, outer, holes: region.holes.map((hole) => hole.map(lift)), normal: face.normal }];
  });
}

/** Total area of touches, mm2. */
export const touchAreaMm2 = (touches: readonly Touch[]): number => touches.reduce((sum, t) => sum + t.areaMm2, 0);
