/** Points, polygons, solids and their exact moments. Knows no table. mm in, mm out. */
export type { Contact, Mat3, Mesh, Outline, Placement, Polyhedron, Region, RingStack, SkinPatch, Solid, Vec2, Vec3 } from './types.ts';
