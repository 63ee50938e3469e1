import type { Part, Table } from '../design/index.ts';
import type { Region, Vec2, Vec3 } from '../solid/index.ts';
import { areaMm2, hull, intersectionOf, placedPieces, projectShadow, unionOf } from '../solid/index.ts';
import type { Open } from './assessment.ts';

/** Eye of a standing viewer: above the floor, and in front of the front edge at mid-length, mm. */
const eyeHeightMm = 1600;
const eyeBeforeMm = 2500;

/** Chord error of round parts in a silhouette, mm. */
const chordMm = 0.05;

/**
 * How open the table is underneath. Front and side: 1 - silhouette of all that lies below the top's underside over
 * (overall length or width x clear height). Floor: share of the floor under the top that the eye sees past top and base.
 */
export function openOf(table: Table, parts: readonly Part[]): Open {
  const clearMm = table.top.heightMm - table.top.thicknessMm;
  const base = parts.filter((part) => part.id !== table.top.partId);
  const { length, width } = table.overallMm;
  return {
    front: 1 - silhouetteMm2(base, 'y', clearMm) / (length * clearMm),
    side: 1 - silhouetteMm2(base, 'x', clearMm) / (width * clearMm),
    floorSeen: floorSeen(table, parts),
  };
}

/** Area of the shadow along an axis, from the floor up to the underside of the top. */
function silhouetteMm2(base: readonly Part[], axis: 'x' | 'y', clearMm: number): number {
  return areaMm2(projectShadow(base, axis, [{ axis: 'z', fromMm: 0, toMm: clearMm }], chordMm).regions);
}

/** Lines of sight are straight: each convex body hides the convex hull of its corners cast on the floor. */
function floorSeen(table: Table, parts: readonly Part[]): number {
  const outline = table.top.outline;
  const floor: Region =
    outline.kind === 'polygon'
      ? regionOf(outline.points)
      : regionOf(
          Array.from({ length: 360 }, (_, i) => [
            outline.rxMm * Math.cos((i * Math.PI) / 180),
            outline.ryMm * Math.sin((i * Math.PI) / 180),
          ]),
        );
  const front = Math.min(...floor.outer.map((p) => p[1]));
  const eye: Vec3 = [0, front - eyeBeforeMm, eyeHeightMm];
  const hidden = parts
    .flatMap((part) => placedPieces(part, chordMm))
    .filter((piece) => piece.vertices.every((corner) => corner[2] < eye[2]))
    .map((piece) => regionOf(piece.vertices.map((corner) => castOnFloor(corner, eye))));
  const whole = areaMm2([floor]);
  return 1 - areaMm2(intersectionOf([floor], unionOf(hidden))) / whole;
}

/** Meets the floor where the line from the eye through the point does; what reaches the eye's height is no table and is left out. */
function castOnFloor(point: Vec3, eye: Vec3): Vec2 {
  const share = eye[2] / (eye[2] - point[2]);
  return [eye[0] + share * (point[0] - eye[0]), eye[1] + share * (point[1] - eye[1])];
}

function regionOf(points: readonly Vec2[]): Region {
  return { outer: hull(points), holes: [] };
}
