import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { canonicalJson, sha256Hex, shortFingerprint } from '../../src/record/disk/canonical.ts';
import { isLinkToken, linkToken } from '../../src/record/disk/token.ts';
import { numbers, refused, sample, sorting } from '../published/canonical-json.ts';

const double = (hex: string): number => Buffer.from(hex, 'hex').readDoubleBE(0);

describe('canonical JSON against RFC 8785', () => {
  test('section 3.2.2, the sample', () => {
    expect(canonicalJson(JSON.parse(sample.input))).toBe(sample.expected);
  });
  test('section 3.2.3, keys sorted by UTF-16 code unit', () => {
    expect(Object.values(JSON.parse(canonicalJson(JSON.parse(sorting.input))))).toHaveLength(7);
    const order = sorting.expected.map((value) => canonicalJson(JSON.parse(sorting.input)).indexOf(value));
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(order[0]).toBeGreaterThan(0);
  });
  test.each(numbers)('appendix B: %s is %s', (hex, text) => {
    expect(canonicalJson(double(hex))).toBe(text);
  });
  test.each(refused)('appendix B: %s is refused', (hex) => {
    expect(() => canonicalJson(double(hex))).toThrow(TypeError);
  });
  test('half a surrogate pair is refused, in a key as well', () => {
    expect(() => canonicalJson('\ud800')).toThrow(TypeError);
    expect(() => canonicalJson({ '\ud800': 1 })).toThrow(TypeError);
  });
  test('absent fields are left out, null stays', () => {
    expect(canonicalJson({ b: undefined, a: null })).toBe('{"a":null}');
  });
});

describe('digests', () => {
  // FIPS 180-4 examples (NIST "SHA256.pdf"): one block, and the empty message.
  test.each([
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
  ])('SHA-256 of "%s"', (text, hex) => {
    expect(sha256Hex(text)).toBe(hex);
  });
  test('a printed fingerprint is 20 hex digits in fives', () => {
    expect(shortFingerprint('ba7816bf8f01cfea414140de')).toBe('ba781 6bf8f 01cfe a4141');
  });
});

describe('link tokens', () => {
  test('are the base32 of RFC 4648 in lower case without padding', () => {
    // Another route: the coreutils command of the same name.
    for (const seed of ['a', 'b', 'c', 'd', 'e']) {
      const bytes = createHash('sha256').update(seed).digest().subarray(0, 16);
      const other = execFileSync('base32', { input: bytes, encoding: 'utf8' }).trim().toLowerCase().replace(/=+$/, '');
      expect(linkToken(bytes)).toBe(other);
      expect(isLinkToken(other)).toBe(true);
    }
  });
  test('ends of the range', () => {
    expect(linkToken(new Uint8Array(16))).toBe('a'.repeat(26));
    expect(linkToken(new Uint8Array(16).fill(255))).toBe(`${'7'.repeat(25)}4`);
    expect(() => linkToken(new Uint8Array(15))).toThrow(RangeError);
  });
  test.each(['A'.repeat(26), 'a'.repeat(25), 'a'.repeat(27), `${'a'.repeat(25)}b`, `../${'a'.repeat(23)}`])('%s is none', (text) => {
    expect(isLinkToken(text)).toBe(false);
  });
});
