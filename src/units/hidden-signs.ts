/**
 * Signs that nobody sees and that make a text read otherwise than it is: those that turn the direction of reading, take no room,
 * or hide letters. Joiners stay where a script or a picture of several needs them: after a letter of a script that joins (Arabic,
 * the scripts of India, Khmer, Myanmar, Mongolian ...), and between two pictures. So do the letters that spell a flag.
 *
 * @source Unicode Standard Annex 9, table 4 (explicit and implicit directional formatting); Annex 31, section 2.3 (joiners where
 * they are needed); Technical Standard 51 (joined pictures, flags of tags); Boucher and Anderson, Trojan Source (2021), for the
 * signs that reorder what is read. From memory.
 */
const turns = '\\u061c\\u200e\\u200f\\u202a-\\u202e\\u2066-\\u2069';
const noRoom = '\\u180e\\u200b\\u2060-\\u2064\\u206a-\\u206f\\ufeff\\ufff9-\\ufffb';
const joining = [
  ...['Arab', 'Syrc', 'Thaa', 'Nkoo', 'Mong', 'Deva', 'Beng', 'Guru', 'Gujr', 'Orya', 'Taml', 'Telu', 'Knda', 'Mlym', 'Sinh'],
  ...['Khmr', 'Mymr', 'Tibt'],
]
  .map((script) => `\\p{scx=${script}}`)
  .join('');
const picture = '\\p{Extended_Pictographic}[\\u{1f3fb}-\\u{1f3ff}\\ufe0f]*';
const tags = '(?<!\\u{1f3f4}[\\u{e0020}-\\u{e007e}]*)[\\u{e0000}-\\u{e007f}]';
const joiners = `(?<![${joining}])\\u200c|(?<![${joining}])\\u200d(?!\\p{Extended_Pictographic})|(?<![${joining}])(?<!${picture})\\u200d`;

const turning = new RegExp(`[${turns}]|${tags}`, 'gv');
const hidden = new RegExp(`[${turns}${noRoom}]|${tags}|${joiners}`, 'gv');

/** A sign that is not seen, with its place: the index of its first code unit. */
export interface HiddenSign {
  readonly at: number;
  /** `U+202E`. */
  readonly name: string;
}

const nameOf = (sign: string): string => `U+${(sign.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;

/** Signs of a text that are not seen and not needed, in order. */
export function hiddenSigns(text: string): readonly HiddenSign[] {
  return [...text.matchAll(hidden)].map(({ 0: sign, index }) => ({ at: index, name: nameOf(sign) }));
}

/** Those among them that make a text read otherwise, or hide another in it: names as `U+202E`, each once. */
export function turningSigns(text: string): readonly string[] {
  return [...new Set(text.match(turning)?.map(nameOf) ?? [])];
}

/** A text without signs that are not seen and not needed. */
export const withoutHiddenSigns = (text: string): string => text.replaceAll(hidden, '');
