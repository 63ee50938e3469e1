import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { unflowed } from '../../src/cli/hearing/flowed.ts';
import { isSavedMail, readMail } from '../../src/cli/hearing/mail.ts';
import { compareSentences, type Letter, makeReply, readReply } from '../../src/reply/index.ts';
import { mailDraft } from '../../src/write/client/index.ts';
import { above, habitsOf, hasPython, type MailDescription, writtenByPython } from './mail-habits.ts';

/** People are invented. */
const letter: Letter = {
  verdict: 'yes',
  fingerprint: '3f9a0b12c4d5e6f70819',
  design: 'A',
  options: [true],
  total: { minor: 634800, currency: 'EUR' },
  date: '2027-03-01',
  terms: '0a1b2c3d',
  after: 12,
  name: 'Maren Tollefsen',
  remark: 'The feet as slender as you dare, and the 5½ cm rail where Idris can’t kick it; he’ll try all the same, I fear.',
};
const says = 'I choose design A, Reed, with the ceramic coat, at a total of 6,348.00 EUR, as agreed on the telephone, with many thanks.';
const block = makeReply(letter, {
  says,
  nameLabel: 'Name',
  remarkLabel: 'I would add',
});
const samples = fileURLToPath(new URL('../record/replies/', import.meta.url));

/** Reads a saved mail as `record` does, and compares all that was in it. */
async function expectRead(name: string, bytes: Uint8Array): Promise<void> {
  expect([name, isSavedMail(bytes)]).toEqual([name, true]);
  const mail = await readMail(bytes);
  expect([name, mail.from]).toEqual([name, { name: 'Maren Tollefsen', address: 'maren.tollefsen@example.invalid' }]);
  const { problems, own, letter: read, above: kept } = readReply(mail.text);
  expect([name, compareSentences(kept, ['', says], 'Name')]).toEqual([name, { changed: [], missing: [], added: [] }]);
  expect([name, problems, own]).toEqual([name, [], above]);
  expect({ ...read, remark: read?.remark.replaceAll(/\s+/g, ' ') }).toEqual(letter);
}

describe('a saved mail', () => {
  const kept = readdirSync(samples).filter((file) => file.endsWith('.eml'));

  test.each(kept)('kept sample %s', async (file) => {
    await expectRead(file, readFileSync(samples + file));
  });

  test('there is a sample of every habit', () => {
    expect(kept.sort()).toEqual(
      habitsOf(block)
        .map(({ name }) => `${name}.eml`)
        .sort(),
    );
  });

  test.runIf(hasPython)('as Python’s email package writes it today, in every habit', async () => {
    const mails = habitsOf(block);
    const written = writtenByPython(mails);
    expect(written.length).toBe(11);
    for (const [i, bytes] of written.entries()) await expectRead(mails[i]?.name ?? '', bytes);
  });

  test('as nodemailer writes it: quoted-printable with soft breaks', async () => {
    for (const { name, text } of habitsOf(block).filter(
      (mail): mail is MailDescription & Required<Pick<MailDescription, 'text'>> => mail.text !== undefined,
    )) {
      if (text.parameters !== undefined) continue;
      const bytes = await mailDraft({
        from: { name: 'Maren Tollefsen', address: 'maren.tollefsen@example.invalid' },
        to: [{ address: 'runa@bench.example.invalid' }],
        subject: 'Re: second proposal',
        text: text.body,
        date: '2027-03-01T09:30:00Z',
        messageIdSeed: name,
      });
      if (name !== 'below') expect(Buffer.from(bytes).toString('latin1')).toMatch(/=\r\n/);
      await expectRead(name, bytes);
    }
  });

  test('came when the last server says, else when its sender says; in whatever zone', async () => {
    const at = async (file: string) => (await readMail(readFileSync(samples + file))).at;
    expect([await at('markup-alone.eml'), await at('top-posted.eml')]).toEqual(['2027-03-02T00:10:09Z', '2027-03-01T23:40:00Z']);
  });

  test('is told from a text that only looks like one', () => {
    const bytes = (text: string): Uint8Array => Buffer.from(text, 'utf8');
    expect(isSavedMail(bytes('From: me\nwith love\n\nyes'))).toBe(false);
    expect(isSavedMail(bytes('From: Runa\nSent: Monday\nTo: Maren\n\nyes'))).toBe(false);
    expect(isSavedMail(bytes('Note: yes\n\nyes'))).toBe(false);
    expect(isSavedMail(bytes('From runa Mon Mar 1\r\nReceived: from a;\r\n\tMon\r\nFrom: a@b.invalid\r\nSubject: x\r\n\r\nyes'))).toBe(
      true,
    );
  });
});

/** @source RFC 3676, sections 4.1 (flowed lines), 4.3 (signature), 4.4 (stuffing), 4.5 (quoting: lines of another depth do not join) */
test.each([
  ['a \nb\nc', false, 'a b\nc'],
  ['a \nb', true, 'ab'],
  ['a  \nb', true, 'a b'],
  ['> a \n> b\n>> c \n>> d\n e', false, '> a b\n>> c d\ne'],
  ['> a \nb', false, '> a \nb'],
  [' From here\n >not quoted\n  two', false, 'From here\n>not quoted\n two'],
  ['bye \n-- \nMaren \nT.', false, 'bye \n-- \nMaren T.'],
  ['a\n\nb ', false, 'a\n\nb '],
] as const)('flowed text is put together as its standard says, case %#', (text, deletesSpace, expected) => {
  expect(unflowed(text, deletesSpace)).toBe(expected);
});
