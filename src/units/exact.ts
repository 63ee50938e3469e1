/** An exact fraction of two whole numbers; always in lowest terms with a positive denominator. */
export interface Exact {
  readonly num: bigint;
  readonly den: bigint;
}

/** Nothing, exactly. */
export const ZERO: Exact = { num: 0n, den: 1n };

function gcd(a: bigint, b: bigint): bigint {
  let x = a < 0n ? -a : a;
  let y = b;
  while (y !== 0n) [x, y] = [y, x % y];
  return x;
}

/** The fraction `num / den`. Throws a RangeError for a denominator of zero: a fault of the caller, never of the maker. */
export function exact(num: bigint, den: bigint = 1n): Exact {
  if (den === 0n) throw new RangeError('an exact fraction can not have the denominator 0');
  const sign = den < 0n ? -1n : 1n;
  const common = gcd(num, den * sign);
  return common === 0n ? ZERO : { num: (num * sign) / common, den: (den * sign) / common };
}

const DECIMAL = /^(-?)(\d*)(?:\.(\d+))?$/;

/** Reads a plain decimal such as `57.93` or `-0.05` exactly; `undefined` for anything else. */
export function exactOf(decimal: string): Exact | undefined {
  const match = DECIMAL.exec(decimal);
  const whole = match?.[2] ?? '';
  const part = match?.[3] ?? '';
  if (match === null || whole + part === '') return undefined;
  const value = exact(BigInt(whole + part), 10n ** BigInt(part.length));
  return match[1] === '-' ? negate(value) : value;
}

/**
 * The exact value of the shortest decimal that stands for a number (0.1 becomes 1/10, not its binary neighbour).
 * For quantities that come from geometry and are about to meet money. Throws a RangeError where the number is not finite.
 */
export function exactOfNumber(value: number): Exact {
  if (!Number.isFinite(value)) throw new RangeError('only a finite number has an exact value');
  const [mantissa = '0', exponent = '0'] = String(value).split('e');
  const digits = exactOf(mantissa) ?? ZERO;
  const power = Number(exponent);
  return power < 0 ? exact(digits.num, digits.den * 10n ** BigInt(-power)) : exact(digits.num * 10n ** BigInt(power), digits.den);
}

/** `-a`. */
export function negate(a: Exact): Exact {
  return { num: -a.num, den: a.den };
}

/** `a + b`. */
export function plus(a: Exact, b: Exact): Exact {
  return exact(a.num * b.den + b.num * a.den, a.den * b.den);
}

/** `a - b`. */
export function minus(a: Exact, b: Exact): Exact {
  return plus(a, negate(b));
}

/** `a x b`. */
export function times(a: Exact, b: Exact): Exact {
  return exact(a.num * b.num, a.den * b.den);
}

/** `a / b`. Throws a RangeError where `b` is zero. */
export function over(a: Exact, b: Exact): Exact {
  return exact(a.num * b.den, a.den * b.num);
}

/** Below zero, zero or above zero as `a` is smaller than, equal to or greater than `b`. */
export function compareExact(a: Exact, b: Exact): number {
  const left = a.num * b.den;
  const right = b.num * a.den;
  return left < right ? -1 : left > right ? 1 : 0;
}

/** Nearest whole number; a half goes away from zero (2.5 to 3, -2.5 to -3). */
export function roundHalfUp(a: Exact): bigint {
  const size = a.num < 0n ? -a.num : a.num;
  const rounded = (2n * size + a.den) / (2n * a.den);
  return a.num < 0n ? -rounded : rounded;
}

/** Smallest whole number that is not below `a`. */
export function roundUp(a: Exact): bigint {
  const down = a.num / a.den;
  return a.num > 0n && down * a.den !== a.num ? down + 1n : down;
}

/** Nearest multiple of a step above zero, a half away from zero. Throws a RangeError for a step of zero. */
export function roundToStep(a: Exact, step: Exact): Exact {
  return times(exact(roundHalfUp(over(a, step))), step);
}

/** The nearest double; for showing and for geometry, never back into money. */
export function toNumber(a: Exact): number {
  const num = Number(a.num);
  const den = Number(a.den);
  if (Number.isSafeInteger(num) && Number.isSafeInteger(den)) return num / den;
  return Number(toDecimal(a, 20));
}

/** Decimal text with exactly so many places, a half away from zero: `toDecimal(1/3, 2)` is `0.33`. */
export function toDecimal(a: Exact, places: number): string {
  const scaled = roundHalfUp(times(a, exact(10n ** BigInt(places))));
  const digits = (scaled < 0n ? -scaled : scaled).toString().padStart(places + 1, '0');
  const sign = scaled < 0n ? '-' : '';
  return places === 0 ? sign + digits : `${sign}${digits.slice(0, -places)}.${digits.slice(-places)}`;
}
