import type { Vec2, Vec3 } from '../solid/index.ts';
import type { Library } from '../spec/index.ts';
import type { Board } from './boards.ts';
import { boardsOf } from './boards.ts';
import { blend, coloursOf, lit } from './colour.ts';
import type { PieceFace } from './convex.ts';
import type { Mark, PathStep } from './display-list.ts';
import { grainLines, isEndGrain } from './grain.ts';
import { paperInks } from './line-weights.ts';
import type { Shape } from './shape.ts';
import type { Stage } from './stage.ts';
import { between, dot, hull, keepSide } from './vector.ts';

export interface PaintStyle {
  readonly library: Library;
  /** Picture coordinates to the sheet. */
  readonly toSheet: (p: readonly [number, number, ...unknown[]]) => Vec2;
  /** Share of the wood's colour; the rest is paper. 1 for a picture, less under the lines of a drawing. */
  readonly tint: number;
  /** How bright a face with this normal is. */
  readonly light: (normal: Vec3) => number;
  /** Distance of the drawn rings, mm of the world; absent: no grain. */
  readonly ringSpacingMm?: number;
}

export const closed = (points: readonly Vec2[]): PathStep[] => [...points.map(([x, y], i): PathStep => [i === 0 ? 'M' : 'L', x, y]), ['Z']];

export const open = (points: readonly Vec2[]): PathStep[] => points.map(([x, y], i): PathStep => [i === 0 ? 'M' : 'L', x, y]);

/** Runs of faces of one convex piece, in painting order: none of a run hides another. */
function runsOf(faces: readonly PieceFace[]): PieceFace[][] {
  const runs: PieceFace[][] = [];
  for (const face of faces) {
    const last = runs.at(-1);
    if (last !== undefined && last[0]?.run === face.run) last.push(face);
    else runs.push([face]);
  }
  return runs;
}

/** Brightness of curved faces goes in steps, so that neighbours share a fill. */
const CURVE_STEP = 0.025;

/** Faces of pieces of one part are drawn a little too wide, so that no gap shows between them; less than the line that ends the part. */
const BLEED_MM = 0.25;

/** Steps of paths gathered by colour, in order of first use. */
function gather(byColour: Map<string, PathStep[]>, colour: string, steps: readonly PathStep[]): void {
  const list = byColour.get(colour);
  if (list === undefined) byColour.set(colour, [...steps]);
  else list.push(...steps);
}

const marksOf = (byColour: ReadonlyMap<string, readonly PathStep[]>, make: (colour: string, steps: readonly PathStep[]) => Mark): Mark[] =>
  [...byColour].filter(([, steps]) => steps.length > 0).map(([colour, steps]) => make(colour, steps));

/** Wholly behind one nearer face: not worth a mark. Exact, because faces are convex. */
function isCovered(face: PieceFace, later: readonly PieceFace[]): boolean {
  return later.some(({ points }) =>
    face.points.every(([u, v]) =>
      points.every((p, i) => {
        const q = points[(i + 1) % points.length] ?? p;
        return (q[0] - p[0]) * (v - p[1]) - (q[1] - p[1]) * (u - p[0]) >= -1e-9;
      }),
    ),
  );
}

/** Faces in painting order as flat shaded marks, with boards, joint lines and grain. */
export function paintFaces(stage: Stage, ordered: readonly PieceFace[], style: PaintStyle): Mark[] {
  const large = ordered.filter((f) => f.face.band === undefined);
  const position = new Map(ordered.map((f, i) => [f, i]));
  const faces = ordered.filter(
    (f, i) =>
      !isCovered(
        f,
        large.filter((g) => (position.get(g) ?? 0) > i && g.shape !== f.shape),
      ),
  );
  const boards = new Map<Shape, Board[]>();
  return runsOf(faces).flatMap((run) => {
    const shape = run[0]?.shape;
    if (shape === undefined) return [];
    if (!boards.has(shape)) boards.set(shape, boardsOf(shape));
    return paintRun(run, shape, boards.get(shape) ?? [], stage, style);
  });
}

function paintRun(run: readonly PieceFace[], shape: Shape, boards: readonly Board[], stage: Stage, style: PaintStyle): Mark[] {
  const colours = coloursOf(shape.part, style.library);
  const tinted = (colour: string): string => blend(paperInks.paper, colour, style.tint);
  const partId = shape.part.id;
  const toSheet = (p: Vec3): Vec2 => style.toSheet(stage.projection.project(p));
  const curved = run.filter((f) => f.face.band !== undefined);
  const under = curved.length > 1 ? [underlay(curved, colours.face, partId, tinted, style)] : [];
  const curvedLight = curved.reduce((sum, f) => sum + style.light(f.face.normal), 0) / Math.max(1, curved.length);
  const fills = new Map<string, PathStep[]>();
  const grain = new Map<string, PathStep[]>();
  const seams = new Map<string, PathStep[]>();
  for (const { face, world } of run) {
    const light = style.light(face.normal);
    const stepped = face.band === undefined ? light : Math.round(light / CURVE_STEP) * CURVE_STEP;
    const lineLight = face.band === undefined ? light : curvedLight;
    for (const board of boards.length === 0 ? [undefined] : boards) {
      const part = board === undefined || boards.length === 1 ? world : strip(world, board);
      if (part.length === 0) continue;
      const end = board !== undefined && isEndGrain(board, face.normal);
      const base = end ? blend(colours.face, colours.end, 0.45) : colours.face;
      const own = board?.brightness ?? 1;
      gather(fills, tinted(lit(base, stepped * own)), closed(part.map(toSheet)));
      if (board === undefined || style.ringSpacingMm === undefined) continue;
      const spacing = end ? style.ringSpacingMm * 0.6 : style.ringSpacingMm;
      const ink = tinted(lit(blend(base, colours.grain, end ? 0.55 : 0.5), Math.min(lineLight * own, 1) * 0.97));
      for (const line of grainLines(board, part, face.normal, spacing)) gather(grain, ink, open(line.map(toSheet)));
      if (boards.length > 1 && face.band === undefined)
        gather(seams, tinted(lit(colours.grain, 0.84 * light)), seamOf(part, board, boards, toSheet));
    }
  }
  return [
    ...under,
    ...marksOf(fills, (fill, steps) => ({ kind: 'face', fill, partId, ...(shape.pieces.length > 1 ? { bleedMm: BLEED_MM } : {}), steps })),
    ...marksOf(grain, (colour, steps) => ({ kind: 'line', class: 'grain', colour, steps })),
    ...marksOf(seams, (colour, steps) => ({ kind: 'line', class: 'hairline', colour, steps })),
  ];
}

/** Facets of a curve leave hair-thin gaps when they are filled one by one; their common shadow lies under them. */
function underlay(faces: readonly PieceFace[], colour: string, partId: string, tinted: (c: string) => string, style: PaintStyle): Mark {
  const mean = faces.reduce((sum, f) => sum + style.light(f.face.normal), 0) / faces.length;
  const around = hull(faces.flatMap((f) => f.points.map(([u, v]): Vec2 => [u, v])));
  return { kind: 'face', fill: tinted(lit(colour, mean)), partId, steps: closed(around.map((p) => style.toSheet(p))) };
}

/** What of a face lies on one board. */
function strip(points: readonly Vec3[], { across, fromMm, toMm }: Board): Vec3[] {
  const above = keepSide(points, (p) => dot(p, across) - fromMm, between);
  return keepSide(above, (p) => toMm - dot(p, across), between);
}

/** The glue line at the far side of a board, where the next one begins. */
function seamOf(part: readonly Vec3[], board: Board, boards: readonly Board[], toSheet: (p: Vec3) => Vec2): PathStep[] {
  if (board === boards.at(-1)) return [];
  const on = part.filter((p) => Math.abs(dot(p, board.across) - board.toMm) < 1e-6);
  const [a, b] = [on[0], on.at(-1)];
  return a === undefined || b === undefined || a === b ? [] : open([toSheet(a), toSheet(b)]);
}
