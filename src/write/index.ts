/** Display lists -> SVG and PNG; fonts opened at the edge. Sheet mm in, bytes or strings out. */

export type { Fonts } from './fonts.ts';
export { openFonts } from './fonts.ts';
export { sheetToPng } from './png.ts';
export type { OutlineText, SvgOptions } from './svg.ts';
export { sheetCss, sheetToSvg } from './svg.ts';
