import type { Table } from '../design/index.ts';
import type { Vec2, Vec3 } from '../solid/index.ts';
import type { Library } from '../spec/index.ts';
import type { PieceFace } from './convex.ts';
import type { LineClass, Mark } from './display-list.ts';
import type { Visibility } from './hidden-lines.ts';
import { findLines } from './hidden-lines.ts';
import type { Polyline } from './merge-lines.ts';
import { mergeLines } from './merge-lines.ts';
import { open, paintFaces } from './paint.ts';
import { paintOrder } from './paint-order.ts';
import type { Projection } from './projection.ts';
import { orthographic } from './projection.ts';
import type { Shape } from './shape.ts';
import { place } from './shape.ts';
import type { Stage } from './stage.ts';
import { setStage } from './stage.ts';
import { dot, minus, nth } from './vector.ts';

export type ViewName = 'front' | 'side' | 'plan' | 'underside';

/**
 * Where the eye stands and which way is up:
 * front from -y, z up; side from +x, z up; plan from above, back (+y) up; underside from below, front (-y) up.
 */
export const viewProjections: Readonly<Record<ViewName, Projection>> = {
  front: orthographic([1, 0, 0], [0, 0, 1]),
  side: orthographic([0, 1, 0], [0, 0, 1]),
  plan: orthographic([1, 0, 0], [0, 1, 0]),
  underside: orthographic([1, 0, 0], [0, -1, 0]),
};

/** One view of a table in mm of the world: u to the right, v up. */
export interface View {
  readonly name: ViewName;
  readonly stage: Stage;
  readonly lines: readonly Polyline[];
  /** Faces in painting order, the farthest first. */
  readonly ordered: readonly PieceFace[];
  /** Reach of the table: left, low, right, high. */
  readonly box: readonly [number, number, number, number];
}

/** Where a view lies on the sheet: the sheet point of u = v = 0, and real mm per sheet mm. */
export interface ViewPlace {
  readonly atMm: Vec2;
  readonly scale: number;
}

export const onSheet = ({ atMm, scale }: ViewPlace, [u, v]: readonly [number, number, ...unknown[]]): Vec2 => [
  atMm[0] + u / scale,
  atMm[1] - v / scale,
];

/** Axes of round parts: a line along the axis where it is seen from the side, a cross where it points at the eye. */
function centreLines(shapes: readonly Shape[], projection: Projection, scale: number): (readonly [Vec2, Vec2])[] {
  const overshootMm = CENTRE_PAST_MM * scale;
  const crosses = new Map<string, { readonly at: Vec3; readonly reachMm: number }>();
  const lines = new Map<string, readonly [Vec2, Vec2]>();
  for (const { part } of shapes) {
    const { solid, placement } = part;
    if (solid.kind !== 'rings') continue;
    const [first, last] = [solid.rings[0], solid.rings.at(-1)];
    if (first === undefined || last === undefined) continue;
    const widest = Math.max(...solid.rings.map((r) => Math.max(r.rxMm, r.ryMm)));
    if (widest < CENTRE_LEAST_MM * scale) continue;
    const a = projection.project(place(placement, [0, 0, first.zMm]));
    const b = projection.project(place(placement, [0, 0, last.zMm]));
    const along: Vec3 = minus(b, a);
    const flat = Math.hypot(along[0], along[1]);
    if (flat < 1e-6) {
      const key = `${Math.round(a[0])},${Math.round(a[1])}`;
      const reachMm = Math.max(widest, crosses.get(key)?.reachMm ?? 0);
      crosses.set(key, { at: a, reachMm });
    } else if (flat > 0.999 * Math.sqrt(dot(along, along))) {
      const [du, dv] = [(along[0] / flat) * overshootMm, (along[1] / flat) * overshootMm];
      const key = Math.abs(along[0]) < 1e-6 ? `x${Math.round(a[0])}` : `${Math.round(a[1])}-${Math.round(a[0])}`;
      const before = lines.get(key);
      const line: readonly [Vec2, Vec2] = [
        [a[0] - du, a[1] - dv],
        [b[0] + du, b[1] + dv],
      ];
      lines.set(key, before === undefined || !key.startsWith('x') ? line : joined(before, line));
    }
  }
  const cross = [...crosses.values()].flatMap(({ at: [u, v], reachMm }): (readonly [Vec2, Vec2])[] => {
    const r = reachMm + overshootMm;
    return [
      [
        [u - r, v],
        [u + r, v],
      ],
      [
        [u, v - r],
        [u, v + r],
      ],
    ];
  });
  return [...lines.values(), ...cross];
}

/** Two upright centre lines over each other as one. */
const joined = (a: readonly [Vec2, Vec2], b: readonly [Vec2, Vec2]): readonly [Vec2, Vec2] => {
  const heights = [a[0][1], a[1][1], b[0][1], b[1][1]];
  return [
    [a[0][0], Math.min(...heights)],
    [a[0][0], Math.max(...heights)],
  ];
};

/** Finds the lines and the painting order of one view; the same at every scale. */
export function viewOf(shapes: readonly Shape[], name: ViewName): View {
  const projection = viewProjections[name];
  const stage = setStage(shapes, projection);
  const points = shapes.flatMap((s) => s.pieces.flatMap((p) => p.points.map(projection.project)));
  const [us, vs] = [points.map((p) => p[0]), points.map((p) => p[1])];
  const lines = mergeLines(findLines(stage), 0.05).filter((l) => name !== 'underside' || l.visibility !== 'hidden');
  const box = [Math.min(...us), Math.min(...vs), Math.max(...us), Math.max(...vs)] as const;
  return { name, stage, lines, ordered: paintOrder(stage), box };
}

/** Share of the wood's colour under the lines of a drawing. */
const TINT = 0.36;
/** How far a centre line reaches beyond what it marks, on the sheet. */
const CENTRE_PAST_MM = 3;
/** Round parts of a smaller radius on the sheet have no centre lines. */
const CENTRE_LEAST_MM = 1.5;

export type LineClasses = Readonly<Record<Visibility, LineClass | undefined>>;
/** On a small drawing lines are thinner and hidden edges are left out. */
export const smallLineClasses: LineClasses = { outline: 'edge', edge: 'contour', hidden: undefined };
const lineClasses: LineClasses = { outline: 'outline', edge: 'edge', hidden: 'hidden' };
const drawnFirst: Readonly<Record<Visibility, number>> = { hidden: 0, edge: 1, outline: 2 };

/** The view as marks: pale wood, then hidden, inner and outer lines, centre lines, fixings on the underside. */
export function drawView(view: View, at: ViewPlace, table: Table, library: Library, classes: LineClasses = lineClasses): Mark[] {
  const toSheet = (p: readonly [number, number, ...unknown[]]): Vec2 => onSheet(at, p);
  const grain = view.name === 'plan' ? { ringSpacingMm: Math.max(8, 1.3 * at.scale) } : {};
  const eye = view.stage.projection.toEye([0, 0, 0]);
  const light = (normal: Vec3): number => 0.84 + 0.16 * dot(normal, eye);
  const faces = paintFaces(view.stage, view.ordered, { library, toSheet, tint: TINT, light, ...grain });
  const lines = view.lines
    .toSorted((a, b) => drawnFirst[a.visibility] - drawnFirst[b.visibility])
    .flatMap(({ visibility, points }): Mark[] => {
      const lineClass = classes[visibility];
      return lineClass === undefined ? [] : [{ kind: 'line', class: lineClass, steps: open(points.map(toSheet)) }];
    });
  const centres = centreLines(view.stage.shapes, view.stage.projection, at.scale).map(
    (ends): Mark => ({ kind: 'line', class: 'centre', steps: open(ends.map(toSheet)) }),
  );
  const fixings = view.name === 'underside' ? drawFixings(table, view, at) : [];
  return [...faces, ...lines, ...centres, ...fixings];
}

/** Size of the sign of a fixing on the sheet: a circle, or a slot three times as long in the direction in which the top moves. */
const SIGN_MM = 0.7;

/** Whether something near the floor (a foot, a plate) lies before a point of the underside. */
function isBehindFoot(view: View, heightMm: number, [u, v]: readonly [number, number, ...unknown[]]): boolean {
  return view.stage.faces.some(({ points, slope }) => {
    const nearness = slope[0] * u + slope[1] * v + slope[2];
    if (-nearness > heightMm / 2) return false;
    return points.every((p, i) => {
      const q = nth(points, i + 1);
      return (q[0] - p[0]) * (v - p[1]) - (q[1] - p[1]) * (u - p[0]) >= 0;
    });
  });
}

function drawFixings(table: Table, view: View, at: ViewPlace): Mark[] {
  return table.fixing.pointsMm.map(({ xMm, yMm, slotAlong }): Mark => {
    const point = view.stage.projection.project([xMm, yMm, 0]);
    const [x, y] = onSheet(at, point);
    const [dx, dy] = slotAlong === 'x' ? [SIGN_MM * 1.4, 0] : slotAlong === 'y' ? [0, SIGN_MM * 1.4] : [0, 0];
    const [ox, oy] = slotAlong === 'y' ? [SIGN_MM, 0] : [0, SIGN_MM];
    const round = ['A', SIGN_MM, SIGN_MM, 0, 1] as const;
    // A circle is a slot of no length: two half turns round its ends.
    const sweep = slotAlong === 'y' ? 0 : 1;
    return {
      kind: 'line',
      class: isBehindFoot(view, table.top.heightMm, point) ? 'hairline' : 'fixing',
      steps: [
        ['M', x - dx - ox, y - dy - oy],
        ['L', x + dx - ox, y + dy - oy],
        [...round, sweep, x + dx + ox, y + dy + oy],
        ['L', x - dx + ox, y - dy + oy],
        [...round, sweep, x - dx - ox, y - dy - oy],
        ['Z'],
      ],
    };
  });
}
