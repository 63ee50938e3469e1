/**
 * Edits between two texts: letters put in, left out, changed, or two neighbours swapped.
 *
 * @source optimal string alignment form of the Damerau-Levenshtein distance (Damerau 1964, Levenshtein 1966).
 */
export function editDistance(a: string, b: string): number {
  const width = b.length + 1;
  const cells = new Uint16Array((a.length + 1) * width);
  const at = (i: number, j: number) => cells[i * width + j] ?? 0;
  for (let i = 0; i <= a.length; i++) cells[i * width] = i;
  for (let j = 0; j <= b.length; j++) cells[j] = j;
  for (let i = 1; i <= a.length; i++) {
    for (let j = 1; j <= b.length; j++) {
      const changed = at(i - 1, j - 1) + (a[i - 1] === b[j - 1] ? 0 : 1);
      let best = Math.min(changed, at(i - 1, j) + 1, at(i, j - 1) + 1);
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (swapped) best = Math.min(best, at(i - 2, j - 2) + 1);
      cells[i * width + j] = best;
    }
  }
  return at(a.length, b.length);
}

/** Small letters alone: `end-overhang`, `end_overhang` and `endOverhang` are the same slip. */
function withoutMarks(name: string): string {
  return name.toLowerCase().replaceAll(/[-_\s]/g, '');
}

/** Longest name that is compared; a longer one is no slip of the finger. */
const LONGEST = 60;

/**
 * The name that was probably meant: the fewest edits (none up to two letters, one up to five, then one for every three), the first by its place
 * in the list on a tie; else the only name that begins or ends with what was written; `undefined` where none is near.
 */
export function nearestName(written: string, names: readonly string[]): string | undefined {
  const plain = withoutMarks(written);
  if (plain.length > LONGEST || plain === '') return undefined;
  const allowed = plain.length <= 2 ? 0 : plain.length <= 5 ? 1 : Math.floor(plain.length / 3);
  let best: { name: string; edits: number } | undefined;
  for (const name of names) {
    const other = withoutMarks(name);
    if (Math.abs(other.length - plain.length) > allowed) continue;
    const edits = editDistance(plain, other);
    if (edits <= allowed && (best === undefined || edits < best.edits)) best = { name, edits };
  }
  if (best !== undefined) return best.name;
  if (plain.length < 3) return undefined;
  const parts = names.filter((name) => withoutMarks(name).startsWith(plain) || withoutMarks(name).endsWith(plain));
  return parts.length === 1 ? parts[0] : undefined;
}
