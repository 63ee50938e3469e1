import PDFDocument from 'pdfkit';
import type { Item, StructureNode } from './atom.ts';
import type { Layout } from './flow.ts';
import { paintSheet } from './paint-sheet.ts';
import { addSignaturePlace, type SignaturePlace } from './signature-place.ts';
import type { Face, MeasurePt } from './type.ts';
import { ptPerMm, settings } from './type.ts';

/** A font opened by fontkit; pdfkit takes it as it is, so that one opening serves every document. */
export interface OpenedFont {
  readonly unitsPerEm: number;
  layout(text: string): { readonly advanceWidth: number };
}

export type DocumentFonts = Readonly<Record<Face, OpenedFont>>;

/** The pieces that pdfkit sets a text in: each word with the white space after it. Kerning never crosses from one to the next. */
const piecesOf = (text: string): readonly string[] => text.match(/[^ \t]*[ \t]|[^ \t]+/g) ?? [];

/** Measures with the fonts that will print, piece by piece as they print. Widths are remembered for the life of the returned function. */
export function measureWith(fonts: DocumentFonts): MeasurePt {
  const known = new Map<string, number>();
  const widthEm = (piece: string, face: Face): number => {
    const key = `${face} ${piece}`;
    let em = known.get(key);
    if (em === undefined) {
      em = fonts[face].layout(piece).advanceWidth / fonts[face].unitsPerEm;
      known.set(key, em);
    }
    return em;
  };
  return (text, face, sizePt) => piecesOf(text).reduce((sum, piece) => sum + widthEm(piece, face), 0) * sizePt;
}

export interface DocumentInfo {
  readonly title: string;
  readonly author: string;
  readonly subject: string;
  /** BCP 47. */
  readonly language: string;
  /** Date of the revision: the only time in the file. */
  readonly dateIso: string;
  /** Left part of the running foot; page x of y stands at the right. */
  readonly foot: string;
  readonly pageOf: (page: number, pages: number) => string;
  /** Leaves room for a signature by a key. */
  readonly signature?: SignaturePlace;
  /** Whether readers get a list of the headings to go to. */
  readonly hasOutline?: boolean;
}

type Doc = PDFKit.PDFDocument;
type StructureElement = PDFKit.PDFStructureElement;
type Outline = PDFKit.PDFOutline | undefined;

function paintItem(doc: Doc, item: Item): void {
  switch (item.kind) {
    case 'line':
      for (const segment of item.line.segments) {
        doc
          .font(segment.face)
          .fontSize(item.setting.sizePt)
          .fillColor(item.setting.colour)
          .text(segment.text, item.xPt + segment.xPt, item.yPt, { lineBreak: false, baseline: 'alphabetic' });
      }
      return;
    case 'rule':
      doc
        .moveTo(item.xPt, item.yPt)
        .lineTo(item.xPt + item.widthPt, item.yPt)
        .lineWidth(item.weightPt)
        .strokeColor(item.colour)
        .undash()
        .stroke();
      return;
    case 'sheet':
      paintSheet(doc, item.sheet, item.xPt, item.yPt, item.widthPt);
      return;
  }
}

function buildStructure(doc: Doc, nodes: readonly StructureNode[]): readonly StructureElement[] {
  const elements: StructureElement[] = [];
  for (const node of nodes) {
    const element = doc.struct(node.tag, node.alt === undefined ? {} : { alt: node.alt });
    elements.push(element);
    const parent = elements[node.parent];
    if (parent === undefined) doc.addStructure(element);
    else parent.add(element);
  }
  return elements;
}

/** Headings below the title, each with its words, in the order in which they are first painted on a page. */
function headingsOn(items: readonly Item[], structure: readonly StructureNode[]): ReadonlyMap<StructureNode, string> {
  const found = new Map<StructureNode, string>();
  for (const item of items) {
    const node = structure[item.node];
    if (item.kind !== 'line' || node === undefined || (node.tag !== 'H2' && node.tag !== 'H3')) continue;
    const words = item.line.segments.map(({ text }) => text).join('');
    found.set(node, [found.get(node), words].filter((part) => part !== undefined).join(' '));
  }
  return found;
}

/** Adds the headings of the page that is being painted to the outline: level 3 below the last of level 2. */
function outlinePage(doc: Doc, items: readonly Item[], structure: readonly StructureNode[], last: Outline): Outline {
  let parent = last;
  for (const [node, words] of headingsOn(items, structure)) {
    if (node.tag === 'H2') parent = doc.outline.addItem(words);
    else (parent ?? doc.outline).addItem(words);
  }
  return parent;
}

/** Consecutive items of one node are one piece of marked content. */
function paintPage(doc: Doc, items: readonly Item[], elements: readonly StructureElement[]): void {
  let open: number | undefined;
  const close = (): void => {
    if (open !== undefined) doc.endMarkedContent();
    open = undefined;
  };
  for (const item of items) {
    if (item.node !== open) {
      close();
      const element = elements[item.node];
      if (element === undefined) doc.markContent('Artifact', { type: 'Layout' });
      else element.add(doc.markStructureContent(tagOf(element)));
      open = item.node;
    }
    paintItem(doc, item);
  }
  close();
}

function tagOf(element: StructureElement): string {
  return (element as unknown as { readonly dictionary: { readonly data: { readonly S: string } } }).dictionary.data.S;
}

function paintFoot(
  doc: Doc,
  info: DocumentInfo,
  measure: MeasurePt,
  marginPt: number,
  isSheet: boolean,
  page: number,
  pages: number,
): void {
  const { face, sizePt, colour } = settings.foot;
  const yPt = doc.page.height - (isSheet ? 4.5 * ptPerMm : marginPt * 0.6);
  const leftPt = isSheet ? 10 * ptPerMm : marginPt;
  doc.markContent('Artifact', { type: 'Pagination', attached: ['Bottom'] });
  doc.font(face).fontSize(sizePt).fillColor(colour);
  doc.text(info.foot, leftPt, yPt, { lineBreak: false, baseline: 'alphabetic' });
  const count = info.pageOf(page, pages);
  doc.text(count, doc.page.width - leftPt - measure(count, face, sizePt), yPt, { lineBreak: false, baseline: 'alphabetic' });
  doc.endMarkedContent();
}

/**
 * Writes a layout as a tagged PDF with the PDF/UA identifier set (conformance not proved by a validator).
 * The same layout, fonts and info give the same bytes.
 */
export async function paintDocument(layout: Layout, fonts: DocumentFonts, info: DocumentInfo, marginPt: number): Promise<Uint8Array> {
  const date = new Date(`${info.dateIso}T12:00:00Z`);
  const doc = new PDFDocument({
    autoFirstPage: false,
    bufferPages: true,
    pdfVersion: '1.7',
    subset: 'PDF/UA' as PDFKit.Mixins.PDFSubsets,
    tagged: true,
    displayTitle: true,
    lang: info.language,
    // Otherwise a standard font is loaded, which may not be embedded.
    font: null as unknown as string,
    info: {
      Title: info.title,
      Author: info.author,
      Subject: info.subject,
      CreationDate: date,
      ModDate: date,
      Producer: 'Leafwright',
      Creator: 'Leafwright',
    },
  });
  const chunks: Uint8Array[] = [];
  const done = new Promise<void>((resolve, reject) => {
    doc.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    doc.on('end', () => resolve());
    doc.on('error', reject);
  });
  for (const [face, font] of Object.entries(fonts)) doc.registerFont(face, font as unknown as PDFKit.Mixins.PDFFontSource);
  const elements = buildStructure(doc, layout.structure);
  const measure = measureWith(fonts);
  let heading: Outline;
  for (const page of layout.pages) {
    doc.addPage({ size: [page.widthPt, page.heightPt], margin: 0 });
    if (info.hasOutline === true) heading = outlinePage(doc, page.items, layout.structure, heading);
    paintPage(doc, page.items, elements);
  }
  for (const [i, page] of layout.pages.entries()) {
    doc.switchToPage(i);
    paintFoot(doc, info, measure, marginPt, page.isSheet, i + 1, layout.pages.length);
  }
  for (const element of elements.toReversed()) element.end();
  if (info.signature !== undefined) addSignaturePlace(doc, info.signature);
  doc.end();
  await done;
  const bytes = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    bytes.set(chunk, at);
    at += chunk.length;
  }
  return bytes;
}
