/** Table -> display lists: views, dimensions, sheets, perspective. */
export type { BoxMm, Drawings, LineClass, Mark, MeasureText, PathStep, Sheet } from './display-list.ts';
