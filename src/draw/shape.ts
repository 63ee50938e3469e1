import type { Part } from '../design/index.ts';
import type { Placement, Polyhedron, RingStack, Vec3 } from '../solid/index.ts';
import { convexPieces, meshOf } from '../solid/index.ts';
import { cross, dot, minus, newell, nth, plus, times, unit } from './vector.ts';

/** A plane convex face in the table's frame, counter-clockwise seen from outside. */
export interface ShapeFace {
  readonly points: readonly Vec3[];
  readonly normal: Vec3;
  /** Across each side (from point i to i + 1): the index of the face of the same shape, or undefined at a seam. */
  readonly neighbours: readonly (number | undefined)[];
  /** Curved bands share a number; sides between two faces of one band are no edges. Absent for plane faces. */
  readonly band?: number;
}

/** A closed convex piece. Faces of a piece never hide each other. */
export interface ShapePiece {
  readonly faces: readonly ShapeFace[];
  readonly points: readonly Vec3[];
  /** Inner cuts between pieces of one part: planes that part it from its neighbours, never drawn. */
  readonly cuts: readonly { readonly normal: Vec3; readonly at: Vec3 }[];
}

export interface ShapeEdge {
  readonly a: Vec3;
  readonly b: Vec3;
  readonly faces: readonly number[];
  /** `smooth` shows only where the surface turns away from the eye. */
  readonly kind: 'sharp' | 'smooth';
}

/** One part as a draughtsman sees it. */
export interface Shape {
  readonly part: Part;
  readonly faces: readonly ShapeFace[];
  readonly pieces: readonly ShapePiece[];
  readonly edges: readonly ShapeEdge[];
}

/** Two faces of one plane: the side between them is a seam of the tessellation. */
const FLAT_COSINE = 1 - 1e-9;

interface Loop {
  readonly indices: readonly number[];
  readonly band?: number;
  readonly piece: number;
}

export const place = ({ originMm, axes }: Placement, p: Vec3): Vec3 => plus(originMm, [dot(axes[0], p), dot(axes[1], p), dot(axes[2], p)]);

function assemble(part: Part, vertices: readonly Vec3[], loops: readonly Loop[], cuts: ReadonlyMap<number, ShapePiece['cuts']>): Shape {
  const world = vertices.map((v) => place(part.placement, v));
  const sides = new Map<string, number>();
  loops.forEach(({ indices }, face) => {
    indices.forEach((a, i) => {
      sides.set(`${a},${nth(indices, i + 1)}`, face);
    });
  });
  const faces: ShapeFace[] = loops.map(({ indices, band }) => {
    const points = indices.map((i) => nth(world, i));
    const neighbours = indices.map((a, i) => sides.get(`${nth(indices, i + 1)},${a}`));
    return { points, normal: unit(newell(points)), neighbours, ...(band === undefined ? {} : { band }) };
  });
  const edges: ShapeEdge[] = [];
  loops.forEach(({ indices }, f) => {
    const face = nth(faces, f);
    indices.forEach((ia, i) => {
      const other = face.neighbours[i];
      if (other !== undefined && other < f) return;
      const next = other === undefined ? undefined : nth(faces, other);
      if (next !== undefined && dot(next.normal, face.normal) > FLAT_COSINE) return;
      const smooth = next !== undefined && face.band !== undefined && next.band === face.band;
      const b = nth(world, nth(indices, i + 1));
      edges.push({ a: nth(world, ia), b, faces: other === undefined ? [f] : [f, other], kind: smooth ? 'smooth' : 'sharp' });
    });
  });
  const groups = new Map<number, number[]>();
  loops.forEach(({ piece }, f) => {
    groups.set(piece, [...(groups.get(piece) ?? []), f]);
  });
  const pieces = [...groups].map(([piece, members]): ShapePiece => {
    const used = new Set(members.flatMap((f) => nth(loops, f).indices));
    return { faces: members.map((f) => nth(faces, f)), points: [...used].map((i) => nth(world, i)), cuts: cuts.get(piece) ?? [] };
  });
  return { part, faces, pieces, edges };
}

function convexShape(part: Part, solid: Polyhedron): Shape {
  const loops = solid.faces.map(({ loops: [outer] }): Loop => ({ indices: outer ?? [], piece: 0 }));
  return assemble(part, solid.vertices, loops, new Map());
}

/** Points this close to a plane lie on it, mm. */
const ON_PLANE_MM = 1e-6;

/** Whether a face lies wholly on one that faces it: the two sides of a cut. */
function isOnOther({ points, normal }: ShapeFace, other: ShapeFace): boolean {
  if (dot(normal, other.normal) > -FLAT_COSINE) return false;
  return points.every((p) => {
    const from = minus(p, nth(other.points, 0));
    if (Math.abs(dot(other.normal, from)) > ON_PLANE_MM) return false;
    return other.points.every((a, i) => {
      const side = minus(nth(other.points, i + 1), a);
      return dot(cross(side, minus(p, a)), other.normal) >= -ON_PLANE_MM * Math.hypot(...side);
    });
  });
}

/** Pieces of one part without the faces on which they meet: those part them, and nobody sees them. */
function withoutCuts(pieces: readonly ShapePiece[]): ShapePiece[] {
  return pieces.map((piece) => {
    const others = pieces.flatMap((other) => (other === piece ? [] : other.faces));
    const cut = piece.faces.filter((face) => others.some((other) => isOnOther(face, other)));
    const cuts = cut.map(({ normal, points }) => ({ normal, at: nth(points, 0) }));
    return { ...piece, faces: piece.faces.filter((face) => !cut.includes(face)), cuts };
  });
}

/** A body with hollows: lines are found on its triangles, painting goes by its convex pieces. */
function hollowShape(part: Part, solid: Polyhedron, chordMm: number): Shape {
  const mesh = meshOf(solid, chordMm);
  const loops = mesh.triangles.map((indices): Loop => ({ indices, piece: 0 }));
  const skin = assemble(part, mesh.positions, loops, new Map());
  return { ...skin, pieces: withoutCuts(convexPieces(solid).flatMap((piece) => convexShape(part, piece).pieces)) };
}

/** Sides of the polygon that stands for a circle of this radius within a chord error. @source geometry of the circle: sagitta r (1 - cos(pi / n)) */
export function sidesOfCircle(radiusMm: number, chordMm: number): number {
  if (radiusMm <= chordMm) return 8;
  return Math.max(16, 4 * Math.ceil(Math.PI / Math.acos(1 - chordMm / radiusMm) / 4));
}

function ringShape(part: Part, { rings }: RingStack, chordMm: number): Shape {
  const sides = sidesOfCircle(Math.max(...rings.map((r) => Math.max(r.rxMm, r.ryMm))), chordMm);
  const vertices: Vec3[] = [];
  const starts = rings.map(({ zMm, rxMm, ryMm }) => {
    const start = vertices.length;
    for (let i = 0; i < sides; i += 1) {
      const angle = (2 * Math.PI * i) / sides;
      vertices.push([rxMm * Math.cos(angle), ryMm * Math.sin(angle), zMm]);
    }
    return start;
  });
  const loops: Loop[] = [];
  const cuts = new Map<number, ShapePiece['cuts']>();
  const around = Array.from({ length: sides }, (_, i) => i);
  const axis = place({ originMm: [0, 0, 0], axes: part.placement.axes }, [0, 0, 1]);
  for (let k = 0; k + 1 < rings.length; k += 1) {
    const low = nth(rings, k);
    const high = nth(rings, k + 1);
    if (high.zMm - low.zMm <= 1e-9) continue;
    const [a, b] = [nth(starts, k), nth(starts, k + 1)];
    for (const i of around) {
      const j = (i + 1) % sides;
      loops.push({ indices: [a + i, a + j, b + j, b + i], band: k, piece: k });
    }
    const stepsBelow = k === 0 || low.zMm - nth(rings, k - 1).zMm <= 1e-9;
    const stepsAbove = k + 2 === rings.length || nth(rings, k + 2).zMm - high.zMm <= 1e-9;
    const seams: { normal: Vec3; at: Vec3 }[] = [];
    if (stepsBelow) loops.push({ indices: around.map((i) => a + i).toReversed(), piece: k });
    else seams.push({ normal: times(axis, -1), at: place(part.placement, [0, 0, low.zMm]) });
    if (stepsAbove) loops.push({ indices: around.map((i) => b + i), piece: k });
    else seams.push({ normal: axis, at: place(part.placement, [0, 0, high.zMm]) });
    cuts.set(k, seams);
  }
  return assemble(part, vertices, loops, cuts);
}

/**
 * Faces, edges and convex pieces of a part as it stands in the table.
 * Curved parts become facets whose chord error is at most `chordMm`.
 */
export function shapeOf(part: Part, chordMm: number): Shape {
  const { solid } = part;
  if (solid.kind === 'rings') return ringShape(part, solid, chordMm);
  const plain = solid.convex && solid.faces.every((f) => f.loops.length === 1);
  return plain ? convexShape(part, solid) : hollowShape(part, solid, chordMm);
}
