import PDFDocument from 'pdfkit';
import type { LabelItem, LabelLayout } from './label.ts';
import { codePath } from './label-code.ts';
import type { DocumentFonts, OpenedFont } from './paint.ts';
import { type Face, ink, ptPerMm } from './type.ts';

/** A font opened by fontkit that gives the outlines of its letters. */
export interface OutlineFont extends OpenedFont {
  layout(text: string): {
    readonly advanceWidth: number;
    readonly glyphs: readonly {
      readonly path: { readonly commands: readonly { readonly command: string; readonly args: readonly number[] }[] };
    }[];
    readonly positions: readonly { readonly xAdvance: number; readonly xOffset: number; readonly yOffset: number }[];
  };
}

export type OutlineFonts = Readonly<Record<Face, OutlineFont>>;

function paintItem(doc: PDFKit.PDFDocument, item: LabelItem): void {
  const pt = (mm: number): number => mm * ptPerMm;
  switch (item.kind) {
    case 'text':
      doc
        .font(item.face)
        .fontSize(pt(item.sizeMm))
        .fillColor(item.colour)
        .text(item.text, pt(item.leftMm), pt(item.baselineMm), {
          lineBreak: false,
          baseline: 'alphabetic',
          characterSpacing: pt(item.trackingMm),
        });
      return;
    case 'rule':
      doc
        .moveTo(pt(item.leftMm), pt(item.topMm))
        .lineTo(pt(item.leftMm + item.widthMm), pt(item.topMm))
        .lineWidth(pt(item.weightMm))
        .strokeColor(ink)
        .stroke();
      return;
    case 'frame':
      doc
        .rect(pt(item.leftMm), pt(item.topMm), pt(item.widthMm), pt(item.heightMm))
        .lineWidth(pt(item.weightMm))
        .lineJoin('miter')
        .strokeColor(ink)
        .stroke();
      return;
    case 'code':
      doc.path(codePath(item.code, item.leftMm, item.topMm, ptPerMm)).fill(ink, 'non-zero');
      return;
  }
}

/**
 * A label as a tagged PDF of one page of its own size. `dateIso`, `2027-02-14`, is the only time in it; the same layout, fonts
 * and date give the same bytes.
 */
export async function labelPdf(layout: LabelLayout, fonts: DocumentFonts, dateIso: string): Promise<Uint8Array> {
  const date = new Date(`${dateIso}T12:00:00Z`);
  const doc = new PDFDocument({
    autoFirstPage: false,
    pdfVersion: '1.7',
    subset: 'PDF/UA' as PDFKit.Mixins.PDFSubsets,
    tagged: true,
    displayTitle: true,
    lang: layout.language,
    font: null as unknown as string,
    info: { Title: layout.title, CreationDate: date, ModDate: date, Producer: 'Leafwright', Creator: 'Leafwright' },
  });
  const chunks: Uint8Array[] = [];
  const done = new Promise<void>((resolve, reject) => {
    doc.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    doc.on('end', () => resolve());
    doc.on('error', reject);
  });
  for (const [face, font] of Object.entries(fonts)) doc.registerFont(face, font as unknown as PDFKit.Mixins.PDFFontSource);
  doc.addPage({ size: [layout.widthMm * ptPerMm, layout.heightMm * ptPerMm], margin: 0 });
  const root = doc.struct('Document');
  doc.addStructure(root);
  for (const item of layout.items) {
    if (item.kind === 'text' || item.kind === 'code') {
      const element = item.kind === 'text' ? doc.struct('P') : doc.struct('Figure', { alt: item.says });
      root.add(element);
      element.add(doc.markStructureContent(item.kind === 'text' ? 'P' : 'Figure'));
      paintItem(doc, item);
      doc.endMarkedContent();
      element.end();
      continue;
    }
    doc.markContent('Artifact', { type: 'Layout' });
    paintItem(doc, item);
    doc.endMarkedContent();
  }
  root.end();
  doc.end();
  await done;
  return new Uint8Array(Buffer.concat(chunks));
}

const letters: Readonly<Record<string, string>> = { moveTo: 'M', lineTo: 'L', quadraticCurveTo: 'Q', bezierCurveTo: 'C', closePath: 'Z' };
const n = (mm: number): string => String(Math.round(mm * 1000) / 1000);
const escapes: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
const escapeXml = (text: string): string => text.replace(/[&<>"]/g, (c) => escapes[c] ?? c);

/** The letters of a text as one path in millimetres. */
function outlineOf(
  { text, face, sizeMm, trackingMm, leftMm, baselineMm }: Extract<LabelItem, { kind: 'text' }>,
  fonts: OutlineFonts,
): string {
  const font = fonts[face];
  const run = font.layout(text);
  const scale = sizeMm / font.unitsPerEm;
  let penMm = leftMm;
  return run.glyphs
    .map((glyph, i) => {
      const { xAdvance = 0, xOffset = 0, yOffset = 0 } = run.positions[i] ?? {};
      const [xMm, yMm] = [penMm + xOffset * scale, baselineMm - yOffset * scale];
      penMm += xAdvance * scale + trackingMm;
      return glyph.path.commands
        .map(
          ({ command, args }) =>
            `${letters[command]}${args.map((arg, k) => n(k % 2 === 0 ? xMm + arg * scale : yMm - arg * scale)).join(' ')}`,
        )
        .join('');
    })
    .join('');
}

function itemSvg(item: LabelItem, fonts: OutlineFonts): string {
  switch (item.kind) {
    case 'text':
      return `<path fill="${item.colour}" d="${outlineOf(item, fonts)}"/>`;
    case 'rule':
      return `<path fill="none" stroke="${ink}" stroke-width="${n(item.weightMm)}" d="M${n(item.leftMm)} ${n(item.topMm)}h${n(item.widthMm)}"/>`;
    case 'frame':
      return `<rect fill="none" stroke="${ink}" stroke-width="${n(item.weightMm)}" x="${n(item.leftMm)}" y="${n(item.topMm)}" width="${n(item.widthMm)}" height="${n(item.heightMm)}"/>`;
    case 'code':
      return `<path fill="${ink}" d="${codePath(item.code, item.leftMm, item.topMm, 1)}"/>`;
  }
}

/** A label as SVG in millimetres: letters are outlines, as an engraver's machine takes them; what it says stands in its description. */
export function labelSvg(layout: LabelLayout, fonts: OutlineFonts): string {
  const { widthMm, heightMm, title, language, items } = layout;
  const says = items.flatMap((item) => (item.kind === 'text' ? [item.text] : item.kind === 'code' ? [item.says] : [])).join('\n');
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${n(widthMm)}mm" height="${n(heightMm)}mm" viewBox="0 0 ${n(widthMm)} ${n(heightMm)}" role="img" xml:lang="${escapeXml(language)}" aria-labelledby="label-t label-d">`,
    `<title id="label-t">${escapeXml(title)}</title>`,
    `<desc id="label-d">${escapeXml(says)}</desc>`,
    ...items.map((item) => itemSvg(item, fonts)),
    '</svg>',
    '',
  ].join('\n');
}
