import { expect, test } from 'vitest';
import type { Parsed } from '../../src/units/index.ts';
import { parseAngle, parseDuration, parseForce, parseMass, parsePercent, parseTemperature } from '../../src/units/index.ts';

/** Factors: international pound 0.45359237 kg, standard gravity 9.80665 m/s2; pound-force 4.4482216152605 N (product of the two). */
const accepted: readonly [(text: string) => Parsed<object>, string, object][] = [
  [parseForce, '1000 N', { n: 1000 }],
  [parseForce, '1 lbf', { n: 4.4482216152605 }],
  [parseForce, '1.2 kN', { n: 1200 }],
  [parseForce, '100 kgf', { n: 980.665 }],
  [parseMass, '14 kg', { kg: 14 }],
  [parseMass, '250 g', { kg: 0.25 }],
  [parseMass, '1 lb', { kg: 0.45359237 }],
  [parseMass, '16 oz', { kg: 0.45359237 }],
  [parsePercent, '34 %', { percent: 34 }],
  [parsePercent, '8.25%', { percent: 8.25 }],
  [parseTemperature, '20 °C', { celsius: 20 }],
  [parseTemperature, '20 C', { celsius: 20 }],
  [parseTemperature, '68 F', { celsius: 20 }],
  [parseTemperature, '-40 F', { celsius: -40 }],
  [parseDuration, '90 min', { hours: 1.5 }],
  [parseDuration, '1 h 30 min', { hours: 1.5 }],
  [parseDuration, '8 h', { hours: 8 }],
  [parseAngle, '30 deg', { deg: 30 }],
  [parseAngle, '-22.5°', { deg: -22.5 }],
];

test.each(accepted)('%o reads %s', (parse, text, value) => {
  expect(parse(text)).toEqual({ ok: true, value: { ...value, written: text } });
});

const refused: readonly [(text: string) => Parsed<object>, string, string | undefined][] = [
  [parseForce, '1000', '1000 N'],
  [parseForce, '90 lb', '90 lbf'],
  [parseForce, '100 kg', '100 kgf'],
  [parseForce, '1,5 kN', '1.5 kN'],
  [parseForce, 'a lot', undefined],
  [parseMass, '14', '14 kg'],
  [parseMass, '14 kb', '14 kg'],
  [parsePercent, '20', '20 %'],
  [parsePercent, '0,5 %', '0.5 %'],
  [parseTemperature, '20', '20 C'],
  [parseAngle, '30', '30 deg'],
  [parseDuration, '8', '8 h'],
];

test.each(refused)('%o refuses %s and says what to type', (parse, text, type) => {
  const result = parse(text);
  expect(result.ok).toBe(false);
  if (!result.ok) expect(result.type).toBe(type);
  if (type !== undefined) expect(parse(type).ok).toBe(true);
});
