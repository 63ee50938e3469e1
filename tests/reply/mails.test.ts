import { describe, expect, test } from 'vitest';
import { type Letter, makeReply, readReply } from '../../src/reply/index.ts';
import { ownWords } from '../../src/reply/own-words.ts';

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
    'Yes, that is it.',
  ],
  ['wrapped at 72, quoted at the bottom', `${quoted(wrapped(block, 72), '> ')}\n\nThat is ours.`, 'That is ours.'],
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

  /** Lines that mail programs set over a quotation, by language: common practice. */
  test.each([
    'On Mon, 1 Mar 2027 at 09:30, Runa Stavely <runa@bench.example.invalid> wrote:',
    'On Monday, 1 March 2027 at 09:30:12 CET, Runa Stavely\n<runa@bench.example.invalid> wrote:',
    'On 01/03/2027 09:30, Runa Stavely wrote:',
    'Am Mo., 1. März 2027 um 09:30 Uhr schrieb Runa Stavely <runa@bench.example.invalid>:',
    'Am 01.03.27 um 09:30 schrieb Runa Stavely:',
    'Le lun. 1 mars 2027 à 09:30, Runa Stavely <runa@bench.example.invalid> a\nécrit :',
    'Op ma 1 mrt 2027 om 09:30 schreef Runa Stavely <runa@bench.example.invalid>:',
    'Den man. 1. mar. 2027 kl. 09.30 skrev Runa Stavely <runa@bench.example.invalid>:',
    'Den mån 1 mars 2027 kl 09:30 skrev Runa Stavely\n<runa@bench.example.invalid>:',
    '2027-03-01 09:30, Runa Stavely wrote:',
  ])('what the sender wrote is told from the line over the quotation: %s', (line) => {
    expect(readReply(`Yes, gladly.\nMaren\n\n${line}\n\n${quoted(block, '> ')}\n`).own).toBe('Yes, gladly.\nMaren');
    expect(readReply(`Yes, gladly.\nMaren\n\n${line}\n\n${quoted(block, '> ')}\n`).isQuoted).toBe(true);
    expect(readReply(`Yes, gladly.\nMaren\n\n${line}\n\n${block}\n`).own).toBe('Yes, gladly.\nMaren');
    expect(readReply(`${line}\n\n${quoted(block, '> ')}\n\nNo, not that.\n`).own).toBe('No, not that.');
  });

  /** A copy of the header fields over what is quoted, with no marks: common practice. */
  test.each([
    [
      '________________________________',
      'From: Runa Stavely',
      'Sent: Monday, 1 March 2027 09:30',
      'To: Maren Tollefsen',
      'Subject: Question',
    ],
    ['-----Original Message-----', 'From: Runa Stavely', 'Sent: 1 March 2027 09:30', 'Subject: Question'],
    ['', 'Von: Runa Stavely <runa@bench.example.invalid>', 'Gesendet: Montag, 1. März 2027 09:30', 'An: Maren', 'Betreff: Frage'],
    ['-------- Message original --------', 'De : Runa Stavely', 'Envoyé : lundi 1 mars 2027', 'À : Maren', 'Objet : Question'],
    ['', 'Van: Runa Stavely', 'Verzonden: maandag 1 maart 2027', 'Aan: Maren', 'Onderwerp: Vraag'],
    ['', 'Fra: Runa Stavely', 'Sendt: 1. marts 2027', 'Til: Maren', 'Emne: Spørgsmål'],
    ['', 'Från: Runa Stavely', 'Skickat: den 1 mars 2027', 'Till: Maren', 'Ämne: Fråga'],
    ['', '*From:* Runa Stavely', '*Date:* 1 March 2027', '*To:* Maren', '*Subject:* Question'],
  ])('nor is a copy of header fields theirs: %s, %s', (...fields) => {
    const read = readReply(`No, the feet are too thick.\n\n${fields.join('\n')}\n\n${block}`);
    expect([read.own, read.letter?.design]).toEqual(['No, the feet are too thick.', 'A']);
  });

  /** All of a mail as a mail program copies it, with its own fields on top, in their various orders: common practice. */
  test.each([
    ['From: Maren Tollefsen <maren@home.example.invalid>', 'To: Runa Stavely', 'Subject: Third proposal, r3: my answer', ''],
    ['Von: Maren Tollefsen', 'Gesendet: Montag, 1. März 2027 09:30', 'An: Runa Stavely;', 'Idris Quill', 'Betreff: Antwort', ''],
    ['Datum: 1. März 2027', 'Von: Maren Tollefsen', 'Betreff: Antwort'],
    ['Betreff: Antwort', 'Von: Maren Tollefsen', 'Datum: 1. März 2027', 'An: Runa Stavely', ''],
    ['Betreff: Antwort', ''],
    ['', 'Subject: Third proposal', 'Date: Mon, 1 Mar 2027', 'From: Maren', ''],
  ])('the fields that a copied mail begins with are no words, and hide none: %s, %s', (...fields) => {
    const top = fields.join('\n');
    const words = readReply(`${top}\nWe love it, but 50 mm longer.\n\n${block}\nPS: no glides.\n`);
    expect([words.letter?.name, words.problems]).toEqual(['Maren Tollefsen', []]);
    expect(words.own).toMatch(/^We love it, but 50 mm longer\.\n\n/);
    expect(words.own).toMatch(/\n\nPS: no glides\.$/);
    expect(words.own).not.toMatch(/Betreff|Subject|Von:|From:|Idris Quill|Datum|Date:/);
    expect(readReply(`${top}\nYes, the one with the thick legs.\n`).own).toBe('Yes, the one with the thick legs.');
    // A quotation below is none of its sender's words, and its marks end it.
    expect(readReply(`${top}\nNo!\n\n> Von: Runa\n> Betreff: Frage\n> Which one?\n\nToo low.\n`).own).toBe('No!\n\nToo low.');
  });

  test('a question that was copied with its fields, and nothing written to it, says nothing of the one who was asked', () => {
    const lines = ['From: Runa Stavely', 'Subject: What we understood', '', 'You chose A. Is that right?', 'LW1-ABCD'].map((text) => ({
      text,
      isQuoted: false,
    }));
    expect(ownWords(lines, (line) => (line === 4 ? 'question' : undefined)).own).toBe('');
    expect(ownWords(lines.slice(0, 4), () => undefined).own).toBe('You chose A. Is that right?');
  });

  test('a letter that was passed on below fields keeps the words around it apart from those of the one who passed it on', () => {
    const fields = '-----Original Message-----\nFrom: Maren Tollefsen\nSent: 1 March 2027\nSubject: Answer';
    const read = readReply(`I agree with her.\nIdris\n\n${fields}\n\nBut 50 mm longer.\n\n${block}\n\nPS: no glides.\n`);
    expect(read.own).toBe('I agree with her.\nIdris');
    expect(read.lower).toMatch(/^But 50 mm longer\.\n[\s\S]*\nPS: no glides\.$/);
    // With nothing above a rule there is nobody else's word: the letter's own stay below it.
    const bare = readReply(`${fields}\n\nBut 50 mm longer.\n\n${block}\n`);
    expect([bare.own, bare.lower?.split('\n')[0]]).toEqual(['', 'But 50 mm longer.']);
  });

  test('a quotation in markup is told apart, and style sheets are no words', () => {
    const html = `<html><head><style>p { color: red }</style></head><body><div>No!</div><div class="q">On 1 March 2027 Runa &lt;runa@bench.example.invalid&gt; wrote:<blockquote type="cite"><p>${block.replaceAll('\n', '<br>')}</p></blockquote></div></body></html>`;
    const read = readReply(html);
    expect([read.own, read.problems, read.letter?.name]).toEqual(['No!', [], 'Maren Tollefsen']);
  });

  test('nor are words that stand close over such a line', () => {
    for (const words of ['No!', 'On reflection: no.', 'On 3 March, then.'])
      expect(readReply(`${words}\nOn 1 March 2027, Runa wrote:\n${quoted(block, '> ')}`).own).toBe(words);
  });

  test('a sentence of the sender is not taken for a quotation', () => {
    for (const words of [
      'On balance: yes, if the feet\nstay slender.',
      'From: the top of A, and\nthe base of B, as I wrote:',
      'Idris wrote:\nno.',
    ])
      expect(readReply(`${words}\n\n${quoted(block, '> ')}`).own).toBe(words);
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
