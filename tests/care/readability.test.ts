/**
 * What is read with a wet cloth in hand is plain English, and so is the rest. Reading ease of every kind of spill and of every part of
 * the note, with every finish.
 * @source R. Flesch, A new readability yardstick, Journal of Applied Psychology 32 (1948) 221-233: RE = 206.835 - 1.015 (words per
 * sentence) - 84.6 (syllables per word); 80 and more is "easy", 70 to 80 "fairly easy" (60 would be "standard"). Syllables are counted by groups of vowels, silent e
 * left out: common practice of machines.
 */
import { describe, expect, it } from 'vitest';
import { composeCare } from '../../src/care/index.ts';
import { finishes } from './read-rules.ts';
import { finish, input } from './tables.ts';

const EASY = 80;
const FAIRLY_EASY = 70;

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

  const everything = {
    construction: ['glued', 'moving-fixings', 'breadboard', 'drawer', 'leaf', 'bolts', 'glass', 'steel', 'levellers'],
    place: {
      humidityLowPercent: 20,
      humidityHighPercent: 75,
      facts: ['sun', 'stove', 'underfloor-heating', 'soft-floor', 'children', 'food', 'daily-spills'],
    },
  } as const;

  it.each(Object.keys(finishes))('of every other part on %s is fairly easy', (id) => {
    const parts = composeCare(input({ finish: finish(id, 'Tin 4471'), ...everything })).sections.filter(({ lines }) => lines.length > 0);
    // First days, daily, never, heat, sun, humidity, joints, moving, level, tightening, steadiness, glass, children, repair, refresh, food.
    expect(parts.length).toBeGreaterThanOrEqual(16);
    const hard = parts
      .map((part) => [part.id, Math.round(readingEase(part.lines.map(({ text }) => text).join(' ')))] as const)
      .filter(([, ease]) => ease < FAIRLY_EASY);
    expect(hard).toEqual([]);
  });
});
