import type { Problem, SpecPath } from '../../problem/index.ts';
import type { Plane, Polyhedron, Vec3 } from '../../solid/index.ts';
import { box, cutConvex, dot, IDENTITY, scale, subtract } from '../../solid/index.ts';
import type { ApronsSpec, EffectiveSpec, LegsBase, LegsSpec, StretchersSpec } from '../../spec/index.ts';
import { type BaseDraft, type JointDraft, ownJoint, type PartDraft } from '../draft.ts';
import { amountsFor, refuse } from '../refuse.ts';
import { type Leg, levelAt, type Sign, shoulderPlane, sideAtMm } from './legs.ts';

/** A board on edge between two shoulders. */
interface Rail {
  readonly id: string;
  readonly role: 'apron' | 'stretcher';
  readonly name: string;
  readonly wood: string;
  readonly alongX: boolean;
  /** Middle of its thickness across its run. */
  readonly acrossMm: number;
  readonly bottomMm: number;
  readonly heightMm: number;
  readonly thicknessMm: number;
  readonly from: SpecPath;
}

/** Far longer than any table: what the shoulders cut off. */
const UNCUT_MM = 1e5;

/** Longest tenon that a usual leg takes, and its share of the leg. Common practice. */
const TENON_SHARE = 0.6;
const LONGEST_TENON_MM = 40;

/** Tenon of a rail in a leg of a section, mm: three fifths of it, at most 40. Common practice. */
export const tenonMm = (sectionMm: number): number => Math.min(LONGEST_TENON_MM, Math.round(sectionMm * TENON_SHARE));

/** Cuts a board to the two shoulders that it runs between; `undefined` where they leave nothing. */
function cutRail(rail: Rail, shoulders: readonly [Plane, Plane]): PartDraft | undefined {
  const { alongX, heightMm, thicknessMm, bottomMm, acrossMm } = rail;
  const blank = alongX ? box(UNCUT_MM, thicknessMm, heightMm) : box(thicknessMm, UNCUT_MM, heightMm);
  const start: Vec3 = alongX ? [0, acrossMm, bottomMm] : [acrossMm, 0, bottomMm];
  let body: Polyhedron | undefined = blank;
  for (const { normal, offsetMm } of shoulders) {
    // The shoulder's plane looks out of the leg towards the rail, which keeps the far side.
    body = body && cutConvex(body, { normal: scale(normal, -1), offsetMm: dot(normal, start) - offsetMm });
  }
  if (body === undefined) return undefined;
  const run = body.vertices.map((v) => v[alongX ? 0 : 1]);
  const middle = (Math.min(...run) + Math.max(...run)) / 2;
  const shift: Vec3 = alongX ? [middle, 0, 0] : [0, middle, 0];
  return {
    id: rail.id,
    role: rail.role,
    name: rail.name,
    stuff: rail.wood,
    solid: { ...body, vertices: body.vertices.map((v) => subtract(v, shift)) },
    placement: { originMm: alongX ? [middle, acrossMm, bottomMm] : [acrossMm, middle, bottomMm], axes: IDENTITY },
    grainAlong: alongX ? [1, 0, 0] : [0, 1, 0],
    across: heightMm >= thicknessMm ? [0, 0, 1] : alongX ? [0, 1, 0] : [1, 0, 0],
    sawn: 'flat',
    features: [],
    from: rail.from,
  };
}

const legAt = (legs: readonly Leg[], sx: Sign, sy: Sign): Leg => legs.find((l) => l.sx === sx && l.sy === sy) as Leg;

/** The two legs of a side or an end, the one at the lower coordinate first. */
const pairOf = (legs: readonly Leg[], alongX: boolean, side: Sign): readonly [Leg, Leg] =>
  alongX ? [legAt(legs, -1, side), legAt(legs, 1, side)] : [legAt(legs, side, -1), legAt(legs, side, 1)];

const sideName = (alongX: boolean, side: Sign): string => (alongX ? (side < 0 ? 'front' : 'back') : side < 0 ? 'left' : 'right');

function betweenLegs(rail: Rail, [low, high]: readonly [Leg, Leg], problems: Problem[], spec: EffectiveSpec): BaseDraft {
  const towards: Vec3 = rail.alongX ? [1, 0, 0] : [0, 1, 0];
  const top = rail.bottomMm + rail.heightMm;
  const plane = (leg: Leg, way: Vec3): Plane => shoulderPlane(leg, way, rail.bottomMm, top, rail.acrossMm, rail.thicknessMm / 2);
  const part = cutRail(rail, [plane(low, towards), plane(high, scale(towards, -1))]);
  if (part === undefined) {
    problems.push(noSpace(rail, low, high, spec));
    return { parts: [], joints: [] };
  }
  const joint = (leg: Leg): JointDraft =>
    ownJoint('mortise-and-tenon', rail.id, leg.id, rail.from, tenonMm(levelAt(leg, (rail.bottomMm + top) / 2).alongXMm));
  return { parts: [part], joints: [joint(low), joint(high)] };
}

function noSpace(rail: Rail, low: Leg, high: Leg, spec: EffectiveSpec): Problem {
  const z = rail.bottomMm + rail.heightMm / 2;
  const [a, b] = [levelAt(low, z), levelAt(high, z)];
  const free = rail.alongX ? b.xMm - a.xMm - (a.alongXMm + b.alongXMm) / 2 : b.yMm - a.yMm - (a.alongYMm + b.alongYMm) / 2;
  return refuse('design/rail-has-no-space', `there is no space between the legs for the ${rail.role}`, rail.from, {
    found: `${amountsFor(spec).length(free)} from leg to leg`,
    mend: `smaller legs or overhangs, or leave the ${rail.role} out`,
  });
}

const joined = (drafts: readonly BaseDraft[]): BaseDraft => ({
  parts: drafts.flatMap((d) => d.parts),
  joints: drafts.flatMap((d) => d.joints),
});

/** Aprons between the legs, on edge, their outer faces set back from the legs' outer faces as measured at the underside of the top. */
export function makeAprons(spec: EffectiveSpec, aprons: ApronsSpec, legs: readonly Leg[], problems: Problem[]): BaseDraft {
  const undersideMm = spec.table.height.mm - spec.table.top.thickness.mm;
  const sides: readonly Sign[] = [-1, 1];
  const runs = [...(aprons.sides === 'ends' ? [] : [true]), ...(aprons.sides === 'long' ? [] : [false])];
  return joined(
    runs.flatMap((alongX) =>
      sides.map((side) => {
        const pair = pairOf(legs, alongX, side);
        const head = levelAt(pair[0], undersideMm);
        const outer = alongX ? Math.abs(head.yMm) + head.alongYMm / 2 : Math.abs(head.xMm) + head.alongXMm / 2;
        const rail: Rail = {
          id: `base/apron-${sideName(alongX, side)}`,
          role: 'apron',
          name: alongX ? 'part.apron-long' : 'part.apron-end',
          wood: aprons.wood ?? spec.table.wood,
          alongX,
          acrossMm: side * (outer - aprons.setBack.mm - aprons.thickness.mm / 2),
          bottomMm: undersideMm - aprons.below.mm - aprons.height.mm,
          heightMm: aprons.height.mm,
          thicknessMm: aprons.thickness.mm,
          from: ['table', 'base', 'aprons'],
        };
        return betweenLegs(rail, pair, problems, spec);
      }),
    ),
  );
}

/** Stretchers between the legs, on the legs' middle at the stretcher's own height; for `h`, one more between the two end ones. */
export function makeStretchers(spec: EffectiveSpec, stretchers: StretchersSpec, legs: readonly Leg[], problems: Problem[]): BaseDraft {
  const middleZ = stretchers.at.mm + stretchers.height.mm / 2;
  const common = {
    role: 'stretcher',
    name: 'part.stretcher',
    wood: stretchers.wood ?? spec.table.wood,
    bottomMm: stretchers.at.mm,
    heightMm: stretchers.height.mm,
    thicknessMm: stretchers.thickness.mm,
    from: ['table', 'base', 'stretchers'],
  } as const;
  const sides: readonly Sign[] = [-1, 1];
  const runs = stretchers.plan === 'box' ? [true, false] : [false];
  const around = runs.flatMap((alongX) =>
    sides.map((side) => {
      const pair = pairOf(legs, alongX, side);
      const level = levelAt(pair[0], middleZ);
      const rail: Rail = {
        ...common,
        id: `base/stretcher-${sideName(alongX, side)}`,
        alongX,
        acrossMm: side * Math.abs(alongX ? level.yMm : level.xMm),
      };
      return betweenLegs(rail, pair, problems, spec);
    }),
  );
  if (stretchers.plan !== 'h') return joined(around);
  const inner = Math.abs(levelAt(legAt(legs, 1, 1), middleZ).xMm) - stretchers.thickness.mm / 2;
  const rail: Rail = { ...common, id: 'base/stretcher-middle', alongX: true, acrossMm: 0 };
  const part = cutRail(rail, [
    { normal: [1, 0, 0], offsetMm: -inner },
    { normal: [-1, 0, 0], offsetMm: -inner },
  ]);
  if (part === undefined) {
    problems.push(noSpace(rail, legAt(legs, -1, 1), legAt(legs, 1, 1), spec));
    return joined(around);
  }
  const tenon = tenonMm(stretchers.thickness.mm);
  const joints = ['base/stretcher-left', 'base/stretcher-right'].map((end) =>
    ownJoint('mortise-and-tenon', rail.id, end, rail.from, tenon),
  );
  return joined([...around, { parts: [part], joints }]);
}

/**
 * Deepest set back in a round leg, mm: the inner arrises of two aprons square to each other meet on the round at 45 degrees from the
 * leg's middle, r / sqrt 2 beside it. Taken at the thinner of both edges of the apron.
 */
function deepestInRoundMm(legs: LegsSpec, aprons: ApronsSpec, undersideMm: number): number {
  const top = undersideMm - aprons.below.mm;
  const least = Math.min(...[top, top - aprons.height.mm].map((z) => sideAtMm(legs, z, undersideMm))) / 2;
  const outer = legs.taper === 'all' ? legs.size.mm / 2 : least;
  return outer + least * Math.SQRT1_2 - aprons.thickness.mm;
}

/** Aprons and stretchers must lie within the height of the legs and be held by them. */
export function checkRails(spec: EffectiveSpec, base: LegsBase): readonly Problem[] {
  const undersideMm = spec.table.height.mm - spec.table.top.thickness.mm;
  const { length } = amountsFor(spec);
  const problems: Problem[] = [];
  const { aprons, stretchers, legs } = base;
  if (aprons !== undefined && aprons.below.mm + aprons.height.mm > undersideMm) {
    problems.push(
      refuse('design/no-height-left', 'the aprons reach through the floor', ['table', 'base', 'aprons', 'height'], {
        found: aprons.height.written,
        allowed: `at most ${length(undersideMm - aprons.below.mm)}`,
      }),
    );
  }
  if (aprons !== undefined && aprons.setBack.mm + aprons.thickness.mm > legs.size.mm) {
    problems.push(
      refuse('design/apron-beside-leg', 'the aprons stand out behind the legs', ['table', 'base', 'aprons', 'setBack'], {
        found: aprons.setBack.written,
        allowed: `at most ${length(legs.size.mm - aprons.thickness.mm)} with legs of ${legs.size.written} and aprons of ${aprons.thickness.written}`,
      }),
    );
  }
  if (problems.length === 0 && aprons !== undefined && legs.shape === 'round') {
    const most = deepestInRoundMm(legs, aprons, undersideMm);
    if (aprons.setBack.mm > most) {
      problems.push(
        refuse(
          'design/apron-beside-leg',
          'the aprons lie too far in to meet the round legs with both arrises',
          ['table', 'base', 'aprons', 'setBack'],
          {
            found: aprons.setBack.written,
            allowed: `at most ${length(most)} with aprons of ${aprons.thickness.written}`,
          },
        ),
      );
    }
  }
  if (stretchers !== undefined && stretchers.at.mm + stretchers.height.mm > undersideMm) {
    const over = stretchers.at.mm + stretchers.height.mm - undersideMm;
    problems.push(
      refuse('design/no-height-left', `the stretchers reach ${length(over)} into the top`, ['table', 'base', 'stretchers', 'at'], {
        found: stretchers.at.written,
        allowed: `at most ${length(undersideMm - stretchers.height.mm)}`,
      }),
    );
  }
  return problems;
}
