import type { AccessSpec } from '../spec/index.ts';
import type { Fit } from './assessment.ts';
import { largestBetween } from './extremum.ts';
import type { Say } from './say.ts';

type Piece = Fit['pieces'][number];
type Step = Fit['wayIn'][number];

/** Height of a passage whose height nobody gave, mm: common practice, near the height of a door. */
const usualHeightMm = 2000;

/** Steepest usual stair in a home. @source 42 degrees: Approved Document K (England), private stairs (from memory) */
const pitchRad = (42 * Math.PI) / 180;

/** Room to spare below which a piece passes only with care, mm: common practice (25 to 50 mm a side). */
const easyMm = 25;

/** Room to spare of a box on one step of the way, negative where it is stuck, and how it is carried. */
interface Passing {
  readonly spareMm: number;
  readonly how: string;
}

/** Every step of the way in for the pieces of the table: the hardest piece decides. */
export function wayInOf(access: readonly AccessSpec[], pieces: readonly Piece[], say: Say): readonly Step[] {
  return access.map((step, index) => {
    const answers = pieces.map((piece) => carry(step, piece, say));
    const hardest = answers.reduce((a, b) => (isHarder(b, a) ? b : a), nothingToCarry);
    return { index, says: step.says, result: hardest.result, why: hardest.why };
  });
}

interface Answer {
  readonly result: Step['result'];
  readonly spareMm: number;
  readonly why: string;
}

const nothingToCarry: Answer = { result: 'passes', spareMm: Number.POSITIVE_INFINITY, why: 'there is nothing to carry' };

const ranks: readonly Step['result'][] = ['passes', 'tight', 'not-proven', 'does-not-pass'];

function isHarder(a: Answer, b: Answer): boolean {
  const [rankA, rankB] = [ranks.indexOf(a.result), ranks.indexOf(b.result)];
  return rankA === rankB ? a.spareMm < b.spareMm : rankA > rankB;
}

function carry(step: AccessSpec, piece: Piece, say: Say): Answer {
  const name = nameOf(piece.parts);
  const sizes = [...piece.boxMm].sort((a, b) => b - a);
  const what = `${name}, ${say.sizes(sizes)}, ${say.mass(piece.massKg)}`;
  const passing = passingOf(step, piece);
  const { spareMm } = passing;
  if (passing.spareMm >= easyMm)
    return { result: 'passes', spareMm, why: `${what}: ${passing.how}, ${say.length(passing.spareMm)} to spare` };
  if (passing.spareMm >= 0)
    return { result: 'tight', spareMm, why: `${what}: ${passing.how}, only ${say.length(passing.spareMm)} to spare` };
  const certain = piece.parts.length === 1 && (step.kind === 'door' || step.kind === 'hatch');
  const how = `${what}: ${passing.how}, ${say.length(-passing.spareMm)} short`;
  return certain
    ? { result: 'does-not-pass', spareMm, why: how }
    : { result: 'not-proven', spareMm, why: `${how}: carry a template through first` };
}

/** `top`, `base, 8 parts` where all of them stand in one folder of names, else the first and how many come with it. */
function nameOf(parts: readonly string[]): string {
  const [first = 'the piece', ...others] = parts;
  if (others.length === 0) return first;
  const folder = first.slice(0, first.indexOf('/') + 1);
  if (folder !== '' && others.every((id) => id.startsWith(folder))) return `${folder.slice(0, -1)}, ${parts.length} parts`;
  return `${first} and ${others.length} more`;
}

function passingOf(step: AccessSpec, piece: Piece): Passing {
  const box = [...piece.boxMm].sort((a, b) => b - a) as [number, number, number];
  switch (step.kind) {
    case 'door':
    case 'hatch':
      return tiltedThrough(box, step.width.mm, step.height.mm);
    case 'passage': {
      const heightMm = step.height?.mm ?? usualHeightMm;
      if (!step.turn) return { spareMm: throughOpening(box, step.width.mm, heightMm), how: 'carried end on' };
      return { spareMm: roundCorner(box, step.width.mm, step.turnInto?.mm ?? step.width.mm, heightMm), how: 'carried round the corner' };
    }
    case 'stair': {
      const heightMm = step.headroom?.mm ?? usualHeightMm;
      if (step.winder) return { spareMm: turnedOnSteps(box, step.width.mm, heightMm), how: 'turned on a winding stair' };
      const flight = { spareMm: throughOpening(box, step.width.mm, heightMm * Math.cos(pitchRad)), how: 'carried end on up the flight' };
      if (step.landing === undefined) return flight;
      const landing = { spareMm: roundCorner(box, step.landing[0].mm, step.landing[1].mm, heightMm), how: 'turned on the landing' };
      return landing.spareMm < flight.spareMm ? landing : flight;
    }
  }
}

/** Room to spare of a box carried end on, its two smaller sides through a rectangle either way up, mm. */
function throughOpening(box: readonly [number, number, number], widthMm: number, heightMm: number): number {
  const [, middle, small] = box;
  return Math.max(Math.min(widthMm - middle, heightMm - small), Math.min(widthMm - small, heightMm - middle));
}

/**
 * A box carried end on through an opening, its two smaller sides tilted as they fit best: at angle t they take up
 * (p cos t + q sin t) x (p sin t + q cos t).
 * @source Carver, "Folding napkins and rectangles in rectangles", American Mathematical Monthly 64 (1957), for the same bound in closed
 * form (from memory)
 */
function tiltedThrough(box: readonly [number, number, number], widthMm: number, heightMm: number): Passing {
  const straightMm = throughOpening(box, widthMm, heightMm);
  if (straightMm >= 0) return { spareMm: straightMm, how: 'carried end on through the opening' };
  const [, p, q] = box;
  const spare = (t: number): number => Math.min(widthMm - p * Math.cos(t) - q * Math.sin(t), heightMm - p * Math.sin(t) - q * Math.cos(t));
  const tilted = largestBetween(spare, 0, Math.PI / 2);
  const how = tilted.value > straightMm + 1 ? 'carried end on and tilted through the opening' : 'carried end on through the opening';
  return { spareMm: tilted.value, how };
}

/**
 * A box upright on any of its sides, turned about itself on a winding stair: the diagonal of the other two must lie within the width, and
 * the headroom, measured from the steps, must hold the box over the rise of the steps below its diagonal.
 */
function turnedOnSteps(box: readonly [number, number, number], widthMm: number, headroomMm: number): number {
  const spares = uprights(box).map(([up, a, b]) => {
    const diagonalMm = Math.hypot(a, b);
    return Math.min(headroomMm - up - diagonalMm * Math.tan(pitchRad), widthMm - diagonalMm);
  });
  return Math.max(...spares);
}

function roundCorner(box: readonly [number, number, number], fromMm: number, intoMm: number, heightMm: number): number {
  return Math.max(
    ...uprights(box).map(([up, a, b]) => Math.min(heightMm - up, cornerSpareMm(Math.max(a, b), Math.min(a, b), fromMm, intoMm))),
  );
}

function uprights([a, b, c]: readonly [number, number, number]): readonly (readonly [number, number, number])[] {
  return [
    [a, b, c],
    [b, a, c],
    [c, a, b],
  ];
}

/**
 * Room to spare, mm, of a rectangle (length x thickness in plan) carried round a right-angled corner from a passage of one width into
 * one of another: turned with both ends along the outer walls, the inner corner keeps
 * `a cos t + b sin t - L sin t cos t - thickness` at every angle t; or, without turning, pushed sideways into the second passage.
 * With no thickness the longest length is (a^(2/3) + b^(2/3))^(3/2).
 * @source the ladder problem of elementary calculus, e.g. Stewart, Calculus, applied maxima and minima (from memory)
 */
export function cornerSpareMm(lengthMm: number, thicknessMm: number, fromMm: number, intoMm: number): number {
  const short = (t: number): number => lengthMm * Math.sin(t) * Math.cos(t) + thicknessMm - fromMm * Math.cos(t) - intoMm * Math.sin(t);
  const turned = -largestBetween(short, 0, Math.PI / 2).value;
  const sideways = Math.max(Math.min(fromMm - thicknessMm, intoMm - lengthMm), Math.min(intoMm - thicknessMm, fromMm - lengthMm));
  return Math.max(turned, sideways);
}
