/** The base32 alphabet in lower case: no case to lose on a host that folds it. @source RFC 4648, section 6 */
const alphabet = 'abcdefghijklmnopqrstuvwxyz234567';

/** Random bytes in a link's token: 128 bits. */
export const tokenBytes = 16;

/** 16 random bytes as the 26 characters of a link. Throws a RangeError for another number of bytes. */
export function linkToken(random: Uint8Array): string {
  if (random.length !== tokenBytes) throw new RangeError(`a link's token is made of ${tokenBytes} bytes, not ${random.length}`);
  let bits = 0;
  let value = 0;
  let token = '';
  for (const byte of random) {
    value = (value << 8) | byte;
    bits += 8;
    while (bits >= 5) {
      bits -= 5;
      token += alphabet[(value >> bits) & 31];
      value &= (1 << bits) - 1;
    }
  }
  return bits > 0 ? token + alphabet[(value << (5 - bits)) & 31] : token;
}

/** True for a text that `linkToken` can have made. */
export const isLinkToken = (text: string): boolean => /^[a-z2-7]{25}[aeimquy4]$/.test(text);
