import type { Table } from '../design/index.ts';
import type { Vec2, Vec3 } from '../solid/index.ts';
import type { Library } from '../spec/index.ts';
import { brightness } from './colour.ts';
import type { Mark, Sheet } from './display-list.ts';
import type { Visibility } from './hidden-lines.ts';
import { findLines } from './hidden-lines.ts';
import { mergeLines } from './merge-lines.ts';
import { open, paintFaces } from './paint.ts';
import { paintOrder } from './paint-order.ts';
import type { Projection } from './projection.ts';
import { perspective } from './projection.ts';
import { shadowReach, softShadow } from './shadow.ts';
import { shapeOf } from './shape.ts';
import { setStage } from './stage.ts';

/** One camera, scale and floor line for the pictures of all designs of a proposal. */
export interface PictureFrame {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly eyeMm: Vec3;
  readonly targetMm: Vec3;
  /** Sheet mm per mm of the world at the middle of the tables. */
  readonly unitsPerMm: number;
  /** Where the target falls on the sheet. */
  readonly targetOnSheetMm: Vec2;
}

const WIDTH_MM = 120;
const PAD_MM = 2;
/** The eye of a person who stands a little to the left of the front; degrees from the front, height in mm. */
const AZIMUTH_DEG = 33;
const EYE_HEIGHT_MM = 1700;
const LEAST_DISTANCE_MM = 3400;
/** Chord error of round parts, mm of the world: under a tenth of a millimetre on the picture. */
const CHORD_MM = 0.7;
/** The same for shadows and for the size of the picture. */
const COARSE_MM = 5;

function bounds(points: readonly Vec3[]): { readonly low: Vec2; readonly high: Vec2 } {
  let [left, low, right, high] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const [u, v] of points) {
    [left, right, low, high] = [Math.min(left, u), Math.max(right, u), Math.min(low, v), Math.max(high, v)];
  }
  return { low: [left, low], high: [right, high] };
}

/**
 * The frame that the pictures of these tables share: the eye stands off far enough for the largest, the scale lets every
 * table and its shadow fit the same width, and the floor under every table's middle falls on one line.
 */
export function sharedFrame(tables: readonly Table[]): PictureFrame {
  const longest = Math.max(...tables.map((t) => Math.hypot(t.overallMm.length, t.overallMm.width)), 1000);
  const tallest = Math.max(...tables.map((t) => t.overallMm.height), 400);
  const distance = Math.max(LEAST_DISTANCE_MM, 2.2 * longest);
  const azimuth = (AZIMUTH_DEG * Math.PI) / 180;
  const eyeMm: Vec3 = [-distance * Math.sin(azimuth), -distance * Math.cos(azimuth), EYE_HEIGHT_MM];
  const targetMm: Vec3 = [0, 0, tallest / 2];
  const plain = perspective({ eyeMm, targetMm, unitsPerMm: 1 });
  const points = tables.flatMap((table) => {
    const shapes = table.parts.map((part) => shapeOf(part, COARSE_MM));
    return [...shapes.flatMap((s) => s.pieces.flatMap((p) => p.points)), ...shadowReach(shapes)].map(plain.project);
  });
  const { low, high } = points.length === 0 ? { low: [-1, -1] as const, high: [1, 1] as const } : bounds(points);
  const unitsPerMm = (WIDTH_MM - 2 * PAD_MM) / (high[0] - low[0]);
  return {
    widthMm: WIDTH_MM,
    heightMm: (high[1] - low[1]) * unitsPerMm + 2 * PAD_MM,
    eyeMm,
    targetMm,
    unitsPerMm,
    targetOnSheetMm: [PAD_MM - low[0] * unitsPerMm, PAD_MM + high[1] * unitsPerMm],
  };
}

/** How lines of a picture are drawn: lighter than those of a drawing, and nothing that is hidden. */
const pictureLines: Readonly<Record<Visibility, 'contour' | 'crease' | undefined>> = {
  outline: 'contour',
  edge: 'crease',
  hidden: undefined,
};

/** Perspective picture of a table: shadow, faces with grain, thin outlines. */
export function drawPicture(table: Table, library: Library, frame: PictureFrame, words: Pick<Sheet, 'title' | 'description'>): Sheet {
  const projection: Projection = perspective(frame);
  const shapes = table.parts.map((part) => shapeOf(part, CHORD_MM));
  const coarse = table.parts.map((part) => shapeOf(part, COARSE_MM));
  const stage = setStage(shapes, projection);
  const [x0, y0] = frame.targetOnSheetMm;
  const toSheet = (p: readonly [number, number, ...unknown[]]): Vec2 => [x0 + p[0], y0 - p[1]];
  const ringSpacingMm = Math.max(6, 0.85 / frame.unitsPerMm);
  const lines = mergeLines(findLines(stage), 0.02).flatMap(({ visibility, points }): Mark[] => {
    const lineClass = pictureLines[visibility];
    return lineClass === undefined ? [] : [{ kind: 'line', class: lineClass, steps: open(points.map(toSheet)) }];
  });
  return {
    id: 'picture',
    ...words,
    widthMm: frame.widthMm,
    heightMm: frame.heightMm,
    marks: [
      ...softShadow(coarse, projection, toSheet),
      ...paintFaces(stage, paintOrder(stage), { library, toSheet, tint: 1, light: brightness, ringSpacingMm }),
      ...lines,
    ],
  };
}
