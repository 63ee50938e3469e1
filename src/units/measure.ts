import type { Exact } from './exact.ts';
import { exact, minus, plus, times, toNumber } from './exact.ts';
import { LONGEST_QUANTITY, parseExact } from './number.ts';
import type { Parsed } from './parsed.ts';
import { accepted, refused } from './parsed.ts';
import type { Angle, Duration, Force, Mass, Percent, Temperature } from './quantity.ts';
import { nearestUnit } from './written.ts';

/** @source standard acceleration of gravity, 3rd General Conference on Weights and Measures, 1901: 9.80665 m/s2. */
export const STANDARD_GRAVITY = 9.80665;

/** @source international pound of 1959: 0.45359237 kg exactly; ounce: 1/16 of it. */
const POUND_KG = exact(45359237n, 100000000n);
const GRAVITY = exact(980665n, 100000n);

interface UnitTable {
  /** "a mass": what is wanted, for the message. */
  readonly wanted: string;
  /** Factor to the inner unit, by unit as written in small letters. */
  readonly units: Readonly<Record<string, Exact>>;
  /** Units of a neighbouring quantity that makers take for this one: what to type instead. */
  readonly mistaken: Readonly<Record<string, string>>;
  /** Unit for the text to type after a bare number. */
  readonly usual: string;
}

const MASS: UnitTable = {
  wanted: 'a mass',
  units: { kg: exact(1n), g: exact(1n, 1000n), lb: POUND_KG, lbs: POUND_KG, oz: exact(45359237n, 1600000000n) },
  mistaken: { kgf: 'kg', lbf: 'lb' },
  usual: 'kg',
};

const FORCE: UnitTable = {
  wanted: 'a force',
  units: { n: exact(1n), kn: exact(1000n), kgf: GRAVITY, lbf: times(POUND_KG, GRAVITY) },
  mistaken: { kg: 'kgf', lb: 'lbf', lbs: 'lbf' },
  usual: 'N',
};

const ANGLE: UnitTable = {
  wanted: 'an angle',
  units: { deg: exact(1n), '°': exact(1n), degree: exact(1n), degrees: exact(1n) },
  mistaken: {},
  usual: 'deg',
};

const PERCENT: UnitTable = {
  wanted: 'a percentage',
  units: { '%': exact(1n), percent: exact(1n) },
  mistaken: {},
  usual: '%',
};

const DURATION: UnitTable = {
  wanted: 'a duration',
  units: { h: exact(1n), hour: exact(1n), hours: exact(1n), min: exact(1n, 60n), minutes: exact(1n, 60n) },
  mistaken: {},
  usual: 'h',
};

/** A mass in kg, from kg, g, lb or oz. */
export function parseMass(text: string): Parsed<Mass> {
  const read = readWith(MASS, text);
  return read.ok ? accepted({ kg: toNumber(read.value), written: text.trim() }) : read;
}

/** A force in newtons, from N, kN, kgf or lbf. */
export function parseForce(text: string): Parsed<Force> {
  const read = readWith(FORCE, text);
  return read.ok ? accepted({ n: toNumber(read.value), written: text.trim() }) : read;
}

/** An angle in degrees, from `30 deg` or `30°`. */
export function parseAngle(text: string): Parsed<Angle> {
  const read = readWith(ANGLE, text);
  return read.ok ? accepted({ deg: toNumber(read.value), written: text.trim() }) : read;
}

/** A percentage, always with its sign: a bare 20 or 0.2 could mean either. */
export function parsePercent(text: string): Parsed<Percent> {
  const share = /^0?\.\d{1,4}$/.test(text.trim()) ? parseExact(text) : undefined;
  if (share?.ok === true) return refused('a share without its unit', `${toNumber(times(share.value, exact(100n)))} %`);
  const read = readWith(PERCENT, text);
  return read.ok ? accepted({ percent: toNumber(read.value), written: text.trim() }) : read;
}

/** Hours, from `8 h`, `90 min` or `1 h 30 min`. */
export function parseDuration(text: string): Parsed<Duration> {
  const both = /^(\d+) ?h(?:ours?)? (\d{1,2}) ?min(?:utes)?$/.exec(text.trim());
  if (both !== null) {
    const hours = plus(exact(BigInt(both[1] ?? '0')), exact(BigInt(both[2] ?? '0'), 60n));
    return accepted({ hours: toNumber(hours), written: text.trim() });
  }
  const read = readWith(DURATION, text);
  return read.ok ? accepted({ hours: toNumber(read.value), written: text.trim() }) : read;
}

/** Degrees Celsius, from `20 C`, `20 °C` or `68 F`. */
export function parseTemperature(text: string): Parsed<Temperature> {
  const match = /^(.+?) ?(?:°|deg )?([CF])$/i.exec(text.trim());
  if (match === null) return refused('not a temperature with its unit', parseExact(text).ok ? `${text.trim()} C` : undefined);
  const number = parseExact(match[1] ?? '');
  if (!number.ok) return number.type === undefined ? number : refused(number.why, `${number.type} ${(match[2] ?? 'C').toUpperCase()}`);
  const celsius = match[2]?.toUpperCase() === 'F' ? times(minus(number.value, exact(32n)), exact(5n, 9n)) : number.value;
  return accepted({ celsius: toNumber(celsius), written: text.trim() });
}

function readWith(table: UnitTable, text: string): Parsed<Exact> {
  const tidy = text.trim().replaceAll(/[\u00a0\u2009\u202f]/g, ' ');
  if (tidy === '') return refused(`no number where ${table.wanted} is wanted`);
  if (tidy.length > LONGEST_QUANTITY) return refused(`too long a text for ${table.wanted}`);
  const match = /^(.*?\d\.?) ?([a-z%°]+)$/i.exec(tidy);
  if (match === null) {
    const bare = parseExact(tidy);
    return bare.ok ? refused('a number without its unit', `${tidy} ${table.usual}`) : refused(`not ${table.wanted}`);
  }
  const [amount, word] = [match[1] ?? '', match[2] ?? ''];
  const factor = table.units[word.toLowerCase()];
  const number = parseExact(amount);
  if (factor === undefined) {
    const unit = table.mistaken[word.toLowerCase()] ?? nearestUnit(word.toLowerCase(), Object.keys(table.units));
    return refused(`"${word}" is no unit of ${table.wanted}`, unit === undefined || !number.ok ? undefined : `${amount} ${unit}`);
  }
  if (!number.ok) return number.type === undefined ? number : refused(number.why, `${number.type} ${word}`);
  return accepted(times(number.value, factor));
}
