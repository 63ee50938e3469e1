import type { BoxMm, Mark, PathStep } from './display-list.ts';

/** Marks that are laid out as one, with the room they take. */
export interface Block {
  readonly marks: readonly Mark[];
  readonly box: BoxMm;
}

function moveStep(step: PathStep, dx: number, dy: number): PathStep {
  switch (step[0]) {
    case 'Z':
      return step;
    case 'A':
      return ['A', step[1], step[2], step[3], step[4], step[5], step[6] + dx, step[7] + dy];
    case 'C':
      return ['C', step[1] + dx, step[2] + dy, step[3] + dx, step[4] + dy, step[5] + dx, step[6] + dy];
    default:
      return [step[0], step[1] + dx, step[2] + dy];
  }
}

export function moveMark(mark: Mark, dx: number, dy: number): Mark {
  if (mark.kind === 'text') {
    const { x, y, width, height } = mark.boxMm;
    return { ...mark, atMm: [mark.atMm[0] + dx, mark.atMm[1] + dy], boxMm: { x: x + dx, y: y + dy, width, height } };
  }
  return { ...mark, steps: mark.steps.map((s) => moveStep(s, dx, dy)) };
}

/** The room that marks take: ends of lines, corners of faces, boxes of texts; arcs by their ends. */
export function reachOfMarks(marks: readonly Mark[]): BoxMm {
  let [left, top, right, bottom] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const take = (x: number, y: number): void => {
    [left, right, top, bottom] = [Math.min(left, x), Math.max(right, x), Math.min(top, y), Math.max(bottom, y)];
  };
  for (const mark of marks) {
    if (mark.kind === 'text') {
      take(mark.boxMm.x, mark.boxMm.y);
      take(mark.boxMm.x + mark.boxMm.width, mark.boxMm.y + mark.boxMm.height);
    } else for (const step of mark.steps) if (step[0] !== 'Z') take(step.at(-2) as number, step.at(-1) as number);
  }
  return left > right ? { x: 0, y: 0, width: 0, height: 0 } : { x: left, y: top, width: right - left, height: bottom - top };
}

export function moveBlock({ marks, box }: Block, dx: number, dy: number): Block {
  return { marks: marks.map((m) => moveMark(m, dx, dy)), box: { ...box, x: box.x + dx, y: box.y + dy } };
}
