import type { ClaimSection, ClaimSheet, ClaimTable, ClientView } from '../../client/index.ts';
import type { Block } from './blocks.ts';
import { plain } from './blocks.ts';
import type { DocumentFonts } from './paint.ts';
import { documentHead, paragraph, rows, say, signatureLine, writeDocument } from './paper.ts';

/** A row in which a hand writes. */
const HAND_MM = 8;
/** Of the width, for the labels of a section's rows. */
const LABEL_SHARE = 0.32;

const tableBlock = ({ columns, rows: lines, isForHand = false }: ClaimTable): Block => ({
  kind: 'table',
  showHead: true,
  columns: columns.map(({ head, share, isNumber }) => ({ head, share, align: isNumber ? 'right' : 'left' })),
  rows: lines.map((cells) => ({ cells, strong: false, ...(isForHand ? { roomMm: HAND_MM } : {}) })),
});

function sectionBlocks({ head, lead, rows: pairs, table, paragraphs, small }: ClaimSection): readonly Block[] {
  return [
    { kind: 'heading', level: 2, text: head },
    ...(lead === undefined ? [] : [{ kind: 'paragraph', runs: plain(lead), style: 'body', keepWithNext: true } as const]),
    ...(pairs.length === 0 ? [] : [rows(pairs, false, LABEL_SHARE)]),
    ...(table === undefined || pairs.length === 0 ? [] : [{ kind: 'gap', mm: 3 } as const]),
    ...(table === undefined ? [] : [tableBlock(table)]),
    ...paragraphs.map((text) => paragraph(text)),
    ...small.map((text) => paragraph(text, 'small')),
  ];
}

/** Names of both under what was measured together; they agree to nothing else. */
function signing(view: ClientView): readonly Block[] {
  const line = (role: string, name: string) => signatureLine(view, say(view, role), name);
  return [
    { kind: 'paragraph', runs: plain(say(view, 'claim.visit-signing')), style: 'body', keepWithNext: true },
    { kind: 'signatures', people: [line('claim.visit-client', ''), line('claim.visit-maker', view.maker.name)] },
  ];
}

/**
 * Writes the record of a claim, from what was recorded at the delivery on, as PDF bytes.
 *
 * @param view the page of the ordered revision under whose name it stands
 */
export async function writeClaim(view: ClientView, sheet: ClaimSheet, fonts: DocumentFonts): Promise<Uint8Array> {
  const blocks: readonly Block[] = [
    ...documentHead(view, sheet.title, sheet.lead),
    ...sheet.notice.map((text) => paragraph(text)),
    ...sheet.sections.flatMap((section) =>
      // What is filled in at the table is one page, and nothing else is on it.
      section.id === 'visit' ? [{ kind: 'new-page' } as const, ...sectionBlocks(section), ...signing(view)] : sectionBlocks(section),
    ),
  ];
  return writeDocument(view, blocks, fonts, {
    title: `${sheet.title}: ${view.title}, ${sheet.piece}`,
    dateIso: sheet.onIso,
    foot: say(view, 'claim.foot', { name: sheet.title, piece: sheet.piece, date: sheet.on }),
  });
}
