import type { Joint, Part, Table } from '../design/index.ts';
import type { Problem } from '../problem/index.ts';
import type { Vec3 } from '../solid/index.ts';
import { cross, dot, scale, subtract } from '../solid/index.ts';
import type { EffectiveSpec, JointKind } from '../spec/index.ts';
import { changeOf, roomMoisture } from './movement.ts';
import { sayIn } from './say.ts';

/** Movement that glue, screw holes and the wood itself take up in a joint, mm: common practice. */
const takenUpMm = 2;

/** The same behind a tenon or dowels, where only part of the shoulder is held, mm: common practice. */
const takenUpByTenonMm = 3;
const tenons: readonly JointKind[] = ['mortise-and-tenon', 'loose-tenon', 'dowels'];

/** Movement that a top screwed fast across its grain takes up before it splits or bows, mm: common practice. */
const takenUpByTopMm = 1;

const glued: readonly JointKind[] = ['edge-glue', 'face-glue'];
/** Kinds that hold two parts so that neither can slide along the contact. */
const holdsFast: readonly JointKind[] = [...glued, 'mortise-and-tenon', 'loose-tenon', 'dowels', 'screws', 'bolts'];

/**
 * Warnings of wood that fights its joints: a top held fast across its grain, long grain glued to cross grain, end grain glued flat.
 * @source Wood Handbook, FPL-GTR-190 (2010), ch. 10 (end grain), ch. 4 and 13 (movement); fixing rules: common practice
 */
export function grainProblems(spec: EffectiveSpec, table: Table): readonly Problem[] {
  const partOf = new Map(table.parts.map((part) => [part.id, part]));
  const problems = [...rigidTop(spec, table)];
  for (const joint of table.joints) {
    const a = partOf.get(joint.a);
    const b = partOf.get(joint.b);
    if (a === undefined || b === undefined) continue;
    problems.push(...endGrain(joint, a, b));
    problems.push(...crossGrain(spec, table, joint, a, b), ...crossGrain(spec, table, joint, b, a));
  }
  return problems;
}

function rigidTop(spec: EffectiveSpec, table: Table): Problem[] {
  if (table.fixing.kind !== 'rigid') return [];
  const across = table.fixing.pointsMm.map((p) => (table.top.grainAlong === 'x' ? p.yMm : p.xMm));
  const spanMm = across.length === 0 ? 0 : Math.max(...across) - Math.min(...across);
  const top = table.parts.find((part) => part.id === table.top.partId);
  const changeMm = top === undefined ? 0 : movesMm(spec, top, spanMm);
  if (changeMm <= takenUpByTopMm) return [];
  const say = sayIn(spec);
  return [
    {
      code: 'assess/top-held-fast',
      severity: 'warning',
      title: 'the top is fixed rigidly across its grain and will split or bow',
      path: table.fixing.from,
      found: `rigid over ${say.length(spanMm)} across the grain, which moves ${say.movement(changeMm)} in a year`,
      allowed: `up to ${say.movement(takenUpByTopMm)}`,
      mend: 'write kind: slotted-screws, buttons or figure-eights',
    },
  ];
}

function movesMm(spec: EffectiveSpec, part: Part, spanMm: number): number {
  const wood = part.wood === undefined ? undefined : spec.library.woods[part.wood];
  if (wood === undefined) return 0;
  const { lowPercent, highPercent } = roomMoisture(spec);
  return changeOf(wood, part.sawn, spanMm, lowPercent, highPercent).changeMm;
}

function endGrain(joint: Joint, a: Part, b: Part): Problem[] {
  const normal = normalOf(joint);
  const meets = [a, b].find((part) => part.grain !== undefined && normal !== undefined && Math.abs(dot(part.grain.L, normal)) > 0.9);
  if (joint.kind !== 'end-grain-glue' && (!glued.includes(joint.kind) || meets === undefined)) return [];
  return [
    {
      code: 'assess/end-grain-glue',
      severity: 'warning',
      title: 'end grain is glued without a tenon and can not be relied on',
      path: joint.from,
      found: `${joint.kind} between ${joint.a} and ${joint.b}`,
      allowed: 'a joint with long grain in it',
      mend: 'write kind: mortise-and-tenon, loose-tenon or dowels',
    },
  ];
}

/** The contact holds `part` across its grain, while the other does not move with it. */
function crossGrain(spec: EffectiveSpec, table: Table, joint: Joint, part: Part, other: Part): Problem[] {
  const normal = normalOf(joint);
  if (!holdsFast.includes(joint.kind) || part.grain === undefined || normal === undefined) return [];
  const across = heldAlong(other, part.grain.L, normal);
  if (across === undefined || !movesAlong(part, across)) return [];
  const spanMm = extentMm(joint, across);
  const changeMm = movesMm(spec, part, spanMm);
  const isTop = part.id === table.top.partId;
  const allowedMm = isTop ? takenUpByTopMm : tenons.includes(joint.kind) ? takenUpByTenonMm : takenUpMm;
  if (changeMm <= allowedMm) return [];
  const say = sayIn(spec);
  return [
    {
      code: isTop ? 'assess/top-held-fast' : 'assess/cross-grain-joint',
      severity: 'warning',
      title: isTop
        ? 'the top is fixed rigidly across its grain and will split or bow'
        : 'a wide part is held fast across its grain and will split or open the joint',
      path: joint.from,
      found: `${joint.kind} of ${part.id} to ${other.id}, ${say.length(spanMm)} across the grain, which moves ${say.movement(changeMm)} in a year`,
      allowed: `up to ${say.movement(allowedMm)}`,
      mend: isTop
        ? 'let the top slide: slotted-screws, buttons or figure-eights'
        : 'glue the middle only and let the rest slide in slots, or divide the tenon',
    },
  ];
}

/** Direction in the contact along which the other part stays as it is: its own grain; for steel and stone, across this part's grain. */
function heldAlong(other: Part, grainL: Vec3, normal: Vec3): Vec3 | undefined {
  if (other.grain === undefined) return unitOrUndefined(cross(normal, grainL));
  const { L } = other.grain;
  const inPlane = subtract(L, scale(normal, dot(L, normal)));
  return Math.hypot(...inPlane) < 0.5 ? undefined : unitOrUndefined(inPlane);
}

/** Whether a part moves with the seasons along a direction: it does across its grain. */
function movesAlong(part: Part, along: Vec3): boolean {
  return part.grain !== undefined && Math.abs(dot(part.grain.L, along)) < 0.5;
}

function normalOf(joint: Joint): Vec3 | undefined {
  const loop = joint.contact[0];
  if (loop === undefined || loop.length < 3) return undefined;
  const origin = loop[0] as Vec3;
  let sum: Vec3 = [0, 0, 0];
  for (let i = 1; i + 1 < loop.length; i++) {
    const c = cross(subtract(loop[i] as Vec3, origin), subtract(loop[i + 1] as Vec3, origin));
    sum = [sum[0] + c[0], sum[1] + c[1], sum[2] + c[2]];
  }
  return unitOrUndefined(sum);
}

function extentMm(joint: Joint, along: Vec3): number {
  const reaches = joint.contact.flat().map((point) => dot(point, along));
  return reaches.length === 0 ? 0 : Math.max(...reaches) - Math.min(...reaches);
}

function unitOrUndefined(v: Vec3): Vec3 | undefined {
  const size = Math.hypot(v[0], v[1], v[2]);
  return size < 1e-6 ? undefined : [v[0] / size, v[1] / size, v[2] / size];
}
