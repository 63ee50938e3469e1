import type { Vec2 } from '../../src/solid/index.ts';

/**
 * Largest vertical load at a place that the feet can carry without pulling on the floor: the linear programme
 * max F with sum r = W + F, sum r p = W g + F at, r >= 0, by looking at every basic solution (two feet and F); `null`
 * where none carries. A place over the feet has no largest load: ask `carriesWithoutLimit` first.
 */
export function mostByReactions(feet: readonly Vec2[], gravity: Vec2, weightN: number, at: Vec2): number | null {
  let most: number | null = null;
  for (let i = 0; i < feet.length; i++) {
    for (let j = i + 1; j < feet.length; j++) {
      const a = feet[i] as Vec2;
      const b = feet[j] as Vec2;
      const solved = solve3(
        [
          [1, 1, -1],
          [a[0], b[0], -at[0]],
          [a[1], b[1], -at[1]],
        ],
        [weightN, weightN * gravity[0], weightN * gravity[1]],
      );
      if (solved === undefined || solved.some((v) => v < -1e-9 * weightN)) continue;
      most = Math.max(most ?? 0, solved[2]);
    }
  }
  return most;
}

/** A place inside some triangle of three feet carries any load. */
export function carriesWithoutLimit(feet: readonly Vec2[], at: Vec2): boolean {
  for (let i = 0; i < feet.length; i++) {
    for (let j = i + 1; j < feet.length; j++) {
      for (let k = j + 1; k < feet.length; k++) {
        const [a, b, c] = [feet[i] as Vec2, feet[j] as Vec2, feet[k] as Vec2];
        const shares = solve3(
          [
            [1, 1, 1],
            [a[0], b[0], c[0]],
            [a[1], b[1], c[1]],
          ],
          [1, at[0], at[1]],
        );
        if (shares?.every((s) => s >= 0)) return true;
      }
    }
  }
  return false;
}

type Row3 = readonly [number, number, number];

/** Cramer's rule; `undefined` where the three lines are not independent. */
function solve3([p, q, r]: readonly [Row3, Row3, Row3], [u, v, w]: Row3): Row3 | undefined {
  const d = det(p, q, r);
  if (Math.abs(d) < 1e-9) return undefined;
  const x = det([u, p[1], p[2]], [v, q[1], q[2]], [w, r[1], r[2]]);
  const y = det([p[0], u, p[2]], [q[0], v, q[2]], [r[0], w, r[2]]);
  const z = det([p[0], p[1], u], [q[0], q[1], v], [r[0], r[1], w]);
  return [x / d, y / d, z / d];
}

function det(a: Row3, b: Row3, c: Row3): number {
  return a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
}

/** Repeatable numbers in [0, 1): a linear congruential generator (Numerical Recipes constants, from memory). */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}
