import type { ClientView } from '../../client/index.ts';
import { formatDate, formatMoney, parseDate } from '../../units/index.ts';
import type { Block, SignatureLine, TableBlock } from './blocks.ts';
import { plain } from './blocks.ts';
import { layOut } from './flow.ts';
import type { DocumentFonts, DocumentInfo } from './paint.ts';
import { measureWith, paintDocument } from './paint.ts';
import type { SignaturePlace } from './signature-place.ts';
import { ptPerMm } from './type.ts';

/** Papers by name, in points. */
export const papers = {
  a4: { widthPt: 210 * ptPerMm, heightPt: 297 * ptPerMm },
  letter: { widthPt: 612, heightPt: 792 },
} as const;

/** Margin of a document on every side. */
export const marginPt = 22 * ptPerMm;

/** Words by key; a missing key shows as itself, which the texts' own test refuses. */
export function say(view: Pick<ClientView, 'texts'>, key: string, values: Readonly<Record<string, string>> = {}): string {
  const text = view.texts[key] ?? key;
  return text.replace(/\{(\w+)\}/g, (whole, name: string) => values[name] ?? whole);
}

export function heading(view: ClientView, key: string, level: 2 | 3 = 2): Block {
  return { kind: 'heading', level, text: say(view, key) };
}

export function paragraph(text: string, style: 'lead' | 'body' | 'small' | 'caution' = 'body'): Block {
  return { kind: 'paragraph', runs: plain(text), style };
}

/** A table of labels and values. */
export function rows(pairs: readonly (readonly [string, string])[], valueRight = false, labelShare = valueRight ? 0.6 : 0.3): TableBlock {
  return {
    kind: 'table',
    showHead: false,
    columns: [
      { head: '', share: labelShare, align: 'left' },
      { head: '', share: 1 - labelShare, align: valueRight ? 'right' : 'left' },
    ],
    rows: pairs.map(([label, value]) => ({ cells: [label, value], strong: false })),
  };
}

/** Where somebody signs: whom it is for, the name where it is known, and lines for a hand. */
export function signatureLine(view: ClientView, role: string, name: string): SignatureLine {
  return { role, name, signature: say(view, 'scope.signature'), place: say(view, 'scope.place-date') };
}

/** Who writes, what it is, what it is about. */
export function documentHead(view: ClientView, title: string, lead: string): readonly Block[] {
  return [
    paragraph([view.maker.name, view.maker.trade].filter((part) => part !== '').join(', '), 'small'),
    { kind: 'gap', mm: 6 },
    { kind: 'title', text: title },
    paragraph(lead, 'lead'),
    ...(view.invented ? [paragraph(say(view, 'page.invented'), 'small')] : []),
  ];
}

/** The maker with address and ways to reach them, in one line. */
export function makerLine({ maker }: ClientView): string {
  return [maker.name, maker.trade, maker.address, maker.telephone, maker.email].filter((part) => part !== '').join(', ');
}

/** A day, `2027-02-14`, in the words of the document. */
export function dayText(view: ClientView, day: string): string {
  const date = parseDate(day);
  return date === undefined ? day : formatDate(date, view.language);
}

export function moneyText(view: ClientView, minor: number, currency: string): string {
  return formatMoney({ currency, minor }, view.language);
}

/** Lays blocks out on the paper of the proposal and paints them, with the revision and `mark` in the running foot. */
export async function writeDocument(
  view: ClientView,
  blocks: readonly Block[],
  fonts: DocumentFonts,
  info: Pick<DocumentInfo, 'title' | 'dateIso' | 'foot'>,
  signature?: SignaturePlace,
): Promise<Uint8Array> {
  const layout = layOut(blocks, { ...papers[view.paper], marginPt, footPt: 4 * ptPerMm }, measureWith(fonts));
  const whole: DocumentInfo = {
    ...info,
    author: view.maker.name,
    subject: `${view.revision.ordinal}, ${view.revision.date}`,
    language: view.language,
    pageOf: (page, pages) => say(view, 'scope.page-of', { page: String(page), pages: String(pages) }),
    ...(signature === undefined ? {} : { signature }),
  };
  return paintDocument(layout, fonts, whole, marginPt);
}
