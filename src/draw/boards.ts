import type { GrainFrame } from '../design/index.ts';
import type { Vec3 } from '../solid/index.ts';
import { chance } from './chance.ts';
import type { Shape } from './shape.ts';
import { dot, plus, times } from './vector.ts';

/** One board of a glued-up part, and how it lay in its tree. */
export interface Board {
  /** Strip that it takes: from and to, measured along `across`. */
  readonly across: Vec3;
  readonly fromMm: number;
  readonly toMm: number;
  /** A few per cent lighter or darker than its neighbours. */
  readonly brightness: number;
  readonly grain: GrainFrame;
  /** A point on the line along L round which its rings run. */
  readonly pithMm: Vec3;
  /** Rings narrow by this much per mm along L: what draws the cathedrals of flat-sawn boards. */
  readonly taper: number;
  readonly key: string;
}

const extent = (points: readonly Vec3[], along: Vec3): readonly [number, number] => {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const p of points) {
    const d = dot(p, along);
    low = Math.min(low, d);
    high = Math.max(high, d);
  }
  return [low, high];
};

/**
 * The boards of a part. Flat-sawn boards have the heart a little below the face, quarter-sawn ones far to the side,
 * single pieces at a corner; which side the heart lies on changes from board to board, as in a good glue-up.
 * Parts without grain have none.
 * @source common practice
 */
export function boardsOf({ part, pieces }: Shape): Board[] {
  const { grain } = part;
  if (grain === undefined) return [];
  const points = pieces.flatMap((p) => p.points);
  const spans = { L: extent(points, grain.L), R: extent(points, grain.R), T: extent(points, grain.T) };
  const wide = spans.T[1] - spans.T[0] >= spans.R[1] - spans.R[0] ? 'T' : 'R';
  const across = grain[wide];
  const [low, high] = spans[wide];
  const count = Math.max(1, part.boards);
  const middle = (axis: 'L' | 'R' | 'T'): number => (spans[axis][0] + spans[axis][1]) / 2;
  const random = chance(part.id);
  const heartUp = random() < 0.5 ? 1 : -1;
  return Array.from({ length: count }, (_, i): Board => {
    const fromMm = low + ((high - low) * i) / count;
    const toMm = low + ((high - low) * (i + 1)) / count;
    const width = toMm - fromMm;
    const at = { L: middle('L'), R: middle('R'), T: middle('T'), [wide]: (fromMm + toMm) / 2 };
    const thick = spans.R[1] - spans.R[0];
    const side = i % 2 === 0 ? heartUp : -heartUp;
    const [r1, r2, r3] = [random(), random(), random()];
    const single = count === 1 && wide === 'T' && width < 1.8 * thick;
    const away = wide === 'R' ? width * (0.9 + 0.8 * r1) : single ? thick * (0.8 + 0.5 * r1) : thick / 2 + width * (0.1 + 0.28 * r1);
    const aside = single ? width * (0.5 + 0.4 * r2) * (r3 < 0.5 ? 1 : -1) : wide === 'R' ? thick * (r2 - 0.5) : width * 0.3 * (r2 - 0.5);
    const pithMm = plus(plus(times(grain.L, at.L), times(grain.R, at.R - side * away)), times(grain.T, at.T + aside));
    const brightness = count === 1 ? 1 + 0.03 * (random() - 0.5) : 1 + 0.075 * (random() - 0.5);
    return {
      across,
      fromMm,
      toMm,
      brightness,
      grain,
      pithMm,
      taper: (0.006 + 0.008 * random()) * (random() < 0.5 ? 1 : -1),
      key: `${part.id}#${i}`,
    };
  });
}
