import { type CalendarDate, formatDate, formatLength, formatLiftedMass, formatNumber, formatPercent, UNIT_SPACE } from '../units/index.ts';
import type { CareDates } from './dates.ts';
import { handsFor } from './hands.ts';
import type { CareInput, CareMovement, CareWood } from './input.ts';

/** What the `{names}` of a rule stand for: words, or a list, of which each becomes a line of its own. */
export type CareValues = Readonly<Record<string, string | readonly string[]>>;

/** Every `{name}` that a rule may use. */
export const CARE_NAMES = [
  'finished-on',
  'delivered-on',
  'light-use-date',
  'light-use-from',
  'cured-date',
  'cured-from',
  'first-check',
  'refresh-from',
  'refresh-to',
  'finish',
  'base-finish',
  'product',
  'heat-word',
  'too-hot',
  'water-word',
  'alcohol-word',
  'woods',
  'Woods',
  'fixings',
  'humidity-low',
  'humidity-high',
  'movements',
  'mass',
  'hands',
  'lift-by',
  'apart',
  'heaviest-piece',
  'heaviest-mass',
  'heaviest-hands',
  'steadiness',
] as const;

const NAME = /\{([A-Za-z][a-z0-9-]*)\}/g;

/** Names in braces of a text. */
export function namesIn(text: string): readonly string[] {
  return [...text.matchAll(NAME)].map(([, name = '']) => name);
}

/** A text with its names filled in: one line, or one for each entry where the text is one list alone. Unknown names stay. */
export function fillLines(text: string, values: CareValues): readonly string[] {
  const alone = /^\{([A-Za-z][a-z0-9-]*)\}$/.exec(text.trim());
  const whole = alone?.[1] === undefined ? undefined : values[alone[1]];
  if (typeof whole === 'object') return whole;
  return [
    text.replace(NAME, (unknown, name: string) => {
      const value = values[name];
      return value === undefined ? unknown : typeof value === 'string' ? value : value.join(' ');
    }),
  ];
}

/** The text of a key with its names filled in. Throws where the key is not in the texts: a note never shows a bare key. */
export function sayText(input: Pick<CareInput, 'texts' | 'language'>, key: string, values: CareValues = {}): string {
  const text = input.texts[key];
  if (text === undefined) throw new Error(`no text with the key ${key} in ${input.language}`);
  return fillLines(text, values).join(' ');
}

/** `two people`: a small number in a word where the texts have one, else in the language's plural. */
export function peopleText(input: CareInput, count: number): string {
  const forms = [String(count), new Intl.PluralRules(input.language).select(count)].map((form) => `care.hands.${form}`);
  const key = forms.find((form) => input.texts[form] !== undefined) ?? 'care.hands.other';
  return sayText(input, key, { count: formatNumber(count, input.language) });
}

function listed(words: readonly string[], language: string): string {
  return new Intl.ListFormat(language, { type: 'conjunction' }).format(words);
}

/** Names of woods in a sentence, and at the head of one. */
export function woodValues(woods: readonly CareWood[], language: string): CareValues {
  const names = listed([...new Set(woods.map(({ name }) => lowerFirst(name)))], language);
  return { woods: names, Woods: names.slice(0, 1).toUpperCase() + names.slice(1) };
}

/** Names of woods that keep their capital in a sentence begin with a name of place. */
export function lowerFirst(name: string): string {
  return /^(?:European|American|African|Douglas|English|Norway|Scots)\b/.test(name) ? name : name.slice(0, 1).toLowerCase() + name.slice(1);
}

const MM_PER_SIXTEENTH = 25.4 / 16;

/** The lower end rounded down and the higher up, in whole mm or sixteenths of an inch. */
function range({ lowMm, highMm }: CareMovement, input: CareInput): string {
  const { shown } = input;
  const step = shown.style === 'in' ? MM_PER_SIXTEENTH : 1;
  const low = Math.floor(lowMm / step) * step;
  const high = Math.ceil(highMm / step) * step;
  const highest = formatLength(high, shown);
  if (low === high || low <= 0) return highest;
  const lowest = shown.style === 'mm' ? formatNumber(low, shown.locale) : formatLength(low, shown);
  return `${lowest} ${sayText(input, 'range.to')} ${highest}`;
}

function movementText(one: CareMovement, input: CareInput): string {
  return sayText(input, one.isTop ? 'movement.top' : 'movement.part', {
    part: one.part,
    across: formatLength(one.acrossMm, input.shown),
    range: range(one, input),
  });
}

/** Hotter than a hand bears to hold, degrees Celsius: what wants a trivet. Common practice. */
const TOO_HOT_C = 60;

/** A temperature in whole degrees as the table's lengths are shown: `60 °C`, `140 °F`, or both. */
function temperatureText(celsius: number, { shown }: CareInput): string {
  const metric = `${formatNumber(celsius, shown.locale)}${UNIT_SPACE}°C`;
  const fahrenheit = `${formatNumber(celsius * 1.8 + 32, shown.locale)}${UNIT_SPACE}°F`;
  return shown.style === 'mm' ? metric : shown.style === 'in' ? fahrenheit : `${metric} (${fahrenheit})`;
}

/** Values for the names in the rules of one table. What the table does not have is absent. */
export function careValues(input: CareInput, dates: CareDates): CareValues {
  const day = (date: CalendarDate): string => formatDate(date, input.language);
  const { finish, baseFinish, carrying, place } = input;
  const heaviest = [...carrying.pieces].sort((a, b) => b.massKg - a.massKg)[0];
  return {
    'finished-on': day(input.finishedOn),
    'delivered-on': day(input.deliveredOn),
    'light-use-date': day(dates.lightUseOver),
    'light-use-from': day(dates.lightUseFrom),
    'cured-date': day(dates.curedOn),
    'cured-from': day(dates.curedFrom),
    'first-check': day(dates.firstCheckOn),
    'refresh-from': day(dates.refreshFrom),
    'refresh-to': day(dates.refreshTo),
    finish: finish.spec.name,
    ...(baseFinish === undefined ? {} : { 'base-finish': baseFinish.spec.name }),
    ...(finish.product === undefined ? {} : { product: finish.product }),
    'heat-word': finish.spec.resists.heat,
    'too-hot': temperatureText(TOO_HOT_C, input),
    'water-word': finish.spec.resists.water,
    'alcohol-word': finish.spec.resists.alcohol,
    ...(input.fixings === undefined ? {} : { fixings: input.fixings }),
    'humidity-low': formatPercent(place.humidityLowPercent, input.language),
    'humidity-high': formatPercent(place.humidityHighPercent, input.language),
    movements: input.movement.map((one) => movementText(one, input)),
    mass: formatLiftedMass(carrying.massKg, input.shown.style, input.shown.locale),
    hands: peopleText(input, handsFor(carrying.massKg, 2)),
    'lift-by': carrying.liftBy,
    apart: carrying.apart,
    ...(heaviest === undefined
      ? {}
      : {
          'heaviest-piece': heaviest.name,
          'heaviest-mass': formatLiftedMass(heaviest.massKg, input.shown.style, input.shown.locale),
          'heaviest-hands': peopleText(input, handsFor(heaviest.massKg, 1)),
        }),
    steadiness: input.steadiness,
  };
}
