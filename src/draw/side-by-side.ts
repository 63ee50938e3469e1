import type { Mark, MeasureText, PathStep, Sheet } from './display-list.ts';
import { lettering } from './lettering.ts';

/** Space between two pictures, as a share of the wider one. */
const GAP_SHARE = 0.06;
/** Height of a caption, as a share of the widest picture; its lettering takes half of it. */
const CAPTION_SHARE = 0.09;
const LETTERING_SHARE = 0.5;

function movedStep(step: PathStep, xMm: number, yMm: number): PathStep {
  switch (step[0]) {
    case 'M':
    case 'L':
      return [step[0], step[1] + xMm, step[2] + yMm];
    case 'A':
      return ['A', step[1], step[2], step[3], step[4], step[5], step[6] + xMm, step[7] + yMm];
    case 'C':
      return ['C', step[1] + xMm, step[2] + yMm, step[3] + xMm, step[4] + yMm, step[5] + xMm, step[6] + yMm];
    case 'Z':
      return step;
  }
}

function moved(mark: Mark, xMm: number, yMm: number): Mark {
  if (mark.kind !== 'text') return { ...mark, steps: mark.steps.map((step) => movedStep(step, xMm, yMm)) };
  const { atMm, boxMm } = mark;
  return { ...mark, atMm: [atMm[0] + xMm, atMm[1] + yMm], boxMm: { ...boxMm, x: boxMm.x + xMm, y: boxMm.y + yMm } };
}

/**
 * Pictures beside each other on one floor, each with a caption below its middle, as one sheet: what a message shows of all
 * designs. Sheet mm; the pictures keep their scale.
 */
export function sideBySide(pictures: readonly { readonly sheet: Sheet; readonly caption: string }[], measure: MeasureText): Sheet {
  const widest = Math.max(...pictures.map(({ sheet }) => sheet.widthMm));
  const highest = Math.max(...pictures.map(({ sheet }) => sheet.heightMm));
  const gapMm = widest * GAP_SHARE;
  const captionMm = widest * CAPTION_SHARE;
  let x = gapMm;
  const marks = pictures.flatMap(({ sheet, caption }): readonly Mark[] => {
    const at = x;
    x += sheet.widthMm + gapMm;
    const wantedMm = captionMm * LETTERING_SHARE;
    const sizeMm = Math.min(wantedMm, (wantedMm * sheet.widthMm) / measure(caption, wantedMm, 'serif'));
    const middle: readonly [number, number] = [at + sheet.widthMm / 2, gapMm + highest + captionMm * 0.6];
    return [
      ...sheet.marks.map((mark) => moved(mark, at, gapMm + highest - sheet.heightMm)),
      lettering(caption, middle, measure, { class: 'title', sizeMm, anchor: 'middle' }),
    ];
  });
  const titles = pictures.map(({ caption }) => caption).join('; ');
  return { id: 'side-by-side', title: titles, description: titles, widthMm: x, heightMm: gapMm + highest + captionMm, marks };
}
