import type { ClientView, DesignView, PriceView } from '../../client/index.ts';
import type { Block } from './blocks.ts';
import { plain, richBlocks } from './blocks.ts';
import { layOut } from './flow.ts';
import type { DocumentFonts } from './paint.ts';
import { measureWith, paintDocument } from './paint.ts';
import { ptPerMm } from './type.ts';

const papers = {
  a4: { widthPt: 210 * ptPerMm, heightPt: 297 * ptPerMm },
  letter: { widthPt: 612, heightPt: 792 },
} as const;

const marginPt = 22 * ptPerMm;

/** Words of the page by key; a missing key shows as itself, which the texts' own test refuses. */
function say(view: ClientView, key: string, values: Readonly<Record<string, string>> = {}): string {
  const text = view.texts[key] ?? key;
  return text.replace(/\{(\w+)\}/g, (whole, name: string) => values[name] ?? whole);
}

function heading(view: ClientView, key: string, level: 2 | 3 = 2): Block {
  return { kind: 'heading', level, text: say(view, key) };
}

function rows(pairs: readonly (readonly [string, string])[], valueRight = false, labelShare = valueRight ? 0.6 : 0.3): Block {
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

function parties(view: ClientView): readonly Block[] {
  const { maker, client, endClient } = view;
  const lines: (readonly [string, string])[] = [
    [
      say(view, 'scope.maker'),
      [maker.name, maker.trade, maker.address, maker.telephone, maker.email].filter((part) => part !== '').join(', '),
    ],
    [say(view, 'scope.client'), client.address === undefined ? client.name : `${client.name}, ${client.address}`],
  ];
  if (endClient !== undefined) lines.push([say(view, 'scope.end-client'), endClient.name]);
  lines.push([say(view, 'scope.deciders'), view.deciders.sentence]);
  lines.push([say(view, 'scope.date'), `${view.revision.date}; ${say(view, 'scope.valid-until', { date: view.revision.validUntil })}`]);
  return [heading(view, 'scope.parties'), rows(lines)];
}

function piece(view: ClientView, design: DesignView): readonly Block[] {
  const facts: (readonly [string, string])[] = [
    [say(view, 'scope.design'), `${design.id}, ${design.name}`],
    [say(view, 'scope.sizes'), design.sizes],
    [say(view, 'scope.mass'), design.mass],
    [say(view, 'scope.finish'), design.care.finish],
    [say(view, 'scope.ready'), design.ready],
  ];
  if (view.sample !== undefined) facts.push([say(view, 'scope.sample'), view.sample]);
  return [
    heading(view, 'scope.piece'),
    { kind: 'figure', sheet: design.picture, widthMm: 120, heightMm: 60, caption: say(view, 'scope.picture-note') },
    ...richBlocks(design.why),
    rows(facts),
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
  const lines = price.lines.flatMap((line) => [
    { cells: [line.quantity === undefined ? line.says : `${line.says} (${line.quantity})`, line.certainty, line.amount], strong: false },
    ...line.groups.map((group) => ({ cells: [group.says, '', group.amount], strong: false, indent: true })),
  ]);
  const totals = [
    { cells: [say(view, 'price.net'), '', price.net], strong: false },
    ...price.taxes.map((tax) => ({ cells: [tax.says, '', tax.amount], strong: false })),
    { cells: [say(view, 'price.total'), '', price.total], strong: true },
  ];
  const blocks: Block[] = [
    heading(view, 'scope.price'),
    {
      kind: 'table',
      showHead: true,
      columns: [
        { head: say(view, 'price.what'), share: 0.58, align: 'left' },
        { head: say(view, 'price.certainty'), share: 0.2, align: 'left' },
        { head: say(view, 'price.amount'), share: 0.22, align: 'right' },
      ],
      rows: [...lines, ...totals],
    },
  ];
  if (price.options.length > 0) {
    blocks.push(heading(view, 'scope.options', 3), {
      kind: 'table',
      showHead: true,
      columns: [
        { head: say(view, 'price.combination'), share: 0.56, align: 'left' },
        { head: say(view, 'price.net'), share: 0.22, align: 'right' },
        { head: say(view, 'price.total'), share: 0.22, align: 'right' },
      ],
      rows: price.combinations.map((c) => ({ cells: [`☐  ${c.says}`, c.net, c.total], strong: false })),
    });
  }
  if (price.instalments.length > 0) {
    blocks.push(heading(view, 'scope.instalments', 3), {
      kind: 'table',
      showHead: false,
      columns: [
        { head: '', share: 0.14, align: 'left' },
        { head: '', share: 0.6, align: 'left' },
        { head: '', share: 0.26, align: 'right' },
      ],
      rows: price.instalments.map((i) => ({ cells: [i.percent, i.when, i.amount], strong: false })),
    });
  }
  return blocks;
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
  const line = (role: string, name: string) => ({
    role,
    name,
    signature: say(view, 'scope.signature'),
    place: say(view, 'scope.place-date'),
  });
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
        ...view.deciders.names.map((name) => line(say(view, 'scope.client'), name)),
        line(say(view, 'scope.maker'), view.maker.name),
      ],
    },
  ];
}

/** The scope of work of one design as blocks in reading order. */
export function scopeBlocks(view: ClientView, design: DesignView): readonly Block[] {
  const { terms } = view;
  return [
    { kind: 'paragraph', runs: plain(`${view.maker.name}, ${view.maker.trade}`), style: 'small' },
    { kind: 'gap', mm: 6 },
    { kind: 'title', text: say(view, 'scope.title') },
    { kind: 'paragraph', runs: plain(view.title), style: 'lead' },
    ...(view.invented ? [{ kind: 'paragraph', runs: plain(say(view, 'page.invented')), style: 'small' } as const] : []),
    ...parties(view),
    ...piece(view, design),
    ...(design.sheet === undefined ? [] : [{ kind: 'sheet-page', sheet: design.sheet } as const]),
    ...materials(view, design),
    ...(design.price === undefined ? [] : priceBlocks(view, design.price)),
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
    ...signatures(view, design),
  ];
}

/**
 * Writes the scope of work of one design as PDF bytes.
 * @throws RangeError when the view has no design of that id.
 */
export async function writeScope(view: ClientView, designId: string, fonts: DocumentFonts): Promise<Uint8Array> {
  const design = view.designs.find((d) => d.id === designId);
  if (design === undefined) throw new RangeError(`no design ${designId} in ${view.proposal}`);
  const layout = layOut(scopeBlocks(view, design), { ...papers[view.paper], marginPt, footPt: 4 * ptPerMm }, measureWith(fonts));
  const mark = view.revision.fingerprint ?? say(view, 'scope.draft');
  return paintDocument(
    layout,
    fonts,
    {
      title: `${say(view, 'scope.title')}: ${view.title}, ${design.name}`,
      author: view.maker.name,
      subject: `${view.revision.ordinal}, ${view.revision.date}`,
      language: view.language,
      dateIso: view.revision.dateIso,
      foot: `${view.title}  ·  ${view.revision.ordinal}, ${design.id}  ·  ${mark}`,
      pageOf: (page, pages) => say(view, 'scope.page-of', { page: String(page), pages: String(pages) }),
    },
    marginPt,
  );
}
