/**
 * Care of every kind of base: what is built in and what comes apart, read off each specification by hand, and a note with every finish.
 * @source the specifications of tests/design/tables.ts, which say how each is joined (invented tables)
 */
import { describe, expect, test } from 'vitest';
import { assessTable } from '../../src/assess/index.ts';
import { type CareInput, type CareTable, careInputOf, checkNote, composeCare, linesOf } from '../../src/care/index.ts';
import { designTable } from '../../src/design/index.ts';
import type { EffectiveSpec, TableSpec } from '../../src/spec/index.ts';
import { takeOff } from '../../src/takeoff/index.ts';
import { tables } from '../design/tables.ts';
import { decimal, freePart, joint, length, length3, percent, proposal, specOf, temperature } from '../fixtures.ts';
import { promisesIn } from '../templates/promises.ts';
import { book, finishes, texts } from './read-rules.ts';
import { day } from './tables.ts';

function careTable(spec: EffectiveSpec): CareTable {
  const { table, problems } = designTable(spec);
  if (table === undefined) throw new Error(JSON.stringify(problems));
  return { spec, table, assessment: assessTable(spec, table), takeOff: takeOff(spec, table), steadiness: [] };
}

const handed = { finish: { id: 'hardwax-oil' }, finishedOn: day('2028-02-08'), deliveredOn: day('2028-02-20') };
const inputOf = (of: CareTable, finish = 'hardwax-oil', place = proposal): CareInput =>
  careInputOf(of, { ...handed, finish: { id: finish } }, place, { book, texts, finishes });
const named = (spec: EffectiveSpec) => {
  const { construction, fixings, carrying } = inputOf(careTable(spec));
  return { construction, fixings, liftBy: carrying.liftBy, pieces: carrying.pieces.map(({ name }) => name), apart: carrying.apart };
};

const wood = ['glued', 'moving-fixings'] as const;
const two = ['the top', 'the base'] as const;
/** What is built in, what it is lifted by, and its pieces, for each table of tests/design/tables.ts. */
const byHand: Readonly<Record<string, readonly [facts: readonly string[], role: string, pieces: readonly string[]]>> = {
  'four tapered legs with aprons': [wood, 'apron', two],
  'four splayed legs, H stretchers': [wood, 'apron', two],
  'legs tapered on all sides below a straight head, box stretchers': [wood, 'apron', two],
  'round legs, aprons let in': [wood, 'apron', two],
  // Each leg is plated to the top by itself and nothing else holds it: they come off one by one, and the top is what stays.
  'flared legs without aprons': [wood, 'leg', ['the leg no. 1', 'the leg no. 2', 'the leg no. 3', 'the leg no. 4', 'the top']],
  'oval top, chamfered, on legs': [wood, 'apron', two],
  'slab ends, spread at the foot, stretcher': [wood, 'slab', two],
  'octagonal post on a disc': [wood, 'pedestal', two],
  'round post on a cross foot with steel': [[...wood, 'steel'], 'pedestal', two],
  'free parts: two leaning trestles with a rail': [
    [...wood, 'knock-down', 'bolts'],
    'rail',
    ['the top', 'the leg frame no. 1', 'the leg frame no. 2', 'the rail'],
  ],
  'free parts: three turned legs under a round plate': [wood, 'leg', two],
  'free parts: crossed beams let into each other, standing on a drum': [wood, 'bearer', two],
  'free parts: a post let through two beams that cross': [wood, 'post', two],
  'free parts: an outline with a hole, stood up': [wood, 'stretcher', two],
};

describe.each(Object.entries(tables))('%s', (name, spec) => {
  const of = careTable(spec);

  test('has what its specification says, and is lifted by what carries it', () => {
    const [facts, role, pieces] = byHand[name] ?? [[], '', []];
    const found = named(spec);
    expect({ ...found, apart: undefined, fixings: undefined }).toEqual({
      construction: facts,
      liftBy: texts[`care.lift-by.${role}`],
      pieces,
    });
    expect(found.fixings).toBe(texts[`care.fixings.${spec.table.fixing.kind}`]);
    expect(found.apart.length).toBeGreaterThanOrEqual(2);
  });

  test('weighs in its pieces what it weighs, and each of its parts is in one of them', () => {
    const { carrying } = inputOf(of);
    expect(carrying.pieces.reduce((sum, { massKg }) => sum + massKg, 0)).toBeCloseTo(of.assessment.massKg, 6);
    const carried = carrying.pieces.flatMap((piece) => ('parts' in piece ? (piece.parts as readonly string[]) : []));
    expect(carried.toSorted()).toEqual(of.table.parts.map(({ id }) => id).toSorted());
  });

  test.each(Object.keys(finishes))('with %s: nothing contradicts, nothing is missing, nothing promises', (finish) => {
    const input = inputOf(of, finish);
    const note = composeCare(input);
    expect(checkNote(note, input)).toEqual([]);
    expect(linesOf(note).filter(({ text }) => promisesIn(text).length > 0 || /\{|undefined|NaN/.test(text))).toEqual([]);
  });
});

const trestle = tables['free parts: two leaning trestles with a rail']?.table;
if (trestle === undefined) throw new Error('no trestles');
const leaf = freePart({ kind: 'box', size: length3(500, 820, 28), at: length3(1300, 0, 717), role: 'panel' });

const wedged = { ...trestle.joints, rail: joint('wedge', 'parts/rail', 'parts/bearer*', true) };
const bought = (says: string): Partial<TableSpec> => ({ hardware: { one: { kind: 'own', says, count: 4, price: decimal('2.10') } } });

describe('what is built in', () => {
  test.each<readonly [says: string, table: Partial<TableSpec>, fact: string]>([
    ['levelling feet, bought', bought('Levelling glide, M8'), 'levellers'],
    ['levelers in the other spelling', bought('Furniture leveler'), 'levellers'],
    ['castors, bought', bought('Castor with a brake'), 'castors'],
    ['bolts, bought', bought('Connecting bolt, M6'), 'bolts'],
    ['a breadboard end, by word', { alsoHas: ['breadboard'] }, 'breadboard'],
    ['a leaf, by word', { alsoHas: ['leaf'] }, 'leaf'],
    [
      'a leaf, by a state that leaves it out',
      {
        parts: { leaf },
        joints: { leaf: joint('rests', 'parts/leaf', 'top') },
        states: { closed: { says: 'short', move: {}, without: ['parts/leaf'] } },
      },
      'leaf',
    ],
    ['joints that come apart with wedges', { ...trestle, joints: wedged }, 'knock-down'],
  ])('%s', (_, table, fact) => {
    // Nothing is told that is not there: what the plain table has, and that.
    expect(named(specOf(table)).construction.toSorted()).toEqual([...wood, fact].toSorted());
  });

  test.each(['buttons', 'slotted-screws', 'figure-eights', 'slotted-plates', 'rigid', 'loose'] as const)(
    'a top on %s: whether it is meant to move, and how it comes off',
    (kind) => {
      const { construction, fixings, apart } = named(specOf({ fixing: { kind } }));
      const slides = kind !== 'rigid' && kind !== 'loose';
      expect([construction.includes('moving-fixings'), fixings !== undefined]).toEqual([slides, slides]);
      // What is held fast stays in one piece.
      if (kind === 'rigid') expect(apart).toEqual([]);
      else expect(apart[1]).toMatch(kind === 'loose' ? /^The top only rests there/ : /^Lay it on its face\. Undo the screws/);
    },
  );

  test('wedges are told apart from bolts, step by step; the drawers first, the top before what holds it', () => {
    const { apart } = named(specOf({ ...trestle, joints: wedged }));
    const bolted = named(specOf(trestle));
    expect(apart).toContain(texts['care.apart.joint-wedge']);
    expect(apart).not.toContain(texts['care.apart.joint-bolts']);
    expect(bolted.apart).toContain(texts['care.apart.joint-bolts']);
    expect(bolted.apart.indexOf(texts[`care.apart.top-${trestle.fixing.kind}`] ?? '')).toBeLessThan(
      bolted.apart.indexOf(texts['care.apart.joint-bolts'] ?? ''),
    );
  });
});

describe('what is carried, and how', () => {
  const plain = specOf({
    ...trestle,
    height: length(500),
    top: { kind: 'rectangle', length: length(900), width: length(600), thickness: length(26), sawn: 'flat', grain: 'length' },
    fixing: { kind: 'slotted-plates' },
    parts: {
      leg: freePart({ kind: 'box', size: length3(40, 40, 474), at: length3(380, 230, 0), mirror: ['x', 'y'], grain: 'z', role: 'leg' }),
      rail: freePart({ kind: 'box', size: length3(720, 20, 20), at: length3(0, 230, 130), mirror: ['y'], role: 'stretcher' }),
      shelf: freePart({ kind: 'box', size: length3(700, 480, 8), at: length3(0, 0, 150), role: 'panel', material: 'glass' }),
    },
    joints: { rails: joint('screws', 'parts/rail*', 'parts/leg*'), shelf: joint('rests', 'parts/shelf', 'parts/rail*') },
  });
  const { steel } = plain.library.materials;
  if (steel === undefined) throw new Error('no steel');
  const onFrames = { ...plain, library: { ...plain.library, materials: { steel, glass: { ...steel, name: 'Glass' } } } };

  test('a shelf of glass is out before the table is turned over; frames that the top alone holds come off it one by one', () => {
    const { pieces, apart, liftBy } = named(onFrames);
    expect(pieces).toEqual(['the glass', 'the leg frame no. 1', 'the leg frame no. 2', 'the top']);
    const glass = apart.indexOf(texts['care.apart.loose-glass'] ?? '');
    expect(glass).toBeGreaterThan(0);
    expect(glass).toBeLessThan(apart.findIndex((step) => step.startsWith('Lay it on its face')));
    expect(apart.join(' ')).not.toContain('Lift the base off the top');
    expect(liftBy).toBe('its legs, close under the top');
  });

  // 23 kg a person (NIOSH 1993): 4 x 23 = 92 kg for four. 10 kg and 1 m for one: common practice.
  test.each([
    [4, 500, ['moving-light']],
    [10, 1000, ['moving-light']],
    [10, 1200, ['moving-mass']],
    [10.5, 500, ['moving-mass']],
    [92, 2400, ['moving-mass']],
    [92.5, 2400, ['moving-heavy']],
    [180, 3200, ['moving-heavy']],
  ] as const)('%d kg, %d mm long: told by %s', (massKg, longestMm, rules) => {
    const input = inputOf(careTable(specOf()));
    const note = composeCare({ ...input, carrying: { ...input.carrying, massKg, longestMm } });
    const told = linesOf(note).filter(({ rule }) => /^moving-(?:mass|light|heavy)$/.test(rule));
    expect(told.map(({ rule }) => rule)).toEqual(rules);
    expect(told[0]?.text).toMatch(massKg > 92 ? /movers/ : massKg <= 10 && longestMm <= 1000 ? /one person carries it/ : /By weight alone/);
  });
});

test('the place asks what room and household say, one by one', () => {
  const of = careTable(specOf());
  const facts = (room: object, household: object = {}) =>
    inputOf(of, 'hardwax-oil', {
      ...proposal,
      room: { ...proposal.room, ...room },
      household: { ...proposal.household, ...household },
    }).place.facts;
  expect(facts({})).toEqual([]);
  expect(facts({ sun: true })).toEqual(['sun']);
  expect(facts({ stove: true })).toEqual(['stove']);
  expect(facts({ underfloorHeating: true })).toEqual(['underfloor-heating']);
  expect(facts({ floor: { says: 'pine', soft: true } })).toEqual(['soft-floor']);
  expect(facts({ hemisphere: 'south' })).toEqual(['southern']);
  // Latitudes: tz database, zone.tab.
  for (const [zone, latitude] of [
    ['Pacific/Auckland', -36.9],
    ['Australia/Hobart', -42.9],
    ['Africa/Johannesburg', -26.3],
    ['America/Argentina/Ushuaia', -54.8],
    ['America/Santiago', -33.5],
    ['Europe/Dublin', 53.3],
    ['America/New_York', 40.7],
    ['Asia/Tokyo', 35.7],
    ['Pacific/Honolulu', 21.3],
    ['UTC', 0],
  ] as const) {
    const { library } = of.spec;
    const there = { ...of, spec: { ...of.spec, library: { ...library, maker: { ...library.maker, timeZone: zone } } } };
    expect(inputOf(there).place.facts, zone).toEqual(latitude < 0 ? ['southern'] : []);
    const north = { ...proposal, room: { ...proposal.room, hemisphere: 'north' as const } };
    expect(inputOf(there, 'hardwax-oil', north).place.facts, zone).toEqual([]);
  }
  expect(facts({}, { children: true, food: true, dailySpills: true })).toEqual(['children', 'food', 'daily-spills']);
});

test('the top moves as the handbook says: 820 mm of flat-sawn oak from 35 to 60 % at 21 C', () => {
  // Wood Handbook (FPL-GTR-190): Table 4-2 at 70 F has 6.9 % at 35 % and 11.0 % at 60 % relative humidity; equation 13-2 with a coefficient of
  // 0.00365 (fixtures): 820 x 0.00365 x 4.1 = 12.27 mm. The table is rounded to 0.1 % moisture: 0.3 mm either way.
  const room = { ...proposal.room, temperature: temperature(21.1), humidity: { low: percent(35), high: percent(60) } };
  const spec = specOf({}, { proposal: { ...proposal, room } });
  const [top] = inputOf(careTable(spec)).movement;
  expect([top?.isTop, top?.acrossMm]).toEqual([true, 820]);
  expect(Math.abs((top?.highMm ?? 0) - 12.27)).toBeLessThan(0.3);
  // Boards sold as flat-sawn lie between flat and half-way to quarter: 12.27 x (0.0018 + 0.00365) / 2 / 0.00365 = 9.16 (common practice).
  expect(Math.abs((top?.lowMm ?? 0) - 9.16)).toBeLessThan(0.3);
});
