import { unionOf } from './clip.ts';
import { convexPieces } from './cut.ts';
import { hull } from './polygon.ts';
import { ringPoints, sidesFor } from './tessellate.ts';
import { CHORD_MM, PARALLEL_RAD } from './tolerance.ts';
import type { Placement, Polyhedron, Region, Ring, Solid, Vec2, Vec3 } from './types.ts';
import { directionToTable, toTable } from './vector.ts';

/**
 * Level section of a placed solid at a height, seen from above: what a saw just under that height would show.
 * At the height of an upper face it is that face; at the height of a lower one it is empty.
 * Upright round parts are cut exactly and drawn within `chordMm`; leaning ones are cut as inscribed prisms.
 */
export function levelSection(solid: Solid, placement: Placement, zMm: number, chordMm: number = CHORD_MM): readonly Region[] {
  if (solid.kind === 'rings' && Math.hypot(...directionToTable(placement, [0, 0, 1]).slice(0, 2)) <= PARALLEL_RAD) {
    return uprightSection(solid.rings, placement, zMm, chordMm);
  }
  const loops = convexPieces(solid, chordMm)
    .map((piece) => sectionOfConvex(piece, placement, zMm))
    .filter((loop) => loop.length > 2);
  if (loops.length <= 1) return loops.map((outer) => ({ outer, holes: [] }));
  return unionOf(loops.map((outer) => ({ outer, holes: [] })));
}

function sectionOfConvex(piece: Polyhedron, placement: Placement, zMm: number): readonly Vec2[] {
  const placed = piece.vertices.map((v) => toTable(placement, v));
  const points: Vec2[] = [];
  for (const face of piece.faces) {
    const loop = face.loops[0] ?? [];
    loop.forEach((i, k) => {
      const a = placed[i] as Vec3;
      const b = placed[loop[(k + 1) % loop.length] as number] as Vec3;
      if (a[2] < zMm === b[2] < zMm) return;
      const t = (zMm - a[2]) / (b[2] - a[2]);
      points.push([a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])]);
    });
  }
  return hull(points);
}

function uprightSection(list: readonly Ring[], placement: Placement, zMm: number, chordMm: number): readonly Region[] {
  const up = placement.axes[2][2] > 0 ? 1 : -1;
  const local = (zMm - placement.originMm[2]) * up;
  const isIn = (lower: Ring, upper: Ring): boolean =>
    up > 0 ? lower.zMm < local && local <= upper.zMm : lower.zMm <= local && local < upper.zMm;
  const k = list.findIndex((upper, i) => i > 0 && isIn(list[i - 1] as Ring, upper));
  if (k < 0) return [];
  const lower = list[k - 1] as Ring;
  const upper = list[k] as Ring;
  const t = (local - lower.zMm) / (upper.zMm - lower.zMm);
  const mix = (a: number, b: number): number => a + t * (b - a);
  const ring: Ring = {
    zMm: local,
    rxMm: mix(lower.rxMm, upper.rxMm),
    ryMm: mix(lower.ryMm, upper.ryMm),
    xMm: mix(lower.xMm ?? 0, upper.xMm ?? 0),
    yMm: mix(lower.yMm ?? 0, upper.yMm ?? 0),
  };
  const points = ringPoints(ring, sidesFor(Math.max(ring.rxMm, ring.ryMm), chordMm)).map((p) => toTable(placement, p));
  const outer = points.map((p): Vec2 => [p[0], p[1]]);
  return [{ outer: up > 0 ? outer : [...outer].reverse(), holes: [] }];
}
