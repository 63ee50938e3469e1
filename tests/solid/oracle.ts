/** manifold-3d (general-purpose solid kernel, Apache-2.0) as an independent second opinion on volumes, areas, sections, shadows, overlaps. */

import type { CrossSection, Manifold } from 'manifold-3d/manifold';
import Module from 'manifold-3d/manifold';
import type { Mesh, Placement, Solid, Vec3 } from '../../src/solid/index.ts';
import { meshOf, toTable } from '../../src/solid/index.ts';

const kernel = await Module();
kernel.setup();

export const manifold = kernel;

/** A watertight mesh as a body of the kernel, its points placed first; throws where the mesh leaks. */
export function bodyOf(mesh: Mesh, place: (p: Vec3) => Vec3 = (p) => p): Manifold {
  const points = mesh.positions.map(place);
  // Loose triangles, merged by place: the kernel decides by itself whether they close.
  const data = new kernel.Mesh({
    numProp: 3,
    vertProperties: Float32Array.from(points.flat()),
    triVerts: Uint32Array.from(mesh.triangles.flat()),
  });
  const body = new kernel.Manifold(data);
  if (body.status() !== 'NoError') throw new Error(`the kernel refuses the mesh: ${body.status()}`);
  return body;
}

/** A placed solid as a body of the kernel, round parts within `chordMm`. */
export const placedBody = (solid: Solid, placement: Placement, chordMm = 0.002): Manifold =>
  bodyOf(meshOf(solid, chordMm), (p) => toTable(placement, p));

export type { CrossSection, Manifold };
