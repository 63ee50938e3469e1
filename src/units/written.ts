/** Vulgar fractions of Unicode as plain text. */
export const VULGAR: Readonly<Record<string, string>> = {
  '¼': '1/4',
  '½': '1/2',
  '¾': '3/4',
  '⅐': '1/7',
  '⅑': '1/9',
  '⅒': '1/10',
  '⅓': '1/3',
  '⅔': '2/3',
  '⅕': '1/5',
  '⅖': '2/5',
  '⅗': '3/5',
  '⅘': '4/5',
  '⅙': '1/6',
  '⅚': '5/6',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

/** The one unit that a mistyped one surely stands for: same first letter and one key off, same length first; or absent. */
export function nearestUnit(word: string, units: readonly string[]): string | undefined {
  const near = units.filter((unit) => word[0] === unit[0] && differsByOne(word, unit));
  const even = near.filter((unit) => unit.length === word.length);
  if (even.length === 1) return even[0];
  return near.length === 1 ? near[0] : undefined;
}

/** Whether one letter more, less or other turns one text into the other. */
function differsByOne(a: string, b: string): boolean {
  const [short, long] = a.length < b.length ? [a, b] : [b, a];
  if (long.length - short.length > 1) return false;
  let start = 0;
  while (start < short.length && short[start] === long[start]) start++;
  const rest = short.length === long.length ? short.slice(start + 1) : short.slice(start);
  return rest === long.slice(start + 1);
}
