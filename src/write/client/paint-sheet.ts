import type { LineStyle, Mark, PathStep, Sheet } from '../../draw/index.ts';
import { letteringFaces, lineStyles, paperInks } from '../../draw/index.ts';

function stepData(step: PathStep, n: (value: number) => string): string {
  switch (step[0]) {
    case 'M':
    case 'L':
      return `${step[0]}${n(step[1])} ${n(step[2])}`;
    case 'A':
      return `A${n(step[1])} ${n(step[2])} ${step[3]} ${step[4]} ${step[5]} ${n(step[6])} ${n(step[7])}`;
    case 'C':
      return `C${n(step[1])} ${n(step[2])} ${n(step[3])} ${n(step[4])} ${n(step[5])} ${n(step[6])}`;
    case 'Z':
      return 'Z';
  }
}

/** An SVG path in sheet millimetres, scaled to points: pdfkit reads SVG path data, arcs included. */
function pathData(steps: readonly PathStep[], scale: number): string {
  const n = (value: number): string => String(Math.round(value * scale * 1000) / 1000);
  return steps.map((step) => stepData(step, n)).join('');
}

function setPen(doc: PDFKit.PDFDocument, style: LineStyle, scale: number, colour: string = paperInks[style.ink]): void {
  doc
    .lineWidth(style.widthMm * scale)
    .strokeColor(colour)
    .lineJoin('round')
    .lineCap(style.cap);
  if (style.dashMm === undefined) doc.undash();
  else doc.dash(style.dashMm.map((mm) => mm * scale) as unknown as number, {});
}

function paintMark(doc: PDFKit.PDFDocument, mark: Mark, scale: number): void {
  switch (mark.kind) {
    case 'line':
      setPen(doc, lineStyles[mark.class], scale, mark.colour);
      doc.path(pathData(mark.steps, scale)).stroke();
      return;
    case 'face': {
      const opacity = mark.opacity ?? 1;
      doc.fillOpacity(opacity).path(pathData(mark.steps, scale)).fill(mark.fill, 'non-zero');
      doc.fillOpacity(1);
      if (mark.bleedMm !== undefined) {
        doc
          .lineWidth(mark.bleedMm * scale)
          .strokeColor(mark.fill)
          .lineJoin('round')
          .undash();
        doc.path(pathData(mark.steps, scale)).stroke();
      }
      if (mark.stroke === undefined) return;
      setPen(doc, lineStyles[mark.stroke], scale);
      doc.path(pathData(mark.steps, scale)).stroke();
      return;
    }
    case 'tick':
      doc.path(pathData(mark.steps, scale)).fill(paperInks.ink);
      return;
    case 'text': {
      const size = mark.sizeMm * scale;
      const face = letteringFaces[mark.class];
      doc
        .font(face)
        .fontSize(size)
        .fillColor(mark.class === 'small' || mark.class === 'note' ? paperInks.quiet : paperInks.ink);
      const width = doc.widthOfString(mark.text);
      const shift = mark.anchor === 'middle' ? -width / 2 : mark.anchor === 'end' ? -width : 0;
      doc.save().translate(mark.atMm[0] * scale, mark.atMm[1] * scale);
      if (mark.angleDeg !== 0) doc.rotate(mark.angleDeg);
      doc.text(mark.text, shift, 0, { lineBreak: false, baseline: 'alphabetic' });
      doc.restore();
      return;
    }
  }
}

/** Draws a sheet as vectors with its top left at the point, `widthPt` wide. Lettering stays real text. */
export function paintSheet(doc: PDFKit.PDFDocument, sheet: Sheet, xPt: number, yPt: number, widthPt: number): void {
  const scale = widthPt / sheet.widthMm;
  doc.save().translate(xPt, yPt);
  for (const mark of sheet.marks) paintMark(doc, mark, scale);
  doc.restore().undash();
}
