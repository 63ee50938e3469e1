import { describe, expect, test } from 'vitest';
import { type ClientView, clientView, offerOf, termsText } from '../../src/client/index.ts';
import { figuresOf } from '../../src/figures/index.ts';
import { checkReply, readReply, sha256Text } from '../../src/reply/index.ts';
import { letterText, mailLink, missingFields, mostLetters } from '../../src/site/client/answer/compose.ts';
import { type AnswerData, combinationOf, type Filled, isScriptText, nearestCombination } from '../../src/site/client/answer/data.ts';
import { computed } from './commission.ts';

const fingerprint = 'ab12'.repeat(16);
const source = computed();
const figures = figuresOf(source);
const view = clientView(source, figures, { fingerprint });
const offer = { ...offerOf(source, figures), fingerprint };

function dataOf(shown: ClientView): AnswerData {
  const { letter } = shown;
  if (letter === undefined) throw new Error('the view has no letter');
  const texts = Object.fromEntries(Object.entries(shown.texts).filter(([key]) => isScriptText(key)));
  return {
    proposal: shown.proposal,
    title: shown.title,
    revision: shown.revision.id,
    validUntil: { day: shown.revision.validUntilIso, shown: shown.revision.validUntil },
    maker: shown.maker.name,
    email: shown.maker.email,
    letter,
    texts,
  };
}

const data = dataOf(view);
const blank: Filled = { options: [], name: '', remark: '', agrees: false };
const signed = { place: 1, name: 'Maren Tollefsen', agrees: true };
const heard = (text: string) => {
  const { letter, problems } = readReply(text);
  if (letter === undefined) throw new Error(problems.map(({ says }) => says).join());
  return { letter, problems, mismatches: checkReply(letter, [offer], '2026-03-01').mismatches };
};

describe('what a letter can say', () => {
  test('digest of the terms as shown, people by their place, every combination with its total and instalments', () => {
    expect(data.letter.fingerprint).toBe(fingerprint.slice(0, 20));
    expect(data.letter.terms).toBe(sha256Text(termsText(view.terms)));
    expect(data.letter.people.map(({ id, place, name }) => [id, place, name])).toEqual([
      ['idris', 0, 'Idris Quill'],
      ['maren', 1, 'Maren Tollefsen'],
    ]);
    const shown = data.letter.designs.flatMap(({ combinations }) => combinations.map(({ total }) => total?.shown));
    expect(shown).toEqual(view.designs.flatMap(({ price }) => price?.combinations.map(({ total }) => total)));
    for (const { instalments } of data.letter.designs.flatMap((design) => design.combinations))
      expect(instalments?.length).toBe(data.letter.instalments.length);
  });

  test('a draft has no fingerprint, and who sees no price no amount and no currency', () => {
    expect(clientView(source, figures).letter).not.toHaveProperty('fingerprint');
    const { letter } = clientView(source, figures, { audience: 'no-price', fingerprint });
    expect(JSON.stringify(letter)).not.toMatch(/€|EUR|minor|total|instalments":\[[^\]]/);
    expect(letter?.designs.map(({ combinations }) => combinations.length)).toEqual([4, 1]);
  });

  test('names those alone whose page it is', () => {
    const two = computed({
      pages: { payer: { audience: 'payer' }, viewer: { audience: 'no-price' } },
      deciders: { rule: 'all', people: { maren: { name: 'Maren Tollefsen' }, idris: { name: 'Idris Quill', page: 'viewer' } } },
    });
    const names = (audience: 'payer' | 'no-price') =>
      clientView(two, figuresOf(two), { audience }).letter?.people.map(({ id, place }) => [id, place]);
    expect([names('payer'), names('no-price')]).toEqual([[['maren', 1]], [['idris', 0]]]);
  });

  test("the maker's form is there only where there is one", () => {
    expect(data.letter).not.toHaveProperty('form');
    const maker = { ...source.input.library.maker, form: 'https://forms.example.invalid/answers' };
    const formed = { ...source, input: { ...source.input, library: { ...source.input.library, maker } } };
    expect(clientView(formed, figures).letter?.form).toBe('https://forms.example.invalid/answers');
  });
});

describe('a letter as text', () => {
  test('yes: for every combination it is read again and fits what was issued', () => {
    let count = 0;
    for (const design of data.letter.designs)
      for (const { options, total } of design.combinations) {
        const text = letterText(data, { ...blank, ...signed, verdict: 'yes', design: design.id, options }, 'I agree.', '2026-02-27');
        const { letter, problems, mismatches } = heard(text);
        expect([problems, mismatches]).toEqual([[], []]);
        expect(letter.total?.minor).toBe(total?.minor);
        expect(text).toContain(`The total is ${total?.shown}, paid as`);
        expect(letter).toMatchObject({ verdict: 'yes', date: '2026-02-27', decider: 1, terms: data.letter.terms.slice(0, 8) });
        count += 1;
      }
    expect(count).toBe(5);
  });

  test('no and mix, with the words of the reader, whatever they hold', () => {
    const remark = 'An «altar»;\nwe > want | to see the floor – 100 %';
    const no = heard(letterText(data, { ...blank, ...signed, verdict: 'no', design: 'B', remark }, '', '2026-02-27'));
    expect(no.letter).toMatchObject({ verdict: 'no', design: 'B' });
    expect([no.problems, no.mismatches]).toEqual([[], []]);
    const all = heard(letterText(data, { ...blank, ...signed, verdict: 'no', design: '', remark }, '', '2026-02-27'));
    expect([all.letter.design, all.mismatches]).toEqual(['', []]);
    const mix = heard(letterText(data, { ...blank, ...signed, verdict: 'mix', design: 'A', base: 'B' }, '', '2026-02-27'));
    expect(mix.letter).toMatchObject({ verdict: 'mix', design: 'A', base: 'B', remark: '' });
    expect([mix.problems, mix.mismatches]).toEqual([[], []]);
  });

  test('of somebody who sees no price: no total, the terms as they were shown', () => {
    const two = computed({
      pages: { payer: { audience: 'payer' }, viewer: { audience: 'no-price' } },
      deciders: { rule: 'all', people: { maren: { name: 'Maren Tollefsen' }, idris: { name: 'Idris Quill', page: 'viewer' } } },
    });
    const seen = dataOf(clientView(two, figuresOf(two), { audience: 'no-price', fingerprint }));
    const filled: Filled = { ...blank, verdict: 'yes', design: 'A', options: ['stout'], name: 'I. Quill', agrees: true };
    expect(missingFields(seen, filled)).toEqual([]);
    const text = letterText(seen, filled, 'I agree.', '2026-02-27');
    expect(text).not.toMatch(/€|total/);
    const { letter } = readReply(text);
    expect(letter).not.toHaveProperty('total');
    expect(
      checkReply(letter as NonNullable<typeof letter>, [{ ...offerOf(two, figuresOf(two)), fingerprint }], '2026-03-01'),
    ).toMatchObject({
      mismatches: [],
      person: { id: 'idris', audience: 'no-price' },
    });
  });

  test('of a draft: the words, and no code', () => {
    const draft = dataOf(clientView(source, figures));
    const text = letterText(draft, { ...blank, ...signed, verdict: 'no', design: 'A', remark: 'too heavy' }, '', '2026-02-27');
    expect(text).toContain('«too heavy»');
    expect(readReply(text).problems.map(({ code }) => code)).toEqual(['reply/no-code']);
  });

  test('the mail link keeps below what mail programs take; a longer letter has none', () => {
    const filled: Filled = { ...blank, ...signed, verdict: 'yes', design: 'A', options: ['ceramic', 'stout'] };
    const link = mailLink(data, letterText(data, filled, view.consent?.sentence ?? '', '2026-02-27')) ?? '';
    expect(link.length).toBeGreaterThan(500);
    expect(link.length).toBeLessThanOrEqual(1800);
    const body = new URL(link).searchParams.get('body') ?? '';
    expect(body).toContain('\r\n');
    expect(heard(body).mismatches).toEqual([]);
    const long = letterText(data, { ...filled, remark: 'wood '.repeat(300) }, '', '2026-02-27');
    expect(mailLink(data, long)).toBeUndefined();
    expect(heard(long).problems).toEqual([]);
    const longest = { ...filled, remark: 'ä'.repeat(mostLetters.remark), name: 'ä'.repeat(mostLetters.name) };
    expect(heard(letterText(data, longest, '', '2026-02-27')).problems).toEqual([]);
  });
});

describe('while it is filled in', () => {
  test('what is missing, in the order of the letter', () => {
    expect(missingFields(data, blank)).toEqual(['verdict']);
    expect(missingFields(data, { ...blank, verdict: 'yes' })).toEqual(['design', 'person', 'agrees', 'name']);
    expect(missingFields(data, { ...blank, verdict: 'no', design: '' })).toEqual(['remark', 'person', 'name']);
    expect(missingFields(data, { ...blank, verdict: 'mix', design: 'A', base: 'A' })).toEqual(['base', 'person', 'name']);
    expect(missingFields(data, { ...blank, ...signed, verdict: 'yes', design: 'B' })).toEqual([]);
  });

  test('options that exclude each other: the one that was switched stays, the others give way', () => {
    const option = (id: string) => ({ id, says: id });
    const combination = (...options: string[]) => ({ options, isDefault: options.length === 0 });
    const design = {
      id: 'A',
      name: 'Reed',
      options: ['ceramic', 'soap', 'stout'].map(option),
      combinations: [combination(), combination('ceramic'), combination('soap'), combination('stout'), combination('ceramic', 'stout')],
    };
    expect(combinationOf(design, ['stout', 'ceramic'])?.options).toEqual(['ceramic', 'stout']);
    expect(combinationOf(design, ['ceramic', 'soap'])).toBeUndefined();
    expect(nearestCombination(design, ['ceramic', 'soap', 'stout'], 'soap')?.options).toEqual(['soap']);
    expect(nearestCombination(design, ['ceramic', 'soap'], 'ceramic')?.options).toEqual(['ceramic']);
    const fixed = { ...design, combinations: [combination('ceramic')] };
    expect(nearestCombination(fixed, [], 'ceramic')?.options).toEqual(['ceramic']);
  });
});
