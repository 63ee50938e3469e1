/** Points and vectors in mm. */
export type Vec2 = readonly [number, number];
export type Vec3 = readonly [number, number, number];
/** Three rows; `world = originMm + axes * local`, so the columns are the part's own axes in the table's frame. */
export type Mat3 = readonly [Vec3, Vec3, Vec3];

export interface Placement {
  readonly originMm: Vec3;
  readonly axes: Mat3;
}

/** A plane polygon with holes; outer loop counter-clockwise seen from outside, holes clockwise; no repeated end point. */
export interface Region {
  readonly outer: readonly Vec2[];
  readonly holes: readonly (readonly Vec2[])[];
}

/** Planar faces over shared vertices. Loops run counter-clockwise seen from outside; the first is the outer one, the others are holes. */
export interface Polyhedron {
  readonly kind: 'polyhedron';
  readonly vertices: readonly Vec3[];
  readonly faces: readonly { readonly loops: readonly (readonly number[])[] }[];
  readonly convex: boolean;
  /** Convex bodies that fill it without overlap; present where `convex` is false. */
  readonly pieces?: readonly Polyhedron[];
}

/** An ellipse across the local z axis; its centre lies on the axis unless `xMm`, `yMm` move it (a splayed round leg). */
export interface Ring {
  readonly zMm: number;
  readonly rxMm: number;
  readonly ryMm: number;
  readonly xMm?: number;
  readonly yMm?: number;
}

/**
 * A stack of ellipses along the local z axis, joined by straight lines between neighbours:
 * cylinders, cones, discs with chamfers, oval tops. Rings are in order of rising z; equal z makes a flat step.
 */
export interface RingStack {
  readonly kind: 'rings';
  readonly rings: readonly Ring[];
}

export type Solid = Polyhedron | RingStack;

/** Plan outlines that know their exact support function. Centred on the origin unless points say otherwise. */
export type Outline =
  | { readonly kind: 'polygon'; readonly points: readonly Vec2[] }
  | { readonly kind: 'ellipse'; readonly rxMm: number; readonly ryMm: number };

/** Contact with the floor: a polygon, or an ellipse with its axes along x and y. */
export type Contact =
  | { readonly kind: 'polygon'; readonly points: readonly Vec2[] }
  | { readonly kind: 'ellipse'; readonly centreMm: Vec2; readonly rxMm: number; readonly ryMm: number };

/** Triangles with outward winding, plus the edges a draughtsman would draw. */
export interface Mesh {
  readonly positions: readonly Vec3[];
  readonly triangles: readonly (readonly [number, number, number])[];
  /** Which face of the solid each triangle belongs to; all triangles of one curved band share a number. */
  readonly faceOf: readonly number[];
  /** Per face: smooth (curved) or flat. */
  readonly smooth: readonly boolean[];
  /** Sharp edges as pairs of positions. */
  readonly edges: readonly (readonly [number, number])[];
  readonly chordErrorMm: number;
}

/** A piece of a solid's skin, for finish areas and rules on end grain. */
export interface SkinPatch {
  readonly areaMm2: number;
  /** Outward normal of a plane patch in local axes; absent for a curved band. */
  readonly normal?: Vec3;
}
