import { createHash } from 'node:crypto';

/** What JSON can hold, read-only. `undefined` fields of an object are left out. */
export type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json | undefined };

/**
 * One value as canonical JSON: no white space, keys sorted by UTF-16 code unit, numbers as ECMAScript prints them.
 * Throws a TypeError for what has no canonical form: NaN, infinities, lone surrogates, functions.
 *
 * @source RFC 8785, JSON Canonicalization Scheme, sections 3.2.2 and 3.2.3
 */
export function canonicalJson(value: Json): string {
  if (value === null || typeof value === 'boolean') return String(value);
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new TypeError(`${value} has no place in JSON`);
    return JSON.stringify(value);
  }
  if (typeof value === 'string') {
    if (!value.isWellFormed()) throw new TypeError('a text with half a surrogate pair has no canonical form');
    return JSON.stringify(value);
  }
  if (isList(value)) return `[${value.map(canonicalJson).join(',')}]`;
  if (typeof value !== 'object') throw new TypeError(`a ${typeof value} has no place in JSON`);
  const fields = Object.keys(value)
    .sort()
    .flatMap((key) => {
      const field = value[key];
      return field === undefined ? [] : [`${canonicalJson(key)}:${canonicalJson(field)}`];
    });
  return `{${fields.join(',')}}`;
}

const isList = (value: Json): value is readonly Json[] => Array.isArray(value);

/** SHA-256 of bytes, or of a text in UTF-8, as 64 lower-case hex digits. @source FIPS 180-4 */
export function sha256Hex(data: Uint8Array | string): string {
  return createHash('sha256').update(data).digest('hex');
}

/** A fingerprint as it is printed: its first 20 hex digits in groups of five. */
export function shortFingerprint(fingerprint: string): string {
  return (fingerprint.slice(0, 20).match(/.{5}/g) ?? []).join(' ');
}
