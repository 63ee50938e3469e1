/**
 * Points, polygons, solids and their exact moments. Knows no table. mm in; mm, mm2, mm3, mm4 out.
 * Solids live in their own axes; a `Placement` puts them into the table's frame (x length, y width, z up, floor at z = 0).
 * Plane-faced bodies are exact; round ones are exact in volume, moments, reach and floor contact, and tessellated within a stated chord
 * error for meshes, shadows and overlaps.
 */
export type { Bounds } from './bounds.ts';
export { boundsMeet, boundsMm, boundsOfAll, highestMm, lowestMm, placedReachMm, reachMm } from './bounds.ts';
export type { Level } from './build.ts';
export { box, cone, disc, extrude, frustum, loft, mirrored, octagon, octagonalPost, plate, rings, stack } from './build.ts';
export { differenceOf, intersectionOf, offsetRegions, unionOf } from './clip.ts';
export type { Cover, CoveredFace } from './covered.ts';
export { coveredSkin } from './covered.ts';
export { convexPieces, cutConvex, intersectConvex } from './cut.ts';
export { contactPoints, floorContact } from './floor.ts';
export { meshOf } from './mesh.ts';
export type { Moments } from './moments.ts';
export { centroidMm, moments, volumeMm3 } from './moments.ts';
export type { InnerCurve } from './outline.ts';
export { innerCurve, insetPolygon, outsideMm, parallelPoint, smoothInsetMm, supportOf, supportOfInner } from './outline.ts';
export type { Overlap, Placed } from './overlap.ts';
export { gapMm, overlapOf, overlapOfThree, placedPieces } from './overlap.ts';
export {
  areaMm2,
  centreOfLoop,
  clockwise,
  counterClockwise,
  distanceToSegmentMm,
  hull,
  isConvexLoop,
  isInLoop,
  isInRegions,
  signedAreaMm2,
} from './polygon.ts';
export type { Plane } from './polyhedron.ts';
export { facePlane, facePlanes, isConvexBody } from './polyhedron.ts';
export { levelSection } from './section.ts';
export type { Shadow, Slab } from './shadow.ts';
export { projectShadow, seenAlong } from './shadow.ts';
export { skinAreaMm2, skinPatches } from './skin.ts';
export { CHORD_MM, CONTACT_MM2, OVERLAP_MM3, PARALLEL_RAD, TOUCH_MM } from './tolerance.ts';
export type { Touch } from './touch.ts';
export { touchAreaMm2, touchesOf } from './touch.ts';
export { triangulate } from './triangulate.ts';
export type {
  Contact,
  Mat3,
  Mesh,
  Outline,
  Placement,
  Polyhedron,
  Region,
  Ring,
  RingStack,
  SkinPatch,
  Solid,
  Vec2,
  Vec3,
} from './types.ts';
export type { Axis } from './vector.ts';
export {
  AT_ORIGIN,
  add,
  along,
  cross,
  directionToLocal,
  directionToTable,
  dot,
  IDENTITY,
  norm,
  product,
  rotation,
  scale,
  subtract,
  times,
  toTable,
  transposed,
  unit,
} from './vector.ts';
