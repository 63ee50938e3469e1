import { z } from 'zod';
import type { BareUnit } from '../units/index.ts';
import { choice, day, length, length2, number, percent, temperature, text, yesNo } from './field.ts';
import { group, kinds, list, named } from './shape.ts';

const SIDES = ['front', 'back', 'left', 'right'] as const;
const WAY = { from: 200, to: 10_000 };
const INSIDE = { from: 500, to: 30_000 };

/** A side of the table as the client faces its front: front is -y, back +y, left -x, right +x. */
export type Side = (typeof SIDES)[number];

/** One of the four sides. */
export function side(noun: string) {
  return choice(noun, SIDES);
}

function stands(bare: BareUnit) {
  const free = (where: Side) => length(bare, `the free space at the ${where} of the table`, { from: 0, to: 20_000 }).optional();
  return group(
    'where the table stands',
    { front: free('front'), back: free('back'), left: free('left'), right: free('right') },
    {
      more: 'Free space from its edge to the wall, on at most one of each pair of opposite sides; centred where silent.',
      example: 'stands: { back: 810, left: 1200 }',
    },
  );
}

function access(bare: BareUnit) {
  const says = text('what it is');
  const width = length(bare, 'the clear width', WAY);
  return kinds(
    'a place on the way in',
    [
      group('a door', { kind: z.literal('door'), says, width, height: length(bare, 'the clear height', WAY) }),
      group('a passage', {
        kind: z.literal('passage'),
        says,
        width,
        height: length(bare, 'the clear height', WAY).optional(),
        turn: yesNo('whether it turns').prefault('false'),
        turnInto: length(bare, 'the width of what it turns into', WAY, { more: 'As wide as before where silent.' }).optional(),
      }),
      group('a stair', {
        kind: z.literal('stair'),
        says,
        width,
        headroom: length(bare, 'the headroom', WAY).optional(),
        steps: number('how many steps there are', { from: 1, to: 200, whole: true }).optional(),
        winder: yesNo('whether the steps wind').prefault('false'),
        landing: length2(bare, 'the landing', WAY).optional(),
      }),
      group('a hatch', { kind: z.literal('hatch'), says, width, height: length(bare, 'the clear height', WAY) }),
    ],
    { example: 'access:\n  - { kind: door, says: Flat door, width: 760, height: 2020 }' },
  );
}

/** The room, the way in and its climate. `bare`: the unit of bare numbers. */
export function roomSchema(bare: BareUnit) {
  const humidity = (noun: string) => percent(noun, { from: 0, to: 100 });
  return group('the room', {
    length: length(bare, 'the length of the room', INSIDE, { more: "Along the table's length." }),
    width: length(bare, 'the width of the room', INSIDE, { more: "Along the table's width." }),
    height: length(bare, 'the height of the room', INSIDE).optional(),
    surveyedOn: day('the day of the survey').optional(),
    tolerance: length(bare, 'the tolerance of the survey', { from: 0, to: 500 }).optional(),
    humidity: group(
      'the humidity of the room',
      { low: humidity('the humidity of the driest month'), high: humidity('the humidity of the dampest month') },
      { more: 'Relative humidity, monthly means.', example: 'humidity: { low: 34 %, high: 58 % }' },
    ),
    temperature: temperature('the temperature of the room').prefault('20 C'),
    underfloorHeating: yesNo('whether the floor is heated').prefault('false'),
    floor: group('the floor', {
      says: text('what the floor is'),
      outOfLevel: group('how far the floor is out of level', {
        by: length(bare, 'how much the floor falls', { from: 0, to: 300 }),
        over: length(bare, 'the distance over which it falls', { from: 100, to: 30_000 }),
      }).optional(),
      soft: yesNo('whether the floor gives', { more: 'A thick rug or carpet: feet sink in.' }).prefault('false'),
    }).prefault({ says: 'Floor not described' }),
    stands: stands(bare).prefault({}),
    sun: yesNo('whether the sun falls on the table', { more: 'For its care: wood changes colour with light.' }).prefault('false'),
    stove: yesNo('whether a stove or a radiator stands near the table', {
      more: 'For its care: within the reach of an arm.',
    }).prefault('false'),
    hemisphere: choice('the half of the earth', ['north', 'south'], {
      more: "For the days of its care: when it is spring. Where it is silent, that of the maker's time zone.",
    }).optional(),
    obstacles: named(
      'things that stand out into the room',
      group('an obstacle', {
        says: text('what it is'),
        side: side('the side of the table where it is'),
        depth: length(bare, 'how far it stands out from the wall', { from: 0, to: 10_000 }),
      }),
      { more: 'By id.', example: 'obstacles:\n  radiator: { says: Radiator, side: back, depth: 110 }' },
    ).prefault({}),
    access: list('the way in', access(bare), { more: 'In the order in which it is walked.', most: 50 }).prefault([]),
    notes: list('other facts about the room', text('a fact'), { more: 'Doors that swing, the stove, the sill.' }).prefault([]),
  });
}

/** The chairs that go with the table. `bare`: the unit of bare numbers. */
export function chairSchema(bare: BareUnit) {
  return group('the chairs', {
    count: number('how many chairs there are', { from: 1, to: 100, whole: true }),
    seat: length(bare, 'the height of the seat', { from: 200, to: 900 }),
    arm: length(bare, 'the height of the arms', { from: 300, to: 1200 }).optional(),
    width: length(bare, 'the width of a chair', { from: 250, to: 1200 }),
  });
}

/** Where the table will stand. */
export type RoomSpec = z.infer<ReturnType<typeof roomSchema>>;
/** A door, passage, stair or hatch on the way in. */
export type AccessSpec = RoomSpec['access'][number];
/** The chairs that go with the table. */
export type ChairSpec = z.infer<ReturnType<typeof chairSchema>>;
