import type { Part, Table, TableState } from '../design/index.ts';
import type { Contact, Placement, Polyhedron, RingStack, Vec2, Vec3 } from '../solid/index.ts';
import { add, boundsMm, convexPieces, toTable } from '../solid/index.ts';
import type { Hull } from './convex.ts';
import { hullOf } from './convex.ts';

/** Chord error of round parts that lie or lean, mm; upright ones stay exact. */
const chordMm = 0.01;

/** A part that only touches a slice's face is not in it, mm. */
const touchMm = 0.01;

/** The parts of a state where they stand then; the standing state moves nothing. */
export function partsIn(table: Table, state: TableState): readonly Part[] {
  return table.parts
    .filter((part) => !state.without.includes(part.id))
    .map((part) => {
      const by = state.moved[part.id];
      if (by === undefined) return part;
      const placement = { ...part.placement, originMm: add(part.placement.originMm, by) };
      const letIn = part.letIn?.map((cut) => ({ ...cut, centroidMm: add(cut.centroidMm, by) }));
      return { ...part, placement, ...(letIn === undefined ? {} : { letIn }) };
    });
}

/** Lowest and highest point of a part above the floor, mm. */
export function heightsOf(part: Part): { readonly lowMm: number; readonly highMm: number } {
  const bounds = boundsMm(part.solid, part.placement);
  return { lowMm: bounds.minMm[2], highMm: bounds.maxMm[2] };
}

/**
 * Shadow on the floor of what a part has between two heights, as convex hulls whose union covers it exactly
 * (round parts that lie or lean: within 0.01 mm). Empty where the part only touches the slice.
 */
export function planHulls(part: Part, lowMm: number, highMm: number): readonly Hull[] {
  const heights = heightsOf(part);
  if (Math.min(highMm, heights.highMm) - Math.max(lowMm, heights.lowMm) <= touchMm) return [];
  if (part.solid.kind === 'rings' && standsUpright(part.placement, part.solid)) return ringHulls(part.solid, part.placement, lowMm, highMm);
  return convexPieces(part.solid, chordMm).flatMap((piece) => {
    const points = pointsBetween(piece, part.placement, lowMm, highMm);
    return points.length === 0 ? [] : [hullOf([{ kind: 'polygon', points }])];
  });
}

/** Corners of a convex body between two heights: its own, and where its edges cross the two planes. */
function pointsBetween(body: Polyhedron, placement: Placement, lowMm: number, highMm: number): Vec2[] {
  const corners = body.vertices.map((v) => toTable(placement, v));
  const points: Vec2[] = [];
  for (const corner of corners) if (corner[2] >= lowMm && corner[2] <= highMm) points.push([corner[0], corner[1]]);
  for (const face of body.faces) {
    const loop = face.loops[0] ?? [];
    for (const [i, index] of loop.entries()) {
      const from = corners[index] as Vec3;
      const to = corners[loop[(i + 1) % loop.length] as number] as Vec3;
      for (const planeMm of [lowMm, highMm]) {
        if (from[2] < planeMm === to[2] < planeMm) continue;
        const share = (planeMm - from[2]) / (to[2] - from[2]);
        points.push([from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])]);
      }
    }
  }
  return points;
}

function standsUpright({ axes }: Placement, solid: RingStack): boolean {
  const round = solid.rings.every((ring) => ring.rxMm === ring.ryMm);
  const square = axes[0][0] === 0 || axes[0][1] === 0;
  return axes[0][2] === 0 && axes[1][2] === 0 && (round || square);
}

/** One hull a band: the ellipses at its two ends, or where a plane cuts it (between two rings everything is a straight line). */
function ringHulls(solid: RingStack, placement: Placement, lowMm: number, highMm: number): Hull[] {
  const swapped = placement.axes[0][0] === 0;
  const placed = solid.rings.map((ring) => {
    const centre = toTable(placement, [ring.xMm ?? 0, ring.yMm ?? 0, ring.zMm]);
    return { centre, rxMm: swapped ? ring.ryMm : ring.rxMm, ryMm: swapped ? ring.rxMm : ring.ryMm };
  });
  return placed.slice(1).flatMap((upper, i) => {
    const lower = placed[i] as typeof upper;
    const [zLow, zHigh] = [Math.min(lower.centre[2], upper.centre[2]), Math.max(lower.centre[2], upper.centre[2])];
    const [from, to] = [Math.max(zLow, lowMm), Math.min(zHigh, highMm)];
    if (to - from <= touchMm) return [];
    const at = (zMm: number): Contact => {
      const share = (zMm - lower.centre[2]) / (upper.centre[2] - lower.centre[2]);
      const mix = (a: number, b: number): number => a + share * (b - a);
      return ellipseOrPoint(
        [mix(lower.centre[0], upper.centre[0]), mix(lower.centre[1], upper.centre[1])],
        mix(lower.rxMm, upper.rxMm),
        mix(lower.ryMm, upper.ryMm),
      );
    };
    return [hullOf([at(from), at(to)])];
  });
}

function ellipseOrPoint(centreMm: Vec2, rxMm: number, ryMm: number): Contact {
  return rxMm > 0 && ryMm > 0 ? { kind: 'ellipse', centreMm, rxMm, ryMm } : { kind: 'polygon', points: [centreMm] };
}
