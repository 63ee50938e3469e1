import type { Vec3 } from '../solid/index.ts';
import type { PieceFace } from './convex.ts';
import type { Projection } from './projection.ts';
import { between, dot, keepSide, newell, nth, unit } from './vector.ts';

/** Picture and world coordinates of one corner, cut together. */
type Corner = readonly [number, number, number, number, number, number];
const inPicture = (c: Corner): Vec3 => [c[0], c[1], c[2]];
const inWorld = (c: Corner): Vec3 => [c[3], c[4], c[5]];

/** Faces tried as the next cutting plane; the one that cuts fewest others is taken. */
const MOST_TRIED = 10;

type Side = 'behind' | 'before' | 'on' | 'across';

/** The part of a face on one side of a plane, in the picture and in the world alike. */
function partOf(face: PieceFace, measure: (p: Vec3) => number, { worldShare }: Projection, run: number): PieceFace[] {
  const corners = face.points.map((p, i): Corner => [...p, ...nth(face.world, i)]);
  const mix = (a: Corner, b: Corner, t: number): Corner => [
    ...between(inPicture(a), inPicture(b), t),
    ...between(inWorld(a), inWorld(b), worldShare(inPicture(a), inPicture(b), t)),
  ];
  const kept = keepSide(corners, (c) => measure(inPicture(c)), mix);
  return kept.length === 0 ? [] : [{ ...face, run, points: kept.map(inPicture), world: kept.map(inWorld) }];
}

/**
 * Orders faces from the farthest to the nearest by cutting them with each other's planes, so that any set of plane faces,
 * even ones that run through each other, is painted rightly. All faces look at the eye, so what lies on the outer side
 * of a face's plane is nearer. Every face that comes out is a run of its own.
 * @source H. Fuchs, Z. M. Kedem, B. F. Naylor, "On visible surface generation by a priori tree structures", SIGGRAPH 1980 (from memory)
 */
export function orderFaces(faces: readonly PieceFace[], projection: Projection, tolerance: number): PieceFace[] {
  let runs = 0;
  const order = (list: readonly PieceFace[]): PieceFace[] => {
    const best = cheapestCut(list, tolerance);
    if (best === undefined) return [...list];
    const behind: PieceFace[] = [];
    const on: PieceFace[] = [];
    const before: PieceFace[] = [];
    for (const face of list) {
      runs -= 1;
      const side = sideOf(face, best, tolerance);
      if (side === 'behind') behind.push(face);
      else if (side === 'before') before.push(face);
      else if (side === 'on') on.push({ ...face, run: runs });
      else {
        behind.push(...partOf(face, (p) => -best(p), projection, runs));
        before.push(...partOf(face, best, projection, runs - 1));
        runs -= 1;
      }
    }
    return [...order(behind), ...on, ...order(before)];
  };
  return order(faces);
}

function sideOf(face: PieceFace, measure: (p: Vec3) => number, tolerance: number): Side {
  let low = 0;
  let high = 0;
  for (const p of face.points) {
    const d = measure(p);
    low = Math.min(low, d);
    high = Math.max(high, d);
  }
  if (high <= tolerance) return low >= -tolerance ? 'on' : 'behind';
  return low >= -tolerance ? 'before' : 'across';
}

/** Distance from the plane of the face that cuts the fewest others; undefined for an empty list. */
function cheapestCut(list: readonly PieceFace[], tolerance: number): ((p: Vec3) => number) | undefined {
  const step = Math.max(1, Math.floor(list.length / MOST_TRIED));
  let best: { readonly cuts: number; readonly measure: (p: Vec3) => number } | undefined;
  for (let i = 0; i < list.length; i += step) {
    const points = nth(list, i).points;
    const normal = unit(newell(points));
    const offset = dot(normal, nth(points, 0));
    const measure = (p: Vec3): number => dot(normal, p) - offset;
    const cuts = list.filter((f) => sideOf(f, measure, tolerance) === 'across').length;
    if (best === undefined || cuts < best.cuts) best = { cuts, measure };
  }
  return best?.measure;
}
