import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { factIds } from '../../src/client/index.ts';
import { wordsOf } from '../../src/client/words.ts';
import { claimOutcomes, claimSubjects, services } from '../../src/record/index.ts';
import { promisesIn } from '../templates/promises.ts';
import { textsOf } from './commission.ts';

const root = new URL('../../', import.meta.url).pathname;
const texts = textsOf('en-GB');

/** Every key that the sources ask for in so many letters. */
function keysAskedFor(): readonly string[] {
  const folders = ['src/client', 'src/site', 'src/write/client', 'src/assess', 'src/design', 'src/price', 'src/cli/make'];
  const files = folders.flatMap((folder) =>
    readdirSync(`${root}${folder}`, { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.(ts|astro)$/.test(name))
      .map((name) => `${root}${folder}/${name}`),
  );
  const rooms =
    'page|part|price|wish|scope|steady|movement|material|fit|care|caution|choice|supplied|sample|fact|mass|range|deciders|ordinal|ageing|consent|paper|papers|delivery|letter|label|claim|state|rounds|changed';
  const key = new RegExp(`['"\`]((?:${rooms})\\.[a-z0-9.-]+)['"\`]`, 'g');
  return [...new Set(files.flatMap((file) => [...readFileSync(file, 'utf8').matchAll(key)].map(([, found = '']) => found)))];
}

describe('texts', () => {
  test('every key that a page, a document or a reason asks for has a text', () => {
    const asked = keysAskedFor();
    expect(asked.length).toBeGreaterThan(100);
    const missing = asked.filter((key) => texts[key] === undefined && texts[`${key}.other`] === undefined);
    expect(missing).toEqual([]);
  });

  test('facts, results and stages made from codes have texts', () => {
    const made = [
      ...factIds.map((id) => `fact.${id}`),
      ...['enough', 'limit', 'not-enough', 'judgement', 'not-computed'].map((result) => `wish.result.${result}`),
      ...['enough', 'limit', 'not-enough'].map((result) => `steady.result.${result}`),
      ...['corner', 'end', 'side', 'rim', 'beyond', 'never'].map((place) => `steady.sentence-${place}`),
      ...['corner', 'end', 'side', 'rim', 'by-itself'].map((place) => `wish.why.tips-${place}`),
      ...['passes', 'tight', 'not-proven', 'does-not-pass'].flatMap((result) => [`fit.way-in.${result}`, `wish.why.way-in-${result}`]),
      ...['fixed', 'allowance', 'estimate', 'provisional'].map((certainty) => `price.certainty.${certainty}`),
      ...['front', 'back', 'left', 'right'].map((side) => `side.${side}`),
      ...['front', 'side', 'plan', 'underside'].map((view) => `page.${view}`),
      ...claimSubjects.map((about) => `claim.about-${about}`),
      ...claimOutcomes.map((outcome) => `claim.outcome-${outcome}`),
      ...services.map((service) => `claim.service-${service}`),
      ...['as-expected', 'more-than-expected', 'less-than-expected'].map((result) => `claim.result-${result}`),
      ...['air', 'boards'].map((by) => `claim.now-${by}`),
      ...['moisture', 'humidity'].map((what) => `claim.measured-${what}`),
      ...['moisture', 'humidity-glue-up', 'humidity-finish', 'humidity-delivery', 'batch', 'sizes', 'photographs'].map(
        (key) => `claim.lacks-${key}`,
      ),
      ...['open', 'run-out', 'approved', 'closed', 'cancelled', 'superseded', 'ordered', 'delivered'].map((kind) => `state.${kind}`),
      ...['yes', 'no', 'mix'].map((verdict) => `state.said-${verdict}`),
      ...['open', 'run-out', 'approved'].map((stands) => `state.change-${stands}`),
      ...['', '-agreed', '-any'].flatMap((rule) => [`state.order-stands${rule}`, `state.order-stands${rule}-no-price`]),
      ...['state.chosen', 'state.chosen-with'],
    ];
    expect(made.filter((key) => texts[key] === undefined)).toEqual([]);
  });

  test('ways of ageing named by woods have texts', () => {
    const named = [...readFileSync(`${root}templates/woods.yaml`, 'utf8').matchAll(/^\s+ageing: (ageing\.[a-z-]+)$/gm)].map(
      ([, key = '']) => key,
    );
    expect(named.length).toBeGreaterThan(10);
    expect(named.filter((key) => texts[key] === undefined)).toEqual([]);
  });

  test('American texts replace British ones and add no key of their own; names in braces agree', () => {
    const american = textsOf('en-US');
    expect(Object.keys(american).filter((key) => texts[key] === undefined)).toEqual([]);
    const names = (text = ''): string => (text.match(/\{[a-z0-9-]+\}/gi) ?? []).toSorted().join();
    expect(Object.keys(american).filter((key) => names(american[key]) !== names(texts[key]))).toEqual([]);
  });

  test('no text promises what a table can not keep, none invites onto it', () => {
    for (const [key, text] of Object.entries({ ...texts, ...textsOf('en-US') })) {
      expect([key, promisesIn(text)]).toEqual([key, []]);
      expect(text).not.toMatch(/\b(?:may|can) (?:sit|stand|climb)\b/i);
      expect(text).not.toMatch(/!|please note/i);
    }
  });

  test('counted texts follow the plural rules of their language', () => {
    const words = wordsOf('en-GB', texts);
    expect([words.count('wish.places', 1), words.count('wish.places', 6), words.count('wish.places', 0)]).toEqual([
      '1 place',
      '6 places',
      '0 places',
    ]);
    const polish = wordsOf('pl', {
      'x.one': '{count} miejsce',
      'x.few': '{count} miejsca',
      'x.many': '{count} miejsc',
      'x.other': '{count}',
    });
    // CLDR plural rules, language pl: 1 one; 2 few; 5 many; 22 few
    expect([1, 2, 5, 22].map((count) => polish.count('x', count))).toEqual(['1 miejsce', '2 miejsca', '5 miejsc', '22 miejsca']);
    expect(() => words.say('no.such-key')).toThrow('no text with the key');
  });
});
