import { z } from 'zod';
import type { BareUnit } from '../units/index.ts';
import { choice, length, nameOf, yesNo } from './field.ts';
import { group, kinds } from './shape.ts';

const woodOf = (what: string) => nameOf(`the wood of ${what}`, { more: "The table's wood where silent." }).optional();
const section = (bare: BareUnit, noun: string) => length(bare, noun, { from: 10, to: 500 });
const thickness = (bare: BareUnit, noun: string) => length(bare, noun, { from: 8, to: 200 });
const overhang = (bare: BareUnit, noun: string, more?: string) =>
  length(bare, noun, { from: -1500, to: 3000 }, more === undefined ? {} : { more });

function legs(bare: BareUnit) {
  return group(
    'four legs',
    {
      shape: choice('the section of the legs', ['square', 'round'], {
        more: 'Rails end at a round leg in a flat where both their arrises meet the round.',
      }).prefault('square'),
      size: length(bare, 'the size of a leg at its head', { from: 15, to: 300 }, { more: 'Side of the square, or diameter.' }),
      footSize: length(bare, 'the size of a leg at the floor', { from: 10, to: 300 }, { more: 'Straight where silent.' }).optional(),
      taper: choice('which faces of a leg taper', ['inside', 'all'], {
        more: '`inside`: the two inner faces, the outer ones stay flat; `all`: all four, about the middle line of the leg.',
      }).prefault('inside'),
      straightFor: length(
        bare,
        'the length of a leg below the top that stays untapered',
        { from: 0, to: 1200 },
        { more: 'Tapered over its whole length where silent.' },
      ).optional(),
      endOverhang: overhang(bare, 'the end overhang', 'From the end of the top to the outer face of the leg, at its head.'),
      sideOverhang: overhang(bare, 'the side overhang', 'From the side of the top to the outer face of the leg, at its head.'),
      footEndOverhang: overhang(bare, 'the end overhang at the floor', 'For splayed legs; as at the head where silent.').optional(),
      footSideOverhang: overhang(bare, 'the side overhang at the floor', 'For splayed legs; as at the head where silent.').optional(),
      wood: woodOf('the legs'),
    },
    { more: "Overhangs run from the top's outline to the outer face of the leg." },
  );
}

function aprons(bare: BareUnit) {
  return group('the aprons', {
    height: length(bare, 'the height of the aprons', { from: 15, to: 400 }),
    thickness: thickness(bare, 'the thickness of the aprons'),
    setBack: length(
      bare,
      'how far the aprons stand back from the outer faces of the legs',
      { from: 0, to: 200 },
      { more: 'Measured at the underside of the top.' },
    ).prefault('3 mm'),
    sides: choice('which sides have an apron', ['both', 'long', 'ends'], {
      more: '`both`: all four; `long`: the long sides alone; `ends`: the ends alone.',
    }).prefault('both'),
    below: length(bare, 'the gap between the top and the aprons', { from: 0, to: 500 }).prefault('0 mm'),
    wood: woodOf('the aprons'),
  });
}

function stretchers(bare: BareUnit) {
  return group('the stretchers', {
    height: length(bare, 'the height of the stretchers', { from: 10, to: 300 }),
    thickness: thickness(bare, 'the thickness of the stretchers'),
    at: length(bare, 'the height of the underside of the stretchers above the floor', { from: 0, to: 1200 }),
    plan: choice('how the stretchers lie', ['box', 'ends', 'h'], {
      more: '`box`: four around; `ends`: two, across; `h`: two across and one between them. On the middle of the legs, at half the height of the stretcher.',
    }),
    wood: woodOf('the stretchers'),
  });
}

function slabs(bare: BareUnit) {
  return group('the two slab ends', {
    width: length(bare, 'the width of a slab end', { from: 100, to: 2000 }),
    thickness: thickness(bare, 'the thickness of a slab end'),
    endOverhang: overhang(bare, 'the end overhang', 'From the end of the top to the outer face of the slab.'),
    footWidth: length(bare, 'the width of a slab end at the floor', { from: 60, to: 2000 }, { more: 'As above where silent.' }).optional(),
    wood: woodOf('the slab ends'),
    boardWidth: length(bare, 'the usual width of a board in a slab end', { from: 30, to: 1200 }).optional(),
  });
}

const diameterOf = (bare: BareUnit, what: string) => length(bare, `the diameter of the ${what}`, { from: 50, to: 3000 });

function disc(bare: BareUnit, what: string) {
  return { kind: z.literal('disc'), diameter: diameterOf(bare, what), thickness: thickness(bare, `the thickness of the ${what}`) };
}

function crossFoot(bare: BareUnit) {
  return group('a cross foot', {
    kind: z.literal('cross'),
    span: length(bare, 'the span of the foot, tip to tip', { from: 100, to: 3000 }),
    width: section(bare, 'the width of an arm'),
    height: section(bare, 'the height of an arm'),
    tipHeight: length(
      bare,
      'the height of an arm at its tip',
      { from: 5, to: 500 },
      {
        more: 'The upper side falls to it from the post, or from the crossing where the post is narrower than an arm. Level where silent.',
      },
    ).optional(),
    turned: yesNo('whether the arms are turned by 45 degrees', { more: '`false`: the arms lie along the length and the width.' }).prefault(
      'false',
    ),
    wood: woodOf('the foot'),
  });
}

function pedestal(bare: BareUnit) {
  return {
    kind: z.literal('pedestal'),
    post: group('the post', {
      shape: choice('the section of the post', ['round', 'square', 'octagon']).prefault('round'),
      size: length(bare, 'the size of the post at its head', { from: 40, to: 600 }, { more: 'Diameter, side, or width across flats.' }),
      footSize: length(bare, 'the size of the post at its foot', { from: 40, to: 800 }, { more: 'Straight where silent.' }).optional(),
      wood: woodOf('the post'),
    }),
    foot: kinds('the foot', [
      group('a round foot', {
        ...disc(bare, 'foot'),
        topDiameter: length(
          bare,
          'the diameter of the foot at its top',
          { from: 50, to: 3000 },
          { more: 'Upright edge where silent.' },
        ).optional(),
        wood: woodOf('the foot'),
      }),
      crossFoot(bare),
    ]),
    head: kinds(
      'the head that carries the top',
      [
        group('crossed bearers', {
          kind: z.literal('cross'),
          span: length(bare, 'the span of the bearers', { from: 100, to: 3000 }),
          width: section(bare, 'the width of a bearer'),
          height: section(bare, 'the height of a bearer'),
          wood: woodOf('the bearers'),
        }),
        group('a round plate', { ...disc(bare, 'plate'), wood: woodOf('the plate') }),
      ],
      { more: 'Crossed bearers, or a round plate.' },
    ),
    ballast: group(
      'a ballast plate',
      {
        diameter: diameterOf(bare, 'ballast plate'),
        thickness: length(bare, 'the thickness of the ballast plate', { from: 2, to: 100 }),
        material: nameOf('the material of the ballast plate', { examples: ['steel'] }),
      },
      { more: 'Let into the underside of the foot, flush: adds weight, not height.' },
    ).optional(),
  };
}

/** The base, by its kind. `bare`: the unit of bare numbers. */
export function baseSchema(bare: BareUnit) {
  return kinds('the base', [
    group('a base of four legs', {
      kind: z.literal('legs'),
      legs: legs(bare),
      aprons: aprons(bare).optional(),
      stretchers: stretchers(bare).optional(),
    }),
    group('a base of two slab ends', {
      kind: z.literal('slab-ends'),
      slabs: slabs(bare),
      stretcher: group('the stretcher between the slab ends', {
        height: length(bare, 'the height of the stretcher', { from: 10, to: 500 }),
        thickness: thickness(bare, 'the thickness of the stretcher'),
        at: length(bare, 'the height of the underside of the stretcher above the floor', { from: 0, to: 1200 }),
        wood: woodOf('the stretcher'),
      }).optional(),
    }),
    group('a pedestal', pedestal(bare)),
    group(
      'a base of free parts alone',
      { kind: z.literal('parts') },
      { more: 'The parts stand under `parts`, their joints under `joints`.' },
    ),
  ]);
}

/** What carries the top. */
export type BaseSpec = z.infer<ReturnType<typeof baseSchema>>;
/** Four legs. */
export type LegsBase = Extract<BaseSpec, { kind: 'legs' }>;
/** Two slab ends. */
export type SlabEndsBase = Extract<BaseSpec, { kind: 'slab-ends' }>;
/** One post on a foot. */
export type PedestalBase = Extract<BaseSpec, { kind: 'pedestal' }>;
/** Nothing but free parts. */
export type PartsBase = Extract<BaseSpec, { kind: 'parts' }>;
/** Overhangs run from the top's outline to the OUTER face of the leg. */
export type LegsSpec = z.infer<ReturnType<typeof legs>>;
/** The boards between the legs, under the top. */
export type ApronsSpec = z.infer<ReturnType<typeof aprons>>;
/** The rails between the legs, near the floor. */
export type StretchersSpec = z.infer<ReturnType<typeof stretchers>>;
