/**
 * Largest value of a smooth function between two angles: cells first, so that the right hill is climbed, then golden section.
 * @source Press et al., Numerical Recipes, 3rd ed., section 10.2, golden section search (from memory)
 */
export function largestBetween(f: (x: number) => number, from: number, to: number): { readonly x: number; readonly value: number } {
  const cells = 64;
  const step = (to - from) / cells;
  let best = from;
  for (let i = 1; i <= cells; i++) if (f(from + i * step) > f(best)) best = from + i * step;
  let low = Math.max(from, best - step);
  let high = Math.min(to, best + step);
  const part = (Math.sqrt(5) - 1) / 2;
  for (let k = 0; k < 60; k++) {
    const a = high - part * (high - low);
    const b = low + part * (high - low);
    if (f(a) >= f(b)) high = b;
    else low = a;
  }
  const x = (low + high) / 2;
  return f(x) > f(best) ? { x, value: f(x) } : { x: best, value: f(best) };
}
