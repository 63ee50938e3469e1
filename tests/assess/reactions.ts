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
      most = Math.max(most ?? 0, solved[2] as number);
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

function solve3(m: readonly (readonly number[])[], rhs: readonly number[]): number[] | undefined {
  const det = (r: readonly (readonly number[])[]): number => {
    const [a, b, c] = r as [number[], number[], number[]];
    return (
      (a[0] as number) * ((b[1] as number) * (c[2] as number) - (b[2] as number) * (c[1] as number)) -
      (a[1] as number) * ((b[0] as number) * (c[2] as number) - (b[2] as number) * (c[0] as number)) +
      (a[2] as number) * ((b[0] as number) * (c[1] as number) - (b[1] as number) * (c[0] as number))
    );
  };
  const d = det(m);
  if (Math.abs(d) < 1e-9) return undefined;
  return [0, 1, 2].map((col) => det(m.map((line, r) => line.map((v, c) => (c === col ? (rhs[r] as number) : v)))) / d);
}

/** Repeatable numbers in [0, 1): a linear congruential generator (Numerical Recipes constants, from memory). */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}
