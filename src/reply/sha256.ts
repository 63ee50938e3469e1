/** First 32 bits of the fractional parts of the cube roots (64) and square roots (8) of the first primes, as whole numbers. */
function primeRoots(count: number, root: (prime: number) => number): readonly number[] {
  const primes: number[] = [];
  for (let n = 2; primes.length < count; n += 1) if (primes.every((prime) => n % prime !== 0)) primes.push(n);
  return primes.map((prime) => Math.floor((root(prime) % 1) * 2 ** 32));
}

const turn = (word: number, by: number): number => (word >>> by) | (word << (32 - by));

/** The message with its one bit, zeros and length in bits, a whole number of blocks of 64 bytes. */
function padded(message: Uint8Array): DataView {
  const blocks = Math.ceil((message.length + 9) / 64);
  const bytes = new Uint8Array(blocks * 64);
  bytes.set(message);
  bytes[message.length] = 0x80;
  const view = new DataView(bytes.buffer);
  view.setUint32(bytes.length - 8, Math.floor(message.length / 2 ** 29));
  view.setUint32(bytes.length - 4, (message.length * 8) >>> 0);
  return view;
}

/**
 * SHA-256 of bytes, 32 bytes. Our own, since a page opened from disk has no `crypto.subtle` in every browser.
 * @source FIPS 180-4, sections 4.1.2, 4.2.2, 5.1.1, 5.3.3 and 6.2.2
 */
export function sha256(message: Uint8Array): Uint8Array {
  const constants = primeRoots(64, Math.cbrt);
  const hash = Int32Array.from(primeRoots(8, Math.sqrt));
  const view = padded(message);
  const schedule = new Int32Array(64);
  const at = (t: number): number => schedule[t] ?? 0;
  for (let block = 0; block < view.byteLength; block += 64) {
    for (let t = 0; t < 64; t += 1) {
      if (t < 16) {
        schedule[t] = view.getInt32(block + t * 4);
        continue;
      }
      const small0 = turn(at(t - 15), 7) ^ turn(at(t - 15), 18) ^ (at(t - 15) >>> 3);
      const small1 = turn(at(t - 2), 17) ^ turn(at(t - 2), 19) ^ (at(t - 2) >>> 10);
      schedule[t] = small1 + at(t - 7) + small0 + at(t - 16);
    }
    let [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = hash;
    for (let t = 0; t < 64; t += 1) {
      const big1 = turn(e, 6) ^ turn(e, 11) ^ turn(e, 25);
      const t1 = (h + big1 + ((e & f) ^ (~e & g)) + (constants[t] ?? 0) + at(t)) | 0;
      const big0 = turn(a, 2) ^ turn(a, 13) ^ turn(a, 22);
      const t2 = (big0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
      [h, g, f, e, d, c, b, a] = [g, f, e, (d + t1) | 0, c, b, a, (t1 + t2) | 0];
    }
    for (const [i, word] of [a, b, c, d, e, f, g, h].entries()) hash[i] = (hash[i] ?? 0) + word;
  }
  const digest = new DataView(new ArrayBuffer(32));
  for (const [i, word] of hash.entries()) digest.setInt32(i * 4, word);
  return new Uint8Array(digest.buffer);
}

/** Bytes as lower-case hex digits. */
export function hexOf(bytes: Uint8Array): string {
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** SHA-256 of a text in UTF-8, as 64 hex digits. */
export function sha256Text(text: string): string {
  return hexOf(sha256(new TextEncoder().encode(text)));
}
