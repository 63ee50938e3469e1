/** Table -> display lists: views, dimensions, sheets, perspective. Sheet mm, origin top left, y down. */
export { drawApart, type NumberedPiece } from './apart.ts';
export type { BoxMm, Drawings, LineClass, Mark, MeasureText, PathStep, Sheet } from './display-list.ts';
export { drawTable } from './draw-table.ts';
export type { LineStyle } from './line-weights.ts';
export { letteringFaces, lineStyles, paperInks } from './line-weights.ts';
export type { Overlay, OverlayWords } from './overlay.ts';
export { drawOverlay } from './overlay.ts';
export type { PictureFrame } from './picture.ts';
export { sharedFrame } from './picture.ts';
export { sideBySide } from './side-by-side.ts';
export type { DrawingWord } from './words.ts';
export { drawingWords } from './words.ts';
