import { boundsMeet, boundsMm } from './bounds.ts';
import { differenceOf, intersectionOf, unionOf } from './clip.ts';
import { convexPieces } from './cut.ts';
import type { Placed } from './overlap.ts';
import { placedPieces } from './overlap.ts';
import { areaMm2, hull } from './polygon.ts';
import type { Plane } from './polyhedron.ts';
import { areaVector, loopPoints } from './polyhedron.ts';
import { TOUCH_MM } from './tolerance.ts';
import type { FlatFace } from './touch.ts';
import { boxOf, flatFaces } from './touch.ts';
import type { Polyhedron, Region, Vec2, Vec3 } from './types.ts';
import { directionToTable, dot, flatten, norm, planeBasis, scale, toTable } from './vector.ts';

/** A body that covers some of another one's skin. */
export interface Cover {
  readonly body: Placed;
  /** Glued on: what only touches is covered too, and not just what lies inside the body. */
  readonly glued: boolean;
  /** Where both skins lie in one plane over material that both claim, the skin is this body's. */
  readonly takesFlush: boolean;
}

/** What is covered of one face, which lies in this plane of the table's frame; the normal points out of the body. */
export interface CoveredFace extends Plane {
  readonly areaMm2: number;
}

/**
 * The skin of a placed solid that others cover, face by face; where several cover the same place it counts once. Found from sections of the
 * covers just outside and just inside each face, TOUCH_MM away: outside alone is contact, both is let in, inside alone is flush.
 * Round sides are taken as inscribed prisms within CHORD_MM.
 */
export function coveredSkin(body: Placed, covers: readonly Cover[]): readonly CoveredFace[] {
  const box = boundsMm(body.solid, body.placement);
  const near = covers.filter((cover) => boundsMeet(box, boundsMm(cover.body.solid, cover.body.placement), TOUCH_MM));
  if (near.length === 0) return [];
  const bodies = near.map((cover) => ({
    cover,
    pieces: placedPieces(cover.body).map((piece) => ({ piece, box: boundsMm(piece) })),
  }));
  return [...flatFaces(body), ...bandFaces(body)].flatMap((face) => {
    const faceBox = boxOf(face.loops[0] ?? []);
    const hidden = bodies.flatMap(({ cover, pieces }) => {
      const close = pieces.filter((one) => boundsMeet(faceBox, one.box, TOUCH_MM)).map((one) => one.piece);
      return close.length === 0 ? [] : hiddenBy(face, close, cover);
    });
    if (hidden.length === 0) return [];
    const covered = areaMm2(intersectionOf([regionOf(face)], unionOf(hidden)));
    return covered === 0 ? [] : [{ normal: face.normal, offsetMm: dot(face.normal, face.point), areaMm2: covered }];
  });
}

function hiddenBy(face: FlatFace, pieces: readonly Polyhedron[], { glued, takesFlush }: Cover): readonly Region[] {
  const outside = sections(face, pieces, TOUCH_MM);
  const inside = sections(face, pieces, -TOUCH_MM);
  return [
    ...(glued ? outside : intersectionOf(outside, inside)),
    ...(takesFlush && inside.length > 0 ? differenceOf(inside, outside) : []),
  ];
}

/** Sections of convex bodies by the plane that lies `offMm` outside of a face, in the face's own plane coordinates. */
function sections(face: FlatFace, pieces: readonly Polyhedron[], offMm: number): readonly Region[] {
  const basis = planeBasis(face.normal);
  const heightMm = dot(face.normal, face.point) + offMm;
  return unionOf(
    pieces.flatMap((piece): readonly Region[] => {
      const points: Vec2[] = [];
      const heights = piece.vertices.map((v) => dot(face.normal, v) - heightMm);
      for (const { loops } of piece.faces) {
        const loop = loops[0] ?? [];
        for (const [k, i] of loop.entries()) {
          const j = loop[(k + 1) % loop.length] as number;
          const [hi, hj] = [heights[i] as number, heights[j] as number];
          if (hi < 0 === hj < 0) continue;
          const a = flatten(basis, piece.vertices[i] as Vec3);
          const b = flatten(basis, piece.vertices[j] as Vec3);
          const share = hi / (hi - hj);
          points.push([a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])]);
        }
      }
      const outer = hull(points);
      return outer.length < 3 ? [] : [{ outer, holes: [] }];
    }),
  );
}

function regionOf(face: FlatFace): Region {
  const basis = planeBasis(face.normal);
  const [outer = [], ...holes] = face.loops.map((loop) => loop.map((p) => flatten(basis, p)));
  return { outer, holes };
}

/** The sides of a round solid as the faces of its inscribed prisms, without their level ends. */
function bandFaces({ solid, placement }: Placed): readonly FlatFace[] {
  if (solid.kind === 'polyhedron') return [];
  return convexPieces(solid).flatMap((piece) =>
    piece.faces.flatMap((face): readonly FlatFace[] => {
      const loop = loopPoints(piece, face.loops[0] ?? []);
      const [first] = loop;
      const twice = areaVector(loop);
      const size = norm(twice);
      if (first === undefined || size === 0 || loop.every((p) => p[2] === first[2])) return [];
      const normal = directionToTable(placement, scale(twice, 1 / size));
      return [{ normal, point: toTable(placement, first), loops: [loop.map((p) => toTable(placement, p))] }];
    }),
  );
}
