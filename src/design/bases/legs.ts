import type { Problem } from '../../problem/index.ts';
import type { Level, Plane, Polyhedron, Ring, Solid, Vec3 } from '../../solid/index.ts';
import { dot, facePlane, outsideMm, rings, stack } from '../../solid/index.ts';
import type { EffectiveSpec, LegsSpec } from '../../spec/index.ts';
import type { PartDraft } from '../draft.ts';
import { amountsFor, refuse } from '../refuse.ts';
import { planMm, topOutline } from '../tops/top.ts';

/** -1 left or front, +1 right or back. */
export type Sign = -1 | 1;

/** A leg with what its neighbours need: sections at every height, in the table's frame. */
export interface Leg {
  readonly id: string;
  readonly sx: Sign;
  readonly sy: Sign;
  readonly levels: readonly Level[];
  readonly part: PartDraft;
}

const corner = (sx: Sign, sy: Sign): string => `${sy < 0 ? 'front' : 'back'}-${sx < 0 ? 'left' : 'right'}`;

/**
 * Four legs. Overhangs run from the top's outline (for round and oval tops: from the rectangle around it) to the leg's outer face, at the
 * head and, for splayed legs, at the foot. Foot and head sections are level, so a splayed leg is a sheared one and stands flat.
 * Tapered on the inside, the outer faces stay plane; tapered on all sides, the leg stays on its own middle line.
 */
export function makeLegs(spec: EffectiveSpec, legs: LegsSpec): readonly Leg[] {
  const undersideMm = spec.table.height.mm - spec.table.top.thickness.mm;
  const { lengthMm, widthMm } = planMm(spec.table.top);
  const order: readonly (readonly [Sign, Sign])[] = [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ];
  return order.map(([sx, sy]) => {
    const x = spreadOf(legs, lengthMm / 2, legs.endOverhang.mm, legs.footEndOverhang?.mm, undersideMm);
    const y = spreadOf(legs, widthMm / 2, legs.sideOverhang.mm, legs.footSideOverhang?.mm, undersideMm);
    const heights =
      legs.straightFor === undefined || !isTapered(legs) ? [0, undersideMm] : [0, straightFromMm(legs, undersideMm), undersideMm];
    const levels = heights.map((zMm): Level => {
      const side = sideAtMm(legs, zMm, undersideMm);
      return { zMm, xMm: sx * x(zMm), yMm: sy * y(zMm), alongXMm: side, alongYMm: side };
    });
    const id = `base/leg-${corner(sx, sy)}`;
    return { id, sx, sy, levels, part: legPart(spec, legs, id, levels, sx, sy) };
  });
}

const footMm = (legs: LegsSpec): number => legs.footSize?.mm ?? legs.size.mm;
const isTapered = (legs: LegsSpec): boolean => footMm(legs) !== legs.size.mm;
const straightFromMm = (legs: LegsSpec, undersideMm: number): number => undersideMm - (legs.straightFor?.mm ?? 0);

/** Side or diameter of the section at a height, mm. */
export function sideAtMm(legs: LegsSpec, zMm: number, undersideMm: number): number {
  const bend = straightFromMm(legs, undersideMm);
  return zMm >= bend ? legs.size.mm : footMm(legs) + ((legs.size.mm - footMm(legs)) * zMm) / bend;
}

/** Distance of the leg's middle from the table's middle at a height, along one axis. */
function spreadOf(legs: LegsSpec, halfMm: number, overhangMm: number, footOverhangMm: number | undefined, undersideMm: number) {
  const headMiddle = halfMm - overhangMm - legs.size.mm / 2;
  if (legs.taper === 'all') {
    const footMiddle = footOverhangMm === undefined ? headMiddle : halfMm - footOverhangMm - footMm(legs) / 2;
    return (zMm: number): number => footMiddle + ((headMiddle - footMiddle) * zMm) / undersideMm;
  }
  const headOuter = halfMm - overhangMm;
  const footOuter = halfMm - (footOverhangMm ?? overhangMm);
  return (zMm: number): number => footOuter + ((headOuter - footOuter) * zMm) / undersideMm - sideAtMm(legs, zMm, undersideMm) / 2;
}

const splays = (legs: LegsSpec): boolean =>
  (legs.footEndOverhang !== undefined && legs.footEndOverhang.mm !== legs.endOverhang.mm) ||
  (legs.footSideOverhang !== undefined && legs.footSideOverhang.mm !== legs.sideOverhang.mm);

function legPart(spec: EffectiveSpec, legs: LegsSpec, id: string, levels: readonly Level[], sx: Sign, sy: Sign): PartDraft {
  const foot = levels[0] as Level;
  const head = levels[levels.length - 1] as Level;
  const own = levels.map((l) => ({ ...l, xMm: l.xMm - foot.xMm, yMm: l.yMm - foot.yMm }));
  const toRing = (l: Level): Ring => ({ zMm: l.zMm, rxMm: l.alongXMm / 2, ryMm: l.alongYMm / 2, xMm: l.xMm, yMm: l.yMm });
  const solid: Solid = legs.shape === 'square' ? stack(own) : rings(own.map(toRing));
  // The blank lies along the faces that stay plane: the outer ones, or the middle line.
  const outer = (l: Level): Vec3 =>
    legs.taper === 'all' ? [l.xMm, l.yMm, l.zMm] : [l.xMm + (sx * l.alongXMm) / 2, l.yMm + (sy * l.alongYMm) / 2, l.zMm];
  const [a, b] = [outer(foot), outer(head)];
  return {
    id,
    role: 'leg',
    name: 'part.leg',
    stuff: legs.wood ?? spec.table.wood,
    solid,
    placement: {
      originMm: [foot.xMm, foot.yMm, 0],
      axes: [
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
      ],
    },
    grainAlong: [b[0] - a[0], b[1] - a[1], b[2] - a[2]],
    across: [1, 0, 0],
    sawn: 'flat',
    features: [
      ...(isTapered(legs) ? (['tapered'] as const) : []),
      ...(splays(legs) ? (['splayed'] as const) : []),
      ...(legs.shape === 'round' ? (['round'] as const) : []),
    ],
    from: ['table', 'base', 'legs'],
  };
}

/**
 * Plane of the face of a leg that looks along `towards` at a height: what a rail's shoulder is cut to. For a round leg, the flat through
 * which a rail of half thickness `halfMm`, its middle at `middleMm` across its run, meets the round with both its arrises.
 */
export function shoulderPlane(leg: Leg, towards: Vec3, fromMm: number, toMm: number, middleMm: number, halfMm: number): Plane {
  const { solid } = leg.part;
  const origin = leg.part.placement.originMm;
  if (solid.kind === 'polyhedron') return facingPlane(solid, origin, towards, (fromMm + toMm) / 2);
  const alongX = towards[0] !== 0;
  const at = (zMm: number): readonly [number, number] => {
    const l = levelAt(leg, zMm);
    const radius = l.alongXMm / 2;
    const across = alongX ? l.yMm : l.xMm;
    const beside = Math.abs(middleMm - across) + halfMm;
    const chord = beside < radius ? Math.sqrt(radius * radius - beside * beside) : 0;
    // The rail's twin around the corner reaches as far in: both stop where their inner faces would meet.
    const reach = Math.max(chord, Math.abs(across) - Math.abs(middleMm) + halfMm);
    return [(alongX ? l.xMm * towards[0] : l.yMm * towards[1]) + reach, zMm];
  };
  const [low, z0] = at(fromMm);
  const [high, z1] = at(toMm);
  const lean = (low - high) / (z1 - z0);
  const size = Math.hypot(1, lean);
  const normal: Vec3 = [towards[0] / size, towards[1] / size, lean / size];
  return { normal, offsetMm: (low + lean * z0) / size };
}

function facingPlane(solid: Polyhedron, origin: Vec3, towards: Vec3, zMm: number): Plane {
  for (let face = 0; face < solid.faces.length; face++) {
    const plane = facePlane(solid, face);
    if (dot(plane.normal, towards) < 0.5) continue;
    const heights = (solid.faces[face]?.loops[0] ?? []).map((i) => (solid.vertices[i] as Vec3)[2]);
    if (zMm < Math.min(...heights) || zMm > Math.max(...heights)) continue;
    return { normal: plane.normal, offsetMm: plane.offsetMm + dot(plane.normal, origin) };
  }
  throw new RangeError('a leg has no face on that side at that height');
}

/** Section of a leg at a height, between its levels. */
export function levelAt(leg: Leg, zMm: number): Level {
  const above = leg.levels.findIndex((l) => l.zMm >= zMm);
  const k = above < 0 ? leg.levels.length - 1 : Math.max(1, above);
  const [low, high] = [leg.levels[k - 1] as Level, leg.levels[k] as Level];
  const t = (zMm - low.zMm) / (high.zMm - low.zMm);
  const mix = (a: number, b: number): number => a + t * (b - a);
  return {
    zMm,
    xMm: mix(low.xMm, high.xMm),
    yMm: mix(low.yMm, high.yMm),
    alongXMm: mix(low.alongXMm, high.alongXMm),
    alongYMm: mix(low.alongYMm, high.alongYMm),
  };
}

/** Legs must stand under the top, apart from each other, and taper within their own height. */
export function checkLegs(spec: EffectiveSpec, legs: LegsSpec): readonly Problem[] {
  const { length } = amountsFor(spec);
  const { top, height } = spec.table;
  const undersideMm = height.mm - top.thickness.mm;
  const { lengthMm, widthMm } = planMm(top);
  const problems: Problem[] = [];
  const path = (key: string) => ['table', 'base', 'legs', key];
  const room = (key: 'endOverhang' | 'sideOverhang', across: number, side: string): void => {
    const free = across / 2 - legs[key].mm - legs.size.mm;
    if (free >= 0) return;
    problems.push(
      refuse('design/legs-collide', `the legs of one ${side} run into each other by ${length(-2 * free)}`, path(key), {
        found: legs[key].written,
        allowed: `at most ${length(across / 2 - legs.size.mm)} with legs of ${legs.size.written}`,
      }),
    );
  };
  room('endOverhang', lengthMm, 'side');
  room('sideOverhang', widthMm, 'end');
  if (legs.straightFor !== undefined && legs.straightFor.mm >= undersideMm) {
    problems.push(
      refuse('design/no-height-left', 'the straight part of the legs is as long as the legs', path('straightFor'), {
        found: legs.straightFor.written,
        allowed: `less than ${length(undersideMm)}`,
      }),
    );
  }
  const outer: readonly [number, number] = [lengthMm / 2 - legs.endOverhang.mm, widthMm / 2 - legs.sideOverhang.mm];
  const out = headOutsideMm(spec, legs, outer);
  if (out > 1e-9) {
    const key = legs.endOverhang.mm <= legs.sideOverhang.mm ? 'endOverhang' : 'sideOverhang';
    problems.push(
      refuse('design/leg-outside-top', `the head of each leg stands ${length(out)} outside the top`, path(key), {
        found: legs[key].written,
        allowed:
          top.kind === 'rectangle' ? '0 or more' : 'overhangs that bring the leg under the curve; they run from the rectangle around it',
        mend: `add at least ${length(out)} to the overhang`,
      }),
    );
  }
  return problems;
}

function headOutsideMm(spec: EffectiveSpec, legs: LegsSpec, [x, y]: readonly [number, number]): number {
  const outline = topOutline(spec.table.top);
  if (legs.shape === 'square' || outline.kind === 'polygon') return outsideMm(outline, [x, y]);
  const r = legs.size.mm / 2;
  const [cx, cy] = [x - r, y - r];
  const around = [...Array(91).keys()].map((k) => (k * Math.PI) / 180);
  return Math.max(...around.map((a) => outsideMm(outline, [cx + r * Math.cos(a), cy + r * Math.sin(a)])));
}
