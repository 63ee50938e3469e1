/**
 * The care notes of the demo commissions, with what their readers must find in them written out by hand.
 * @source masses, movements and climates: the hand figures of the demo commissions (invented people, pocket calculator)
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { type CareInput, type CareNote, checkNote, composeCare } from '../../src/care/index.ts';
import { texts } from './read-rules.ts';
import { day, finish, input, wood } from './tables.ts';

const american = { ...texts, ...(parse(readFileSync('templates/texts/en-US.yaml', 'utf8')) as Record<string, string>) };

/** Dining table, oak, ceramic over hardwax oil; six daily, a boy who climbs. */
const dining = input({
  finish: finish('hardwax-oil-ceramic'),
  place: { humidityLowPercent: 30, humidityHighPercent: 58, facts: ['children', 'daily-spills'] },
  movement: [{ part: 'The top', isTop: true, acrossMm: 800, lowMm: 9.1, highMm: 13 }],
  carrying: { massKg: 39, longestMm: 2100, liftBy: 'the rails under the top', pieces: [], apart: [] },
  steadiness: ['About 111 kg at rest 50 mm inside an end begin to lift the other end.'],
  finishedOn: day('2028-02-08'),
  deliveredOn: day('2028-02-14'),
});

/** Round table, cherry, wiping varnish, a stove seven feet away, inches and pounds. */
const round = input({
  texts: american,
  language: 'en-US',
  shown: { style: 'in', locale: 'en-US' },
  finish: finish('wiping-varnish'),
  woods: [wood('cherry-black')],
  construction: ['glued', 'moving-fixings', 'steel', 'bolts'],
  fixings: 'screws in slots',
  place: { humidityLowPercent: 22, humidityHighPercent: 60, facts: ['stove', 'soft-floor'] },
  movement: [{ part: 'The top', isTop: true, acrossMm: 48 * 25.4, lowMm: 12.5, highMm: 17 }],
  carrying: { massKg: 88 * 0.45359237, longestMm: 2100, liftBy: 'the post and the spider', pieces: [], apart: [] },
  steadiness: ['About 189 lb at rest 2″ inside the rim begin to tip it.'],
  finishedOn: day('2027-10-01'),
  deliveredOn: day('2027-11-15'),
});

/** Desk, his own ash, hardwax oil, comes apart for the winder stair. */
const desk = input({
  shown: { style: 'mm+in', locale: 'en-GB' },
  finish: finish('hardwax-oil', 'the hardwax oil of tin T-118'),
  woods: [wood('ash-european')],
  construction: ['glued', 'moving-fixings', 'knock-down', 'bolts'],
  fixings: 'slotted plates',
  place: { humidityLowPercent: 28, humidityHighPercent: 55, facts: ['sun'] },
  movement: [{ part: 'The top', isTop: true, acrossMm: 750, lowMm: 8.5, highMm: 12 }],
  carrying: {
    massKg: 51,
    longestMm: 2100,
    liftBy: 'the back rail and the slab end',
    pieces: [
      { name: 'the top', massKg: 27 },
      { name: 'the slab end', massKg: 12 },
    ],
    apart: ['Clear it and lay it on its face on a blanket.', 'Undo the six bolts with the one key; keep them in their bag.'],
  },
  finishedOn: day('2027-06-01'),
  deliveredOn: day('2027-06-08'),
});

const plain = (text: string): string => text.replaceAll('\u202f', ' ');
const section = (note: CareNote, id: string): readonly string[] =>
  note.sections.filter((one) => one.id === id).flatMap(({ lines }) => lines.map(({ text }) => plain(text)));
/** A kind of spill as it is read aloud: steps, then when to stop. */
const spill = (note: CareNote, id: string): readonly string[] =>
  note.sections
    .flatMap(({ spills }) => spills ?? [])
    .filter((one) => one.id === id)
    .flatMap(({ steps, stop }) => [...steps, ...stop].map(({ text }) => text));

describe.each([
  ['dining table', dining],
  ['round table', round],
  ['desk', desk],
] as readonly (readonly [string, CareInput])[])('the %s', (_, table) => {
  const note = composeCare(table);
  it('has a note with nothing wrong', () => {
    expect(checkNote(note, table)).toEqual([]);
  });
  it('says what to do with a wine stain tonight, and what not', () => {
    const steps = spill(note, 'spill-wine');
    expect(steps).toHaveLength(4);
    expect(steps[0]).toBe('Now: blot it up with kitchen paper or a dry cloth, from the edge inwards. No rubbing, no salt.');
    expect(steps[1]).toBe('Wipe with a cloth wrung out in lukewarm water with a drop of mild soap, then with clear water. Dry it.');
    expect(steps[2]).toBe('Leave it clear overnight and look again in daylight. Try nothing stronger tonight.');
    expect(steps[3]).toMatch(/^Stop there\. .*call me/i);
  });
});

describe('the dining table', () => {
  const note = composeCare(dining);

  it('is told its days, over the leap day of 2028', () => {
    expect(section(note, 'first-days')).toEqual([
      'The last coat went on on 8 February 2028. It hardens until 29 February 2028; from 1 March 2028 use the table as the rest of this sheet says.',
      'From 11 February 2028 until then you may eat at it: plates on mats, glasses on coasters. Clear it after the meal. No tablecloth, laptop, rubber or plastic, nothing hot, nothing wet.',
      'Until then wipe with a dry or barely damp cloth: no cleaner and no soap.',
      'Air the room. While you can still smell the finish, it is still hardening.',
    ]);
  });

  it('has its ceramic coat, its boy, its weight and its own movement', () => {
    expect(section(note, 'daily').join(' ')).toContain('which is why a ceramic coat lies over the oil');
    expect(section(note, 'children')[0]).toMatch(/^Children climb/);
    expect(section(note, 'moving')[0]).toBe(
      'It weighs about 39 kg. By weight alone that is two people; stairs, turns and a bad back want one more.',
    );
    expect(section(note, 'humidity')[0]).toContain('800 mm across the grain. There it grows and shrinks by about 9 to 13 mm');
    expect(section(note, 'joints')).toContain(
      'In January you may feel a fine line between two boards with your fingertip. It goes again by summer and is no crack.',
    );
    expect(section(note, 'glass')).toEqual([]);
    // A first spring after less than three months of heating is none: delivered in February, looked at in April a year on.
    expect(section(note, 'tighten').join(' ')).toContain('15 April 2029');
    expect(section(note, 'refresh')[0]).toBe('Look at the top on 14 February 2029. It is due by 14 February 2031 at the latest.');
  });
});

describe('the round table', () => {
  const note = composeCare(round);

  it('had hardened before it came, and darkens soon', () => {
    expect(section(note, 'first-days')).toEqual([
      'The last coat went on on October 1, 2027 and was hard by October 31, 2027, before the table came to you on November 15, 2027. Use it from the first day as this sheet says.',
    ]);
    expect(section(note, 'sun')[0]).toBe(
      'Black cherry: darkens soon, most of it in the first months of light. Whatever lies on it then leaves a pale print, so move things every few days.',
    );
  });

  it('is told of the stove, the dry winter, the rug, its bolts, and mends nothing itself', () => {
    expect(section(note, 'heat').join(' ')).toContain('arm’s length from the stove');
    // Water at 60 degrees Celsius has 140 Fahrenheit.
    expect(section(note, 'heat')[0]).toContain('about 140 °F');
    expect(section(note, 'humidity').join(' ')).toContain('drier than that in the heated months');
    // Up to 17 mm is 11/16 of an inch.
    expect(section(note, 'humidity')[0]).toContain('11⁄16″');
    expect(section(note, 'level').join(' ')).toContain('On a thick rug');
    expect(section(note, 'tighten')[0]).toContain('about April 15, 2028, tighten the bolts by hand');
    expect(section(note, 'moving')[0]).toContain('88 lb');
    expect(section(note, 'repair')[0]).toMatch(/no sandpaper/);
    expect(section(note, 'rags')[0]).toMatch(/catch fire by themselves/);
  });
});

describe('the desk', () => {
  const note = composeCare(desk);

  it('says how it comes apart and who carries what', () => {
    expect(section(note, 'moving')).toEqual([
      'It weighs about 51 kg (113 lb). By weight alone that is three people; stairs, turns and a bad back want one more.',
      'Empty it. Lift by the back rail and the slab end, never by the edge of the top. Set it down, do not drag it.',
      'Clear it and lay it on its face on a blanket.',
      'Undo the six bolts with the one key; keep them in their bag.',
    ]);
  });

  it('says how its owner mends a ring, with which oil, and what becomes of the cloth', () => {
    expect(section(note, 'repair').slice(0, 3)).toEqual([
      'Yours to mend: a ring, a shadow or a fine scratch no larger than your hand, when it has been dry for two days.',
      'Sand it lightly by hand with 320 paper, with the grain, fading out beyond the mark. Wipe off the dust with a dry cloth; sand by an open window.',
      'Rub in a little upkeep oil, wipe the place dry after ten minutes, and let nothing stand on it for two days. Then read “Oily cloths”.',
    ]);
    expect(section(note, 'refresh').at(-1)).toBe(
      'What is on it: the hardwax oil of tin T-118. Upkeep oil is the thin oil that goes with it. Ask me which, before the first time.',
    );
    expect(section(note, 'sun').join(' ')).toContain('draw a curtain');
  });
});
