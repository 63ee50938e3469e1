/** A weight is told once on a page: a wish about it rounds as the facts do, unless that would read as what was asked for. */
import { expect, test } from 'vitest';
import { shownIn } from '../../src/client/shown.ts';
import { wishView } from '../../src/client/wish-view.ts';
import { wordsOf } from '../../src/client/words.ts';
import type { LengthStyle } from '../../src/units/index.ts';
import { textsOf } from './commission.ts';

const words = wordsOf('en-GB', textsOf('en-GB'));

function told(kg: number, style: LengthStyle, atMost = 30) {
  const shown = shownIn('en-GB', style, 'EUR');
  const answer = {
    id: 'w1',
    kind: 'mass',
    value: kg,
    unit: 'kg',
    target: { atMost },
    result: kg > atMost ? 'not-enough' : 'enough',
  } as const;
  const wish = { says: 'Two of us carry it', measure: { kind: 'mass', atMost: { kg: atMost, written: `${atMost} kg` } } } as const;
  const { value = '', target = '' } = wishView(answer, wish, true, shown, words);
  return [value, target, shown.mass(kg, 'near')].map((text) => text.replaceAll('\u202f', ' '));
}

// 21.4 kg / 0.45359237 = 47.2 lb; 30 kg = 66.1 lb; 30.2 kg = 66.6 lb; 29.95 kg = 66.03 lb. In all of them the facts say the nearest.
test.each([
  [21.4, 'mm', ['21 kg', 'at most 30 kg', '21 kg']],
  [21.4, 'in', ['47 lb', 'at most 66 lb', '47 lb']],
  [29.95, 'mm', ['30 kg', 'at most 30 kg', '30 kg']],
  [33.4, 'mm', ['33 kg', 'at most 30 kg', '33 kg']],
  // Too much by a little: the nearest would read as what was asked for.
  [30.2, 'mm', ['31 kg', 'at most 30 kg', '30 kg']],
  [30.2, 'in', ['67 lb', 'at most 66 lb', '67 lb']],
  [30.05, 'mm+in', ['31 kg (67 lb)', 'at most 30 kg (66 lb)', '30 kg (66 lb)']],
] as const)('%d kg in %s', (kg, style, says) => {
  expect(told(kg, style)).toEqual(says);
});
