import { describe, expect, test } from 'vitest';
import { type Letter, makeReply, readReply } from '../../src/reply/index.ts';

/** Three mail programs' habits of quoting, written by habit (common practice), around one letter. People are invented. */
const letter: Letter = {
  verdict: 'yes',
  fingerprint: '3f9a0b12c4d5e6f70819',
  design: 'A',
  options: [true],
  total: { minor: 634800, currency: 'EUR' },
  date: '2027-03-01',
  terms: '0a1b2c3d',
  name: 'Maren Tollefsen',
  remark: 'The feet as slender as you dare, and the 5½ cm rail where Idris cannot kick it; he’ll try all the same.',
};
const block = makeReply(letter, {
  says: 'I choose design A, Reed, with the ceramic coat. Total 6,348.00 EUR.',
  nameLabel: 'Name',
  remarkLabel: 'Remark',
});

/** Breaks lines at spaces, or at dashes where a word is longer, as a plain-text composer does. */
const wrapped = (text: string, width: number): string =>
  text
    .split('\n')
    .map((line) => line.replaceAll(new RegExp(`(?=.{${width}})(.{1,${width}})(?: |(?<=-))`, 'g'), '$1\n'))
    .join('\n');
const quoted = (text: string, mark: string): string =>
  text
    .split('\n')
    .map((line) => mark + line)
    .join('\n');
const quotedPrintable = (text: string): string =>
  [...Buffer.from(text, 'utf8')]
    .map((byte) =>
      byte === 10 || (byte >= 32 && byte < 127 && byte !== 61)
        ? String.fromCharCode(byte)
        : `=${byte.toString(16).toUpperCase().padStart(2, '0')}`,
    )
    .join('')
    .replaceAll(/(.{70})(?=[^=\n]{3})/g, (line) => (/=.?$/.test(line) ? line : `${line}=\n`));

const mails: readonly (readonly [string, string, string])[] = [
  [
    'top-posted',
    `Yes, that is it.\n\nOn Mon, 1 Mar 2027 at 09:30, Runa Stavely wrote:\n\n${quoted(block, '> ')}\n> -- \n> Runa`,
    'Yes, that is it.\n\nOn Mon, 1 Mar 2027 at 09:30, Runa Stavely wrote:',
  ],
  ['wrapped at 72, quoted at the bottom', `${quoted(wrapped(block, 72), '> ')}\n\nThat is ours.`, ''],
  ['wrapped at 40, quoted twice', quoted(wrapped(block, 40), '>> '), ''],
  ['quoted with spaces between the marks', quoted(wrapped(block, 60), '> > '), ''],
  ['flattened from HTML with bars', quoted(block, '| ').replaceAll(' ', '\u00a0'), ''],
  ['flattened from HTML, no marks, one line', block.replaceAll('\n', ' '), ''],
  [
    'as HTML source',
    `<div dir="ltr">${block.replaceAll('«', '&laquo;').replaceAll('»', '&raquo;').replaceAll(' ', '&nbsp;').replaceAll('\n', '<br>\n')}</div>`,
    '',
  ],
  ['quoted-printable left in', quotedPrintable(block), ''],
  ['soft hyphens and zero-width spaces', block.replaceAll('-', '\u00ad-\u200b'), ''],
  ['CR LF and trailing spaces', block.replaceAll('\n', '  \r\n'), ''],
  ['twice: own copy and quoted copy, one of them cut', `${block}\n${quoted(block, '> ').slice(0, -20)}`, ''],
  ['with a longer letter before it, that quotes somebody', `My sister says «too low».\n\n${block}\nSent from the harbour`, ''],
];

describe('a reply is found in a mail', () => {
  test.each(mails)('%s', (_name, mail, own) => {
    const read = readReply(mail);
    expect(read.problems).toEqual([]);
    expect({ ...read.letter, remark: read.letter?.remark.replaceAll(/\s+/g, ' ') }).toEqual(letter);
    if (own !== '') expect(read.own).toBe(own);
  });

  test('the habits do change the text', () => {
    for (const [, mail] of mails.slice(0, -2)) expect(mail).not.toBe(block);
    expect(
      wrapped(block, 40)
        .split('\n')
        .every((line) => line.length <= 42),
    ).toBe(true);
    expect(quotedPrintable(block)).toMatch(/=\n/);
  });
});
