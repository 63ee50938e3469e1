import type { Part, Table } from '../design/index.ts';
import type { Vec2, Vec3 } from '../solid/index.ts';
import type { Library } from '../spec/index.ts';
import { type ApartLabel, drawLabels, labelWidthMm, seenPoint } from './apart-labels.ts';
import { type ApartPiece, type MovedPiece, moveApart, trailsOf } from './apart-moves.ts';
import { brightness } from './colour.ts';
import type { Mark, MeasureText, Sheet } from './display-list.ts';
import type { Visibility } from './hidden-lines.ts';
import { findLines } from './hidden-lines.ts';
import { mergeLines } from './merge-lines.ts';
import { open, paintFaces } from './paint.ts';
import { paintOrder } from './paint-order.ts';
import { orthographic, type Projection } from './projection.ts';
import { type Shape, shapeOf } from './shape.ts';
import { setStage } from './stage.ts';
import { cross, plus } from './vector.ts';

/** A piece that comes off, with what is written beside it: its mass as shown, `27 kg (60 lb)`. */
export interface NumberedPiece extends ApartPiece {
  readonly mass: string;
}

/** Where the eye stands: a little to the left of the front, as for the picture, and low, so that a lifted top hides little. */
const AZIMUTH_DEG = 33;
const ELEVATION_DEG = 17;
/** Clear height between the base and a lifted top, in the picture, mm of the world. */
const BELOW_TOP_MM = 90;
/** Chord error of round parts, mm of the world. */
const CHORD_MM = 1;
const COARSE_MM = 10;

/** One sheet for a telephone and for paper: the lettering is 12 px high where the sheet is 350 px wide. */
const WIDTH_MM = 116;
const PAD_MM = 2;
const COLUMN_GAP_MM = 3;
/** Height of the drawing at most, as a share of its width. */
const HEIGHT_SHARE = 1.25;
/** Share of the wood's colour: lines and numbers have to be read on it. */
const TINT = 0.7;

/** Lines of the picture of the table: what is hidden is left out. */
const lineClasses: Readonly<Record<Visibility, 'contour' | 'crease' | undefined>> = {
  outline: 'contour',
  edge: 'crease',
  hidden: undefined,
};

function eyeFromFront(): Projection {
  const [a, e] = [(AZIMUTH_DEG * Math.PI) / 180, (ELEVATION_DEG * Math.PI) / 180];
  const eye: Vec3 = [-Math.sin(a) * Math.cos(e), -Math.cos(a) * Math.cos(e), Math.sin(e)];
  const right: Vec3 = [Math.cos(a), -Math.sin(a), 0];
  return orthographic(right, cross(eye, right));
}

const movedParts = ({ parts, offsetMm }: MovedPiece): readonly Part[] =>
  parts.map((part) => ({ ...part, placement: { ...part.placement, originMm: plus(part.placement.originMm, offsetMm) } }));

const shapesOf = (piece: MovedPiece, chordMm: number): readonly Shape[] => movedParts(piece).map((part) => shapeOf(part, chordMm));

const pointsOf = (shapes: readonly Shape[], { project }: Projection): readonly Vec3[] =>
  shapes.flatMap(({ pieces }) => pieces.flatMap(({ points }) => points.map(project)));

/** How far a top rises until all of it stands above all that stays, as the eye sees it, mm. */
function liftFor(projection: Projection): (top: readonly Part[], placed: readonly MovedPiece[]) => number {
  return (top, placed) => {
    const heights = (pieces: readonly MovedPiece[]): readonly number[] =>
      pieces.flatMap((piece) => pointsOf(shapesOf(piece, COARSE_MM), projection).map(([, v]) => v));
    const low = Math.min(...heights([{ parts: top, offsetMm: [0, 0, 0] }]));
    const high = Math.max(...heights(placed));
    return (high + BELOW_TOP_MM - low) / Math.cos((ELEVATION_DEG * Math.PI) / 180);
  };
}

/**
 * The table drawn apart: every piece moved along its way off, its number in the order in which it comes off, its mass, and thin lines
 * along the ways. Parallel projection, edges that are hidden left out. Undefined where there are fewer than two pieces, so nothing to
 * take apart. Sheet mm; one sheet for page and paper.
 *
 * @param pieces in the order in which they come off; the last one stays
 */
export function drawApart(
  table: Table,
  pieces: readonly NumberedPiece[],
  library: Library,
  measure: MeasureText,
  words: Pick<Sheet, 'title' | 'description'>,
): Sheet | undefined {
  if (pieces.length < 2) return undefined;
  const projection = eyeFromFront();
  const moved = moveApart(table, pieces, liftFor(projection));
  const shapes = moved.map((piece) => shapesOf(piece, CHORD_MM));
  const stage = setStage(shapes.flat(), projection);
  const trails = trailsOf(table, moved).map(({ fromMm, toMm }) => ({ a: projection.project(fromMm), b: projection.project(toMm) }));
  const points = pointsOf(shapes.flat(), projection);
  const [us, vs] = [points.map(([u]) => u), points.map(([, v]) => v)];
  const [left, right, low, high] = [Math.min(...us), Math.max(...us), Math.min(...vs), Math.max(...vs)];

  const labelLines = pieces.map(({ mass }) => ({ lines: mass.split(/\s(?=\()/) }));
  const columnMm = labelWidthMm(labelLines, measure) + COLUMN_GAP_MM;
  const drawnMm = WIDTH_MM - 2 * PAD_MM - 2 * columnMm;
  const perMm = Math.min(drawnMm / (right - left), (drawnMm * HEIGHT_SHARE) / (high - low));
  const heightMm = (high - low) * perMm + 2 * PAD_MM;
  const toSheet = ([u, v]: readonly [number, number, ...unknown[]]): Vec2 => [
    WIDTH_MM / 2 + (u - (left + right) / 2) * perMm,
    PAD_MM + (high - v) * perMm,
  ];

  const labels = shapes.flatMap((own, i): readonly ApartLabel[] => {
    const at = seenPoint(own, stage) ?? pointsOf(own, projection)[0];
    return at === undefined ? [] : [{ number: String(i + 1), lines: labelLines[i]?.lines ?? [], at: toSheet(at) }];
  });
  const isLeft = sidesOf(labels);
  const room = { topMm: PAD_MM, bottomMm: heightMm - PAD_MM };
  const lines = mergeLines(findLines(stage), 0.05).flatMap(({ visibility, points: along }): readonly Mark[] => {
    const lineClass = lineClasses[visibility];
    return lineClass === undefined ? [] : [{ kind: 'line', class: lineClass, steps: open(along.map(toSheet)) }];
  });
  const ways = findLines({ ...stage, edges: trails })
    .filter(({ visibility }) => visibility !== 'hidden')
    .map(({ a, b }): Mark => ({ kind: 'line', class: 'extension', steps: open([toSheet(a), toSheet(b)]) }));
  return {
    id: 'apart',
    ...words,
    widthMm: WIDTH_MM,
    heightMm,
    marks: [
      ...paintFaces(stage, paintOrder(stage), { library, toSheet, tint: TINT, light: brightness, ringSpacingMm: Math.max(8, 1.1 / perMm) }),
      ...ways,
      ...lines,
      ...drawLabels(
        labels.filter((_, i) => isLeft[i] === true),
        'left',
        { ...room, outerMm: PAD_MM },
        measure,
      ),
      ...drawLabels(
        labels.filter((_, i) => isLeft[i] !== true),
        'right',
        { ...room, outerMm: WIDTH_MM - PAD_MM },
        measure,
      ),
    ],
  };
}

/** Which labels go to the left: those of the left half; what lies in the middle goes where fewer are. */
function sidesOf(labels: readonly ApartLabel[]): readonly boolean[] {
  const byX = [...labels.keys()].toSorted((i, j) => (labels[i]?.at[0] ?? 0) - (labels[j]?.at[0] ?? 0));
  const left = new Set(byX.slice(0, Math.floor(labels.length / 2)));
  return labels.map((_, i) => left.has(i));
}
