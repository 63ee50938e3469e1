import { signedAreaMm2 } from './polygon.ts';
import type { Vec2 } from './types.ts';

type Corner = { readonly index: number; readonly p: Vec2 };

const turn = (a: Vec2, b: Vec2, c: Vec2): number => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

const isInTriangle = (p: Vec2, a: Vec2, b: Vec2, c: Vec2): boolean => turn(a, b, p) >= 0 && turn(b, c, p) >= 0 && turn(c, a, p) >= 0;

const samePlace = (a: Vec2, b: Vec2): boolean => a[0] === b[0] && a[1] === b[1];

/** Joins a hole to the outline by a cut from the hole's rightmost corner to a corner of the outline that it sees. */
function bridge(outline: readonly Corner[], hole: readonly Corner[]): Corner[] {
  let right = 0;
  hole.forEach((c, i) => {
    if (c.p[0] > (hole[right] as Corner).p[0]) right = i;
  });
  const from = (hole[right] as Corner).p;
  let best = -1;
  let bestX = Number.POSITIVE_INFINITY;
  outline.forEach((a, i) => {
    const b = outline[(i + 1) % outline.length] as Corner;
    if (a.p[1] > from[1] || b.p[1] < from[1] || a.p[1] === b.p[1]) return;
    const x = a.p[0] + ((from[1] - a.p[1]) / (b.p[1] - a.p[1])) * (b.p[0] - a.p[0]);
    if (x < from[0] || x >= bestX) return;
    bestX = x;
    best = a.p[0] > b.p[0] ? i : (i + 1) % outline.length;
  });
  if (best < 0) throw new RangeError('a hole lies outside its outline');
  const hit: Vec2 = [bestX, from[1]];
  let target = (outline[best] as Corner).p;
  let nearest = samePlace(target, hit) ? -1 : Number.POSITIVE_INFINITY;
  // A corner inside the triangle hole - hit - target would cross the cut: the one nearest in angle is seen instead.
  if (nearest > 0) {
    const first = target;
    outline.forEach((c, i) => {
      const inside = first[1] > from[1] ? isInTriangle(c.p, from, hit, first) : isInTriangle(c.p, from, first, hit);
      if (!inside || c.p[0] <= from[0]) return;
      const slope = Math.abs(c.p[1] - from[1]) / (c.p[0] - from[0]);
      const previous = outline[(i + outline.length - 1) % outline.length] as Corner;
      const next = outline[(i + 1) % outline.length] as Corner;
      const opens =
        turn(previous.p, c.p, next.p) >= 0
          ? turn(c.p, next.p, from) >= 0 && turn(previous.p, c.p, from) >= 0
          : turn(c.p, next.p, from) >= 0 || turn(previous.p, c.p, from) >= 0;
      if (opens && slope < nearest) {
        nearest = slope;
        best = i;
        target = c.p;
      }
    });
  }
  const turned = [...hole.slice(right), ...hole.slice(0, right + 1)];
  return [...outline.slice(0, best + 1), ...turned, ...outline.slice(best)];
}

/**
 * Triangles over a polygon with holes, as indices into the loops laid end to end; no corner is added.
 * The first loop runs counter-clockwise, the holes clockwise. Ear clipping, holes bridged from the right.
 * Throws a RangeError for a hole outside, or where nothing is left to cut off; loops that cross must be refused before.
 * @source Eberly, "Triangulation by Ear Clipping", Geometric Tools (2002, revised 2022)
 */
export function triangulate(loops: readonly (readonly Vec2[])[]): readonly (readonly [number, number, number])[] {
  const outer = loops[0] ?? [];
  if (loops.length === 1 && isFan(outer)) return outer.slice(2).map((_, i) => [0, i + 1, i + 2] as const);
  let start = 0;
  const corners = loops.map((loop) => {
    const list = loop.map((p, i): Corner => ({ index: start + i, p }));
    start += loop.length;
    return list;
  });
  const rightmost = (loop: readonly Corner[]): number => Math.max(...loop.map((c) => c.p[0]));
  const holes = corners.slice(1).sort((a, b) => rightmost(b) - rightmost(a));
  let outline: Corner[] = [...(corners[0] ?? [])];
  for (const hole of holes) outline = bridge(outline, hole);
  return clipEars(outline);
}

/** Convex with no straight corners: a fan from the first corner will do. */
function isFan(loop: readonly Vec2[]): boolean {
  const scaleMm2 = Math.abs(signedAreaMm2(loop));
  return loop.every((b, i) => {
    const a = loop[(i + loop.length - 1) % loop.length] as Vec2;
    const c = loop[(i + 1) % loop.length] as Vec2;
    return turn(a, b, c) > 1e-12 * scaleMm2;
  });
}

function clipEars(outline: Corner[]): readonly (readonly [number, number, number])[] {
  const triangles: [number, number, number][] = [];
  const left = [...outline];
  while (left.length > 3) {
    const ear = left.findIndex((_, i) => isEar(left, i, false));
    // Straight corners make triangles without area; they come off last, so that none is left hanging in a neighbour's edge.
    const clipped = ear >= 0 ? ear : left.findIndex((_, i) => isEar(left, i, true));
    if (clipped < 0) throw new RangeError('the outline crosses itself');
    const [a, b, c] = around(left, clipped);
    triangles.push([a.index, b.index, c.index]);
    left.splice(clipped, 1);
  }
  if (left.length === 3) triangles.push([(left[0] as Corner).index, (left[1] as Corner).index, (left[2] as Corner).index]);
  return triangles;
}

function around(list: readonly Corner[], i: number): readonly [Corner, Corner, Corner] {
  const n = list.length;
  return [list[(i + n - 1) % n] as Corner, list[i] as Corner, list[(i + 1) % n] as Corner];
}

function isEar(list: readonly Corner[], i: number, straightToo: boolean): boolean {
  const [a, b, c] = around(list, i);
  const corner = turn(a.p, b.p, c.p);
  if (straightToo ? corner < 0 : corner <= 0) return false;
  return list.every((q) => samePlace(q.p, a.p) || samePlace(q.p, b.p) || samePlace(q.p, c.p) || !isInTriangle(q.p, a.p, b.p, c.p));
}
