import type { Part, Table } from '../design/index.ts';
import type { Outline, Vec2 } from '../solid/index.ts';
import { centroidMm, outsideMm, skinAreaMm2, volumeMm3 } from '../solid/index.ts';

/** Sizes closer than this, mm, and volumes and skins closer than this share, are the same to a workshop. */
const SAME_MM = 0.01;
const SAME_RATIO = 1e-4;
/** A curved outline is compared at so many points. */
const POINTS = 720;

/** What becomes of the parts of an ordered table where another is made instead. */
export interface PartFates {
  /** Parts that the new table can not use, once they are cut. */
  readonly lost: ReadonlySet<string>;
  /** Parts of the ordered table that serve in the new one, by their ids there; a top that is cut to size among them. */
  readonly kept: ReadonlyMap<string, string>;
  /** The top lies inside its old outline and is no thicker: it can be cut to size. */
  readonly topCutToSize: boolean;
}

/**
 * Looks for each wooden part of the ordered table in the new one: same use, wood, shape and joints with the rest of the base. Each new
 * part takes one old one. A top that only becomes smaller is kept and cut to size; one that grows in any direction is lost.
 *
 * @source a glued top can be made smaller, not larger: common practice.
 */
export function partFates(ordered: Table, draft: Table): PartFates {
  const isOfBase = (part: Part, { top }: Table): boolean => part.wood !== undefined && part.id !== top.partId;
  const { lost, kept } = likes(ordered, draft, isOfBase);
  const [top, next] = [topOf(ordered), topOf(draft)];
  if (top?.wood === undefined) return { lost, kept, topCutToSize: false };
  const isKept = next !== undefined && isSame(top, ordered, next, draft);
  const topCutToSize = next !== undefined && !isKept && becomesSmaller(top, ordered, next, draft);
  if (next !== undefined && (isKept || topCutToSize)) kept.set(top.id, next.id);
  else lost.add(top.id);
  return { lost, kept, topCutToSize };
}

/** Parts of metal and the like, which are bought cut to size: those that have a like in the new table and those that have none. */
export const materialFates = (ordered: Table, draft: Table): Omit<PartFates, 'topCutToSize'> =>
  likes(ordered, draft, ({ material }) => material !== undefined);

/** Parts with the part of the new table that is the same, and those for which there is none; each new part takes one old one. */
function likes(ordered: Table, draft: Table, isMeant: (part: Part, of: Table) => boolean) {
  const open = draft.parts.filter((part) => isMeant(part, draft));
  const kept = new Map<string, string>();
  const lost = new Set<string>();
  for (const part of ordered.parts) {
    if (!isMeant(part, ordered)) continue;
    const at = open.findIndex((other) => isSame(part, ordered, other, draft));
    const [like] = at === -1 ? [] : open.splice(at, 1);
    if (like === undefined) lost.add(part.id);
    else kept.set(part.id, like.id);
  }
  return { lost, kept };
}

const topOf = (table: Table): Part | undefined => table.parts.find(({ id }) => id === table.top.partId);

const near = (a: number, b: number): boolean => Math.abs(a - b) <= SAME_MM;
const alike = (a: number, b: number): boolean => Math.abs(a - b) <= SAME_RATIO * Math.max(a, b);

function isSame(part: Part, of: Table, other: Part, inTable: Table): boolean {
  return (
    part.role === other.role &&
    part.wood === other.wood &&
    part.material === other.material &&
    part.sawn === other.sawn &&
    part.boards === other.boards &&
    near(part.sizeMm.length, other.sizeMm.length) &&
    near(part.sizeMm.width, other.sizeMm.width) &&
    near(part.sizeMm.thickness, other.sizeMm.thickness) &&
    alike(volumeMm3(part.solid), volumeMm3(other.solid)) &&
    alike(skinAreaMm2(part.solid), skinAreaMm2(other.solid)) &&
    sameJoints(jointsOf(part, of), jointsOf(other, inTable))
  );
}

interface PartJoint {
  readonly kind: string;
  readonly tenonMm: number;
  /** How far from the middle of the part along its grain, either way: a mirror image is the same. */
  readonly alongMm: number;
}

/** Joints of a part with others than the top: what is cut into it. */
function jointsOf(part: Part, table: Table): readonly PartJoint[] {
  if (part.id === table.top.partId) return [];
  const middle = centroidMm(part.solid, part.placement);
  const along = part.grain?.L ?? [0, 0, 1];
  return table.joints
    .filter(({ a, b }) => (a === part.id || b === part.id) && a !== table.top.partId && b !== table.top.partId)
    .map(({ kind, tenonMm = 0, contact }) => {
      const points = contact.flat();
      const mean = [0, 1, 2].map((i) => points.reduce((total, p) => total + (p[i] ?? 0), 0) / Math.max(1, points.length));
      return { kind, tenonMm, alongMm: Math.abs(along.reduce((total, u, i) => total + u * ((mean[i] ?? 0) - (middle[i] ?? 0)), 0)) };
    })
    .toSorted((p, q) => p.alongMm - q.alongMm || p.tenonMm - q.tenonMm || (p.kind < q.kind ? -1 : p.kind > q.kind ? 1 : 0));
}

function sameJoints(one: readonly PartJoint[], other: readonly PartJoint[]): boolean {
  return (
    one.length === other.length &&
    one.every((joint, i) => {
      const like = other[i];
      return like !== undefined && joint.kind === like.kind && near(joint.tenonMm, like.tenonMm) && near(joint.alongMm, like.alongMm);
    })
  );
}

function becomesSmaller(top: Part, ordered: Table, next: Part, draft: Table): boolean {
  return (
    top.wood === next.wood &&
    top.sawn === next.sawn &&
    ordered.top.grainAlong === draft.top.grainAlong &&
    next.sizeMm.thickness <= top.sizeMm.thickness + SAME_MM &&
    volumeMm3(next.solid) <= volumeMm3(top.solid) * (1 + SAME_RATIO) &&
    rim(draft.top.outline).every((point) => outsideMm(ordered.top.outline, point) <= SAME_MM) &&
    // A corner of a hollow outline may lie within the edge of the new one.
    (ordered.top.outline.kind === 'ellipse' || ordered.top.outline.points.every((point) => !isWellInside(draft.top.outline, point)))
  );
}

function isWellInside(outline: Outline, [x, y]: Vec2): boolean {
  const around: readonly Vec2[] = [
    [x - SAME_MM, y],
    [x + SAME_MM, y],
    [x, y - SAME_MM],
    [x, y + SAME_MM],
  ];
  return around.every((point) => outsideMm(outline, point) === 0);
}

function rim(outline: Outline): readonly Vec2[] {
  if (outline.kind === 'polygon') return outline.points;
  return Array.from({ length: POINTS }, (_, i): Vec2 => {
    const turn = (2 * Math.PI * i) / POINTS;
    return [outline.rxMm * Math.cos(turn), outline.ryMm * Math.sin(turn)];
  });
}
