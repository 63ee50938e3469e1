import type { Part, Table, TableState } from '../design/index.ts';
import type { Contact, Vec2 } from '../solid/index.ts';
import type { LoadCaseSpec } from '../spec/index.ts';
import { byCodeUnit, STANDARD_GRAVITY } from '../units/index.ts';
import type { Tipping, WorstLoad } from './assessment.ts';
import type { Hull } from './convex.ts';
import { hullOf, shapeOf, supportPoint } from './convex.ts';
import { answerCase } from './load-case.ts';
import { looseTopStance } from './loose-top.ts';
import type { Rim } from './rim.ts';
import { innerRim, outerRim } from './rim.ts';
import { heightsOf, partsIn, planHulls } from './slice.ts';
import { supportOf } from './support.ts';
import type { Stance } from './tip.ts';
import { leastPush, lowestLoadN, lowestWorst, tiltDeg } from './tip.ts';
import { weigh } from './weigh.ts';

/** One state of the table, ready for any load: how it stands, and the outline that loads can be put on. */
export interface StandingState {
  readonly state: TableState;
  /** The whole table. */
  readonly stance: Stance;
  /** The whole table, and its top where that only lies on the base. */
  readonly stances: readonly Stance[];
  readonly gravityHeightMm: number;
  readonly outline: Hull;
}

/** A leaf's face this far below the top's still carries a plate, mm. */
const levelMm = 2;

/** The state's weight, floor contact and outline; a leaf that has moved up to the height of the top widens the outline. */
export function standIn(table: Table, state: TableState): StandingState {
  const parts = partsIn(table, state);
  const weight = weigh(parts);
  const [x, y, z] = weight.centreOfGravityMm;
  const stance = { weightN: weight.massKg * STANDARD_GRAVITY, gravityMm: [x, y] as Vec2, hull: supportOf(parts).hull };
  const loose = looseTopStance(table, parts);
  const stances = loose === undefined ? [stance] : [stance, loose];
  return { state, stance, stances, gravityHeightMm: z, outline: outlineOf(table, state, parts) };
}

function outlineOf(table: Table, state: TableState, parts: readonly Part[]): Hull {
  const shapes: Contact[] = [];
  for (const part of parts) {
    if (part.id === table.top.partId && state.moved[part.id] === undefined) shapes.push(shapeOf(table.top.outline));
    else if ((part.role === 'top' || part.role === 'panel') && heightsOf(part).highMm >= table.top.heightMm - levelMm) {
      for (const hull of planHulls(part, 0, Number.MAX_VALUE)) shapes.push({ kind: 'polygon', points: hull.points }, ...hull.ellipses);
    }
  }
  return hullOf(shapes);
}

/** Every tipping figure of one state: worst places by exact extremes, named places, corners, push, tilt and the cases of the table's use. */
export function tippingOf(standing: StandingState, table: Table, cases: Readonly<Record<string, LoadCaseSpec>>, use: string): Tipping {
  const { stance, stances, outline, state, gravityHeightMm } = standing;
  const loadAt = (atMm: Vec2): number | null => lowestLoadN(stances, atMm);
  const edge = outerRim(outline);
  const inside = innerRim(outline, 50);
  const heightMm = table.top.heightMm;
  return {
    state: state.id,
    edge: lowestWorst(stances, edge),
    inside50: lowestWorst(stances, inside),
    corners: table.top.shape === 'rectangle' ? fromFrontLeft(edge.corners).map((atMm) => ({ atMm, loadN: loadAt(atMm) })) : [],
    push: leastPush(stance, heightMm),
    places: namedPlaces.map(({ id, normal }) => {
      const at = (rim: Rim): WorstLoad | null => {
        const atMm = middleOf(rim, normal);
        const loadN = loadAt(atMm);
        return loadN === null ? null : { loadN, atMm };
      };
      return { id, edge: at(edge), inside50: at(inside) };
    }),
    tiltDeg: tiltDeg(stance, gravityHeightMm),
    cases: Object.keys(cases)
      .sort(byCodeUnit)
      .flatMap((id) => {
        const spec = cases[id] as LoadCaseSpec;
        return spec.uses.includes(use) ? [answerCase(id, spec, stances, innerRim(outline, spec.inset.mm), heightMm)] : [];
      }),
  };
}

/** The four sides as the client faces the table's front, with their outward normals. */
export const namedPlaces: readonly { readonly id: 'front' | 'right' | 'back' | 'left'; readonly normal: Vec2 }[] = [
  { id: 'front', normal: [0, -1] },
  { id: 'right', normal: [1, 0] },
  { id: 'back', normal: [0, 1] },
  { id: 'left', normal: [-1, 0] },
];

/** Middle of the straight edge that faces a direction, else the point of the curve farthest that way. */
export function middleOf(rim: Rim, normal: Vec2): Vec2 {
  for (const edge of rim.edges) {
    if (edge.normal[0] * normal[0] + edge.normal[1] * normal[1] < 1 - 1e-9) continue;
    return [(edge.from[0] + edge.to[0]) / 2, (edge.from[1] + edge.to[1]) / 2];
  }
  return rim.farthest(normal);
}

/** Corners counter-clockwise, from the one nearest to the front left. */
function fromFrontLeft(corners: readonly Vec2[]): readonly Vec2[] {
  let first = 0;
  for (const [i, corner] of corners.entries()) {
    const start = corners[first] as Vec2;
    if (corner[0] + corner[1] < start[0] + start[1]) first = i;
  }
  return [...corners.slice(first), ...corners.slice(0, first)];
}

/** Farthest reach of a hull along a unit vector, mm from the origin. */
export function reachMm(hull: Hull, normal: Vec2): number {
  const at = supportPoint(hull, normal);
  return at[0] * normal[0] + at[1] * normal[1];
}
