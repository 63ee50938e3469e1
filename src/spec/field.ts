import { z } from 'zod';
import type {
  Angle,
  BareUnit,
  CalendarDate,
  DecimalText,
  Force,
  Length,
  Length2,
  Length3,
  Mass,
  Parsed,
  Percent,
  Temperature,
} from '../units/index.ts';
import {
  isCurrencyCode,
  parseAngle,
  parseDate,
  parseExact,
  parseForce,
  parseLength,
  parseMass,
  parsePercent,
  parseTemperature,
  toNumber,
} from '../units/index.ts';
import type { Bounds } from './bounds.ts';
import { boundsInWords, meantInstead } from './bounds.ts';
import { type FieldNote, leaf, listed, notQuantity, quoted, type Read, type Told, within } from './leaf.ts';
import { ID, ID_IN_WORDS } from './shape.ts';

/** Words for people: not empty, NFC, at most 4,000 characters (20,000 where `long`). */
export function text(noun: string, told: Told & { readonly long?: boolean } = {}) {
  const most = told.long === true ? 20_000 : 4_000;
  const note: FieldNote = { noun, wants: 'words', examples: [], ...told, json: { type: 'string' } };
  return leaf<string>(note, (written) => {
    const value = written.normalize('NFC').trim();
    if (value === '') return { ok: false, refusal: { code: 'missing', allowed: 'words' } };
    if (value.length > most) {
      return {
        ok: false,
        refusal: { code: 'bad-text', why: 'is too long', found: `${value.length} characters`, allowed: `at most ${most} characters` },
      };
    }
    return { ok: true, value };
  });
}

/** Text of one form, such as an id or an e-mail address. */
export function patterned(noun: string, pattern: RegExp, wants: string, told: Told = {}) {
  const note: FieldNote = { noun, wants, examples: [], ...told, json: { type: 'string', pattern: pattern.source } };
  return leaf<string>(note, (written) => {
    const value = written.normalize('NFC').trim();
    if (value === '') return { ok: false, refusal: { code: 'missing', allowed: wants } };
    if (pattern.test(value)) return { ok: true, value };
    return { ok: false, refusal: { code: 'bad-text', why: 'is not in the form that is wanted', found: quoted(value), allowed: wants } };
  });
}

/** The name of something that is written elsewhere: a wood, a finish, a tax. Checked against the library after reading. */
export function nameOf(noun: string, told: Told = {}) {
  const example = told.examples?.[0];
  return patterned(noun, ID, example === undefined ? `an id: ${ID_IN_WORDS}` : `an id such as ${example}`, told);
}

/** One of a few words. */
export function choice<const T extends string>(noun: string, values: readonly [T, ...T[]], told: Told = {}) {
  const note: FieldNote = { noun, wants: listed(values), examples: [], ...told, json: { enum: values } };
  return leaf<T>(note, (written) => {
    const value = values.find((one) => one === written.trim());
    if (value !== undefined) return { ok: true, value };
    return { ok: false, refusal: { code: 'not-a-choice', found: quoted(written.trim()), allowed: listed(values), choices: values } };
  });
}

/** `true` or `false`. */
export function yesNo(noun: string, told: Told = {}) {
  const note: FieldNote = { noun, wants: 'true or false', examples: [], ...told, json: { type: 'boolean' } };
  return leaf<boolean>(note, (written) => {
    const value = written.trim();
    if (value === 'true' || value === 'false') return { ok: true, value: value === 'true' };
    const meant = /^(?:yes|y|on|true)$/i.test(value) ? 'true' : /^(?:no|n|off|false)$/i.test(value) ? 'false' : undefined;
    return {
      ok: false,
      refusal: { code: 'not-a-choice', why: 'is said with true or false', found: quoted(value), allowed: 'true or false', type: meant },
    };
  });
}

/** A plain number; `whole` for counts. */
export function number(noun: string, bounds: Bounds & { readonly whole?: boolean }, told: Told = {}) {
  const kind = bounds.whole === true ? 'a whole number' : 'a number';
  const range = boundsInWords(bounds, '');
  const wants = range === '' ? kind : bounds.whole === true ? `a whole number, ${range}` : range;
  const note: FieldNote = { noun, wants, examples: [], ...told, json: { type: ['number', 'string'] } };
  return leaf<number>(note, (written) => {
    const read = parseExact(written);
    if (!read.ok) return notQuantity(read, written, wants);
    if (bounds.whole === true && read.value.den !== 1n) {
      return { ok: false, refusal: { code: 'out-of-range', why: 'is not a whole number', found: written.trim(), allowed: wants } };
    }
    return within(toNumber(read.value), written, bounds, '', wants);
  });
}

/** An exact decimal that is kept as text: money, steps. Never below zero unless `signed`. */
export function decimal(noun: string, told: Told & { readonly signed?: boolean } = {}) {
  const wants = told.signed === true ? 'an amount such as 57.93 or -120.00' : 'an amount such as 57.93';
  const note: FieldNote = { noun, wants, examples: ['57.93'], ...told, json: { type: ['number', 'string'] } };
  return leaf<DecimalText>(note, (written) => {
    const read = parseExact(written);
    if (!read.ok) return notQuantity(bareAmount(written) ?? read, written, wants);
    if (/^-?[1-9]\d{0,2}\.\d{3}$/.test(written.trim())) return thousandsOrNot(written.trim(), wants);
    const belowZero = read.value.num < 0n && told.signed !== true;
    if (belowZero) return { ok: false, refusal: { code: 'out-of-range', why: 'is below zero', found: written.trim(), allowed: wants } };
    return { ok: true, value: tidyDecimal(written) };
  });
}

/** An amount with its currency, or in the curly quotes of a word processor. */
function bareAmount(written: string): { readonly why: string; readonly type: string } | undefined {
  const type = written.replaceAll(/^\W*?(?:[A-Z]{3})?\s?(?=-?\d)|\s?(?:[A-Z]{3}|[\p{Sc}\u201c\u201d\u2018\u2019])$/gu, '');
  if (type === written) return undefined;
  const read = parseExact(type);
  const amount = read.ok ? type : read.type;
  if (amount === undefined) return undefined;
  const isQuoted = /[\u201c\u201d\u2018\u2019]/.test(written);
  return { why: isQuoted ? 'curly quotes' : 'an amount with its currency, which proposal.yaml states once', type: amount };
}

/** `5.500` is five and a half to one reader and five thousand five hundred to another; `5.5` and `5.1250` are plain to both. */
function thousandsOrNot(written: string, wants: string): Read<never> {
  const type = `${written.replace('.', '')} or ${written.endsWith('0') ? Number(written) : `${written}0`}`;
  return notQuantity({ why: 'a point that may stand for thousands', type }, written, wants);
}

function tidyDecimal(written: string): DecimalText {
  return written
    .trim()
    .replaceAll('\u2212', '-')
    .replace(/^(-?)\./, '$10.') as DecimalText;
}

/** A day, `2027-02-14`. */
export function day(noun: string, told: Told = {}) {
  const wants = 'a day written year-month-day, such as 2027-02-14';
  const note: FieldNote = { noun, wants, examples: ['2027-02-14'], ...told, json: { type: 'string', format: 'date' } };
  return leaf<CalendarDate>(note, (written) => {
    const value = parseDate(written.trim());
    if (value !== undefined) return { ok: true, value };
    return {
      ok: false,
      refusal: {
        code: 'bad-text',
        why: 'is no day of the calendar',
        found: quoted(written.trim()),
        allowed: wants,
        type: dayMeant(written),
      },
    };
  });
}

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];

/** The ISO form of `14 March 2027` or `Mar. 14th, 2027`; English names of months alone. */
function dayInWords(written: string): string | undefined {
  const words = written.toLowerCase().match(/[a-z]{3,}|\d+/g) ?? [];
  const year = words.find((word) => /^\d{4}$/.test(word));
  const date = words.find((word) => /^\d{1,2}$/.test(word));
  const months = words.filter((word) => MONTHS.some((month) => word.startsWith(month)));
  const [month = ''] = months;
  if (year === undefined || date === undefined || months.length !== 1) return undefined;
  return existing(year, `${MONTHS.indexOf(month.slice(0, 3)) + 1}`, date);
}

/** The ISO form of `14.2.2027`, `2027/2/14` or `14 February 2027`, where only one reading is possible. */
function dayMeant(written: string): string | undefined {
  const inWords = dayInWords(written);
  if (inWords !== undefined) return inWords;
  const match = /^(\d{1,4})[./-](\d{1,2})[./-](\d{1,4})$/.exec(written.trim());
  if (match === null) return undefined;
  const [first = '', middle = '', last = ''] = match.slice(1);
  if (first.length === 4) return existing(first, middle, last);
  if (last.length !== 4) return undefined;
  const readings = [existing(last, middle, first), existing(last, first, middle)].filter((one) => one !== undefined);
  return readings.length === 1 || readings[0] === readings[1] ? readings[0] : written.includes('.') ? readings[0] : undefined;
}

function existing(year: string, month: string, date: string): string | undefined {
  const iso = `${year}-${month.padStart(2, '0')}-${date.padStart(2, '0')}`;
  return parseDate(iso) === undefined ? undefined : iso;
}

/** An ISO 4217 code. */
export function currency(noun: string) {
  const wants = 'a currency of ISO 4217 in three capitals, such as EUR';
  const note: FieldNote = { noun, wants, examples: ['EUR', 'USD'], json: { type: 'string', pattern: '^[A-Z]{3}$' } };
  return leaf<string>(note, (written) => {
    const value = written.trim();
    if (isCurrencyCode(value)) return { ok: true, value };
    const meant: Readonly<Record<string, string>> = { '€': 'EUR', $: 'USD', '£': 'GBP' };
    const type = meant[value] ?? (isCurrencyCode(value.toUpperCase()) ? value.toUpperCase() : undefined);
    return { ok: false, refusal: { code: 'bad-text', why: 'is no currency code', found: quoted(value), allowed: wants, type } };
  });
}

/** A length in millimetres; a bare number is in the file's unit. Bounds in mm; above zero where none is given. */
export function length(bare: BareUnit, noun: string, bounds: Bounds = {}, told: Told & { readonly quarters?: boolean } = {}) {
  const limits: Bounds = { from: bounds.from ?? 0, to: bounds.to ?? 10_000, above: bounds.above ?? bounds.from === undefined };
  const wants = boundsInWords(limits, 'mm');
  const note: FieldNote = { noun, wants, examples: ['27 mm', '1 1/16 in'], ...told, json: { type: ['number', 'string'] } };
  return leaf<Length>(note, (written) => {
    const reading = { bare, quarters: told.quarters === true };
    const read = parseLength(written, reading);
    if (!read.ok) return notQuantity(read, written, wants);
    const result = within(read.value.mm, written, limits, 'mm', wants);
    if (result.ok) return { ok: true, value: read.value };
    const meant = meantInstead(written, limits, reading);
    return meant === undefined ? result : { ok: false, refusal: { ...result.refusal, type: meant } };
  });
}

/** A point or a size in plan. */
export function length2(bare: BareUnit, noun: string, bounds?: Bounds) {
  return z.tuple([length(bare, `${noun}, x`, bounds), length(bare, `${noun}, y`, bounds)]).readonly() satisfies z.ZodType<Length2>;
}

/** A point or a size along x, y, z. */
export function length3(bare: BareUnit, noun: string, bounds?: Bounds) {
  const along = (axis: string) => length(bare, `${noun}, ${axis}`, bounds);
  return z.tuple([along('x'), along('y'), along('z')]).readonly() satisfies z.ZodType<Length3>;
}

/** A percentage, always with its sign. */
export function percent(noun: string, bounds: Bounds, told: Told = {}) {
  return quantity<Percent>(noun, bounds, '%', '20 %', told, parsePercent, (value) => value.percent);
}

/** A mass above zero, up to 2,000 kg. */
export function mass(noun: string, told: Told = {}) {
  return quantity<Mass>(noun, { from: 0, to: 2_000, above: true }, 'kg', '14 kg', told, parseMass, (value) => value.kg);
}

/** A force above zero, up to 20,000 N. */
export function force(noun: string, told: Told = {}) {
  return quantity<Force>(noun, { from: 0, to: 20_000, above: true }, 'N', '1000 N', told, parseForce, (value) => value.n);
}

/** An angle of at most one turn either way. */
export function angle(noun: string, told: Told = {}) {
  return quantity<Angle>(noun, { from: -360, to: 360 }, 'deg', '30 deg', told, parseAngle, (value) => value.deg);
}

/** A temperature of a room. */
export function temperature(noun: string, told: Told = {}) {
  return quantity<Temperature>(noun, { from: -20, to: 50 }, 'C', '20 C', told, parseTemperature, (value) => value.celsius);
}

function quantity<T>(
  noun: string,
  bounds: Bounds,
  unit: string,
  example: string,
  told: Told,
  parse: (written: string) => Parsed<T>,
  size: (value: T) => number,
) {
  const wants = boundsInWords(bounds, unit);
  const note: FieldNote = { noun, wants, examples: [example], ...told, json: { type: ['number', 'string'] } };
  return leaf<T>(note, (written) => {
    const read = parse(written);
    if (!read.ok) return notQuantity(read, written, wants);
    const result = within(size(read.value), written, bounds, unit, wants);
    return result.ok ? { ok: true, value: read.value } : result;
  });
}
