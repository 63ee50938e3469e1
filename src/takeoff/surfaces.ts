import type { Part, Table } from '../design/index.ts';
import type { Problem } from '../problem/index.ts';
import { nearestName } from '../problem/index.ts';
import type { CoveredFace } from '../solid/index.ts';
import { coveredSkin, skinAreaMm2 } from '../solid/index.ts';
import { type EffectiveSpec, type FinishSpec, GLUED_JOINTS, type JointKind } from '../spec/index.ts';
import { floorContactMm2, isLevelDown, isOnFloor, undersideMm2 } from './faces.ts';
import type { FinishLine } from './take-off.ts';

/** One kind of surface with its finish. */
export interface Surface extends FinishLine {
  readonly method: FinishSpec['method'];
}

export interface Surfaces {
  readonly surfaces: readonly Surface[];
  readonly finishAreaM2: number;
  readonly undersideAreaM2: number;
  readonly problems: readonly Problem[];
}

/** Joints whose faces no finish gets at: glued ones, and wedged ones, which stand as close. */
const CLOSED: readonly JointKind[] = [...GLUED_JOINTS, 'wedge'];

const MM2_PER_M2 = 1e6;

/**
 * What is finished, in m2 and litres: the skin of every wooden part less its contact with others of the same glued assembly (on both parts), less
 * what lies inside where parts are let into each other, less what stands on the floor. Assemblies that only screws, bolts or their weight hold
 * together are finished apart, and so is the top where it lies on the base. The level underside of the top is counted apart; a chamfer under
 * its edge counts with the top. Litres are area x coats / coverage x (1 + loss).
 * Problems: `takeoff/unknown-finish` (error).
 */
export function listSurfaces(spec: EffectiveSpec, table: Table): Surfaces {
  const top = table.parts.find((part) => part.id === table.top.partId);
  const wooden = table.parts.filter((part) => part.wood !== undefined);
  const assemblies = gluedAssemblies(table);
  const covered = new Map(wooden.map((part) => [part, coveredFaces(table, part, assemblies)]));
  const freeMm2 = (part: Part): number =>
    skinAreaMm2(part.solid) - sumMm2(covered.get(part) ?? []) - floorContactMm2(part.solid, part.placement);
  const underMm2 = (part: Part): number =>
    undersideMm2(part.solid, part.placement) - sumMm2((covered.get(part) ?? []).filter(({ normal }) => isLevelDown(normal)));
  const wholeTopM2 = top === undefined || top.wood === undefined ? 0 : freeMm2(top) / MM2_PER_M2;
  const undersideAreaM2 = top === undefined || top.wood === undefined ? 0 : underMm2(top) / MM2_PER_M2;
  const baseM2 = wooden.filter((part) => part !== top).reduce((sum, part) => sum + freeMm2(part), 0) / MM2_PER_M2;
  const { finish, baseFinish = finish } = spec.table;
  const wanted = [
    { surface: 'top' as const, finish, areaM2: wholeTopM2 - undersideAreaM2 },
    { surface: 'underside' as const, finish, areaM2: undersideAreaM2 },
    { surface: 'base' as const, finish: baseFinish, areaM2: baseM2 },
  ].filter(({ areaM2 }) => areaM2 > 0);
  const surfaces = wanted.flatMap((one): readonly Surface[] => {
    const rate = spec.library.finishes[one.finish];
    if (rate === undefined) return [];
    const { coats, coverageM2PerLitre, lossPercent, method } = rate;
    return [{ ...one, coats, litres: litresOf(one.areaM2, coats, coverageM2PerLitre, lossPercent), method }];
  });
  return {
    surfaces,
    finishAreaM2: wholeTopM2 + baseM2,
    undersideAreaM2,
    problems: unknownFinishes(spec),
  };
}

/**
 * Litres of finish for an area in m2.
 *
 * @source area x coats / coverage x (1 + loss): common practice.
 */
export function litresOf(areaM2: number, coats: number, coverageM2PerLitre: number, lossPercent: number): number {
  return ((areaM2 * coats) / coverageM2PerLitre) * (1 + lossPercent / 100);
}

/**
 * Faces that no finish reaches: the contact of parts of one glued assembly, on both, and what lies inside where one part is let into the other.
 * Only what a joint holds counts. Skins that lie flush in one place count once, with the part that comes first; with metal or glass never.
 */
function coveredFaces(table: Table, part: Part, assemblies: ReadonlyMap<string, string>): readonly CoveredFace[] {
  const joined = new Set(table.joints.flatMap(({ a, b }) => (a === part.id ? [b] : b === part.id ? [a] : [])));
  const own = table.parts.indexOf(part);
  const covers = table.parts.flatMap((other, i) => {
    if (other === part || !joined.has(other.id)) return [];
    return [{ body: other, glued: assemblies.get(other.id) === assemblies.get(part.id), takesFlush: other.wood === undefined || i < own }];
  });
  return coveredSkin(part, covers).filter((face) => !isOnFloor(face));
}

const sumMm2 = (faces: readonly CoveredFace[]): number => faces.reduce((sum, face) => sum + face.areaMm2, 0);

/** By part id, one name for all parts that glue holds together. */
function gluedAssemblies(table: Table): ReadonlyMap<string, string> {
  const names = new Map(table.parts.map((part) => [part.id, part.id]));
  for (const { kind, knockDown, a, b } of table.joints) {
    const [from, to] = [names.get(b), names.get(a)];
    if (knockDown || !CLOSED.includes(kind) || from === undefined || to === undefined) continue;
    for (const [id, name] of names) if (name === from) names.set(id, to);
  }
  return names;
}

function unknownFinishes(spec: EffectiveSpec): readonly Problem[] {
  const known = Object.keys(spec.library.finishes).sort();
  return (['finish', 'baseFinish'] as const).flatMap((key): readonly Problem[] => {
    const found = spec.table[key];
    if (found === undefined || known.includes(found)) return [];
    const near = nearestName(found, known);
    return [
      {
        code: 'takeoff/unknown-finish',
        severity: 'error',
        title: `there is no finish called ${found}`,
        path: ['table', key],
        found,
        allowed: known.join(', '),
        mend:
          near === undefined ? 'write one of these, or add it to templates/finishes.yaml' : `if ${near} was meant, write ${key}: ${near}`,
      },
    ];
  });
}
