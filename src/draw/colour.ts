import type { Part } from '../design/index.ts';
import type { Vec3 } from '../solid/index.ts';
import type { Library } from '../spec/index.ts';
import { dot, unit } from './vector.ts';

export interface WoodColours {
  readonly face: string;
  readonly grain: string;
  readonly end: string;
}

type Rgb = readonly [number, number, number];

const channels = (colour: string): Rgb => {
  const value = Number.parseInt(colour.slice(1), 16);
  return [(value >> 16) & 255, (value >> 8) & 255, value & 255];
};

const hex = (rgb: Rgb): string =>
  `#${rgb
    .map((c) =>
      Math.round(Math.min(255, Math.max(0, c)))
        .toString(16)
        .padStart(2, '0'),
    )
    .join('')}`;

/** A colour between two: `a` at 0, `b` at 1. */
export function blend(a: string, b: string, share: number): string {
  const [p, q] = [channels(a), channels(b)];
  return hex([p[0] + (q[0] - p[0]) * share, p[1] + (q[1] - p[1]) * share, p[2] + (q[2] - p[2]) * share]);
}

/** Lighter above 1, darker below. */
export function lit(colour: string, factor: number): string {
  const [r, g, b] = channels(colour);
  return hex([r * factor, g * factor, b * factor]);
}

/** Where the light of every picture comes from: over the right shoulder of somebody at the front. */
export const LIGHT: Vec3 = unit([0.34, -0.42, 0.86]);

/** How bright a face is: 1 for a top, a third less for what turns away from the light. */
export const brightness = (normal: Vec3): number => 0.78 + 0.27 * dot(normal, LIGHT);

const UNKNOWN: WoodColours = { face: '#c9bfae', grain: '#a99f8e', end: '#988e7d' };

/** The colours of a part's wood or material in the library. */
export function coloursOf(part: Part, library: Library): WoodColours {
  if (part.wood !== undefined) return library.woods[part.wood]?.colour ?? UNKNOWN;
  if (part.material !== undefined) return library.materials[part.material]?.colour ?? UNKNOWN;
  return UNKNOWN;
}
