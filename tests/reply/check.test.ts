import { describe, expect, test } from 'vitest';
import { checkReply, type Letter, type Offered, optionBits } from '../../src/reply/index.ts';

/** An invented proposal in two revisions: the hand figures of the first demo, 5,290 net and 20 % make 6,348.00. */
const terms = 'c'.repeat(64);
/** Terms as somebody is shown them who sees no price. */
const unpriced = 'e'.repeat(64);
const revision = (id: string, digit: string): Offered => ({
  revision: id,
  fingerprint: digit.repeat(64),
  validUntil: '2027-03-20',
  terms: { payer: terms, 'no-price': unpriced },
  currency: 'EUR',
  people: [
    { id: 'idris', audience: 'no-price' },
    { id: 'maren', audience: 'payer' },
  ],
  designs: [
    {
      id: 'A',
      options: ['oil', 'ceramic'],
      combinations: [
        { options: ['oil'], totalMinor: 606000 },
        { options: ['ceramic', 'oil'], totalMinor: 634800 },
      ],
    },
    { id: 'B', options: [], combinations: [{ options: [], totalMinor: 645000 }] },
  ],
});
const offered = [revision('r1', 'a'), revision('r2', 'b')];
const yes: Letter = {
  verdict: 'yes',
  fingerprint: 'b'.repeat(20),
  design: 'A',
  options: optionBits(['oil', 'ceramic'], ['oil', 'ceramic']),
  total: { minor: 634800, currency: 'EUR' },
  date: '2027-03-01',
  decider: 1,
  terms: 'c'.repeat(8),
  name: 'Maren Tollefsen',
  remark: '',
};
const says = (over: Partial<Letter>, on = '2027-03-02', who?: string) =>
  checkReply({ ...yes, ...over }, offered, on, who).mismatches.map((one) => one.says);

describe('a letter held against what was issued', () => {
  test('one that fits names revision, options and who it is from', () => {
    const checked = checkReply(yes, offered, '2027-03-20');
    expect([checked.revision?.revision, checked.options, checked.person, checked.mismatches]).toEqual([
      'r2',
      ['ceramic', 'oil'],
      { id: 'maren', audience: 'payer' },
      [],
    ]);
    expect(says({ verdict: 'no', design: '', options: [], total: undefined, terms: undefined }, '2028-01-01')).toEqual([]);
    expect(says({ verdict: 'mix', base: 'B', options: [], total: undefined, terms: undefined })).toEqual([]);
  });

  test.each([
    [{ fingerprint: 'd'.repeat(20) }, 'no revision of this proposal has the fingerprint of the letter'],
    [{ fingerprint: 'a'.repeat(20) }, 'the letter answers r1, and r2 has taken its place'],
    [{ design: 'C' }, 'r2 has no design C'],
    [{ verdict: 'mix', base: 'D' }, 'r2 has no design D'],
    [{ options: [true, false] }, 'design A of r2 is not offered with these options: ceramic'],
    [{ options: [false, false] }, 'design A of r2 is not offered with these options: none'],
    [{ options: [true, false, true] }, 'the letter counts 3 options, and design A of r2 has 2'],
    [{ options: [true] }, 'the letter counts 1 option, and design A of r2 has 2'],
    [{ total: undefined }, 'the letter names no total, and it comes from somebody who was shown one'],
    [{ total: { minor: 606000, currency: 'EUR' } }, 'the letter says 6060.00 EUR, and r2 says 6348.00 EUR'],
    [{ total: { minor: 634800, currency: 'USD' } }, 'the letter says 6348.00 USD, and r2 says 6348.00 EUR'],
    [{ terms: undefined }, 'the letter does not agree to the terms'],
    [{ terms: 'd'.repeat(8) }, 'the letter agrees to other terms than those of r2'],
    [{ terms: 'e'.repeat(8) }, 'the letter agrees to other terms than those of r2'],
    [{ decider: 2 }, 'the letter is from somebody who is not among those who decide'],
    [{ decider: undefined }, 'the letter does not say which of those who decide it is from'],
    [{ verdict: 'no', after: 4 }, 'the answer is to entry 4, and a question asks for a yes alone'],
    [{ verdict: 'mix', base: 'B', after: 4 }, 'the answer is to entry 4, and a question asks for a yes alone'],
  ] as readonly (readonly [Partial<Letter>, string])[])('says in one sentence what does not fit, case %#', (over, expected) => {
    expect(says(over)).toEqual([expected]);
  });

  test('a yes after the last day is told of, on the day after and not before', () => {
    expect(says({}, '2027-03-20')).toEqual([]);
    expect(says({}, '2027-03-21')).toEqual(['it came on 2027-03-21, and r2 could be accepted until 2027-03-20']);
  });

  test('one who sees no price names no total and agrees to the terms as they were shown them', () => {
    const unseen = { decider: 0, total: undefined, terms: 'e'.repeat(8) };
    expect(says(unseen)).toEqual([]);
    expect(says({ ...unseen, terms: 'c'.repeat(8) })).toEqual(['the letter agrees to other terms than those of r2']);
    expect(says({ ...unseen, decider: undefined }, '2027-03-02', 'idris')).toEqual([]);
    expect(says({ ...unseen, decider: undefined }, '2027-03-02', 'maren')).toEqual([
      'the letter names no total, and it comes from somebody who was shown one',
      'the letter agrees to other terms than those of r2',
    ]);
  });

  test('the maker may say whose it is, and is told where the letter says otherwise', () => {
    expect(says({ decider: undefined }, '2027-03-02', 'maren')).toEqual([]);
    expect(says({}, '2027-03-02', 'maren')).toEqual([]);
    expect(says({ terms: 'e'.repeat(8) }, '2027-03-02', 'idris')).toEqual(['the letter is from maren, and you say that it is idris’s']);
    expect(says({}, '2027-03-02', 'bram')).toEqual(['bram is not among those who decide on r2']);
    const alone = offered.map((one) => ({ ...one, people: one.people.slice(1) }));
    expect(checkReply({ ...yes, decider: undefined }, alone, '2027-03-02').person?.id).toBe('maren');
  });

  test('all at once', () => {
    expect(says({ fingerprint: 'a'.repeat(20), total: { minor: 1, currency: 'EUR' }, decider: 9 }, '2027-04-01').length).toBe(4);
  });
});
