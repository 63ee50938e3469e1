/**
 * What is read with a wet cloth in hand is plain English. Reading ease of every kind of spill of every finish.
 * @source R. Flesch, A new readability yardstick, Journal of Applied Psychology 32 (1948) 221-233: RE = 206.835 - 1.015 (words per
 * sentence) - 84.6 (syllables per word); 80 and more is "easy" (60 would be "standard"). Syllables are counted by groups of vowels, silent e
 * left out: common practice of machines.
 */
import { describe, expect, it } from 'vitest';
import { composeCare } from '../../src/care/index.ts';
import { finishes } from './read-rules.ts';
import { finish, input } from './tables.ts';

const EASY = 80;

function syllables(word: string): number {
  const plain = word.toLowerCase().replace(/[^a-z]/g, '');
  if (plain.length <= 3) return 1;
  const silent = plain.replace(/(?:[^laeiouy]es|[^td]ed|[^laeiouy]e)$/, (end) => end.slice(0, 1)).replace(/^y/, '');
  return Math.max(1, silent.match(/[aeiouy]+/g)?.length ?? 1);
}

function readingEase(text: string): number {
  const sentences = text.split(/[.?!:;]+(?:\s|$)/).filter((one) => /[a-z]/i.test(one)).length;
  const words = text.split(/\s+/).filter((one) => /[a-z]/i.test(one));
  const counted = words.reduce((sum, word) => sum + syllables(word), 0);
  return 206.835 - 1.015 * (words.length / sentences) - 84.6 * (counted / words.length);
}

describe('reading ease', () => {
  it('is counted as its author does: short words in short sentences are easy, the long ones are not', () => {
    // 6 words, 1 sentence, 6 syllables: 206.835 - 6.09 - 84.6.
    expect(readingEase('The cat sat on the mat.')).toBeCloseTo(116.145, 3);
    expect(readingEase('Contamination necessitates professional rehabilitation.')).toBeLessThan(0);
  });

  it.each(Object.keys(finishes))('of every spill on %s is easy', (id) => {
    const spills = composeCare(input({ finish: finish(id) })).sections.flatMap((section) => section.spills ?? []);
    expect(spills.length).toBeGreaterThan(4);
    const hard = spills
      .map((spill) => [spill.id, Math.round(readingEase([...spill.steps, ...spill.stop].map(({ text }) => text).join(' ')))] as const)
      .filter(([, ease]) => ease < EASY);
    expect(hard).toEqual([]);
  });
});
