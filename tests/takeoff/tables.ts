/** Tables put together by hand from boxes, so that every figure of the take-off can be reckoned on paper. */
import type { Joint, Part, PartRole, Table } from '../../src/design/index.ts';
import type { Placement, Vec3 } from '../../src/solid/index.ts';
import { box } from '../../src/solid/index.ts';
import type { JointKind } from '../../src/spec/index.ts';

const upright: Placement['axes'] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
const alongX = { L: [1, 0, 0], R: [0, 0, 1], T: [0, -1, 0] } as const;

/** A box standing at a bottom centre; `size` along x, y, z in mm, `cut` is length x width x thickness along its grain. */
export function boxPart(
  id: string,
  role: PartRole,
  size: Vec3,
  at: Vec3,
  cut: readonly [number, number, number],
  more: Partial<Part> = {},
): Part {
  return {
    id,
    type: id.replace(/-\d$/, ''),
    role,
    name: `part.${role}`,
    wood: 'oak-european',
    densityKgM3: 670,
    solid: box(size[0], size[1], size[2]),
    placement: { originMm: at, axes: upright },
    grain: alongX,
    sawn: 'flat',
    sizeMm: { length: cut[0], width: cut[1], thickness: cut[2] },
    boards: 1,
    features: [],
    from: ['table', id],
    ...more,
  };
}

export function jointOf(kind: JointKind, a: string, b: string, contactAreaMm2: number, more: Partial<Joint> = {}): Joint {
  const contact: Joint['contact'] = [
    [
      [0, 0, 0],
      [80, 0, 0],
      [80, 0, 25],
      [0, 0, 25],
    ],
  ];
  return { id: `${a}|${b}`, kind, a, b, knockDown: false, contact, contactAreaMm2, from: ['table', 'joints', kind], ...more };
}

/**
 * A table 1600 x 800 x 30, 750 high: top of six boards, four square legs of 60, two long rails of 80 x 25 between them, four tenons.
 * All faces are level or upright.
 */
export const plain: Table = {
  parts: [
    boxPart('top', 'top', [1600, 800, 30], [0, 0, 720], [1600, 800, 30], { boards: 6, features: ['glued-up'] }),
    ...(
      [
        [-1, -1],
        [1, -1],
        [1, 1],
        [-1, 1],
      ] as const
    ).map(([sx, sy], i) => boxPart(`leg-${i + 1}`, 'leg', [60, 60, 720], [sx * 720, sy * 320, 0], [720, 60, 60])),
    ...[-1, 1].map((sy, i) => boxPart(`rail-${i + 1}`, 'rail', [1380, 25, 80], [0, sy * 320, 640], [1380, 80, 25])),
  ],
  joints: [
    jointOf('mortise-and-tenon', 'rail-1', 'leg-1', 2000),
    jointOf('mortise-and-tenon', 'rail-1', 'leg-2', 2000),
    jointOf('mortise-and-tenon', 'rail-2', 'leg-3', 2000),
    jointOf('mortise-and-tenon', 'rail-2', 'leg-4', 2000),
  ],
  fixing: {
    kind: 'buttons',
    pointsMm: [-600, -200, 200, 600].flatMap((xMm) => [-300, 300].map((yMm) => ({ xMm, yMm, slotAlong: 'y' as const }))),
    from: ['table', 'fixing'],
  },
  states: [{ id: 'standing', says: 'standing', moved: {}, without: [] }],
  top: {
    partId: 'top',
    shape: 'rectangle',
    outline: {
      kind: 'polygon',
      points: [
        [-800, -400],
        [800, -400],
        [800, 400],
        [-800, 400],
      ],
    },
    thicknessMm: 30,
    heightMm: 750,
    acrossGrainMm: 800,
    grainAlong: 'x',
    boardWidthMm: 135,
  },
  overallMm: { length: 1600, width: 800, height: 750 },
  baseKind: 'legs',
};

export const withParts = (...parts: readonly Part[]): Table => ({ ...plain, parts: [...plain.parts, ...parts] });
