import type { ClientView, DesignView } from '../../client/index.ts';
import type { Block } from './blocks.ts';
import { plain } from './blocks.ts';
import type { DocumentFonts } from './paint.ts';
import { dayText, documentHead, heading, paragraph, rows, say, signatureLine, writeDocument } from './paper.ts';

/** What a delivery note says of one delivery, before it is signed. Days as `2027-02-14`. */
export interface DeliveryNote {
  readonly design: string;
  readonly on: string;
  /** Absent where it has none yet: then there is room to write it. */
  readonly piece?: string;
  /** Of the last coat. */
  readonly finishedOn?: string;
  /** The finish, with product and batch where they are known. */
  readonly finish: string;
  /** As shown: `39 kg`; and by how many people it is carried at least, by weight alone. */
  readonly mass: string;
  readonly people: number;
  /** Days of the finish: absent where its last coat is not known. */
  readonly days?: { readonly lightOver: string; readonly lightFrom: string; readonly curedOver: string; readonly curedFrom: string };
  /** A refresh kit is left with the table: its cloths can heat up by themselves. */
  readonly refreshKit: boolean;
  /** Relative, in the room, on the day: as shown. */
  readonly humidity?: string;
}

const box = '☐\u00a0\u00a0';
/** Rows that a hand fills in. */
const DEFECT_ROWS = 4;
const HAND_MM = 9;

/** Lines with a box before each; the last one with room for a hand where it asks for words. */
const ticked = (texts: readonly string[], lastMm = 0): Block => ({
  kind: 'table',
  showHead: false,
  columns: [{ head: '', share: 1, align: 'left' }],
  rows: texts.map((text, i) => ({ cells: [box + text], strong: false, roomMm: i === texts.length - 1 ? lastMm : 0 })),
});

function firstDays(view: ClientView, { days, finishedOn, on }: DeliveryNote): readonly Block[] {
  const title = heading(view, 'delivery.first-days');
  if (days === undefined || finishedOn === undefined) return [title, paragraph(say(view, 'delivery.first-unknown'))];
  const day = (iso: string): string => dayText(view, iso);
  if (days.curedOver < on) return [title, paragraph(say(view, 'delivery.first-past', { date: day(days.curedOver) }))];
  const light = say(view, 'delivery.first-light', { over: day(days.lightOver), from: day(days.lightFrom) });
  const cured = say(view, 'delivery.first-cured', { over: day(days.curedOver), from: day(days.curedFrom) });
  return [title, ...(days.lightOver < on ? [] : [paragraph(light)]), paragraph(cured)];
}

function delivered(view: ClientView, design: DesignView, note: DeliveryNote): readonly Block[] {
  const items = [
    say(view, 'delivery.what-table', { title: view.title, name: design.name, sizes: design.sizes }),
    say(view, 'delivery.what-care'),
    ...(note.refreshKit ? [say(view, 'delivery.what-kit')] : []),
  ];
  return [heading(view, 'delivery.what'), ticked(items), ...(note.refreshKit ? [paragraph(say(view, 'delivery.oily'), 'caution')] : [])];
}

function carryKey(view: ClientView, people: number): string {
  const form = `delivery.carry-says.${new Intl.PluralRules(view.language).select(people)}`;
  return view.texts[form] === undefined ? 'delivery.carry-says.other' : form;
}

function facts(view: ClientView, note: DeliveryNote): Block {
  const { client, endClient } = view;
  const blank = say(view, 'delivery.blank');
  const pairs: readonly (readonly [string, string])[] = [
    [say(view, 'delivery.piece'), note.piece ?? blank],
    [say(view, 'delivery.on'), dayText(view, note.on)],
    [say(view, 'delivery.to'), endClient?.name ?? client.name],
    [say(view, 'delivery.address'), client.address ?? blank],
    [say(view, 'delivery.finish'), note.finish],
    [say(view, 'delivery.finished'), note.finishedOn === undefined ? blank : dayText(view, note.finishedOn)],
    [say(view, 'delivery.carry'), say(view, carryKey(view, note.people), { count: String(note.people), mass: note.mass })],
    [
      say(view, 'delivery.humidity'),
      note.humidity === undefined ? say(view, 'delivery.humidity-blank') : say(view, 'delivery.humidity-says', { percent: note.humidity }),
    ],
  ];
  return rows(pairs);
}

/** A delivery note as blocks in reading order: nothing on it tells a price. */
function noteBlocks(view: ClientView, design: DesignView, note: DeliveryNote): readonly Block[] {
  const line = (role: string, name: string) => signatureLine(view, say(view, role), name);
  return [
    ...documentHead(view, say(view, 'delivery.title'), view.title),
    { kind: 'gap', mm: 3 },
    facts(view, note),
    paragraph(say(view, 'delivery.carry-caution'), 'caution'),
    ...delivered(view, design, note),
    heading(view, 'delivery.check'),
    { kind: 'paragraph', runs: plain(say(view, 'delivery.check-says')), style: 'body', keepWithNext: true },
    ticked(['top', 'base', 'level', 'moving', 'sizes', 'room'].map((one) => say(view, `delivery.check-${one}`))),
    ...firstDays(view, note),
    heading(view, 'delivery.defects'),
    {
      kind: 'table',
      showHead: true,
      columns: [
        { head: say(view, 'delivery.defects-what'), share: 0.7, align: 'left' },
        { head: say(view, 'delivery.defects-by'), share: 0.3, align: 'left' },
      ],
      rows: Array.from({ length: DEFECT_ROWS }, () => ({ cells: ['', ''], strong: false, roomMm: HAND_MM })),
    },
    heading(view, 'delivery.accepts'),
    ticked(
      ['as-is', 'defects', 'unseen', 'unsigned'].map((one) => say(view, `delivery.accept-${one}`)),
      HAND_MM,
    ),
    { kind: 'paragraph', runs: plain(say(view, 'delivery.signing')), style: 'body', keepWithNext: true },
    { kind: 'signatures', people: [line('delivery.receiver', say(view, 'delivery.blank')), line('delivery.maker', view.maker.name)] },
  ];
}

/**
 * Writes a delivery note to be taken along and signed on paper, as PDF bytes.
 * @throws RangeError when the view has no design of that id.
 */
export async function writeDeliveryNote(view: ClientView, note: DeliveryNote, fonts: DocumentFonts): Promise<Uint8Array> {
  const design = view.designs.find(({ id }) => id === note.design);
  if (design === undefined) throw new RangeError(`no design ${note.design} in ${view.proposal}`);
  const title = say(view, 'delivery.title');
  return writeDocument(view, noteBlocks(view, design, note), fonts, {
    title: `${title}: ${view.title}`,
    dateIso: note.on,
    foot: [title, ...(note.piece === undefined ? [] : [note.piece]), dayText(view, note.on)].join('  ·  '),
  });
}
