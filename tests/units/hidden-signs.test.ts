import { describe, expect, test } from 'vitest';
import { hiddenSigns, turningSigns, withoutHiddenSigns } from '../../src/units/index.ts';

const sign = (code: number): string => String.fromCodePoint(code);
const name = (code: number): string => `U+${code.toString(16).toUpperCase().padStart(4, '0')}`;

describe('signs that nobody sees', () => {
  /** @source Unicode Standard Annex 9, table 4: the twelve directional formatting characters. From memory. */
  const directional = [0x061c, 0x200e, 0x200f, 0x202a, 0x202b, 0x202c, 0x202d, 0x202e, 0x2066, 0x2067, 0x2068, 0x2069];
  test.each(directional)('%i turns the direction of reading: found, told and left out', (code) => {
    const text = `6${sign(code)}000 EUR`;
    expect(hiddenSigns(text)).toEqual([{ at: 1, name: name(code) }]);
    expect(turningSigns(text + text)).toEqual([name(code)]);
    expect(withoutHiddenSigns(text)).toBe('6000 EUR');
  });

  test('all that Unicode itself calls bidi controls are among them, and no letter, mark, digit, space or picture is', () => {
    for (let code = 0x20; code < 0x110000; code += 1) {
      if (code >= 0xd800 && code <= 0xdfff) continue;
      const one = sign(code);
      const isFound = hiddenSigns(one).length > 0;
      if (/\p{Bidi_Control}/u.test(one) && !isFound) expect.fail(`${name(code)} was not found`);
      // Every sign that is found is a format character or a default ignorable of Unicode's own properties.
      if (isFound && !/[\p{Cf}\p{Default_Ignorable_Code_Point}]/u.test(one)) expect.fail(`${name(code)} was found`);
    }
  });

  test.each([
    ['a soft hyphen', 'Esszimmer\u00adtisch'],
    ['a narrow space', '1\u202f200\u202fmm'],
    ['Persian with a joiner that parts', 'می\u200cخواهم'],
    ['Sinhala with a joiner', 'ශ්\u200dරී'],
    ['Hindi with a joiner', 'क्\u200dष'],
    ['a family of pictures', '👩\u200d👩\u200d👧'],
    ['a picture with a colour and a job', '👩🏽\u200d🔧'],
    ['a heart of several signs', '❤\ufe0f\u200d🔥'],
    ['the flag of a country within one', '\u{1f3f4}\u{e0067}\u{e0062}\u{e0073}\u{e0063}\u{e0074}\u{e007f}'],
    ['Arabic and Hebrew as they are', 'طاولة שולחן'],
  ])('%s stays as it is', (_what, text) => {
    expect(hiddenSigns(text)).toEqual([]);
    expect(withoutHiddenSigns(text)).toBe(text);
  });

  test.each([
    ['a joiner in a Latin name', 'Ma\u200dren', 'Maren'],
    ['one that parts, in a Latin name', 'Ma\u200cren', 'Maren'],
    ['a space of no width', 'Ma\u200bren', 'Maren'],
    ['a word joiner and a mark of byte order', 'Ma\u2060re\ufeffn', 'Maren'],
    ['letters hidden as tags', `Maren${[...'no'].map((one) => sign(0xe0000 + one.charCodeAt(0))).join('')}`, 'Maren'],
    ['a joiner after a picture and before a letter', '🔧\u200dA', '🔧A'],
  ])('%s is left out', (_what, text, clean) => {
    expect(withoutHiddenSigns(text)).toBe(clean);
  });
});
