/**
 * A stream of numbers in [0, 1) that depends on nothing but its key: the same part has the same boards and grain in every picture.
 * @source FNV-1a (Fowler, Noll, Vo) for the key, mulberry32 (T. Ettinger, public domain) for the stream; both from memory
 */
export function chance(key: string): () => number {
  let state = 0x811c9dc5;
  for (let i = 0; i < key.length; i += 1) state = Math.imul(state ^ key.charCodeAt(i), 0x01000193) >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
