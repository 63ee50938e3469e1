import type { Exact } from './exact.ts';
import { exactOf } from './exact.ts';
import type { Parsed } from './parsed.ts';
import { accepted, refused } from './parsed.ts';

/** Longest text that is read as a quantity: nobody writes more, and a heap of digits costs time. */
export const LONGEST_QUANTITY = 60;

/** A plain number as a maker writes it: digits, one decimal point, perhaps a minus. */
const PLAIN = /^-?(?:\d{1,12}(?:\.\d{1,12})?|\.\d{1,12})$/;

/**
 * Reads a number exactly. Refused, each with the text to type where it is sure: decimal commas, thousands marks, exponents,
 * hexadecimal and octal digits, infinities, signs that are not a minus, more than twelve digits.
 */
export function parseExact(text: string): Parsed<Exact> {
  const tidy = text.trim().replaceAll('\u2212', '-');
  if (PLAIN.test(tidy) && !/^-?0\d/.test(tidy)) {
    const value = exactOf(tidy);
    if (value !== undefined) return accepted(value);
  }
  return refuseNumber(tidy);
}

function refuseNumber(text: string): Parsed<Exact> {
  if (text === '') return refused('no number');
  if (/^-?\d{1,3}(?:\.\d{3})*,\d+$/.test(text) && text.includes('.')) {
    return refused('a decimal comma and points between thousands', text.replaceAll('.', '').replace(',', '.'));
  }
  if (/^-?\d{1,3}(?:,\d{3})+\.\d+$/.test(text) || /^-?\d{1,3}(?:,\d{3}){2,}$/.test(text)) {
    return refused('commas between thousands', text.replaceAll(',', ''));
  }
  if (/^-?[1-9]\d{0,2},\d{3}$/.test(text)) {
    return refused(
      `a comma that may stand for thousands or for the decimal point`,
      `${text.replace(',', '')} or ${text.replace(',', '.')}`,
    );
  }
  if (/^-?\d*,\d+$/.test(text)) return refused('a comma as the decimal point', text.replace(/^(-?)(\d*),/, leadingZero));
  if (/^-?\d{1,3}(?:[\s'\u2019]\d{3})+(?:\.\d+)?$/.test(text)) {
    return refused('a gap between thousands', text.replaceAll(/[\s'\u2019]/g, ''));
  }
  if (/^-?\d{1,3}(?:\.\d{3}){2,}$/.test(text)) return refused('points between thousands', text.replaceAll('.', ''));
  if (/^-?\d[\d_]*\d(?:\.\d+)?$/.test(text) && text.includes('_'))
    return refused('an underscore among the digits', text.replaceAll('_', ''));
  if (/^-?0[xob][\da-f]+$/i.test(text)) return refused('a number that is not in tens', fromOtherBase(text));
  if (/^-?\d+(?:\.\d+)?e[+-]?\d{1,2}$/i.test(text)) return refused('a number with an exponent', fromExponent(text));
  if (/^[+-]?\.?(?:inf|infinity|nan)$/i.test(text)) return refused('not a number that a table can have');
  if (/^\+\d*\.?\d+$/.test(text)) return refused('a plus sign', text.slice(1));
  if (/^-?0+\d/.test(text) && /^-?\d+(?:\.\d+)?$/.test(text)) return refused('a zero in front', text.replace(/^(-?)0+(?=\d)/, '$1'));
  if (/^-?\d+\.$/.test(text)) return refused('a point with nothing after it', text.slice(0, -1));
  if (/^-?\d*\.?\d+$/.test(text)) return refused('more digits than a rule can show');
  return refused('not a number');
}

function leadingZero(_all: string, sign: string, whole: string): string {
  return `${sign}${whole === '' ? '0' : whole}.`;
}

function fromOtherBase(text: string): string | undefined {
  const value = Number(text.replace('-', ''));
  return Number.isSafeInteger(value) ? `${text.startsWith('-') ? '-' : ''}${value}` : undefined;
}

function fromExponent(text: string): string | undefined {
  const value = Number(text);
  const plain = String(value);
  return PLAIN.test(plain) ? plain : undefined;
}
