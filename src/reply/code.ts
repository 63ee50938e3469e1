import { dayNumber, fromDayNumber, isoDate, parseDate } from '../units/index.ts';
import { type Letter, WORDS_DIGEST_BYTES, wordsDigest } from './letter.ts';
import { hexOf } from './sha256.ts';
import { crc32, fromSigns, signsFor, signValue, toSigns } from './signs.ts';

/**
 * A code: `LW1-`, then signs in fours. Bytes: their number; flags and verdict; fingerprint (10); design; base; options;
 * total; currency; day; decider; terms (4); entry that it follows; digest of the words (6); CRC-32 of all before (4).
 * It finds slips of the hand and identifies nobody: who can read the page can make one.
 */
export const codeStart = 'LW1';

/** What a code holds: the letter without its words. */
export type CodeContent = Omit<Letter, 'name' | 'remark'> & { readonly words: string; readonly hasRemark: boolean };

const FINGERPRINT_BYTES = 10;
const TERMS_BYTES = 4;
const CHECK_BYTES = 4;
/** So that a code stays below 200 signs with its dashes. */
const MOST_BYTES = 96;
const verdicts = ['yes', 'no', 'mix'] as const;
const flag = { base: 4, total: 8, decider: 16, terms: 32, after: 64, remark: 128 } as const;

const hexBytes = (hex: string): number[] => (hex.match(/../g) ?? []).map((pair) => Number.parseInt(pair, 16));

/** A whole number of 0 or more, seven bits a byte, the lowest first. */
function wholeBytes(value: number): number[] {
  const bytes: number[] = [];
  let rest = value;
  for (; rest > 127; rest = Math.floor(rest / 128)) bytes.push((rest % 128) + 128);
  return [...bytes, rest];
}

const textBytes = (text: string): number[] => [text.length, ...[...text].map((sign) => sign.charCodeAt(0))];

function optionBytes(options: readonly boolean[]): number[] {
  const bytes = new Array<number>(Math.ceil(options.length / 8)).fill(0);
  for (const [i, on] of options.entries()) if (on) bytes[i >> 3] = (bytes[i >> 3] ?? 0) | (1 << (i & 7));
  return [options.length, ...bytes];
}

function dayOf(date: string): number {
  const day = parseDate(date);
  if (day === undefined) throw new RangeError(`${date} is no day of a letter`);
  return Math.max(0, dayNumber(day));
}

/**
 * The code of a letter, under 200 signs. Throws a RangeError for what no page offers: a design's id that is not ASCII, a
 * fingerprint of fewer than 20 hex digits, a total that is not a whole number of 0 or more, more than the code can hold.
 */
export function makeCode(letter: Letter): string {
  const { fingerprint, design, base, total, decider, terms, after } = letter;
  const isFit =
    /^[0-9a-f]{20}$/.test(fingerprint) &&
    /^[ -~]{0,40}$/.test(design + (base ?? '')) &&
    (terms === undefined || /^[0-9a-f]{8}$/.test(terms)) &&
    [total?.minor, decider, after].every((n) => n === undefined || (Number.isSafeInteger(n) && n >= 0)) &&
    (total === undefined || /^[A-Z]{3}$/.test(total.currency)) &&
    letter.options.length < 128;
  if (!isFit) throw new RangeError('this letter can not be put into a code');
  const flags =
    verdicts.indexOf(letter.verdict) +
    (base === undefined ? 0 : flag.base) +
    (total === undefined ? 0 : flag.total) +
    (decider === undefined ? 0 : flag.decider) +
    (terms === undefined ? 0 : flag.terms) +
    (after === undefined ? 0 : flag.after) +
    (letter.remark.trim() === '' ? 0 : flag.remark);
  const body = [
    flags,
    ...hexBytes(fingerprint),
    ...textBytes(design),
    ...(base === undefined ? [] : textBytes(base)),
    ...optionBytes(letter.options),
    ...(total === undefined ? [] : [...wholeBytes(total.minor), ...textBytes(total.currency).slice(1)]),
    ...wholeBytes(dayOf(letter.date)),
    ...(decider === undefined ? [] : wholeBytes(decider)),
    ...(terms === undefined ? [] : hexBytes(terms)),
    ...(after === undefined ? [] : wholeBytes(after)),
    ...wordsDigest(letter),
  ];
  const count = 1 + body.length + CHECK_BYTES;
  if (count > MOST_BYTES) throw new RangeError('this letter is too long for a code');
  const checked = Uint8Array.from([count, ...body]);
  const check = crc32(checked);
  const all = Uint8Array.from([...checked, check >>> 24, (check >>> 16) & 255, (check >>> 8) & 255, check & 255]);
  return inFours(toSigns(all));
}

/** A code as it is written, from its signs in whatever form they were found. */
export function inFours(signs: string): string {
  const plain = toSigns(fromSigns(signs) ?? new Uint8Array());
  return [codeStart, ...(plain.match(/.{1,4}/g) ?? [])].join('-');
}

/** Signs that a code has after `LW1`, told by its first two; undefined where they tell no possible number. */
export function signCount(signs: string): number | undefined {
  const [first, second] = [signValue(signs[0] ?? ''), signValue(signs[1] ?? '')];
  if (first === undefined || second === undefined) return undefined;
  const bytes = (first << 3) | (second >> 2);
  return bytes <= MOST_BYTES && bytes > FINGERPRINT_BYTES + WORDS_DIGEST_BYTES + CHECK_BYTES ? signsFor(bytes) : undefined;
}

/** Takes bytes one after another; gives undefined for ever once they run out. */
class Taker {
  readonly bytes: Uint8Array;
  at = 0;
  constructor(bytes: Uint8Array) {
    this.bytes = bytes;
  }
  take(count: number): Uint8Array {
    this.at += count;
    return this.bytes.slice(this.at - count, this.at);
  }
  whole(): number {
    let value = 0;
    for (let scale = 1; this.at < this.bytes.length; scale *= 128) {
      const byte = this.take(1)[0] ?? 0;
      value += (byte & 127) * scale;
      if (byte < 128) break;
    }
    return value;
  }
  text(length = this.take(1)[0] ?? 0): string {
    return String.fromCharCode(...this.take(length));
  }
}

/** What a code holds, from its signs without `LW1` and dashes; undefined where its check says that a sign is wrong. */
export function openCode(signs: string): CodeContent | undefined {
  const bytes = fromSigns(signs);
  if (bytes === undefined || bytes[0] !== bytes.length) return undefined;
  const body = bytes.slice(0, -CHECK_BYTES);
  if (new DataView(bytes.buffer).getUint32(body.length) !== crc32(body)) return undefined;
  const taker = new Taker(body);
  const flags = taker.take(2)[1] ?? 0;
  const verdict = verdicts[flags & 3];
  const has = (bit: number): boolean => (flags & bit) !== 0;
  const fingerprint = hexOf(taker.take(FINGERPRINT_BYTES));
  const design = taker.text();
  const base = has(flag.base) ? taker.text() : undefined;
  const optionCount = taker.take(1)[0] ?? 0;
  const bits = taker.take(Math.ceil(optionCount / 8));
  const options = Array.from({ length: optionCount }, (_, i) => (((bits[i >> 3] ?? 0) >> (i & 7)) & 1) === 1);
  const total = has(flag.total) ? { minor: taker.whole(), currency: taker.text(3) } : undefined;
  const date = isoDate(fromDayNumber(taker.whole()));
  const decider = has(flag.decider) ? taker.whole() : undefined;
  const terms = has(flag.terms) ? hexOf(taker.take(TERMS_BYTES)) : undefined;
  const after = has(flag.after) ? taker.whole() : undefined;
  const words = hexOf(taker.take(WORDS_DIGEST_BYTES));
  if (verdict === undefined || taker.at !== body.length) return undefined;
  return {
    verdict,
    fingerprint,
    design,
    options,
    date,
    ...(base === undefined ? {} : { base }),
    ...(total === undefined ? {} : { total }),
    ...(decider === undefined ? {} : { decider }),
    ...(terms === undefined ? {} : { terms }),
    ...(after === undefined ? {} : { after }),
    words,
    hasRemark: has(flag.remark),
  };
}
