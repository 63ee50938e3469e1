import { z } from 'zod';
import type { BareUnit } from '../units/index.ts';
import { angle, choice, length, length2, length3, nameOf, patterned, text, yesNo } from './field.ts';
import { group, kinds, list, named } from './shape.ts';
import { sawn } from './top.ts';

const PLACE = { from: -10_000, to: 10_000 };

function common(bare: BareUnit) {
  return {
    name: text('the name of the part', { more: 'Shown in the cutting list and in notes on drawings.' }).optional(),
    wood: nameOf('the wood of the part', { more: "The table's wood where silent. Either this or `material`." }).optional(),
    material: nameOf('the material of the part', { more: 'Steel, glass, stone: see materials.yaml.', examples: ['steel'] }).optional(),
    grain: choice('the axis of the part along which its grain runs', ['x', 'y', 'z'], {
      more: "The part's own axis, before turning.",
    }).prefault('x'),
    sawn: sawn().prefault('flat'),
    at: length3(bare, 'the place of the part', PLACE),
    turn: list(
      'the turns of the part',
      group('a turn', { about: choice('the axis of the turn', ['x', 'y', 'z']), by: angle('the angle of the turn') }),
      {
        more: "Applied in the order written, about the table's axes through `at`.",
        example: 'turn: [{ about: z, by: 45 deg }]',
        most: 6,
      },
    ).prefault([]),
    mirror: list('the mirrors of the part', choice('a mirror', ['x', 'y']), {
      more: '`x` also builds the image across the plane x = 0, `y` across y = 0; ids gain `-2`, `-3`, `-4`.',
      most: 2,
    }).prefault([]),
    role: choice('what the part is to the table', [
      'leg',
      'rail',
      'apron',
      'stretcher',
      'foot',
      'post',
      'bearer',
      'panel',
      'drawer',
      'plate',
      'other',
    ]).optional(),
  };
}

/** A free part, by its kind. `bare`: the unit of bare numbers. */
export function freePartSchema(bare: BareUnit) {
  const height = length(bare, 'the height of the part', { from: 0, to: 6000, above: true });
  const size = { from: 0, to: 6000, above: true };
  return kinds(
    'a free part',
    [
      group('a box', { kind: z.literal('box'), size: length3(bare, 'the size of the box', size), ...common(bare) }),
      group(
        'a prism between two rectangles',
        {
          kind: z.literal('frustum'),
          bottom: length2(bare, 'the rectangle at the bottom', size),
          top: length2(bare, 'the rectangle at the top', size),
          height,
          shift: length2(bare, 'how far the upper rectangle is moved in plan', PLACE).prefault(['0 mm', '0 mm']),
          ...common(bare),
        },
        { more: 'Tapered or leaning legs and rails.' },
      ),
      group('a cylinder or cone', {
        kind: z.literal('round'),
        diameter: length(bare, 'the diameter of the part', size),
        topDiameter: length(bare, 'the diameter of the part at its top', size, { more: 'As below where silent.' }).optional(),
        height,
        ...common(bare),
      }),
      group(
        'an extruded polygon',
        {
          kind: z.literal('extruded'),
          outline: list('the outline of the part', length2(bare, 'a corner of the outline', PLACE), {
            least: 3,
            most: 200,
            more: "Corners in the part's own x and y, in order, either way round.",
          }),
          holes: list('the holes of the part', list('a hole', length2(bare, 'a corner of the hole', PLACE), { least: 3, most: 200 }), {
            most: 50,
          }).prefault([]),
          height,
          ...common(bare),
        },
        { more: "Extruded along the part's z. The origin of the outline is the part's bottom centre." },
      ),
    ],
    {
      more:
        "`size` and the like are along the part's own x, y, z. `at` is its bottom centre in the table's frame: the origin lies on the " +
        'floor under the centre of the top, x along the length, y along the width to the back, z up.',
      example: 'parts:\n  tray: { kind: box, size: [400, 300, 12], at: [0, -60, 640], grain: x }',
    },
  );
}

const GLUED = [
  'mortise-and-tenon',
  'loose-tenon',
  'dowels',
  'bridle',
  'lap',
  'housing',
  'edge-glue',
  'face-glue',
  'end-grain-glue',
] as const;
const JOINT_KINDS = [...GLUED, 'screws', 'bolts', 'slotted-screws', 'buttons', 'wedge', 'rests'] as const;

/** Joints whose faces glue holds. */
export const GLUED_JOINTS: readonly JointKind[] = GLUED;

/** A joint that the maker lists. */
export function jointSchema() {
  const part = (noun: string) =>
    patterned(noun, /^[a-z0-9-]+(?:\/[a-z0-9-]+)*\*?$/, 'the id of a part, such as parts/tray or base/leg-*', {
      examples: ['parts/tray', 'base/leg-*'],
    });
  return group(
    'a joint',
    {
      kind: choice('the kind of joint', JOINT_KINDS),
      a: part('the first part of the joint'),
      b: part('the second part of the joint'),
      knockDown: yesNo('whether the joint comes apart with a key').prefault('false'),
    },
    { example: 'joints:\n  tray-rail: { kind: screws, a: parts/tray, b: base/apron-* }' },
  );
}

/** A state of the table. `bare`: the unit of bare numbers. */
export function stateSchema(bare: BareUnit) {
  return group(
    'a state of the table',
    {
      says: text('what the state is'),
      move: named('the parts that move', length3(bare, 'how far the part moves', PLACE), {
        more: 'By id of the part: x, y, z.',
        key: /^[a-z0-9-]+(?:\/[a-z0-9-]+)*\*?$/,
      }).prefault({}),
      without: list('the parts that are gone', text('the id of a part')).prefault([]),
    },
    { more: 'Other than the one that stands in the room: a leaf out, a drawer open.' },
  );
}

/** A part placed by the maker: a box, a prism, a cylinder or cone, an extruded polygon. */
export type FreePartSpec = z.infer<ReturnType<typeof freePartSchema>>;
/** How two parts hold together. */
export type JointKind = (typeof JOINT_KINDS)[number];
/** A joint between two parts, by id or by an id with `*` at its end. */
export type JointSpec = z.infer<ReturnType<typeof jointSchema>>;
/** A state other than the one that stands in the room: a leaf out, a drawer open. */
export type StateSpec = z.infer<ReturnType<typeof stateSchema>>;
