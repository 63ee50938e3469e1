import type { Mat3, Vec3 } from '../solid/index.ts';
import { add, cross, dot, scale, unit } from '../solid/index.ts';
import type { Sawn } from '../spec/index.ts';
import type { GrainFrame } from './table.ts';

/**
 * Grain frame of a piece: L along the grain; flat sawn boards have T across their face and R through their thickness, quarter sawn ones
 * the reverse. L, R, T are right-handed.
 *
 * @source Wood Handbook FPL-GTR-282, chapter 5, figure 5-1 (axes), chapter 3 (flat and quarter sawn)
 */
export function grainFrame(grainAlong: Vec3, across: Vec3, sawn: Sawn): GrainFrame {
  const L = unit(grainAlong);
  const wide = unit(add(across, scale(L, -dot(across, L))));
  const thin = cross(L, wide);
  const R = sawn === 'flat' ? thin : wide;
  return { L, R, T: cross(L, R) };
}

/** The frame as a matrix whose columns are L, R and T. */
export const frameMatrix = ({ L, R, T }: GrainFrame): Mat3 => [
  [L[0], R[0], T[0]],
  [L[1], R[1], T[1]],
  [L[2], R[2], T[2]],
];
