import { hull } from './polygon.ts';
import { facePlane } from './polyhedron.ts';
import { ringPoints } from './tessellate.ts';
import { PARALLEL_RAD, TOUCH_MM } from './tolerance.ts';
import type { Contact, Placement, Polyhedron, Ring, RingStack, Solid, Vec2, Vec3 } from './types.ts';
import { directionToTable, toTable } from './vector.ts';

/** Sides of the polygon that stands for an oval foot turned out of the axes: error below 0.001 of its radius x 1.3e-3. */
const TURNED_OVAL_SIDES = 2048;

/**
 * Where a placed solid stands on the floor: whole foot sections within TOUCH_MM of z = 0, as polygons or ellipses. A part that stands on
 * an edge or a point gives a polygon of two points or one. A part above the floor gives none; so does one that pierces it.
 */
export function floorContact(solid: Solid, placement: Placement): readonly Contact[] {
  return solid.kind === 'polyhedron' ? polyhedronOnFloor(solid, placement) : ringsOnFloor(solid, placement);
}

const onFloor = (p: Vec3): boolean => Math.abs(p[2]) <= TOUCH_MM;
const plan = (p: Vec3): Vec2 => [p[0], p[1]];

function polyhedronOnFloor(solid: Polyhedron, placement: Placement): readonly Contact[] {
  const placed = solid.vertices.map((v) => toTable(placement, v));
  if (placed.some((p) => p[2] < -TOUCH_MM)) return [];
  const faces = solid.faces.flatMap((face, i): Contact[] => {
    const loop = face.loops[0] ?? [];
    if (!loop.every((k) => onFloor(placed[k] as Vec3))) return [];
    if (directionToTable(placement, facePlane(solid, i).normal)[2] > -0.5) return [];
    // Seen from below a face runs clockwise in plan.
    return [{ kind: 'polygon', points: loop.map((k) => plan(placed[k] as Vec3)).reverse() }];
  });
  if (faces.length > 0) return faces;
  const points = hull(placed.filter(onFloor).map(plan));
  return points.length === 0 ? [] : [{ kind: 'polygon', points }];
}

function ringsOnFloor(solid: RingStack, placement: Placement): readonly Contact[] {
  const axis = directionToTable(placement, [0, 0, 1]);
  const tilt = Math.hypot(axis[0], axis[1]);
  if (tilt <= PARALLEL_RAD) return uprightOnFloor(solid, placement, axis[2] > 0);
  const down = solid.rings.map((r) => lowestOf(r, placement));
  if (down.some((p) => p[2] < -TOUCH_MM)) return [];
  const points = hull(down.filter(onFloor).map(plan));
  return points.length === 0 ? [] : [{ kind: 'polygon', points }];
}

/** Lowest point of a ring whose axis leans. */
function lowestOf(r: Ring, placement: Placement): Vec3 {
  const [gx, gy] = [placement.axes[2][0], placement.axes[2][1]];
  const size = Math.hypot(r.rxMm * gx, r.ryMm * gy);
  const local: Vec3 =
    size === 0
      ? [r.xMm ?? 0, r.yMm ?? 0, r.zMm]
      : [(r.xMm ?? 0) - (r.rxMm * r.rxMm * gx) / size, (r.yMm ?? 0) - (r.ryMm * r.ryMm * gy) / size, r.zMm];
  return toTable(placement, local);
}

function uprightOnFloor(solid: RingStack, placement: Placement, isUpright: boolean): readonly Contact[] {
  const ends = isUpright ? solid.rings : [...solid.rings].reverse();
  const height = (r: Ring): number => placement.originMm[2] + (isUpright ? r.zMm : -r.zMm);
  const lowest = ends[0];
  if (lowest === undefined || height(lowest) < -TOUCH_MM) return [];
  return ends
    .filter((r, i) => Math.abs(height(r)) <= TOUCH_MM && (i === 0 || r.zMm === lowest.zMm) && r.rxMm > 0)
    .slice(0, 1)
    .map((r) => footSection(r, placement));
}

function footSection(r: Ring, placement: Placement): Contact {
  const centreMm = plan(toTable(placement, [r.xMm ?? 0, r.yMm ?? 0, r.zMm]));
  if (r.rxMm === r.ryMm) return { kind: 'ellipse', centreMm, rxMm: r.rxMm, ryMm: r.ryMm };
  const turned = directionToTable(placement, [1, 0, 0]);
  if (Math.abs(turned[1]) <= PARALLEL_RAD) return { kind: 'ellipse', centreMm, rxMm: r.rxMm, ryMm: r.ryMm };
  if (Math.abs(turned[0]) <= PARALLEL_RAD) return { kind: 'ellipse', centreMm, rxMm: r.ryMm, ryMm: r.rxMm };
  return { kind: 'polygon', points: hull(ringPoints(r, TURNED_OVAL_SIDES).map((p) => plan(toTable(placement, p)))) };
}

/** Points of a contact for a convex hull: the corners of a polygon, or an inscribed polygon of an ellipse. */
export function contactPoints(contact: Contact, sides: number): readonly Vec2[] {
  if (contact.kind === 'polygon') return contact.points;
  const { centreMm, rxMm, ryMm } = contact;
  return ringPoints({ zMm: 0, rxMm, ryMm, xMm: centreMm[0], yMm: centreMm[1] }, sides).map(plan);
}
