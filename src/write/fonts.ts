import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Font } from 'fontkit';
import { create } from 'fontkit';
import type { MeasureText } from '../draw/index.ts';
import { letteringFaces } from '../draw/index.ts';
import type { OutlineText } from './svg.ts';
import { svgNumber } from './svg.ts';

export interface Fonts {
  /** Width of a text in mm, from the font's own advances and kerning. */
  readonly measure: MeasureText;
  /** A text as outlines, for renderers that may not look for fonts. */
  readonly outline: OutlineText;
  /** Whether papers can be set in a sign: whether both faces have a letter for it. */
  readonly hasSign: (sign: string) => boolean;
}

type Face = 'sans' | 'serif';

const files: Readonly<Record<Face, string>> = {
  sans: '@expo-google-fonts/source-sans-3/400Regular/SourceSans3_400Regular.ttf',
  serif: '@expo-google-fonts/source-serif-4/400Regular/SourceSerif4_400Regular.ttf',
};

function openFace(face: Face): Font {
  const font = create(readFileSync(createRequire(import.meta.url).resolve(files[face])));
  if ('fonts' in font) throw new Error(`${files[face]} holds several fonts; one was expected`);
  return font;
}

/** Digits round a fraction slash become a proper fraction; pages and PDFs switch the same feature on. */
const FEATURES = ['frac'];

/**
 * Opens the two faces that drawings are lettered in (Source Sans 3, Source Serif 4, regular).
 * The one place where a writer reads a file; call it once, at the edge, and hand the result in.
 */
export function openFonts(): Fonts {
  const open: Readonly<Record<Face, Font>> = { sans: openFace('sans'), serif: openFace('serif') };
  const widths = new Map<string, number>();
  const measure: MeasureText = (text, sizeMm, face) => {
    const key = `${face}:${text}`;
    let em = widths.get(key);
    if (em === undefined) {
      em = open[face].layout(text, FEATURES).advanceWidth / open[face].unitsPerEm;
      widths.set(key, em);
    }
    return em * sizeMm;
  };
  const outline: OutlineText = ({ text, atMm: [x, y], sizeMm, anchor, angleDeg, class: lettering }) => {
    const face = letteringFaces[lettering];
    const font = open[face];
    const scale = sizeMm / font.unitsPerEm;
    const run = font.layout(text, FEATURES);
    const share = anchor === 'start' ? 0 : anchor === 'middle' ? 0.5 : 1;
    let pen = -share * run.advanceWidth * scale;
    const [cos, sin] = [Math.cos((angleDeg * Math.PI) / 180), Math.sin((angleDeg * Math.PI) / 180)];
    const out: string[] = [];
    run.glyphs.forEach((glyph, i) => {
      const position = run.positions[i];
      const left = pen + (position?.xOffset ?? 0) * scale;
      const rise = (position?.yOffset ?? 0) * scale;
      for (const { command, args } of glyph.path.commands) {
        const numbers: string[] = [];
        for (let k = 0; k < args.length; k += 2) {
          const px = left + (args[k] ?? 0) * scale;
          const py = -((args[k + 1] ?? 0) * scale + rise);
          numbers.push(svgNumber(x + px * cos - py * sin), svgNumber(y + px * sin + py * cos));
        }
        out.push(letters[command] + numbers.join(' '));
      }
      pen += (position?.xAdvance ?? 0) * scale;
    });
    return out.join('');
  };
  const hasSign = (sign: string): boolean => [open.sans, open.serif].every((font) => font.hasGlyphForCodePoint(sign.codePointAt(0) ?? 0));
  return { measure, outline, hasSign };
}

const letters = { moveTo: 'M', lineTo: 'L', quadraticCurveTo: 'Q', bezierCurveTo: 'C', closePath: 'Z' } as const;
