import type { Exact } from './exact.ts';
import { compareExact, exact, negate, plus, times, toNumber, ZERO } from './exact.ts';
import { LONGEST_QUANTITY, parseExact } from './number.ts';
import type { Parsed } from './parsed.ts';
import { accepted, refused } from './parsed.ts';
import type { BareUnit, Length } from './quantity.ts';
import { nearestUnit, VULGAR } from './written.ts';

/** Millimetres in each unit, exactly. @source international inch of 1959: 25.4 mm; foot: 12 in. */
const MM_PER: Readonly<Record<'mm' | 'cm' | 'm' | 'in' | 'ft', Exact>> = {
  mm: exact(1n),
  cm: exact(10n),
  m: exact(1000n),
  in: exact(254n, 10n),
  ft: exact(3048n, 10n),
};
type LengthUnit = keyof typeof MM_PER;

const UNIT_WORDS: Readonly<Record<string, LengthUnit>> = {
  mm: 'mm',
  millimetre: 'mm',
  millimetres: 'mm',
  millimeter: 'mm',
  millimeters: 'mm',
  cm: 'cm',
  centimetre: 'cm',
  centimetres: 'cm',
  centimeter: 'cm',
  centimeters: 'cm',
  m: 'm',
  metre: 'm',
  metres: 'm',
  meter: 'm',
  meters: 'm',
  in: 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
  ft: 'ft',
  foot: 'ft',
  feet: 'ft',
  "'": 'ft',
};

/** Denominators on an inch rule. */
const RULE = new Set([2n, 4n, 8n, 16n, 32n, 64n]);

/** How the texts of one file are to be understood. */
export interface LengthReading {
  /** What a bare number means. */
  readonly bare: BareUnit;
  /** A rough thickness is expected: `8/4` is eight quarters of an inch. */
  readonly quarters?: boolean;
}

/**
 * Reads a length as a maker writes it: `27`, `27 mm`, `2.7 cm`, `70 7/8"`, `70-7/8 in`, `5' 10 7/8"`, `2'6`, with primes and
 * vulgar fractions. The value is exact in its own unit and then the nearest double in mm; `written` keeps the text. A minus is
 * read; whether it makes sense is for the place where it stands.
 */
export function parseLength(text: string, reading: LengthReading): Parsed<Length> {
  const written = text.trim();
  if (written === '') return refused('no length');
  if (written.length > LONGEST_QUANTITY) return refused('too long a text for a length');
  const plain = written
    .replaceAll(/[\u2032\u2019\u2018]/g, "'")
    .replaceAll(/[\u2033\u201c\u201d]|''/g, '"')
    .replaceAll('\u2044', '/')
    .replaceAll(/[\u00a0\u2009\u202f]/g, ' ')
    .replaceAll(/[\u2212\u2013]/g, '-')
    .replaceAll(/[\u00bc-\u00be\u2150-\u215e]/g, (mark) => ` ${VULGAR[mark] ?? mark}`)
    .replaceAll(/\s+/g, ' ')
    .trim();
  const below = plain.startsWith('-');
  const size = readSize(below ? plain.slice(1).trim() : plain, reading);
  if (!size.ok) return size.type === undefined || !below ? size : refused(size.why, `-${size.type}`);
  return accepted({ mm: toNumber(below ? negate(size.value) : size.value), written });
}

function readSize(text: string, reading: LengthReading): Parsed<Exact> {
  const feet = /^([\d.,_/ -]+?) ?('|ft\.?|foot|feet)(?:[ -]?(.+))?$/i.exec(text);
  if (feet !== null) return readFeet(feet[1] ?? '', feet[3]);
  const match = /^(.*?) ?([a-z"']+)?\.?$/i.exec(text);
  const amount = match?.[1] ?? text;
  const word = match?.[2]?.toLowerCase();
  if (word === undefined) return readBare(text, reading);
  if (/^(?:0x[\da-f]+|\.?(?:inf|nan|infinity)|\d+(?:\.\d+)?e[+-]?\d+)$/i.test(text)) return readDecimal(text, reading.bare);
  const unit = UNIT_WORDS[word];
  if (amount === '') return refused(unit === undefined ? 'not a length' : 'a unit without a number');
  if (unit === undefined) return refuseUnit(amount, word);
  if (unit === 'in') return readInches(amount);
  const value = readDecimal(amount, unit);
  return value.ok ? accepted(times(value.value, MM_PER[unit])) : value;
}

function readBare(text: string, reading: LengthReading): Parsed<Exact> {
  const quarters = /^(\d{1,2})\/4$/.exec(text);
  if (quarters !== null && Number(quarters[1]) >= 4) {
    const count = BigInt(quarters[1] ?? '0');
    if (reading.quarters === true) return accepted(times(exact(count, 4n), MM_PER.in));
    return refused('a rough thickness in quarters of an inch, which belongs to sawn timber', inchText(exact(count, 4n)));
  }
  if (reading.bare === 'in') return readInches(text);
  if (/^(?:\d+[ -])?\d+\/\d+$/.test(text))
    return refused('a fraction, which is in inches, in a file whose bare numbers are mm', `${text} in`);
  const value = readDecimal(text, reading.bare);
  return value.ok ? accepted(times(value.value, MM_PER.mm)) : value;
}

function readFeet(feetText: string, inchesText: string | undefined): Parsed<Exact> {
  const feet = readDecimal(feetText, 'ft');
  if (!feet.ok) return feet;
  const whole = times(feet.value, MM_PER.ft);
  if (inchesText === undefined) return accepted(whole);
  if (feet.value.den !== 1n) return refused('feet with a decimal point and inches after them');
  const bare = inchesText.replace(/ ?(?:"|in\.?|inch|inches)$/i, '');
  const inches = readInches(bare);
  if (!inches.ok) return inches.type === undefined ? inches : refused(inches.why, `${feetText}' ${inches.type.replace(/ in$/, '"')}`);
  if (compareExact(inches.value, MM_PER.ft) >= 0) return refused('twelve inches or more after the feet');
  return accepted(plus(whole, inches.value));
}

/** Inches: a decimal, or a whole number, a fraction of a rule, or both. The result is in mm. */
function readInches(text: string): Parsed<Exact> {
  const parts = /^(?:(\d{1,6})(?: ?- ?| ))?(\d{1,6}) ?\/ ?(\d{1,6})$/.exec(text);
  if (parts === null) {
    if (text.includes('/')) return refused('not a whole number with a fraction', undefined);
    const value = readDecimal(text, 'in');
    return value.ok ? accepted(times(value.value, MM_PER.in)) : value;
  }
  const [over, under] = [BigInt(parts[2] ?? '0'), BigInt(parts[3] ?? '0')];
  const whole = parts[1] === undefined ? ZERO : exact(BigInt(parts[1]));
  if (under === 0n) return refused('a fraction with nothing below its line');
  const total = plus(whole, exact(over, under));
  if (!RULE.has(under)) return refused('a fraction that no inch rule has', inchText(total));
  if (over >= under) return refused('a fraction of one inch or more', inchText(total));
  return accepted(times(total, MM_PER.in));
}

function readDecimal(text: string, unit: LengthUnit): Parsed<Exact> {
  if (/^[\d ]+\/ ?\d+$/.test(text)) {
    const inches = readInches(text);
    const per = MM_PER[unit];
    return refused(
      `a fraction before ${unit}`,
      inches.ok ? `${trimmed(toNumber(inches.value) / 25.4)} ${unit}` : per === MM_PER.mm ? `${text} in` : undefined,
    );
  }
  if (/^\d[\d.]* ?- ?\d[\d.]*$/.test(text)) return refused('a range; one length is wanted');
  const value = parseExact(text);
  if (value.ok) return value;
  return value.type === undefined
    ? value
    : refused(
        value.why,
        value.type
          .split(' or ')
          .map((one) => `${/^-?\d+\.\d/.test(one) ? trimmed(Number(one)) : one} ${unit}`)
          .join(' or '),
      );
}

function refuseUnit(amount: string, word: string): Parsed<Exact> {
  const near = nearestUnit(word, ['mm', 'cm', 'm', 'in', 'ft']);
  const number = parseExact(amount);
  return refused(`in a unit that is not known here ("${word}")`, near === undefined || !number.ok ? undefined : `${amount} ${near}`);
}

/** Text to type for inches: a fraction of a rule where there is one, else decimals. */
function inchText(inches: Exact): string {
  const whole = inches.num / inches.den;
  const rest = exact(inches.num - whole * inches.den, inches.den);
  if (rest.num === 0n) return `${whole} in`;
  if (RULE.has(rest.den)) return whole === 0n ? `${rest.num}/${rest.den} in` : `${whole} ${rest.num}/${rest.den} in`;
  return `${trimmed(toNumber(inches))} in`;
}

const FINEST_OF_RULE = 64;

/** A length as text to type: `744.5 mm`, to a tenth; `29 21/64 in`, to a sixty-fourth. `parseLength` reads it back. */
export function writeLength(mm: number, unit: BareUnit): string {
  if (unit === 'mm') return `${Number(mm.toFixed(1))} mm`;
  const parts = Math.round((Math.abs(mm) / 25.4) * FINEST_OF_RULE);
  return `${mm < 0 && parts > 0 ? '-' : ''}${inchText(exact(BigInt(parts), BigInt(FINEST_OF_RULE)))}`;
}

function trimmed(value: number): string {
  return String(Number(value.toFixed(4)));
}
