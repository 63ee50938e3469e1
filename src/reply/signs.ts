/**
 * Thirty-two signs without I, L, O and U; on reading I and L are taken for 1 and O for 0, in either case.
 * @source Crockford, Base 32: the alphabet and its reading (from memory)
 */
const ALPHABET = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';

/** The value of a sign, 0 to 31; undefined for what is none. */
export function signValue(sign: string): number | undefined {
  const plain = sign.toUpperCase().replace(/[IL]/, '1').replace('O', '0');
  const value = plain.length === 1 ? ALPHABET.indexOf(plain) : -1;
  return value < 0 ? undefined : value;
}

/** Signs that hold so many bytes. */
export const signsFor = (bytes: number): number => Math.ceil((bytes * 8) / 5);

/** Bytes as signs of five bits, the first bits first; the last sign is filled with zeros. */
export function toSigns(bytes: Uint8Array): string {
  let signs = '';
  let held = 0;
  let bits = 0;
  for (const byte of bytes) {
    held = (held << 8) | byte;
    bits += 8;
    for (; bits >= 5; bits -= 5) signs += ALPHABET[(held >>> (bits - 5)) & 31];
    held &= (1 << bits) - 1;
  }
  return bits === 0 ? signs : signs + ALPHABET[(held << (5 - bits)) & 31];
}

/** Signs as bytes; undefined where one is none or the bits that fill the last sign are not zero. */
export function fromSigns(signs: string): Uint8Array | undefined {
  const bytes: number[] = [];
  let held = 0;
  let bits = 0;
  for (const sign of signs) {
    const value = signValue(sign);
    if (value === undefined) return undefined;
    held = (held << 5) | value;
    bits += 5;
    if (bits >= 8) {
      bits -= 8;
      bytes.push((held >>> bits) & 255);
      held &= (1 << bits) - 1;
    }
  }
  return bits < 5 && held === 0 ? Uint8Array.from(bytes) : undefined;
}

/**
 * The check of a code: finds every fault within 32 neighbouring bits, and with them each wrong sign and each swap of neighbours.
 * @source RFC 1952 (gzip), section 8: CRC-32, polynomial 0xEDB88320 reflected
 */
export function crc32(bytes: Uint8Array): number {
  let rest = 0xffffffff;
  for (const byte of bytes) {
    rest ^= byte;
    for (let bit = 0; bit < 8; bit += 1) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  }
  return (rest ^ 0xffffffff) >>> 0;
}
