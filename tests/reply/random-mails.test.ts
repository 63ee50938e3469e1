import { describe, expect, test } from 'vitest';
import { type Letter, makeCode, makeReply, readReply } from '../../src/reply/index.ts';

/** Marsaglia's xorshift with 32 bits (13, 17, 5; from memory): the same letters on every run. */
function numbers(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % below;
  };
}
type Chance = (below: number) => number;

const words =
  'slender feet table where light Ahornholz geölt été façade brødrene smörgås 5½ cm “so” (no!) A/B 12,5 % — it’s <3 & more >'.split(' ');
const names = ['Maren Tollefsen', 'Zoë Öst', 'Søren Ø. Å', 'Ångström-Lund, Aase', 'J. O’Dowd', 'I. L. Oliver'];
const pick = <T>(chance: Chance, list: readonly T[]): T => list[chance(list.length)] as T;
const someWords = (chance: Chance, most: number): string => Array.from({ length: chance(most) }, () => pick(chance, words)).join(' ');

function randomLetter(chance: Chance): Letter {
  const hex = (digits: number): string => Array.from({ length: digits }, () => chance(16).toString(16)).join('');
  const verdict = pick(chance, ['yes', 'yes', 'no', 'mix'] as const);
  return {
    verdict,
    fingerprint: hex(20),
    design: verdict === 'no' && chance(2) === 0 ? '' : pick(chance, ['A', 'B2', 'C', 'LONG-ONE']),
    ...(verdict === 'mix' ? { base: 'B' } : {}),
    options: Array.from({ length: verdict === 'yes' ? chance(12) : 0 }, () => chance(2) === 1),
    ...(verdict === 'yes' && chance(4) > 0 ? { total: { minor: chance(2_000_000), currency: pick(chance, ['EUR', 'USD', 'JPY']) } } : {}),
    date: `2027-0${1 + chance(9)}-${10 + chance(19)}`,
    ...(chance(3) > 0 ? { decider: chance(4) } : {}),
    ...(verdict === 'yes' ? { terms: hex(8) } : {}),
    ...(chance(6) === 0 ? { after: 1 + chance(400) } : {}),
    name: pick(chance, names),
    remark:
      chance(3) === 0
        ? ''
        : [someWords(chance, 30), someWords(chance, 12)]
            .filter((line) => line !== '')
            .join('\n')
            .trim(),
  };
}

/** What happens to a text on its way, each by habit of mail programs (common practice). */
const manglings: readonly ((text: string, chance: Chance) => string)[] = [
  (text) => text.replaceAll('\n', '\r\n'),
  (text, chance) => {
    const width = 40 + chance(40);
    const wrap = new RegExp(`(?=.{${width}})(.{1,${width}})(?: |(?<=-))`, 'g');
    return text
      .split('\n')
      .map((line) => line.replaceAll(wrap, '$1\n'))
      .join('\n');
  },
  (text, chance) =>
    text
      .split('\n')
      .map((line) => pick(chance, ['> ', '> ', '>']) + line)
      .join('\n'),
  (text) =>
    text
      .split('\n')
      .map((line) => `> > ${line}`)
      .join('\n'),
  (text) =>
    text
      .split('\n')
      .map((line) => `| ${line}`)
      .join('\n'),
  (text) =>
    text
      .split('\n')
      .map((line) => `    ${line}`)
      .join('\n'),
  (text) => text.replaceAll(' ', '\u00a0'),
  (text) => text.replaceAll(/(.{25}\S)/g, '$1\u200b'),
  (text) =>
    text.replaceAll(
      '-',
      pick(() => 0, ['\u2011']),
    ),
  (text) => text.replaceAll(/(LW1(?:-\w+)+)/g, (code) => code.toLowerCase()),
  (text) => text.replaceAll(/(LW1)((?:-\w+)+)/g, (_, start: string, rest: string) => start + rest.replaceAll('-', ' ')),
  (text) => text.replaceAll(/((?:-\w+)+)/g, (code) => (code.length > 40 ? code.replaceAll('0', 'O').replaceAll('1', 'l') : code)),
  (text) => text.normalize('NFD'),
  (text) => `Dear Runa,\n\nhere is what we say.\n\n${text}\n\n-- \nsent on the way home`,
  (text) => `${text}\n\n> an older mail, with «words» in it`,
];

describe('random letters', () => {
  const letters = 300;

  test(`${letters} letters, each mangled one to four times over, are read as they were made`, () => {
    const chance = numbers(20_270_301);
    const kinds = new Set<string>();
    for (let n = 0; n < letters; n += 1) {
      const letter = randomLetter(chance);
      let text = makeReply(letter, { says: 'My answer: 2 × «so».', nameLabel: 'Name', remarkLabel: 'Remark' });
      const done: number[] = [];
      for (let times = 1 + chance(4); times > 0; times -= 1) {
        const which = chance(manglings.length);
        done.push(which);
        text = manglings[which]?.(text, chance) ?? text;
      }
      kinds.add(letter.verdict);
      const read = readReply(text);
      const { name, remark, ...rest } = letter;
      const shown = { n, done, text };
      expect(read.problems, JSON.stringify(shown)).toEqual([]);
      expect(read.code, JSON.stringify(shown)).toBe(makeCode(letter));
      expect({ ...read.letter, name: undefined, remark: undefined }).toEqual({ ...rest, name: undefined, remark: undefined });
      expect(read.letter?.name.replaceAll('\u2011', '-')).toBe(name);
      expect(read.letter?.remark === '').toBe(remark === '');
    }
    expect(kinds.size).toBe(3);
  });

  test('slips of the hand in six codes: every wrong, missing and doubled sign and every swap is found, or changes nothing', () => {
    const chance = numbers(7);
    const counts = { wrong: 0, missing: 0, doubled: 0, swapped: 0 };
    const alphabet = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
    for (let n = 0; n < 6; n += 1) {
      const signs = [...makeCode(randomLetter(chance)).slice(4).replaceAll('-', '')];
      const isFound = (changed: readonly string[]): boolean => readReply(`LW1-${changed.join('')}.`).letter === undefined;
      for (const [i, sign] of signs.entries()) {
        for (const other of alphabet) {
          if (other === sign) continue;
          expect(isFound(signs.with(i, other))).toBe(true);
          counts.wrong += 1;
        }
        expect(isFound(signs.toSpliced(i, 1))).toBe(true);
        counts.missing += 1;
        if (i < signs.length - 1) {
          expect(isFound(signs.toSpliced(i, 0, sign))).toBe(true);
          counts.doubled += 1;
        }
        const next = signs[i + 1];
        if (next === undefined || next === sign) continue;
        expect(isFound(signs.with(i, next).with(i + 1, sign))).toBe(true);
        counts.swapped += 1;
      }
    }
    expect(counts.wrong).toBeGreaterThan(10_000);
    expect(counts.missing).toBeGreaterThan(300);
    expect(counts.doubled).toBeGreaterThan(300);
    expect(counts.swapped).toBeGreaterThan(300);
  });
});
