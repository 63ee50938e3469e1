import type { WishFigures } from '../figures/index.ts';
import type { WishSpec } from '../spec/index.ts';
import type { WishView } from './client-view.ts';
import { keepFigures } from './keep-figures.ts';
import type { Rounding, Shown } from './shown.ts';
import type { Words } from './words.ts';

/**
 * A measured value in words, rounded against the table: down where the wish asks for at least, up where it asks for at most. A mass is
 * to the nearest, as it is told elsewhere on the page.
 */
function quantity(value: number, unit: WishFigures['unit'], rounding: Rounding, shown: Shown, words: Words): string | undefined {
  switch (unit) {
    case 'mm':
      return shown.length(value, rounding);
    case 'N': {
      const load = shown.load(value, rounding);
      const force = shown.force(value, rounding);
      return force === undefined ? load : words.say('wish.load', { load, force });
    }
    case 'percent':
      return shown.percent(value, rounding);
    case 'kg':
      return shown.mass(value, rounding);
    case 'places':
      return words.count('wish.places', value);
    case 'minor':
      return shown.wholeMoney(value);
    default:
      return undefined;
  }
}

function targetText(answer: WishFigures, shown: Shown, words: Words): string | undefined {
  const { atLeast, atMost } = answer.target ?? {};
  const low = atLeast === undefined ? undefined : quantity(atLeast, answer.unit, 'near', shown, words);
  const high = atMost === undefined ? undefined : quantity(atMost, answer.unit, 'near', shown, words);
  if (low !== undefined && high !== undefined) return words.say('wish.between', { low, high });
  if (low !== undefined) return words.say('wish.at-least', { value: low });
  return high === undefined ? undefined : words.say('wish.at-most', { value: high });
}

/** A mass is rounded up only where it is too much and would read, to the nearest, as what was asked for. */
function massRounding({ value, target }: WishFigures, shown: Shown): Rounding {
  const atMost = target?.atMost;
  if (value === undefined || atMost === undefined || value <= atMost) return 'near';
  return shown.mass(value, 'near') === shown.mass(atMost, 'near') ? 'up' : 'near';
}

function roundingOf(answer: WishFigures, shown: Shown): Rounding {
  if (answer.unit === 'kg') return massRounding(answer, shown);
  return answer.target?.atMost !== undefined && answer.target.atLeast === undefined ? 'up' : 'down';
}

/** A whole position, span or load is rounded in the text it stands in; other values are words already. */
function whyText(answer: WishFigures, shown: Shown, words: Words): string | undefined {
  if (answer.why === undefined || !words.has(answer.why.key)) return undefined;
  const values = Object.fromEntries(
    Object.entries(answer.why.values).map(([name, value]) => {
      if (typeof value === 'string') return [name, words.has(value) ? words.say(value) : value];
      if (name.endsWith('Mm')) return [name, shown.length(value)];
      if (name.endsWith('N')) return [name, shown.load(value, 'down')];
      if (name.endsWith('Kg')) return [name, shown.mass(value, 'up')];
      if (name.endsWith('Percent')) return [name, shown.percent(value, 'down')];
      return [name, shown.number(value)];
    }),
  );
  const state = answer.why.values.state === undefined ? '' : ` ${words.say('wish.why.state', values)}`;
  return words.say(answer.why.key, values) + state;
}

/**
 * What became of one wish in one design. A wish about the price has no figure for an audience that sees none.
 * `seesPrice` false leaves value, target and reason of such a wish out.
 */
export function wishView(answer: WishFigures | undefined, wish: WishSpec, seesPrice: boolean, shown: Shown, words: Words): WishView {
  if (answer === undefined) return { result: 'not-computed', resultText: words.say('wish.result.not-computed') };
  const isPrice = wish.measure.kind === 'price';
  if (isPrice && !seesPrice) return { result: 'not-computed', resultText: words.say('wish.result.not-shown') };
  const value = answer.value === undefined ? undefined : quantity(answer.value, answer.unit, roundingOf(answer, shown), shown, words);
  const target = targetText(answer, shown, words);
  const why = answer.says === undefined ? whyText(answer, shown, words) : keepFigures(answer.says);
  return {
    result: answer.result,
    resultText: words.say(`wish.result.${answer.result}`),
    ...(value === undefined ? {} : { value }),
    ...(target === undefined ? {} : { target }),
    ...(why === undefined ? {} : { why }),
  };
}
