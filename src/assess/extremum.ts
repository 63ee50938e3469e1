/** Cells in which the hills of a function are looked for: enough for the few that plan outlines make. */
const cellCount = 64;

/**
 * Largest value of a continuous function between two angles: every hill that the cells show is climbed by golden section.
 * @source Press et al., Numerical Recipes, 3rd ed., section 10.2, golden section search (from memory)
 */
export function largestBetween(f: (x: number) => number, from: number, to: number): { readonly x: number; readonly value: number } {
  const step = (to - from) / cellCount;
  const heights = Array.from({ length: cellCount + 1 }, (_, i) => f(from + i * step));
  let best = { x: from, value: heights[0] as number };
  for (const [i, height] of heights.entries()) {
    const before = heights[i - 1] ?? Number.NEGATIVE_INFINITY;
    const after = heights[i + 1] ?? Number.NEGATIVE_INFINITY;
    if (height < before || height < after) continue;
    if (height > best.value) best = { x: from + i * step, value: height };
    const top = climb(f, Math.max(from, from + (i - 1) * step), Math.min(to, from + (i + 1) * step));
    if (top.value > best.value) best = top;
  }
  return best;
}

function climb(f: (x: number) => number, from: number, to: number): { readonly x: number; readonly value: number } {
  const part = (Math.sqrt(5) - 1) / 2;
  let low = from;
  let high = to;
  for (let k = 0; k < 45; k++) {
    const a = high - part * (high - low);
    const b = low + part * (high - low);
    if (f(a) >= f(b)) high = b;
    else low = a;
  }
  const x = (low + high) / 2;
  return { x, value: f(x) };
}
