import { Resvg } from '@resvg/resvg-js';
import type { Sheet } from '../draw/index.ts';
import type { OutlineText } from './svg.ts';
import { sheetToSvg } from './svg.ts';

/**
 * A sheet as PNG, `widthPx` wide, on paper. Letters are outlines, so no font of the machine can change a byte.
 */
export function sheetToPng(sheet: Sheet, widthPx: number, outlineText: OutlineText): Uint8Array {
  const svg = sheetToSvg(sheet, { idPrefix: 'png', mode: 'file', outlineText, paper: true });
  const image = new Resvg(svg, { fitTo: { mode: 'width', value: widthPx }, font: { loadSystemFonts: false } });
  return image.render().asPng();
}
