import type { Vec2 } from '../../solid/index.ts';
import type { Part } from '../table.ts';
import type { Pair } from './survey.ts';

/** A part under the top, and where in plan it touches the underside. */
export interface Support {
  readonly part: Part;
  readonly outer: readonly Vec2[];
  readonly holes: readonly (readonly Vec2[])[];
  readonly areaMm2: number;
}

/** Where the underside of the top lies on the parts below it. */
export function supportsOf(topId: string, pairs: readonly Pair[]): readonly Support[] {
  return pairs.flatMap((pair) => {
    if (pair.a.id !== topId) return [];
    return pair.touches.flatMap((touch): Support[] => {
      // The top comes first in its pairs, so the normal looks out of the top.
      if (touch.normal[2] > -0.999) return [];
      const plan = (loop: readonly (readonly [number, number, number])[]): readonly Vec2[] => loop.map((p): Vec2 => [p[0], p[1]]);
      return [{ part: pair.b, outer: plan(touch.outer), holes: touch.holes.map(plan), areaMm2: touch.areaMm2 }];
    });
  });
}
