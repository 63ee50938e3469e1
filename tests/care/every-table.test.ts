/**
 * Every finish with every wood, construction and place: nothing contradicts, nothing promises, nothing is missing.
 * @source tests/published/finishes.csv: what each class must never see, and which cloths heat by themselves
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  type CareFinish,
  type CareInput,
  type CareNote,
  type ConstructionFact,
  checkNote,
  composeCare,
  linesOf,
  type PlaceFact,
} from '../../src/care/index.ts';
import type { CareThing } from '../../src/spec/index.ts';
import { readCsv } from '../templates/csv.ts';
import { promisesIn } from '../templates/promises.ts';
import { book, finishes, woods } from './read-rules.ts';
import { day, finish, input, wood } from './tables.ts';

const CONSTRUCTION: readonly ConstructionFact[] = [
  'glued',
  'moving-fixings',
  'breadboard',
  'drawer',
  'leaf',
  'knock-down',
  'bolts',
  'glass',
  'levellers',
  'castors',
  'steel',
];
const PLACE: readonly PlaceFact[] = ['sun', 'stove', 'underfloor-heating', 'soft-floor', 'children', 'food', 'daily-spills', 'southern'];

/** Layered systems that the library does not hold: what lies under must be heard as well as what is touched. */
const LAYERED: readonly (readonly string[])[] = [
  ['hardwax_oil_2k', 'ceramic_over_hardwax'],
  ['linseed_boiled', 'wax'],
  ['shellac', 'wax'],
  ['tung_pure', 'wax'],
  ['shellac', 'nc_lacquer'],
  ['tung_pure', 'wiping_varnish'],
  ['oil_varnish_blend', 'poly_oil'],
  ['shellac', 'poly_water_1k'],
];
const systems = [
  ...Object.keys(finishes).map((id) => finish(id)),
  ...LAYERED.map((classes) => ({ id: classes.join('-'), spec: { ...finish('hardwax-oil').spec, classes } })),
];

function* tables(system: CareFinish, of: number): Generator<CareInput> {
  // One of each kind of wood: how hard, how it ages, whether damp iron stains it.
  const tannin = new Set(book.families['rich-in-tannin']);
  const kinds = new Map(Object.entries(woods).map(([id, { hardness, ageing }]) => [`${hardness} ${ageing} ${tannin.has(id)}`, id]));
  const all = [...kinds.values()].map(wood);
  let seed = of + 1;
  // A fixed sequence of flags (minimal standard generator, Park and Miller 1988): every run tries the same tables.
  const next = (): number => {
    seed = (seed * 48271) % 2147483647;
    return seed;
  };
  const some = <T>(of: readonly T[]): readonly T[] => of.filter(() => next() % 2 === 0);
  const full: Partial<CareInput>[] = [
    { construction: [], place: { humidityLowPercent: 40, humidityHighPercent: 60, facts: [] }, movement: [] },
    { construction: CONSTRUCTION, place: { humidityLowPercent: 20, humidityHighPercent: 75, facts: PLACE } },
    ...CONSTRUCTION.map((fact) => ({ construction: [fact] })),
    ...PLACE.map((fact) => ({ place: { humidityLowPercent: 20, humidityHighPercent: 60, facts: [fact] } })),
  ];
  const carrying = {
    massKg: 58,
    longestMm: 2100,
    liftBy: 'the rails',
    pieces: [{ name: 'the top', massKg: 31 }],
    apart: ['Turn it over.', 'Undo the bolts.'],
  };
  const dates = [
    { finishedOn: day('2027-05-03'), deliveredOn: day('2027-05-04') },
    { finishedOn: day('2027-05-03'), deliveredOn: day('2027-05-20') },
    { finishedOn: day('2027-05-03'), deliveredOn: day('2028-01-20') },
  ];
  for (const [at, one] of all.entries())
    for (const change of full) yield input({ finish: system, woods: [one], carrying, ...dates[at % 3], ...change });
  for (let count = 0; count < 60; count += 1) {
    yield input({
      finish: next() % 3 === 0 ? { ...system, product: 'Tin 4471' } : system,
      baseFinish: systems[next() % systems.length],
      woods: [all[next() % all.length], all[next() % all.length]].filter((one) => one !== undefined),
      construction: some(CONSTRUCTION),
      place: { humidityLowPercent: 20 + (next() % 25), humidityHighPercent: 50 + (next() % 30), facts: some(PLACE) },
      carrying,
      ...dates[next() % 3],
    });
  }
}

const of = (id: string) => composeCare(input({ finish: finish(id) }));
const textOf = (note: CareNote, section: string): string =>
  note.sections.flatMap(({ id, lines }) => (id === section ? lines.map(({ text }) => text) : [])).join(' ');

describe('every table', () => {
  it.each(systems.map((system, at) => [system.id, system, at] as const))(
    'with %s has a note without a contradiction, a promise, an open name, a missing part or too many lines',
    (_, system, at) => {
      const said = new Set<string>();
      const wrong = new Set<string>();
      let count = 0;
      for (const table of tables(system, at)) {
        count += 1;
        const note = composeCare(table);
        for (const { code, found, path } of checkNote(note, table)) wrong.add(`${code} ${path.at(-1)} ${found}`);
        for (const { text } of linesOf(note)) said.add(text);
      }
      expect(count).toBeGreaterThan(250);
      expect([...wrong]).toEqual([]);
      expect([...said].filter((text) => promisesIn(text).length > 0)).toEqual([]);
    },
  );
});

/** Words of the class table's "don't" column and what they are called here. */
const DONT: readonly (readonly [RegExp, CareThing])[] = [
  [/standing water|wet objects|wet glasses/i, 'standing-water'],
  [/ammonia/i, 'ammonia'],
  [/bleach/i, 'bleach'],
  [/abrasive pads/i, 'scouring-pad'],
  [/silicone/i, 'silicone-polish'],
  [/alcohol/i, 'solvent'],
  [/solvent/i, 'solvent'],
  [/hot dishes|no heat/i, 'hot-dish'],
  [/alkaline/i, 'alkaline-cleaner'],
  [/detergent/i, 'detergent'],
  [/linseed soap/i, 'linseed-soap'],
  [/iron or steel/i, 'wet-metal'],
  [/soft plastics/i, 'soft-plastic'],
  [/direct sun/i, 'direct-sun'],
];

describe.each(readCsv(readFileSync('tests/published/finishes.csv', 'utf8')))('the class $id', (row) => {
  const id = Object.keys(finishes).find((one) => finishes[one]?.classes.includes(row.id ?? '') === true) ?? '';
  const note = of(id);

  it('forbids what the class table says is never done', () => {
    // Oak, for which the table names iron; long after the first days, whose own refusals do not count.
    const never = new Set(note.sections.flatMap((s) => (s.id === 'first-days' ? [] : s.lines)).flatMap((line) => line.never));
    for (const [says, thing] of DONT) if (says.test(row.cleaning_dont ?? '')) expect(never, thing).toContain(thing);
  });

  it('warns of cloths that heat by themselves where the class does, and nowhere else', () => {
    const isHeating = /self-heating/i.test(row.hazard_note ?? '') || row.id === 'ceramic_over_hardwax';
    const rags = textOf(note, 'rags');
    expect(/catch fire by themselves/.test(rags)).toBe(isHeating);
    if (isHeating) {
      expect(rags).toMatch(/flat outdoors/);
      expect(rags).toMatch(/under water in a closed metal tin/);
      expect(rags).toMatch(/Never in a heap/);
    }
  });
});

describe('what is said', () => {
  const every = Object.keys(finishes).map(of);

  it('is short: no line over 260 characters, no sentence over 32 words', () => {
    for (const { rule, text } of every.flatMap(linesOf)) {
      expect(text.length, `${rule}: ${text}`).toBeLessThanOrEqual(260);
      for (const sentence of text.split(/(?<=[.?!])\s/))
        expect(sentence.split(/\s/).length, `${rule}: ${sentence}`).toBeLessThanOrEqual(32);
    }
  });

  it('is spelt alike on both sides of the Atlantic', () => {
    for (const { rule, text } of every.flatMap(linesOf)) expect(text, rule).not.toMatch(/colou?r|litre|liter|mou?ld|gr[ae]y\b|centimet/i);
  });

  it('names nothing risky that its rule does not count as used or forbidden', () => {
    const risky: readonly (readonly [RegExp, readonly CareThing[]])[] = [
      [/\bammonia\b/i, ['ammonia']],
      [/\bbleach\b/i, ['bleach']],
      [/\bspirit\b|\bthinner\b/i, ['solvent', 'alcohol', 'thinner']],
      [/steel wool/i, ['steel-wool']],
      [/\bsandpaper\b|\b(?:240|320) paper\b/i, ['fine-paper']],
      [/\bsteam cleaner\b/i, ['steam']],
      [/\bhair dryer\b/i, ['hair-dryer']],
      [/\bsoap flakes\b/i, ['soap-flakes']],
      [/\bmild soap\b/i, ['mild-soap']],
      [/\bpaste wax\b/i, ['paste-wax']],
      [/\bupkeep oil\b/i, ['upkeep-oil']],
      [/\bknife\b/i, ['knife']],
      [/\blemon\b|\bvinegar\b/i, ['acid']],
    ];
    let met = 0;
    for (const { rule, text, use, never } of every.flatMap(linesOf)) {
      if (rule.startsWith('rags-')) continue;
      for (const [says, things] of risky) {
        if (!says.test(text)) continue;
        met += 1;
        expect(
          things.some((thing) => use.includes(thing) || never.includes(thing)),
          `${rule}: ${text}`,
        ).toBe(true);
      }
    }
    expect(met).toBeGreaterThan(100);
  });
});

describe('facts of the trade, common practice', () => {
  const daily = (id: string): string =>
    textOf(
      composeCare(input({ finish: finish(id), place: { humidityLowPercent: 40, humidityHighPercent: 60, facts: ['daily-spills'] } })),
      'daily',
    );

  it('a ceramic coat over hardwax oil is better against water than oil alone and stays repairable in spots', () => {
    expect(daily('hardwax-oil-ceramic')).toMatch(/better against water than oil alone and can still be mended in spots/);
    expect(textOf(of('hardwax-oil-ceramic'), 'repair')).toMatch(/mended in spots/);
  });

  it('a table that sees spills every day deserves that second layer', () => {
    for (const id of ['hardwax-oil', 'hardwax-oil-2k', 'linseed-oil', 'tung-oil']) expect(daily(id), id).toMatch(/deserves .*ceramic coat/);
    expect(daily('hardwax-oil-ceramic')).not.toMatch(/deserves/);
  });

  it('wipe up within minutes all the same, whatever the finish', () => {
    for (const id of Object.keys(finishes)) expect(daily(id), id).toMatch(/[Ww]ipe up within minutes/);
  });
});
