import type { Joint, Part, Table } from '../design/index.ts';
import type { Problem } from '../problem/index.ts';
import { nearestName } from '../problem/index.ts';
import { skinAreaMm2 } from '../solid/index.ts';
import type { EffectiveSpec, FinishSpec, JointKind } from '../spec/index.ts';
import { byCodeUnit } from '../units/index.ts';
import { floorContactMm2, letInMm2, touchMm2, undersideMm2 } from './faces.ts';
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

/** Joints whose faces are glued, so that no finish gets there. */
const GLUED: readonly JointKind[] = [
  'mortise-and-tenon',
  'loose-tenon',
  'dowels',
  'bridle',
  'lap',
  'housing',
  'edge-glue',
  'face-glue',
  'end-grain-glue',
  'wedge',
];

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
  const hidden = hiddenMm2(table);
  const freeMm2 = (part: Part): number => skinAreaMm2(part.solid) - (hidden[part.id] ?? 0) - floorContactMm2(part.solid, part.placement);
  const wholeTopM2 = top === undefined || top.wood === undefined ? 0 : freeMm2(top) / MM2_PER_M2;
  const undersideAreaM2 = top === undefined || top.wood === undefined ? 0 : undersideMm2(top.solid, top.placement) / MM2_PER_M2;
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
 * Skin in mm2 that no finish reaches, by part id: the contact of parts of one glued assembly, on both, and what lies inside where one part is let
 * into the other, half to each. Two parts that several joints hold together meet only once.
 */
function hiddenMm2(table: Table): Readonly<Record<string, number>> {
  const parts = new Map(table.parts.map((part) => [part.id, part]));
  const assemblies = gluedAssemblies(table);
  const hidden: Record<string, number> = {};
  for (const joints of byPair(table.joints)) {
    const [joint] = joints;
    const [a, b] = [parts.get(joint?.a ?? ''), parts.get(joint?.b ?? '')];
    if (joint === undefined || a === undefined || b === undefined) continue;
    const glued = assemblies.get(a.id) === assemblies.get(b.id);
    const inside = letInMm2(a, b);
    const contact = inside === undefined ? joint.contactAreaMm2 : touchMm2(a, b);
    for (const id of [a.id, b.id]) hidden[id] = (hidden[id] ?? 0) + (inside ?? 0) / 2 + (glued ? contact : 0);
  }
  return hidden;
}

/** By part id, one name for all parts that glue holds together. */
function gluedAssemblies(table: Table): ReadonlyMap<string, string> {
  const names = new Map(table.parts.map((part) => [part.id, part.id]));
  for (const { kind, knockDown, a, b } of table.joints) {
    const [from, to] = [names.get(b), names.get(a)];
    if (knockDown || !GLUED.includes(kind) || from === undefined || to === undefined) continue;
    for (const [id, name] of names) if (name === from) names.set(id, to);
  }
  return names;
}

function byPair(joints: readonly Joint[]): readonly (readonly Joint[])[] {
  const pairs = new Map<string, Joint[]>();
  for (const joint of joints) {
    const key = [joint.a, joint.b].toSorted(byCodeUnit).join(' ');
    const same = pairs.get(key);
    if (same === undefined) pairs.set(key, [joint]);
    else same.push(joint);
  }
  return [...pairs.values()];
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
