import { createHash } from 'node:crypto';
import { crc32 as zlibCrc32 } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { type Letter, makeCode, makeReply, optionBits, optionsOn, readReply, sha256, sha256Text } from '../../src/reply/index.ts';
import { crc32, fromSigns, toSigns } from '../../src/reply/signs.ts';

/** People and prices are invented. */
const letter: Letter = {
  verdict: 'yes',
  fingerprint: '3f9a0b12c4d5e6f70819',
  design: 'A',
  options: [true, false],
  total: { minor: 634800, currency: 'EUR' },
  date: '2027-03-01',
  decider: 1,
  terms: '0a1b2c3d',
  name: 'Maren Tollefsen',
  remark: 'Ein Wort: die Füße bitte “schlank”, 5½ cm.\nAnd a second line > first.',
};
const words = { says: 'I choose design A, Reed.', nameLabel: 'Name', remarkLabel: 'Remark' };
const ALPHABET = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
const codesOf = (text: string) => readReply(text).problems.map(({ code }) => code);

describe('SHA-256', () => {
  /** @source NIST, example values for FIPS 180-4 (one block, two blocks, a million a); the empty text: from memory, and by node:crypto below */
  test.each([
    ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    ['abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq', '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1'],
    ['a'.repeat(1_000_000), 'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0'],
  ])('published examples, case %#', (text, expected) => {
    expect(sha256Text(text)).toBe(expected);
  });

  test('agrees with node:crypto for every length up to three blocks', () => {
    for (let length = 0; length < 200; length += 1) {
      const bytes = Uint8Array.from({ length }, (_, i) => (i * 37 + length) & 255);
      expect(Buffer.from(sha256(bytes)).toString('hex')).toBe(createHash('sha256').update(bytes).digest('hex'));
    }
  });
});

test('the check is the CRC-32 of zlib; check value of "123456789" as catalogued for CRC-32 (from memory)', () => {
  expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
  for (let n = 0; n < 50; n += 1) {
    const bytes = Uint8Array.from({ length: n }, (_, i) => (i * 91 + n) & 255);
    expect(crc32(bytes)).toBe(zlibCrc32(bytes));
  }
});

test('signs and bytes are each other’s reverse, whatever the length', () => {
  for (let n = 0; n < 40; n += 1) {
    const bytes = Uint8Array.from({ length: n }, (_, i) => (i * 53 + n * 7) & 255);
    expect(fromSigns(toSigns(bytes))).toEqual(bytes);
  }
});

describe('a code', () => {
  const code = makeCode(letter);

  test('is short, in fours, and holds everything', () => {
    expect(code).toMatch(/^LW1(-[0-9A-HJKMNP-TV-Z]{4})+(-[0-9A-HJKMNP-TV-Z]{1,4})?$/);
    expect(code.length).toBeLessThan(200);
    expect(readReply(makeReply(letter, words))).toEqual({
      letter,
      code,
      above: 'I choose design A, Reed.\n\nName',
      problems: [],
      own: expect.any(String),
      isQuoted: false,
    });
  });

  test.each([
    { ...letter, verdict: 'no', design: '', options: [], total: undefined, terms: undefined, decider: undefined },
    { ...letter, verdict: 'mix', base: 'B', options: [], total: undefined, terms: undefined },
    { ...letter, after: 300, remark: '' },
    {
      ...letter,
      design: 'LONG-IDENTITY-OF-A-DESIGN-OF-40-LETTERS-',
      options: new Array<boolean>(64).fill(true),
      total: { minor: 2 ** 50, currency: 'JPY' },
    },
  ] as Letter[])('of every kind of answer, case %#', (one) => {
    expect(makeCode(one).length).toBeLessThan(200);
    expect(readReply(makeReply(one, words)).letter).toEqual(JSON.parse(JSON.stringify(one)));
  });

  test('finds every single wrong sign', () => {
    const at = [...code].flatMap((sign, i) => (i > 3 && sign !== '-' ? [i] : []));
    for (const i of at)
      for (const sign of ALPHABET)
        if (sign !== code[i]) expect(readReply(code.slice(0, i) + sign + code.slice(i + 1)).letter).toBeUndefined();
  });

  test('finds every swap of two signs, neighbours or not', () => {
    const signs = [...code.slice(4).replaceAll('-', '')];
    let swaps = 0;
    for (let i = 0; i < signs.length; i += 1)
      for (let j = i + 1; j < signs.length; j += 1) {
        if (signs[i] === signs[j]) continue;
        const other = signs.with(i, signs[j] ?? '').with(j, signs[i] ?? '');
        expect(readReply(`LW1-${other.join('')}`).letter).toBeUndefined();
        swaps += 1;
      }
    expect(swaps).toBeGreaterThan(1000);
  });

  test('finds every missing sign, and says what is wrong', () => {
    for (let i = 4; i < code.length; i += 1)
      if (code[i] !== '-') expect(readReply(`${code.slice(0, i)}${code.slice(i + 1)}.\n`).letter).toBeUndefined();
    expect(codesOf(code.slice(0, -6))).toEqual(['reply/cut']);
    expect(codesOf(`${code.slice(0, -1)}${code.endsWith('0') ? '2' : '0'}`)).toEqual(['reply/mistyped']);
    expect(codesOf('yes, the one with the thick legs')).toEqual(['reply/no-code']);
    expect(codesOf(`${code} ${makeCode({ ...letter, design: 'B' })}`)).toEqual(['reply/several']);
  });

  test('is read in lower case, with O for 0 and I or l for 1, without dashes, with other dashes', () => {
    const bare = code.slice(4).replaceAll('-', '');
    const forms = [
      code.toLowerCase(),
      `LWI-${bare}`,
      `lwl${bare.toLowerCase().replaceAll('0', 'o').replaceAll('1', 'l')}`,
      code.replaceAll('0', 'O').replaceAll('1', 'I'),
      code.replaceAll('-', '\u2011'),
      code.replaceAll('-', ' – '),
      code.replaceAll('-', '&#8209;'),
    ];
    for (const form of forms) expect([form, readReply(form).letter?.design, readReply(form).code]).toEqual([form, 'A', code]);
  });

  test('whoever changes name or remark is told', () => {
    const text = makeReply(letter, words);
    expect(codesOf(text.replace('Maren', 'Idris'))).toEqual(['reply/words-differ']);
    expect(codesOf(text.replace('5½', '6½'))).toEqual(['reply/words-differ']);
    expect(codesOf(text.replace(/Remark: «[^»]*»/, ''))).toEqual(['reply/words-differ']);
  });

  test('words that look like markup or an encoding come back as they were written', () => {
    const odd = { ...letter, remark: 'L=2400 and B=80, x =\n<b>no</b> bold; &amp; <3 &#65; “so” – it’s…' };
    expect(readReply(makeReply(odd, words))).toMatchObject({ letter: odd, problems: [] });
    const typed = makeReply(odd, words).replace('“so” – it’s…', '"so" - it\'s...');
    expect(codesOf(typed)).toEqual([]);
  });

  test('words in guillemets that the sender wrote above the letter are not taken for the name', () => {
    const above = 'One more thing on the drawing: «top», and in the list: «edge».\n\n';
    for (const one of [letter, { ...letter, remark: '' }])
      expect(readReply(above + makeReply(one, words))).toMatchObject({ letter: one, problems: [] });
  });

  test('a code alone is read, and it is told that the words are missing', () => {
    expect(readReply(code)).toEqual({
      letter: { ...letter, name: '', remark: '' },
      code,
      above: '',
      problems: [{ code: 'reply/words-missing', says: 'the reply code came without the name and the remark that it was made with' }],
      own: '',
      isQuoted: false,
    });
    expect(codesOf(`My sister says «too low».\n\n${code}`)).toEqual(['reply/words-missing']);
  });

  test('what no page offers is refused when it is made', () => {
    expect(() => makeCode({ ...letter, fingerprint: '3f9a' })).toThrow(RangeError);
    expect(() => makeCode({ ...letter, design: 'Ä' })).toThrow(RangeError);
    expect(() => makeCode({ ...letter, total: { minor: 0.5, currency: 'EUR' } })).toThrow(RangeError);
    expect(() => makeCode({ ...letter, date: '2027-02-30' })).toThrow(RangeError);
  });
});

test('options are counted by their sorted ids, not by the order of a page', () => {
  expect(optionBits(['oil', 'ceramic', 'drawer'], ['oil'])).toEqual([false, false, true]);
  expect(optionsOn(['drawer', 'oil', 'ceramic'], [false, false, true])).toEqual(['oil']);
  expect(optionsOn(['oil'], [true, false])).toBeUndefined();
});
