/** Tables built part by part, so that drawings can be tested without `design/`. Sizes are invented. */
import type { Part, PartRole, Table } from '../../src/design/index.ts';
import type { Mat3, Solid, Vec3 } from '../../src/solid/index.ts';
import { box, disc, octagonalPost, rotation, stack } from '../../src/solid/index.ts';

const UPRIGHT: Mat3 = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
const ALONG_X = { L: [1, 0, 0], T: [0, 1, 0], R: [0, 0, 1] } as const;
const ALONG_Y = { L: [0, 1, 0], T: [1, 0, 0], R: [0, 0, 1] } as const;
const UP = { L: [0, 0, 1], T: [0, 1, 0], R: [1, 0, 0] } as const;

export interface Piece {
  readonly id: string;
  readonly role: PartRole;
  readonly solid: Solid;
  readonly at: Vec3;
  readonly axes?: Mat3;
  readonly grain?: 'x' | 'y' | 'z';
  readonly boards?: number;
  readonly wood?: string;
}

export function partOf({ id, role, solid, at, axes = UPRIGHT, grain = 'x', boards = 1, wood = 'oak-european' }: Piece): Part {
  return {
    id,
    type: id.replace(/-\d+$/, ''),
    role,
    name: id,
    wood,
    densityKgM3: 670,
    solid,
    placement: { originMm: at, axes },
    grain: grain === 'x' ? ALONG_X : grain === 'y' ? ALONG_Y : UP,
    sawn: 'flat',
    sizeMm: { length: 1, width: 1, thickness: 1 },
    boards,
    features: [],
    from: ['table'],
  };
}

export function tableOf(
  parts: readonly Part[],
  overallMm: { readonly length: number; readonly width: number; readonly height: number },
  over: Partial<Table> = {},
): Table {
  const { length, width, height } = overallMm;
  return {
    parts,
    joints: [],
    fixing: { kind: 'buttons', pointsMm: [], from: ['table', 'fixing'] },
    states: [{ id: 'standing', says: 'standing', moved: {}, without: [] }],
    top: {
      partId: 'top',
      shape: 'rectangle',
      outline: {
        kind: 'polygon',
        points: [
          [-length / 2, -width / 2],
          [length / 2, -width / 2],
          [length / 2, width / 2],
          [-length / 2, width / 2],
        ],
      },
      thicknessMm: 28,
      heightMm: height,
      acrossGrainMm: width,
      grainAlong: 'x',
      boardWidthMm: 140,
    },
    overallMm,
    baseKind: 'legs',
    ...over,
  };
}

const corners = [
  [-1, -1, 'front-left'],
  [1, -1, 'front-right'],
  [1, 1, 'back-right'],
  [-1, 1, 'back-left'],
] as const;

/** Four tapered legs under a rectangle, with aprons. */
export function legTable(length = 2100, width = 820, height = 745, splayMm = 0): Table {
  const top = 28;
  const legHeight = height - top;
  const parts = [partOf({ id: 'top', role: 'top', solid: box(length, width, top), at: [0, 0, legHeight], boards: 6 })];
  const [x, y] = [length / 2 - 320 - 31, width / 2 - 70 - 31];
  for (const [sx, sy, name] of corners) {
    const foot = 42;
    const solid = stack([
      { zMm: 0, xMm: sx * (10 + splayMm), yMm: sy * (10 + splayMm), alongXMm: foot, alongYMm: foot },
      { zMm: legHeight, xMm: 0, yMm: 0, alongXMm: 62, alongYMm: 62 },
    ]);
    parts.push(partOf({ id: `base/leg-${name}`, role: 'leg', solid, at: [sx * x, sy * y, 0], grain: 'z' }));
  }
  for (const s of [-1, 1]) {
    parts.push(
      partOf({
        id: `base/apron-${s < 0 ? 'front' : 'back'}`,
        role: 'apron',
        solid: box(2 * x - 62, 24, 60),
        at: [0, s * (y + 11), legHeight - 60],
      }),
    );
    parts.push(
      partOf({
        id: `base/apron-${s < 0 ? 'left' : 'right'}`,
        role: 'apron',
        solid: box(24, 2 * y - 62, 60),
        at: [s * (x + 11), 0, legHeight - 60],
        grain: 'y',
      }),
    );
  }
  return tableOf(parts, { length, width, height });
}

/** Round top on an octagonal post with a disc foot and crossed bearers. */
export function roundTable(diameter = 1219): Table {
  const height = 745;
  const top = 32;
  const parts = [
    partOf({ id: 'top', role: 'top', solid: disc(diameter, diameter, top, { inMm: 40, upMm: 19 }), at: [0, 0, height - top], boards: 9 }),
    partOf({ id: 'base/post', role: 'post', solid: octagonalPost(160, 127, height - top - 60 - 45), at: [0, 0, 45], grain: 'z' }),
    partOf({ id: 'base/foot', role: 'foot', solid: disc(686, 686, 45), at: [0, 0, 0], boards: 5 }),
    partOf({ id: 'base/bearer-1', role: 'bearer', solid: box(790, 70, 60), at: [0, 0, height - top - 60] }),
    partOf({
      id: 'base/bearer-2',
      role: 'bearer',
      solid: box(790, 70, 60),
      at: [0, 0, height - top - 60],
      axes: rotation('z', 90),
      grain: 'y',
    }),
  ];
  const over = { baseKind: 'pedestal' as const };
  const table = tableOf(parts, { length: diameter, width: diameter, height }, over);
  return {
    ...table,
    top: { ...table.top, shape: 'round', outline: { kind: 'ellipse', rxMm: diameter / 2, ryMm: diameter / 2 }, thicknessMm: top },
  };
}

/** Two slabs and a stretcher. */
export function slabTable(): Table {
  const parts = [
    partOf({ id: 'top', role: 'top', solid: box(2100, 820, 28), at: [0, 0, 717], boards: 6 }),
    partOf({ id: 'base/slab-left', role: 'slab', solid: box(40, 600, 717), at: [-730, 0, 0], grain: 'z', boards: 4 }),
    partOf({ id: 'base/slab-right', role: 'slab', solid: box(40, 600, 717), at: [730, 0, 0], grain: 'z', boards: 4 }),
    partOf({ id: 'base/stretcher', role: 'stretcher', solid: box(1420, 32, 110), at: [0, 0, 480] }),
  ];
  return tableOf(parts, { length: 2100, width: 820, height: 745 }, { baseKind: 'slab-ends' });
}
