import type { Mat3, Placement, Solid, Vec3 } from '../../src/solid/index.ts';
import { box, cone, disc, extrude, frustum, octagonalPost, plate, product, rings, rotation, stack } from '../../src/solid/index.ts';

/** A repeatable run of numbers between 0 and 1 (Park and Miller, "Random number generators", CACM 31, 1988). */
export function runOfNumbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

/** A turn about all three axes and a shift. */
export function anyPlacement(next: () => number, reachMm: number): Placement {
  const turn = ['x', 'y', 'z'] as const;
  const axes = turn.reduce<Mat3>((m, axis) => product(rotation(axis, next() * 360), m), rotation('x', 0));
  const originMm: Vec3 = [(next() - 0.5) * reachMm, (next() - 0.5) * reachMm, (next() - 0.5) * reachMm];
  return { originMm, axes };
}

/** A board with two square holes and a bay: outer corner cut out. */
export const holedRegion = {
  outer: [
    [0, 0],
    [300, 0],
    [300, 120],
    [180, 120],
    [180, 200],
    [0, 200],
  ],
  holes: [
    [
      [30, 30],
      [80, 30],
      [80, 90],
      [30, 90],
    ],
    [
      [200, 40],
      [260, 20],
      [270, 90],
    ],
  ],
} as const;

/** One of every kind of solid that the room builds. */
export const samples: readonly { readonly name: string; readonly solid: Solid }[] = [
  { name: 'box', solid: box(2100, 820, 28) },
  { name: 'frustum, shifted', solid: frustum([42, 42], [62, 62], 717, [30, -18]) },
  {
    name: 'tapered leg with a straight head',
    solid: stack([
      { zMm: 0, xMm: 10, yMm: 10, alongXMm: 42, alongYMm: 42 },
      { zMm: 600, xMm: 0, yMm: 0, alongXMm: 62, alongYMm: 62 },
      { zMm: 717, xMm: 0, yMm: 0, alongXMm: 62, alongYMm: 62 },
    ]),
  },
  {
    name: 'flared leg (not convex)',
    solid: stack([
      { zMm: 0, xMm: 0, yMm: 0, alongXMm: 80, alongYMm: 80 },
      { zMm: 300, xMm: 0, yMm: 0, alongXMm: 40, alongYMm: 40 },
      { zMm: 700, xMm: 0, yMm: 0, alongXMm: 60, alongYMm: 60 },
    ]),
  },
  { name: 'plate with under chamfer', solid: plate(1800, 900, 30, { inMm: 40, upMm: 18 }) },
  { name: 'octagonal post', solid: octagonalPost(150, 110, 640) },
  { name: 'outline with a bay and holes', solid: extrude(holedRegion, 24) },
  { name: 'cylinder', solid: cone(50, 50, 700) },
  { name: 'cone', solid: cone(762, 690, 44) },
  { name: 'oval top with under chamfer', solid: disc(2200, 1000, 32, { inMm: 35, upMm: 20 }) },
  {
    name: 'splayed round leg',
    solid: rings([
      { zMm: 0, rxMm: 20, ryMm: 20, xMm: 60, yMm: -25 },
      { zMm: 700, rxMm: 30, ryMm: 30 },
    ]),
  },
  {
    name: 'turned foot with a flat step',
    solid: rings([
      { zMm: 0, rxMm: 300, ryMm: 300 },
      { zMm: 30, rxMm: 300, ryMm: 300 },
      { zMm: 30, rxMm: 120, ryMm: 120 },
      { zMm: 60, rxMm: 60, ryMm: 60 },
    ]),
  },
];
