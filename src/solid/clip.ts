/** Plane regions joined, shared, taken away and offset. The one file that knows clipper2-ts. */

import type { Path64, Paths64, PolyPath64 } from 'clipper2-ts';
import { Clipper64, ClipType, EndType, FillRule, inflatePaths, JoinType, PathType, PolyTree64 } from 'clipper2-ts';
import { CLIP_GRID_MM } from './tolerance.ts';
import type { Region, Vec2 } from './types.ts';

const toPath = (loop: readonly Vec2[]): Path64 =>
  loop.map(([x, y]) => ({ x: Math.round(x / CLIP_GRID_MM), y: Math.round(y / CLIP_GRID_MM) }));
const toPaths = (regions: readonly Region[]): Paths64 => regions.flatMap((r) => [toPath(r.outer), ...r.holes.map(toPath)]);
const toLoop = (path: Path64 | null): readonly Vec2[] => (path ?? []).map(({ x, y }): Vec2 => [x * CLIP_GRID_MM, y * CLIP_GRID_MM]);

/** The tree alternates outlines and holes; an island in a hole is a region of its own. */
function regionsOf(node: PolyTree64 | PolyPath64): Region[] {
  const found: Region[] = [];
  for (let i = 0; i < node.count; i++) {
    const outer = node.child(i);
    const holes: (readonly Vec2[])[] = [];
    for (let j = 0; j < outer.count; j++) {
      const hole = outer.child(j);
      holes.push(toLoop(hole.poly));
      found.push(...regionsOf(hole));
    }
    found.push({ outer: toLoop(outer.poly), holes });
  }
  return found;
}

function combine(kind: ClipType, a: readonly Region[], b: readonly Region[]): readonly Region[] {
  const clipper = new Clipper64();
  clipper.addPaths(toPaths(a), PathType.Subject);
  if (b.length > 0) clipper.addPaths(toPaths(b), PathType.Clip);
  const tree = new PolyTree64();
  clipper.execute(kind, FillRule.NonZero, tree);
  return regionsOf(tree);
}

/** All that any of the regions covers; coordinates on a grid of 0.001 mm. */
export const unionOf = (regions: readonly Region[]): readonly Region[] => combine(ClipType.Union, regions, []);

/** What both cover; coordinates on a grid of 0.001 mm. */
export const intersectionOf = (a: readonly Region[], b: readonly Region[]): readonly Region[] => combine(ClipType.Intersection, a, b);

/** What `a` covers and `b` does not; coordinates on a grid of 0.001 mm. */
export const differenceOf = (a: readonly Region[], b: readonly Region[]): readonly Region[] => combine(ClipType.Difference, a, b);

/** Regions grown by `byMm` (shrunk where negative), corners kept sharp up to ten times the amount. */
export function offsetRegions(regions: readonly Region[], byMm: number): readonly Region[] {
  const grown = inflatePaths(toPaths(regions), byMm / CLIP_GRID_MM, JoinType.Miter, EndType.Polygon, 10);
  return unionOfPaths(grown);
}

function unionOfPaths(paths: Paths64): readonly Region[] {
  const clipper = new Clipper64();
  clipper.addPaths(paths, PathType.Subject);
  const tree = new PolyTree64();
  clipper.execute(ClipType.Union, FillRule.NonZero, tree);
  return regionsOf(tree);
}
