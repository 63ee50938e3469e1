import type { ClientView, DesignView, PriceView } from '../../client/index.ts';
import { type ApprovedScope, approvalBlocks, approvedPriceBlocks, chosenNote, sampleText } from './approved-scope.ts';
import type { Block } from './blocks.ts';
import { plain, richBlocks } from './blocks.ts';
import { consentBlocks, groundBlocks } from './consent.ts';
import type { DocumentFonts } from './paint.ts';
import { documentHead, heading, makerLine, paragraph, rows, say, signatureLine, writeDocument } from './paper.ts';
import { instalmentTable, priceTable } from './price-table.ts';

function parties(view: ClientView): readonly Block[] {
  const { client, endClient } = view;
  const lines: (readonly [string, string])[] = [
    [say(view, 'scope.maker'), makerLine(view)],
    [say(view, 'scope.client'), client.address === undefined ? client.name : `${client.name}, ${client.address}`],
  ];
  if (endClient !== undefined) lines.push([say(view, 'scope.end-client'), endClient.name]);
  lines.push([say(view, 'scope.deciders'), view.deciders.sentence]);
  lines.push([say(view, 'scope.date'), `${view.revision.date}; ${say(view, 'scope.valid-until', { date: view.revision.validUntil })}`]);
  const voice: readonly Block[] = view.voice === undefined ? [] : [{ kind: 'paragraph', runs: plain(view.voice), style: 'body' }];
  return [heading(view, 'scope.parties'), rows(lines), ...voice];
}

function piece(view: ClientView, design: DesignView, approved: ApprovedScope | undefined): readonly Block[] {
  const facts: (readonly [string, string])[] = [
    [say(view, 'scope.design'), `${design.id}, ${design.name}`],
    [say(view, 'scope.sizes'), design.sizes],
    [say(view, 'scope.mass'), design.mass],
    [say(view, 'scope.finish'), design.care.finish],
    [say(view, 'scope.ready'), design.ready],
    [say(view, 'scope.sample'), sampleText(view, approved)],
  ];
  return [
    heading(view, 'scope.piece'),
    { kind: 'figure', sheet: design.picture, widthMm: 120, heightMm: 60, caption: say(view, 'scope.picture-note') },
    ...richBlocks(design.why),
    rows(facts),
    ...(approved === undefined ? [] : chosenNote(view, design, approved)),
    ...design.notes.map((note): Block => ({ kind: 'paragraph', runs: plain(note), style: 'body' })),
  ];
}

function materials(view: ClientView, design: DesignView): readonly Block[] {
  if (design.materials.length === 0) return [];
  return [
    heading(view, 'scope.materials'),
    {
      kind: 'table',
      showHead: true,
      columns: [
        { head: say(view, 'scope.part'), share: 0.2, align: 'left' },
        { head: say(view, 'scope.count'), share: 0.1, align: 'right' },
        { head: say(view, 'scope.wood'), share: 0.34, align: 'left' },
        { head: say(view, 'scope.size'), share: 0.22, align: 'right' },
        { head: say(view, 'scope.amount'), share: 0.14, align: 'right' },
      ],
      rows: design.materials.map((m) => ({
        cells: [m.part, m.count, m.origin === undefined ? m.wood : `${m.wood}, ${m.origin}`, m.size ?? '', m.amount ?? ''],
        strong: false,
      })),
    },
    { kind: 'paragraph', runs: plain(say(view, 'scope.wood-varies')), style: 'body' },
    { kind: 'paragraph', runs: plain(design.care.wood), style: 'body' },
  ];
}

function priceBlocks(view: ClientView, price: PriceView): readonly Block[] {
  const totals = [
    { cells: [say(view, 'price.net'), '', price.net], strong: false },
    ...price.taxes.map((tax) => ({ cells: [tax.says, '', tax.amount], strong: false })),
    { cells: [say(view, 'price.total'), '', price.total], strong: true },
  ];
  const blocks: Block[] = [...priceTable(view, price, totals)];
  if (price.options.length > 0) {
    blocks.push(heading(view, 'scope.options', 3), {
      kind: 'table',
      showHead: true,
      columns: [
        { head: say(view, 'price.combination'), share: 0.56, align: 'left' },
        { head: say(view, 'price.net'), share: 0.22, align: 'right' },
        { head: say(view, 'price.total'), share: 0.22, align: 'right' },
      ],
      rows: price.combinations.map((c) => ({ cells: [`☐\u00a0\u00a0${c.says}`, c.net, c.total], strong: false })),
    });
  }
  return [...blocks, ...instalmentTable(view, price.instalments)];
}

function listed(view: ClientView, key: string, items: readonly string[]): readonly Block[] {
  if (items.length === 0) return [];
  return [heading(view, key), { kind: 'list', ordered: false, items: items.map(plain) }];
}

function staged(view: ClientView, key: string, items: readonly { readonly stage: string; readonly says: string }[]): readonly Block[] {
  return items.length === 0 ? [] : [heading(view, key), rows(items.map((item) => [item.stage, item.says] as const))];
}

function steadiness(view: ClientView, design: DesignView): readonly Block[] {
  const { sentence, rows: found } = design.steadiness;
  return [
    heading(view, 'scope.steadiness'),
    { kind: 'paragraph', runs: plain(sentence), style: 'body' },
    ...(found.length === 0
      ? []
      : [
          rows(
            found.map((row) => [row.label, row.note === undefined ? row.value : `${row.value} (${row.note})`] as const),
            false,
            0.46,
          ),
          { kind: 'paragraph', runs: plain(say(view, 'page.steadiness-note')), style: 'small' } as const,
        ]),
    ...design.movement.map((text): Block => ({ kind: 'paragraph', runs: plain(text), style: 'body' })),
    ...view.cautions.map((text): Block => ({ kind: 'paragraph', runs: plain(text), style: 'caution' })),
  ];
}

function signatures(view: ClientView, design: DesignView): readonly Block[] {
  return [
    heading(view, 'scope.signatures'),
    {
      kind: 'paragraph',
      runs: plain(say(view, 'scope.agreement', { design: `${design.id}, ${design.name}`, revision: view.revision.id })),
      style: 'body',
      keepWithNext: true,
    },
    {
      kind: 'signatures',
      people: [
        // Who sends the scope under a name of their own and decides as well signs once.
        ...view.deciders.names
          .filter((name) => name !== view.maker.name)
          .map((name) => signatureLine(view, say(view, 'scope.client'), name)),
        signatureLine(view, say(view, 'scope.maker'), view.maker.name),
      ],
    },
  ];
}

function pricing(view: ClientView, design: DesignView, approved: ApprovedScope | undefined): readonly Block[] {
  const { price } = design;
  if (price === undefined) return [];
  const rounds = view.rounds === undefined ? [] : [heading(view, 'paper.rounds', 3), paragraph(view.rounds.sentence)];
  const priced = approved === undefined ? priceBlocks(view, price) : approvedPriceBlocks(view, design, price, approved);
  const { orderStands } = view.revision;
  return [...priced, ...(orderStands === undefined ? [] : [paragraph(orderStands)]), ...rounds];
}

/** The scope of work of one design as blocks in reading order; with its approval, or with boxes and lines for an answer on paper. */
export function scopeBlocks(view: ClientView, design: DesignView, approved?: ApprovedScope): readonly Block[] {
  const { terms } = view;
  return [
    ...documentHead(view, say(view, 'scope.title'), view.title),
    ...parties(view),
    ...(approved === undefined ? [] : approvalBlocks(view, design, approved)),
    ...piece(view, design, approved),
    ...(design.sheet === undefined ? [] : [{ kind: 'sheet-page', sheet: design.sheet } as const]),
    ...materials(view, design),
    ...pricing(view, design, approved),
    ...groundBlocks(view, design),
    ...listed(view, 'scope.supplied', view.supplied),
    ...listed(view, 'scope.exclusions', view.exclusions),
    ...listed(view, 'scope.assumptions', view.assumptions),
    ...steadiness(view, design),
    ...(terms.tolerances.length === 0
      ? []
      : [
          heading(view, 'scope.tolerances'),
          rows(
            terms.tolerances.map((t) => [t.says, t.value] as const),
            true,
          ),
        ]),
    ...listed(view, 'scope.choices', view.choices),
    ...staged(view, 'scope.changes', terms.changes),
    ...staged(view, 'scope.cancellation', terms.cancellation),
    ...terms.sections.flatMap((section): readonly Block[] => [
      { kind: 'heading', level: 2, text: section.title },
      ...richBlocks(section.body),
    ]),
    ...consentBlocks(view),
    ...(approved === undefined ? signatures(view, design) : []),
  ];
}

/**
 * Writes the scope of work of one design as PDF bytes: before approval an answer on paper, with boxes to tick and lines to sign; after it
 * what was approved, by whom and when, with no box left empty, and room for a signature by a key where `approved.signature` says so.
 * @throws RangeError when the view has no design of that id.
 */
export async function writeScope(view: ClientView, designId: string, fonts: DocumentFonts, approved?: ApprovedScope): Promise<Uint8Array> {
  const design = view.designs.find((d) => d.id === designId);
  if (design === undefined) throw new RangeError(`no design ${designId} in ${view.proposal}`);
  const mark = view.revision.fingerprint ?? say(view, 'scope.draft');
  const info = {
    title: `${say(view, 'scope.title')}: ${view.title}, ${design.name}`,
    dateIso: view.revision.dateIso,
    foot: `${view.title}  ·  ${view.revision.ordinal}, ${design.id}  ·  ${mark}`,
  };
  const signature =
    approved?.signature === undefined
      ? undefined
      : { name: view.maker.name, reason: say(view, 'paper.signature-reason'), at: approved.signature.at };
  return writeDocument(view, scopeBlocks(view, design, approved), fonts, info, signature);
}
