import type { Vec2, Vec3 } from '../solid/index.ts';
import type { Mark, MeasureText } from './display-list.ts';
import { capHeight, lettering, type TextMark } from './lettering.ts';
import type { Shape, ShapeFace } from './shape.ts';
import { looksAtEye, type SeenFace, type Stage } from './stage.ts';
import { centre, nth, plus, times } from './vector.ts';

/** What is written beside a piece: its number, and lines below it. */
export interface ApartLabel {
  readonly number: string;
  readonly lines: readonly string[];
  /** A point of the piece that is seen, on the sheet. */
  readonly at: Vec2;
}

/** Type of numbers and masses, mm: 12 px where the sheet is as wide as a telephone's column. */
const TYPE_MM = 4;
const LEADING_MM = 5;
const BALLOON_MM = 3.1;
const DOT_MM = 0.6;
/** Space between a balloon and its words, and between two labels. */
const SPACE_MM = 1.4;

/** In mm of the world: nearness that counts as in front. */
const IN_FRONT_MM = 0.05;

const covers = ({ sides, slope }: SeenFace, [u, v, near]: Vec3, guard: number): boolean => {
  if (slope[0] * u + slope[1] * v + slope[2] <= near + guard) return false;
  for (let i = 0; i < sides.length; i += 3) {
    if ((sides[i] as number) * u + (sides[i + 1] as number) * v + (sides[i + 2] as number) < 0) return false;
  }
  return true;
};

/** Distance of a point to the nearest side of a polygon of the picture. */
function clearance(points: readonly Vec3[], [u, v]: Vec3): number {
  return Math.min(
    ...points.map((a, i) => {
      const b = nth(points, i + 1);
      const [du, dv] = [b[0] - a[0], b[1] - a[1]];
      const length = Math.hypot(du, dv);
      return length === 0 ? Number.POSITIVE_INFINITY : Math.abs(du * (v - a[1]) - dv * (u - a[0])) / length;
    }),
  );
}

function candidates(face: ShapeFace, stage: Stage): readonly { readonly at: Vec3; readonly roomMm: number }[] {
  const points = face.points.map(stage.projection.project);
  const middle = centre(points);
  const towards = points.flatMap((p) => [0.35, 0.7].map((t): Vec3 => plus(times(middle, 1 - t), times(p, t))));
  return [middle, ...towards].map((at) => ({ at, roomMm: clearance(points, at) }));
}

/** The point of these shapes that is seen with the most room round it, in picture coordinates; undefined where all is hidden. */
export function seenPoint(shapes: readonly Shape[], stage: Stage): Vec3 | undefined {
  const guard = IN_FRONT_MM * stage.projection.unitsPerMm;
  const [best] = shapes
    .flatMap(({ faces }) => faces)
    .filter((face) => looksAtEye(face, stage.projection))
    .flatMap((face) => candidates(face, stage))
    .filter(({ at }) => !stage.faces.some((face) => covers(face, at, guard)))
    .toSorted((a, b) => b.roomMm - a.roomMm);
  return best?.at;
}

const circle = ([x, y]: Vec2, r: number): Extract<Mark, { readonly kind: 'line' }>['steps'] => [
  ['M', x - r, y],
  ['A', r, r, 0, 1, 1, x + r, y],
  ['A', r, r, 0, 1, 1, x - r, y],
  ['Z'],
];

const heightOf = ({ lines }: ApartLabel): number => Math.max(2 * BALLOON_MM, lines.length * LEADING_MM);

/** Width of the column that labels need, mm. */
export function labelWidthMm(labels: readonly Pick<ApartLabel, 'lines'>[], measure: MeasureText): number {
  return 2 * BALLOON_MM + SPACE_MM + Math.max(0, ...labels.flatMap(({ lines }) => lines.map((line) => measure(line, TYPE_MM, 'sans'))));
}

/** Heights of labels in a column: as near their points as they get without touching, from `top` to `bottom` where there is room. */
function spread(labels: readonly ApartLabel[], top: number, bottom: number): readonly number[] {
  const ys: number[] = [];
  let free = top;
  for (const label of labels) {
    const half = heightOf(label) / 2;
    const y = Math.max(free + half, label.at[1]);
    ys.push(y);
    free = y + half + SPACE_MM;
  }
  let limit = bottom;
  for (const i of [...labels.keys()].toReversed()) {
    const label = labels[i];
    if (label === undefined) continue;
    const half = heightOf(label) / 2;
    ys[i] = Math.min(ys[i] ?? 0, limit - half);
    limit = (ys[i] ?? 0) - half - SPACE_MM;
  }
  return ys;
}

/** Numbers in circles in a column at the left or right, each with its words and a line to its piece. */
export function drawLabels(
  labels: readonly ApartLabel[],
  side: 'left' | 'right',
  room: { readonly outerMm: number; readonly topMm: number; readonly bottomMm: number },
  measure: MeasureText,
): readonly Mark[] {
  const inColumn = labels.toSorted((a, b) => a.at[1] - b.at[1]);
  const ys = spread(inColumn, room.topMm, room.bottomMm);
  const inward = side === 'left' ? 1 : -1;
  const width = labelWidthMm(inColumn, measure);
  return inColumn.flatMap((label, i): readonly Mark[] => {
    const y = ys[i] ?? label.at[1];
    // The balloon stands at the inner end, beside the drawing.
    const middle: Vec2 = [room.outerMm + inward * (width - BALLOON_MM), y];
    const [dx, dy] = [label.at[0] - middle[0], label.at[1] - middle[1]];
    const length = Math.hypot(dx, dy) || 1;
    const from: Vec2 = [middle[0] + (dx / length) * BALLOON_MM, middle[1] + (dy / length) * BALLOON_MM];
    const first = y - ((label.lines.length - 1) * LEADING_MM) / 2 + capHeight(TYPE_MM) / 2;
    const textX = middle[0] - inward * (BALLOON_MM + SPACE_MM);
    const words = label.lines.map(
      (line, k): TextMark =>
        lettering(line, [textX, first + k * LEADING_MM], measure, { sizeMm: TYPE_MM, anchor: side === 'left' ? 'end' : 'start' }),
    );
    return [
      {
        kind: 'line',
        class: 'extension',
        steps: [
          ['M', from[0], from[1]],
          ['L', label.at[0], label.at[1]],
        ],
      },
      { kind: 'tick', steps: circle(label.at, DOT_MM) },
      { kind: 'line', class: 'fixing', steps: circle(middle, BALLOON_MM) },
      lettering(label.number, [middle[0], y + capHeight(TYPE_MM) / 2], measure, { sizeMm: TYPE_MM, anchor: 'middle' }),
      ...words,
    ];
  });
}
