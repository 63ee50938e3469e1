/** Orders texts by code unit, the same on every machine: for `toSorted`. */
export function byCodeUnit(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
