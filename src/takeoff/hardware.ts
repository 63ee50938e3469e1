import type { Joint, Part, Table } from '../design/index.ts';
import type { Problem } from '../problem/index.ts';
import type { Vec3 } from '../solid/index.ts';
import { volumeMm3 } from '../solid/index.ts';
import type { EffectiveSpec, JointKind } from '../spec/index.ts';
import type { HardwareLine } from './take-off.ts';

/** A joint longer than this takes a second bolt, so that it can not turn; common practice. */
const SECOND_BOLT_FROM_MM = 100;
/** Spacing of screws along a joint, at least two; common practice. */
const SCREW_SPACING_MM = 150;

interface Counted {
  readonly kind: string;
  readonly count: number;
  /** The part or fixing that asks for it, for problems. */
  readonly path: Problem['path'];
}

/**
 * Bought things by kind and count: what holds the top, screws and bolts of the joints, plates and other parts that are not wood, and what the
 * maker lists in `hardware`. The maker's own entry of a kind replaces the count of that kind. A part of a material whose entry in the shop
 * rates states a mass is bought by whole pieces of that mass, rounded up.
 * Problems: `takeoff/no-hardware-price` (error).
 */
export function listHardware(
  spec: EffectiveSpec,
  table: Table,
): { readonly hardware: readonly HardwareLine[]; readonly problems: readonly Problem[] } {
  const own = Object.entries(spec.table.hardware);
  const ownKinds = new Set(own.map(([, entry]) => entry.kind));
  const counted = together([...fixings(table), ...table.joints.flatMap(ofJoint), ...plates(spec, table.parts)]).filter(
    ({ kind }) => !ownKinds.has(kind),
  );
  const { hardware: priced } = spec.library.rates;
  const lines = [
    ...counted.map(({ kind, count }): HardwareLine => ({ kind, says: priced[kind]?.says ?? kind, count, from: 'rates', id: kind })),
    ...own.map(([id, entry]): HardwareLine => {
      const says = entry.says ?? priced[entry.kind]?.says ?? entry.kind;
      const from = entry.price === undefined ? 'rates' : 'table';
      return { kind: entry.kind, says, count: entry.count, from, id: from === 'table' ? id : entry.kind };
    }),
  ];
  const asked = [
    ...counted,
    ...own.filter(([, e]) => e.price === undefined).map(([id, e]) => ({ kind: e.kind, path: ['table', 'hardware', id, 'kind'] })),
  ];
  const problems = asked.filter(({ kind }) => priced[kind] === undefined).map(({ kind, path }) => noPrice(spec, kind, path));
  return { hardware: lines, problems };
}

function fixings(table: Table): readonly Counted[] {
  const { kind, pointsMm, from } = table.fixing;
  if (kind === 'loose' || pointsMm.length === 0) return [];
  return [{ kind: kind === 'rigid' ? 'screws' : kind, count: pointsMm.length, path: from }];
}

function ofJoint(joint: Joint): readonly Counted[] {
  const lengthMm = longestMm(joint.contact.flat());
  const screws: readonly JointKind[] = ['screws', 'slotted-screws', 'buttons'];
  if (joint.kind === 'bolts' || (joint.knockDown && !screws.includes(joint.kind) && joint.kind !== 'wedge')) {
    return [{ kind: 'knock-down-bolts', count: lengthMm > SECOND_BOLT_FROM_MM ? 2 : 1, path: joint.from }];
  }
  if (screws.includes(joint.kind))
    return [{ kind: joint.kind, count: Math.max(2, Math.ceil(lengthMm / SCREW_SPACING_MM)), path: joint.from }];
  return [];
}

function plates(spec: EffectiveSpec, parts: readonly Part[]): readonly Counted[] {
  return parts.flatMap((part): readonly Counted[] => {
    if (part.material === undefined) return [];
    return [{ kind: part.material, count: piecesOf(spec, part), path: part.from }];
  });
}

/** How many pieces of its material a part that is not of wood takes, as the shop rates sell it. */
export function piecesOf(spec: EffectiveSpec, { material, solid, densityKgM3 }: Part): number {
  const unitKg = material === undefined ? undefined : spec.library.rates.hardware[material]?.mass?.kg;
  return unitKg === undefined ? 1 : Math.ceil((volumeMm3(solid) * 1e-9 * densityKgM3) / unitKg);
}

function together(counted: readonly Counted[]): readonly Counted[] {
  const kinds = new Map<string, Counted>();
  for (const one of counted) {
    const before = kinds.get(one.kind);
    kinds.set(one.kind, before === undefined ? one : { ...before, count: before.count + one.count });
  }
  return [...kinds.values()];
}

function longestMm(points: readonly Vec3[]): number {
  let longest = 0;
  for (const [i, a] of points.entries()) {
    for (const b of points.slice(i + 1)) longest = Math.max(longest, Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]));
  }
  return longest;
}

function noPrice(spec: EffectiveSpec, kind: string, path: Problem['path']): Problem {
  const known = Object.keys(spec.library.rates.hardware).sort();
  return {
    code: 'takeoff/no-hardware-price',
    severity: 'error',
    title: `the shop rates have no price for ${kind}, so this table can not be priced`,
    path,
    found: kind,
    allowed: known.length === 0 ? undefined : known.join(', '),
    mend: `add ${kind} under hardware in the shop rates, or list it under hardware in the table with its own price`,
  };
}
