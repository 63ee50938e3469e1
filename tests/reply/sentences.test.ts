import { describe, expect, test } from 'vitest';
import { readMail } from '../../src/cli/hearing/mail.ts';
import type { ClientView } from '../../src/client/index.ts';
import { clientView } from '../../src/client/index.ts';
import { figuresOf } from '../../src/figures/index.ts';
import { compareSentences, makeReply, readReply, wordsAround } from '../../src/reply/index.ts';
import { letterOf } from '../../src/site/client/answer/compose.ts';
import type { Filled } from '../../src/site/client/answer/data.ts';
import { answerDataOf, sentencesOf } from '../../src/site/client/answer/of-view.ts';
import { habitsOf, hasPython, writtenByPython } from '../cli/mail-habits.ts';
import { computed } from '../client/commission.ts';

/** People are invented. */
const source = computed();
const view = clientView(source, figuresOf(source), { fingerprint: 'ab12'.repeat(16) });
const signed = { place: 1, name: 'Maren Tollefsen', remark: '', agrees: true } as const;
const optionOf = (page: ClientView): string => page.letter?.designs[0]?.options[0]?.id ?? '';
const answers: Readonly<Record<string, Filled>> = {
  'a yes with an option': { ...signed, verdict: 'yes', design: 'A', options: [optionOf(view)], remark: 'Dear Runa Stavely, soon please.' },
  'a yes without options': { ...signed, verdict: 'yes', design: 'A', options: [] },
  'a no to one': { ...signed, verdict: 'no', design: 'B', options: [], remark: 'I kick the rail.' },
  'a no to all': { ...signed, verdict: 'no', design: '', options: [], remark: 'Too low.' },
  'a mix': { ...signed, verdict: 'mix', design: 'A', base: 'B', options: [] },
};

function written(filled: Filled) {
  const { letter } = view;
  if (letter === undefined) throw new Error('the view has no letter');
  const { sentences, label } = sentencesOf(view, letter, filled);
  const [greeting = '', ...rest] = sentences;
  const says = `${greeting}\n\n${rest.join('\n')}`;
  const text = makeReply(letterOf(answerDataOf(view, letter), filled, '2026-03-01'), {
    says,
    nameLabel: label,
    remarkLabel: 'I would add',
  });
  return { text, compare: (pasted: string) => compareSentences(readReply(pasted).above, sentences, label) };
}
const same = { changed: [], missing: [], added: [] };

describe.each(Object.entries(answers))('the sentences of %s', (_name, filled) => {
  const { text, compare } = written(filled);

  test('are those of the page as it made them, alone and under words with the same greeting', () => {
    expect(compare(text)).toEqual(same);
    expect(compare(`Dear Runa Stavely,\n\nhere it is. Design B was close, at a total of 1.00.\n\n${text}`)).toEqual(same);
  });

  test.runIf(hasPython)('are found to be the same in every habit of mail programs', async () => {
    const mails = writtenByPython(habitsOf(text));
    expect(mails.length).toBe(11);
    for (const bytes of mails) expect(compare((await readMail(bytes)).text)).toEqual(same);
  });

  test('are the same in another encoding, with lost signs, other dashes, capitals and deeper quotes', () => {
    const mojibake = new TextDecoder('windows-1252').decode(new TextEncoder().encode(text)).replaceAll('Â«', '«').replaceAll('Â»', '»');
    const lost = text.replaceAll(/[^\n\x20-\x7e«»]/g, '?');
    const entities = text.replaceAll('€', '&euro;').replaceAll('’', '&rsquo;').replaceAll('“', '&ldquo;').replaceAll('”', '&rdquo;');
    const deep = text.replaceAll(/^/gm, '> > > ').replaceAll(' of ', '\n> > > of ');
    for (const mangled of [mojibake, lost, entities, deep, text.normalize('NFD'), text.replaceAll('\n', '\r\n')])
      expect(compare(mangled)).toEqual(same);
  });
});

describe('a letter that was changed by hand', () => {
  const { text, compare } = written(answers['a yes with an option'] as Filled);
  const total = /The total is [^\d]*([\d,]+\.\d\d)/.exec(text)?.[1] ?? '';

  test.each([
    ['another sum', total, '4,000.00'],
    ['a sum with a digit more', total, `1${total}`],
    ['another design', 'design A (', 'design B ('],
    ['another name of the design', /design A \([^)]*\)/, 'design A (the other one)'],
    ['another person', 'I am Maren', 'I am Idris'],
    ['a condition in place of the agreement', /\n[^\n]*\n\(Digest/, '\nI agree if it is here by May.\n(Digest'],
  ] as const)('%s: shown with what the page wrote', (_name, from, to) => {
    const edited = text.replace(from, to);
    expect(edited).not.toBe(text);
    const { changed, missing, added } = compare(edited) ?? same;
    expect([changed.length, missing, added]).toEqual([1, [], []]);
    expect(JSON.stringify(changed)).toContain(JSON.stringify(to.trim().split('\n')[0]).slice(1, -1));
  });

  test('words put between are told, and a sentence taken out', () => {
    expect(compare(text.replace('\nWith:', '\nBut with slender feet.\nWith:'))).toEqual({
      ...same,
      added: [expect.stringContaining('slender')],
    });
    expect(compare(text.replace(/\(Digest[^\n]*\n/, ''))).toEqual({ ...same, missing: [expect.stringContaining('Digest')] });
  });

  test('a code that came alone, or under words of its sender, has nothing to be held against', () => {
    const code = /LW1-[A-Z0-9-]+/.exec(text)?.[0] ?? '';
    expect(compare(code)).toBeUndefined();
    expect(compare(`I choose A, for 4,000.\n\n: «Maren Tollefsen»\n\n${code}`)).toBeUndefined();
  });
});

describe('what stands around a letter that is not quoted', () => {
  function around(filled: Filled, edit: (text: string) => string): string {
    const { letter } = view;
    if (letter === undefined) throw new Error('the view has no letter');
    const read = readReply(edit(written(filled).text));
    if (read.letter === undefined) throw new Error('no letter was found');
    return wordsAround(read.own, sentencesOf(view, letter, filled).sentences, read.letter);
  }
  const above = 'We love it, but make it 50 mm longer, please.';
  const below = 'PS: no glides.';

  test.each(Object.entries(answers))('%s: what is above and below it, and nothing of itself', (_, filled) => {
    expect(around(filled, (text) => text)).toBe('');
    expect(around(filled, (text) => `${above}\n\n${text}`)).toBe(above);
    expect(around(filled, (text) => `${text}\n\n${below}\n`)).toBe(below);
    expect(around(filled, (text) => `${above}\n${text}\n${below}`)).toBe(`${above}\n\n${below}`);
  });

  test('where the sentences are gone, all above the name; where only the code is left, all of it', () => {
    const yes = answers['a yes without options'] as Filled;
    expect(around(yes, (text) => `${above}\n\n${text.slice(text.indexOf('Name:'))}`)).toBe(above);
    expect(around(yes, (text) => `${above}\n\n${text.slice(text.indexOf('LW1'))}`)).toBe(above);
  });
});
