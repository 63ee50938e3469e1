import type { Mat3, Vec2, Vec3 } from '../../solid/index.ts';
import { extrude } from '../../solid/index.ts';
import type { PartDraft } from '../draft.ts';

/** Two beams across each other, halved together: a cross foot or crossed bearers under a top. */
export interface CrossShape {
  readonly spanMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Height at the tips; the upper side falls to it from `flatMm` either side of the middle. */
  readonly tipMm: number;
  readonly flatMm: number;
  readonly bottomMm: number;
  readonly turnedDeg: number;
}

type Common = Pick<PartDraft, 'role' | 'name' | 'stuff' | 'from'>;

/** The lower arm (notched from above) and the upper one (notched from below), each half the height at the crossing. */
export function crossArms(shape: CrossShape, ids: readonly [string, string], common: Common): readonly [PartDraft, PartDraft] {
  const arm = (id: string, deg: number, profile: readonly Vec2[]): PartDraft => {
    const c = deg % 180 === 0 ? 1 : deg % 180 === 90 ? 0 : Math.cos((deg * Math.PI) / 180);
    const s = deg % 180 === 0 ? 0 : deg % 180 === 90 ? 1 : Math.sin((deg * Math.PI) / 180);
    // The profile is drawn along the arm and up; it is extruded sideways.
    const sideways: Vec3 = [s, -c, 0];
    const axes: Mat3 = [
      [c, 0, sideways[0]],
      [s, 0, sideways[1]],
      [0, 1, 0],
    ];
    return {
      ...common,
      id,
      solid: extrude({ outer: profile, holes: [] }, shape.widthMm),
      placement: {
        originMm: [(-sideways[0] * shape.widthMm) / 2, (-sideways[1] * shape.widthMm) / 2, shape.bottomMm],
        axes,
      },
      grainAlong: [c, s, 0],
      across: shape.heightMm >= shape.widthMm ? [0, 0, 1] : sideways,
      sawn: 'flat',
      features: shape.tipMm < shape.heightMm ? ['shaped'] : [],
    };
  };
  return [arm(ids[0], shape.turnedDeg, notchedAbove(shape)), arm(ids[1], shape.turnedDeg + 90, notchedBelow(shape))];
}

const half = (shape: CrossShape) => ({ x: shape.spanMm / 2, w: shape.widthMm / 2, n: shape.heightMm / 2 });

/** Corners that fall together, where the flat ends at the notch, are written once. */
const distinct = (points: readonly Vec2[]): readonly Vec2[] =>
  points.filter((p, i) => {
    const q = points[(i + 1) % points.length] as Vec2;
    return p[0] !== q[0] || p[1] !== q[1];
  });

function notchedAbove(shape: CrossShape): readonly Vec2[] {
  const { x, w, n } = half(shape);
  const { heightMm: h, tipMm: tip, flatMm: flat } = shape;
  return distinct([
    [-x, 0],
    [x, 0],
    [x, tip],
    [flat, h],
    [w, h],
    [w, n],
    [-w, n],
    [-w, h],
    [-flat, h],
    [-x, tip],
  ]);
}

function notchedBelow(shape: CrossShape): readonly Vec2[] {
  const { x, w, n } = half(shape);
  const { heightMm: h, tipMm: tip, flatMm: flat } = shape;
  return distinct([
    [-x, 0],
    [-w, 0],
    [-w, n],
    [w, n],
    [w, 0],
    [x, 0],
    [x, tip],
    [flat, h],
    [-flat, h],
    [-x, tip],
  ]);
}
