import type { LineClass } from './display-list.ts';

/** How a class of line is drawn on paper: width and dash pattern (dash, gap, ...) in sheet mm; `ink` names its colour. */
export interface LineStyle {
  readonly widthMm: number;
  readonly dashMm?: readonly number[];
  /** `ink` for the object, `quiet` for what explains it, `caution` for what can hurt. */
  readonly ink: 'ink' | 'quiet' | 'caution';
  readonly cap: 'butt' | 'round';
}

/**
 * The one table of line weights that every writer uses (SVG, PDF, PNG).
 * @source common practice of drawing offices: the 0.18 / 0.25 / 0.35 / 0.50 mm pen series, hidden edges dashed, centre lines in chain
 */
export const lineStyles: Readonly<Record<LineClass, LineStyle>> = {
  outline: { widthMm: 0.5, ink: 'ink', cap: 'round' },
  edge: { widthMm: 0.35, ink: 'ink', cap: 'round' },
  contour: { widthMm: 0.25, ink: 'ink', cap: 'round' },
  crease: { widthMm: 0.16, ink: 'ink', cap: 'round' },
  hidden: { widthMm: 0.25, dashMm: [2, 1], ink: 'quiet', cap: 'butt' },
  centre: { widthMm: 0.18, dashMm: [6, 1.2, 1, 1.2], ink: 'quiet', cap: 'butt' },
  dimension: { widthMm: 0.18, ink: 'quiet', cap: 'butt' },
  extension: { widthMm: 0.18, ink: 'quiet', cap: 'butt' },
  hairline: { widthMm: 0.13, ink: 'quiet', cap: 'butt' },
  grain: { widthMm: 0.13, ink: 'quiet', cap: 'round' },
  floor: { widthMm: 0.25, ink: 'quiet', cap: 'butt' },
  /** @source ISO 128-2:2020, line type 05.1 (narrow, long dash and two dots: outlines before a change); from memory */
  former: { widthMm: 0.18, dashMm: [4, 0.8, 0.3, 0.8, 0.3, 0.8], ink: 'ink', cap: 'butt' },
  caution: { widthMm: 0.35, ink: 'caution', cap: 'round' },
  fixing: { widthMm: 0.25, ink: 'ink', cap: 'round' },
};

/** Colours on paper, for writers that have no style sheet (files, PNG, PDF). */
export const paperInks = { ink: '#1D1C1A', quiet: '#5F5B53', caution: '#9B3A22', paper: '#FBFAF6' } as const;

/** Height of lettering per class of text, in sheet mm, and the face it is set in. */
export const letteringFaces = { lettering: 'sans', title: 'serif', note: 'sans', small: 'sans' } as const;
