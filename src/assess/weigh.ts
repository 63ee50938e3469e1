import type { Part } from '../design/index.ts';
import { partVolume } from '../design/index.ts';
import type { Vec3 } from '../solid/index.ts';

export interface Weight {
  readonly massKg: number;
  readonly massOf: Readonly<Record<string, number>>;
  readonly volumeOf: Readonly<Record<string, number>>;
  readonly centreOfGravityMm: Vec3;
}

/**
 * Mass and centre of gravity of parts as they stand; each part's finished volume (what is let in elsewhere taken off) times its
 * density. Screws, buttons and finish are left out.
 * Density at 12 % moisture. @source Wood Handbook, FPL-GTR-282 (2021), Eq. 4-14, where the wood states no density of its own
 */
export function weigh(parts: readonly Part[]): Weight {
  const massOf: Record<string, number> = {};
  const volumeOf: Record<string, number> = {};
  let massKg = 0;
  let [mx, my, mz] = [0, 0, 0];
  for (const part of parts) {
    const { volumeMm3, centroidMm } = partVolume(part);
    const mass = volumeMm3 * 1e-9 * part.densityKgM3;
    const [x, y, z] = centroidMm;
    volumeOf[part.id] = volumeMm3;
    massOf[part.id] = mass;
    massKg += mass;
    mx += mass * x;
    my += mass * y;
    mz += mass * z;
  }
  return { massKg, massOf, volumeOf, centreOfGravityMm: massKg === 0 ? [0, 0, 0] : [mx / massKg, my / massKg, mz / massKg] };
}
