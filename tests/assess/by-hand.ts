import type { Joint, Part, Table } from '../../src/design/index.ts';
import type { Outline, Placement, Solid, Vec3 } from '../../src/solid/index.ts';
import { AT_ORIGIN, box, rings } from '../../src/solid/index.ts';

/** Parts and tables put together by hand, without design/: every number stands in the test. */

const alongX = { L: [1, 0, 0], R: [0, 0, 1], T: [0, -1, 0] } as const;
const upright = { L: [0, 0, 1], R: [1, 0, 0], T: [0, 1, 0] } as const;

export function part(id: string, role: Part['role'], solid: Solid, at: Vec3, over: Partial<Part> = {}): Part {
  const placement: Placement = { ...AT_ORIGIN, originMm: at };
  return {
    id,
    type: id,
    role,
    name: `part.${role}`,
    wood: 'oak-european',
    densityKgM3: 670,
    solid,
    placement,
    grain: role === 'leg' || role === 'post' || role === 'slab' ? upright : alongX,
    sawn: 'flat',
    sizeMm: { length: 1, width: 1, thickness: 1 },
    boards: 1,
    features: [],
    from: ['table', 'parts', id],
    ...over,
  };
}

export const block = (id: string, role: Part['role'], size: Vec3, at: Vec3, over: Partial<Part> = {}): Part =>
  part(id, role, box(size[0], size[1], size[2]), at, over);

export const round = (id: string, role: Part['role'], diameter: number, height: number, at: Vec3, over: Partial<Part> = {}): Part =>
  part(
    id,
    role,
    rings([
      { zMm: 0, rxMm: diameter / 2, ryMm: diameter / 2 },
      { zMm: height, rxMm: diameter / 2, ryMm: diameter / 2 },
    ]),
    at,
    over,
  );

export const joint = (kind: Joint['kind'], a: string, b: string, contact: readonly (readonly Vec3[])[] = [], knockDown = false): Joint => ({
  id: `${a}+${b}`,
  kind,
  a,
  b,
  knockDown,
  contact,
  contactAreaMm2: 0,
  from: ['table', 'joints', `${a}+${b}`],
});

export interface TopByHand {
  readonly lengthMm: number;
  readonly widthMm: number;
  readonly thicknessMm: number;
  readonly heightMm: number;
  readonly round?: boolean;
}

/** A plain top over the given base; loose joints and no fixing unless said. */
export function tableOf(top: TopByHand, base: readonly Part[], over: Partial<Table> = {}): Table {
  const { lengthMm, widthMm, thicknessMm, heightMm } = top;
  const [x, y] = [lengthMm / 2, widthMm / 2];
  const under: Vec3 = [0, 0, heightMm - thicknessMm];
  const over1 = { sizeMm: { length: lengthMm, width: widthMm, thickness: thicknessMm }, boards: 6 };
  const plate = top.round
    ? round('top', 'top', lengthMm, thicknessMm, under, over1)
    : block('top', 'top', [lengthMm, widthMm, thicknessMm], under, over1);
  const outline: Outline = top.round
    ? { kind: 'ellipse', rxMm: x, ryMm: y }
    : {
        kind: 'polygon',
        points: [
          [-x, -y],
          [x, -y],
          [x, y],
          [-x, y],
        ],
      };
  return {
    parts: [plate, ...base],
    joints: [],
    fixing: { kind: 'buttons', pointsMm: [], from: ['table', 'fixing'] },
    states: [{ id: 'standing', says: 'as it stands', moved: {}, without: [] }],
    top: {
      partId: 'top',
      shape: top.round ? 'round' : 'rectangle',
      outline,
      thicknessMm,
      heightMm,
      acrossGrainMm: widthMm,
      grainAlong: 'x',
      boardWidthMm: widthMm / 6,
    },
    overallMm: { length: lengthMm, width: widthMm, height: heightMm },
    baseKind: 'parts',
    ...over,
  };
}

/** Four square upright legs, outer faces set in from ends and sides. */
export function fourLegs(top: TopByHand, side: number, endMm: number, sideMm: number): Part[] {
  const [x, y] = [top.lengthMm / 2 - endMm - side / 2, top.widthMm / 2 - sideMm - side / 2];
  const height = top.heightMm - top.thicknessMm;
  return [
    [-x, -y],
    [x, -y],
    [x, y],
    [-x, y],
  ].map(([px, py], i) => block(`leg-${i}`, 'leg', [side, side, height], [px as number, py as number, 0]));
}
