import type { Vec3 } from '../solid/index.ts';
import { boundsMm, centroidMm, skinAreaMm2, volumeMm3 } from '../solid/index.ts';
import type { Library } from '../spec/index.ts';
import type { PartDraft } from './draft.ts';
import { frameMatrix, grainFrame } from './grain.ts';
import type { Part } from './table.ts';

/** Widest single board that a shop counts on, mm; anything wider is glued up. Common practice. */
export const WIDEST_BOARD_MM = 220;

/** Usual width of a board in a glue-up where the maker said none, mm. Common practice. */
export const USUAL_BOARD_MM = 150;

/** Boards glued edge to edge to make a width. */
export function boardsAcross(widthMm: number, boardWidthMm: number | undefined): number {
  if (boardWidthMm === undefined && widthMm <= WIDEST_BOARD_MM) return 1;
  // A micrometre of rounding in inches must not cost a board.
  return Math.max(1, Math.ceil(widthMm / (boardWidthMm ?? USUAL_BOARD_MM) - 1e-6));
}

/** A part whose like among the others is not known yet. */
export type UntypedPart = Omit<Part, 'type'>;

/** A finished part: sizes along the grain frame, boards, density. Its type is given later, when all parts are known. */
export function finishPart(draft: PartDraft, library: Library): UntypedPart {
  const frame = grainFrame(draft.grainAlong, draft.across, draft.sawn);
  const { minMm, maxMm } = boundsMm(draft.solid, draft.placement, frameMatrix(frame));
  const [length, r, t] = [maxMm[0] - minMm[0], maxMm[1] - minMm[1], maxMm[2] - minMm[2]];
  const width = Math.max(r, t);
  const boards = draft.isMaterial === true ? 1 : boardsAcross(width, draft.boardWidthMm);
  const density = draft.isMaterial === true ? library.materials[draft.stuff]?.densityKgM3 : library.woods[draft.stuff]?.densityKgM3;
  return {
    id: draft.id,
    role: draft.role,
    name: draft.name,
    ...(draft.isMaterial === true ? { material: draft.stuff } : { wood: draft.stuff, grain: frame }),
    densityKgM3: density ?? 0,
    solid: draft.solid,
    placement: draft.placement,
    sawn: draft.sawn,
    sizeMm: { length, width, thickness: Math.min(r, t) },
    boards,
    features: boards > 1 ? [...draft.features, 'glued-up'] : draft.features,
    from: draft.from,
  };
}

/** Sizes closer than this, mm, and volumes and skins closer than this share, are the same to a workshop. */
const SAME_MM = 0.01;
const SAME_RATIO = 1e-4;

interface Shape {
  readonly part: UntypedPart;
  readonly volumeMm3: number;
  readonly skinMm2: number;
}

/** Same wood, use, sizes, volume and skin: the same finished shape, or its mirror image. */
function isSameShape(a: Shape, b: Shape): boolean {
  const [p, q] = [a.part, b.part];
  if (p.role !== q.role || p.wood !== q.wood || p.material !== q.material || p.sawn !== q.sawn) return false;
  const alike = (x: number, y: number): boolean => Math.abs(x - y) <= SAME_RATIO * Math.max(x, y);
  return (
    Math.abs(p.sizeMm.length - q.sizeMm.length) <= SAME_MM &&
    Math.abs(p.sizeMm.width - q.sizeMm.width) <= SAME_MM &&
    Math.abs(p.sizeMm.thickness - q.sizeMm.thickness) <= SAME_MM &&
    alike(a.volumeMm3, b.volumeMm3) &&
    alike(a.skinMm2, b.skinMm2)
  );
}

/** Gives each part its type: the id of the first part of its shape, without folder and place words. */
export function withTypes(parts: readonly UntypedPart[]): readonly Part[] {
  const known: (Shape & { readonly type: string })[] = [];
  return parts.map((part) => {
    const shape = { part, volumeMm3: volumeMm3(part.solid), skinMm2: skinAreaMm2(part.solid) };
    const found = known.find((one) => isSameShape(one, shape));
    if (found !== undefined) return { ...part, type: found.type };
    const type = freshName(baseName(part.id), new Set(known.map((one) => one.type)));
    known.push({ ...shape, type });
    return { ...part, type };
  });
}

const PLACE_WORDS = /-(front|back|left|right|middle)\b/g;

const baseName = (id: string): string => id.slice(id.indexOf('/') + 1).replaceAll(PLACE_WORDS, '');

function freshName(name: string, taken: ReadonlySet<string>): string {
  if (!taken.has(name)) return name;
  for (let n = 2; ; n++) if (!taken.has(`${name}-${n}`)) return `${name}-${n}`;
}

/** Volume of a part less what is cut away where others are let in, mm3, and its middle in the table's frame. */
export function partVolume(part: Part): { readonly volumeMm3: number; readonly centroidMm: Vec3 } {
  const whole = volumeMm3(part.solid);
  const at = centroidMm(part.solid, part.placement);
  let left = whole;
  let moment: Vec3 = [at[0] * whole, at[1] * whole, at[2] * whole];
  for (const cut of part.letIn ?? []) {
    left -= cut.volumeMm3;
    moment = [
      moment[0] - cut.centroidMm[0] * cut.volumeMm3,
      moment[1] - cut.centroidMm[1] * cut.volumeMm3,
      moment[2] - cut.centroidMm[2] * cut.volumeMm3,
    ];
  }
  return { volumeMm3: left, centroidMm: [moment[0] / left, moment[1] / left, moment[2] / left] };
}

/** Mass of a part, kg, less what is cut away where others are let in. */
export const partMassKg = (part: Part): number => partVolume(part).volumeMm3 * 1e-9 * part.densityKgM3;
