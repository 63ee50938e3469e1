/**
 * Free parts: where a part's own axes lie, and how it comes into the table.
 *
 *        z                       own axes: x, y in plan, z up; the part's zero point is the middle of its underside
 *        |     ________          box      size [x, y, z] about the z axis, underside at z = 0
 *        |    /       /|         frustum  bottom rectangle about the z axis; the top one moved by `shift` in plan
 *        |   /_______/ |         round    diameter at z = 0, topDiameter at z = height
 *        |   |       | /  y      extruded outline as written, its own zero point kept, from z = 0 to z = height
 *        |   |___+___|/  /
 *        |       at     /        1. the part stands in the table's frame, its zero point on `at`, its axes along the table's
 *        |_____________/____ x   2. `turn`: one after the other, about the table's x, y or z through `at`, counter-clockwise
 *                                   for an eye that the axis points at
 *                                3. `mirror`: copies across the plane x = 0, or y = 0, or both; `-2`, `-3`, `-4` behind the id
 */

import type { Problem, SpecPath } from '../../problem/index.ts';
import type { Mat3, Placement, Region, Solid, Vec2, Vec3 } from '../../solid/index.ts';
import {
  areaMm2,
  box,
  clockwise,
  cone,
  counterClockwise,
  extrude,
  frustum,
  IDENTITY,
  mirrored,
  product,
  rotation,
  times,
  unionOf,
} from '../../solid/index.ts';
import type { EffectiveSpec, FreePartSpec } from '../../spec/index.ts';
import type { Length2 } from '../../units/index.ts';
import { byCodeUnit } from '../../units/index.ts';
import type { PartDraft } from '../draft.ts';
import { refuse } from '../refuse.ts';
import type { PartRole } from '../table.ts';

const X_MIRROR: Mat3 = [
  [-1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
const Y_MIRROR: Mat3 = [
  [1, 0, 0],
  [0, -1, 0],
  [0, 0, 1],
];

const point = ([x, y]: Length2): Vec2 => [x.mm, y.mm];

function regionOf(part: FreePartSpec & { readonly kind: 'extruded' }): Region {
  return { outer: distinct(part.outline.map(point)), holes: part.holes.map((hole) => distinct(hole.map(point))) };
}

/** A corner written twice in a row, or the first one again at the end, counts once. */
const distinct = (loop: readonly Vec2[]): readonly Vec2[] =>
  loop.filter((p, i) => {
    const next = loop[(i + 1) % loop.length] as Vec2;
    return p[0] !== next[0] || p[1] !== next[1];
  });

function solidOf(part: FreePartSpec): Solid {
  switch (part.kind) {
    case 'box':
      return box(part.size[0].mm, part.size[1].mm, part.size[2].mm);
    case 'frustum':
      return frustum(point(part.bottom), point(part.top), part.height.mm, point(part.shift));
    case 'round':
      return cone(part.diameter.mm, part.topDiameter?.mm ?? part.diameter.mm, part.height.mm);
    case 'extruded':
      return extrude(regionOf(part), part.height.mm);
  }
}

/** A part's own grain and width: along the leaning middle line where a frustum leans and its grain goes up. */
function grainOf(part: FreePartSpec, [x, y, z]: Vec3): { readonly along: Vec3; readonly across: Vec3 } {
  const lean: Vec3 = part.kind === 'frustum' ? [part.shift[0].mm, part.shift[1].mm, part.height.mm] : [0, 0, 1];
  if (part.grain === 'x') return { along: [1, 0, 0], across: y >= z ? [0, 1, 0] : [0, 0, 1] };
  if (part.grain === 'y') return { along: [0, 1, 0], across: x >= z ? [1, 0, 0] : [0, 0, 1] };
  return { along: lean, across: x >= y ? [1, 0, 0] : [0, 1, 0] };
}

function ownSizeMm(part: FreePartSpec): Vec3 {
  switch (part.kind) {
    case 'box':
      return [part.size[0].mm, part.size[1].mm, part.size[2].mm];
    case 'frustum':
      return [Math.max(part.bottom[0].mm, part.top[0].mm), Math.max(part.bottom[1].mm, part.top[1].mm), part.height.mm];
    case 'round': {
      const most = Math.max(part.diameter.mm, part.topDiameter?.mm ?? 0);
      return [most, most, part.height.mm];
    }
    case 'extruded': {
      const xs = part.outline.map((p) => p[0].mm);
      const ys = part.outline.map((p) => p[1].mm);
      return [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys), part.height.mm];
    }
  }
}

function featuresOf(part: FreePartSpec): PartDraft['features'] {
  if (part.kind === 'extruded') return ['shaped'];
  if (part.kind === 'round') {
    return part.topDiameter === undefined || part.topDiameter.mm === part.diameter.mm ? ['round'] : ['round', 'tapered'];
  }
  if (part.kind === 'box') return [];
  const tapers = part.bottom[0].mm !== part.top[0].mm || part.bottom[1].mm !== part.top[1].mm;
  const leans = part.shift[0].mm !== 0 || part.shift[1].mm !== 0;
  return [...(tapers ? (['tapered'] as const) : []), ...(leans ? (['splayed'] as const) : [])];
}

/** The copies that a part's mirrors ask for, as matrices, the part itself first. */
function copiesOf(mirror: FreePartSpec['mirror']): readonly Mat3[] {
  const planes = [...new Set(mirror)].map((axis) => (axis === 'x' ? X_MIRROR : Y_MIRROR));
  const [first, second] = planes;
  if (first === undefined) return [IDENTITY];
  if (second === undefined) return [IDENTITY, first];
  return [IDENTITY, first, second, product(first, second)];
}

const isTurnedOver = (m: Mat3): boolean => m[0][0] * m[1][1] < 0;

/** One free part and its mirror images, in the order of their ids. */
function makeFreePart(id: string, part: FreePartSpec, wood: string): readonly PartDraft[] {
  const solid = solidOf(part);
  const at: Vec3 = [part.at[0].mm, part.at[1].mm, part.at[2].mm];
  const axes = part.turn.reduce<Mat3>((turned, { about, by }) => product(rotation(about, by.deg), turned), IDENTITY);
  const grain = grainOf(part, ownSizeMm(part));
  return copiesOf(part.mirror).map((copy, k) => {
    // A mirror image is the mirrored solid, so that its placement stays a turn: copy * axes * (x mirror) is one.
    const over = isTurnedOver(copy);
    const turned = product(copy, axes);
    const placement: Placement = { originMm: times(copy, at), axes: over ? product(turned, X_MIRROR) : turned };
    return {
      id: `parts/${id}${k === 0 ? '' : `-${k + 1}`}`,
      role: part.role ?? 'other',
      name: part.name ?? (part.role === undefined ? id.replaceAll('-', ' ') : roleName(part.role)),
      stuff: part.material ?? part.wood ?? wood,
      ...(part.material === undefined ? {} : { isMaterial: true }),
      solid: over ? mirrored(solid) : solid,
      placement,
      grainAlong: times(turned, grain.along),
      across: times(turned, grain.across),
      sawn: part.sawn,
      features: featuresOf(part),
      from: ['table', 'parts', id],
    };
  });
}

const roleName = (role: PartRole): string => `part.${role}`;

/** All free parts, by id in the order of code units. */
export const makeFreeParts = (spec: EffectiveSpec): readonly PartDraft[] =>
  Object.entries(spec.table.parts)
    .sort(([a], [b]) => byCodeUnit(a, b))
    .flatMap(([id, part]) => makeFreePart(id, part, spec.table.wood));

/** Outlines must not cross themselves, and two parts must not end up with one id. */
export function checkFreeParts(spec: EffectiveSpec): readonly Problem[] {
  const problems: Problem[] = [];
  for (const [id, part] of Object.entries(spec.table.parts)) {
    const path: SpecPath = ['table', 'parts', id];
    if (part.kind === 'extruded' && !isSimple(regionOf(part))) {
      problems.push(
        refuse('design/outline-crosses-itself', 'an outline crosses itself, or a hole leaves it', [...path, 'outline'], {
          mend: 'write the corners in order around the shape, and each hole inside it, clear of the others',
        }),
      );
    }
    copiesOf(part.mirror).forEach((_, k) => {
      const copy = `${id}-${k + 1}`;
      if (k === 0 || spec.table.parts[copy] === undefined) return;
      problems.push(
        refuse('design/id-taken', `the mirror image of ${id} would be called ${copy}, which is another part's name`, path, {
          mend: `give ${copy} another name`,
          also: [{ path: ['table', 'parts', copy], note: 'has the name already' }],
        }),
      );
    });
  }
  return problems;
}

/** Every loop turns, and joined as a whole the region keeps its area, in one piece: nothing crosses, touches or sticks out. */
function isSimple(region: Region): boolean {
  const loops = [region.outer, ...region.holes];
  if (loops.some((loop) => loop.length < 3 || loop.some((_, i) => turnsBack(loop, i)))) return false;
  const drawn = areaMm2([region]);
  const outline = unionOf([{ outer: counterClockwise(region.outer), holes: [] }]);
  const holes = unionOf(region.holes.map((hole) => ({ outer: counterClockwise(hole), holes: [] })));
  const whole = unionOf([{ outer: counterClockwise(region.outer), holes: region.holes.map(clockwise) }]);
  const isOnePiece = outline.length === 1 && holes.length === region.holes.length && whole.length === 1;
  return isOnePiece && whole[0]?.holes.length === holes.length && drawn > 0 && Math.abs(areaMm2(whole) - drawn) <= SAME_AREA * drawn;
}

/** Rounding to the clipping grid changes an area by less than this share. */
const SAME_AREA = 1e-4;

/** Does the outline run back along itself at a corner? */
function turnsBack(loop: readonly Vec2[], i: number): boolean {
  const [a, b, c] = [loop[(i + loop.length - 1) % loop.length], loop[i], loop[(i + 1) % loop.length]] as [Vec2, Vec2, Vec2];
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]];
  return Math.abs(ux * vy - uy * vx) <= 1e-9 * Math.hypot(ux, uy) * Math.hypot(vx, vy) && ux * vx + uy * vy < 0;
}
