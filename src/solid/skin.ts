import { faceAreaMm2 } from './moments.ts';
import { areaVector, facePlane, loopPoints } from './polyhedron.ts';
import { QUADRATURE_RATIO } from './tolerance.ts';
import type { Ring, SkinPatch, Solid } from './types.ts';
import { norm } from './vector.ts';

/**
 * The whole skin of a solid in patches: plane faces with their outward normal in the part's own axes, curved bands without.
 * @source circular frusta: pi (r1 + r2) x slant height; other bands: Gauss-Legendre across, trapezoid rule around, doubled until steady
 */
export function skinPatches(solid: Solid): readonly SkinPatch[] {
  if (solid.kind === 'polyhedron') {
    return solid.faces.flatMap((face, i) => {
      if (norm(areaVector(loopPoints(solid, face.loops[0] ?? []))) < 1e-12) return [];
      return [{ areaMm2: faceAreaMm2(solid, i), normal: facePlane(solid, i).normal }];
    });
  }
  const patches: SkinPatch[] = [];
  const first = solid.rings[0];
  const last = solid.rings[solid.rings.length - 1];
  if (first !== undefined) patches.push({ areaMm2: ringAreaMm2(first), normal: [0, 0, -1] });
  solid.rings.slice(1).forEach((upper, k) => {
    const lower = solid.rings[k] as Ring;
    if (upper.zMm > lower.zMm) {
      patches.push({ areaMm2: bandAreaMm2(lower, upper) });
      return;
    }
    const step = ringAreaMm2(lower) - ringAreaMm2(upper);
    if (step !== 0) patches.push({ areaMm2: Math.abs(step), normal: [0, 0, step > 0 ? 1 : -1] });
  });
  if (last !== undefined) patches.push({ areaMm2: ringAreaMm2(last), normal: [0, 0, 1] });
  return patches.filter((p) => p.areaMm2 > 0);
}

/** Area of the whole skin, mm2. */
export const skinAreaMm2 = (solid: Solid): number => skinPatches(solid).reduce((sum, p) => sum + p.areaMm2, 0);

const ringAreaMm2 = (ring: Ring): number => Math.PI * ring.rxMm * ring.ryMm;

function bandAreaMm2(lower: Ring, upper: Ring): number {
  const h = upper.zMm - lower.zMm;
  const ax = (upper.xMm ?? 0) - (lower.xMm ?? 0);
  const ay = (upper.yMm ?? 0) - (lower.yMm ?? 0);
  const upright = ax === 0 && ay === 0;
  if (upright && lower.rxMm === lower.ryMm && upper.rxMm === upper.ryMm) {
    return Math.PI * (lower.rxMm + upper.rxMm) * Math.hypot(h, upper.rxMm - lower.rxMm);
  }
  let steps = 16;
  let area = quadrature(lower, upper, steps);
  for (;;) {
    steps *= 2;
    const finer = quadrature(lower, upper, steps);
    if (Math.abs(finer - area) <= QUADRATURE_RATIO * finer || steps > 16384) return finer;
    area = finer;
  }
}

// Three-point rule on [0, 1], Abramowitz & Stegun, Table 25.4.
const ACROSS = [
  [0.5 - Math.sqrt(0.15), 5 / 18],
  [0.5, 8 / 18],
  [0.5 + Math.sqrt(0.15), 5 / 18],
] as const;

/** Length of the cross product of the two tangents, summed over the band. */
function quadrature(lower: Ring, upper: Ring, steps: number): number {
  const h = upper.zMm - lower.zMm;
  const dx = upper.rxMm - lower.rxMm;
  const dy = upper.ryMm - lower.ryMm;
  const ax = (upper.xMm ?? 0) - (lower.xMm ?? 0);
  const ay = (upper.yMm ?? 0) - (lower.yMm ?? 0);
  const pieces = Math.max(1, steps / 64);
  let sum = 0;
  for (let k = 0; k < steps; k++) {
    const angle = (2 * Math.PI * k) / steps;
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    for (let piece = 0; piece < pieces; piece++) {
      for (const [node, weight] of ACROSS) {
        const t = (piece + node) / pieces;
        const a = lower.rxMm + t * dx;
        const b = lower.ryMm + t * dy;
        const flat = a * s * (ay + dy * s) + b * c * (ax + dx * c);
        sum += (weight / pieces) * Math.hypot(b * c * h, a * s * h, flat);
      }
    }
  }
  return (sum * 2 * Math.PI) / steps;
}
