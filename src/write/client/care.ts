import type { CareView } from '../../care/index.ts';
import type { Sheet } from '../../draw/index.ts';
import { formatDate } from '../../units/index.ts';
import type { Block, SideBlock } from './blocks.ts';
import { layOut } from './flow.ts';
import { type DocumentFonts, measureWith, paintDocument } from './paint.ts';
import { papers, paragraph, rows, say } from './paper.ts';
import { ptPerMm } from './type.ts';

const MARGIN_PT = 18 * ptPerMm;

const side = (level: 2 | 3, head: string, paragraphs: readonly string[], more: Partial<SideBlock> = {}): SideBlock => ({
  kind: 'side',
  level,
  head,
  paragraphs,
  steps: [],
  ...more,
});

/** The steps as they are told, the picture, and the pieces with the numbers of the picture. */
function apartBlocks(care: CareView, apart: Sheet | undefined): readonly Block[] {
  if (care.apart === undefined) return [];
  const column = (key: string, share: number, align: 'left' | 'right' = 'left') => ({ head: say(care, key), share, align });
  const picture: readonly Block[] =
    apart === undefined
      ? []
      : [{ kind: 'figure', sheet: apart, widthMm: 105, heightMm: 78, caption: say(care, 'care.page.apart-caption') }];
  return [
    side(2, say(care, 'care.page.apart'), [say(care, 'care.page.apart-lead'), ...care.apart.steps]),
    ...picture,
    {
      kind: 'table',
      showHead: true,
      columns: [column('care.page.apart-piece', 0.5), column('care.page.apart-mass', 0.2, 'right'), column('care.page.apart-people', 0.3)],
      rows: care.apart.pieces.map(({ name, mass, people }, i) => ({ cells: [`${i + 1}  ${name}`, mass, people], strong: false })),
    },
  ];
}

/** Whom to ask with the wet cloth in hand. */
const calling = ({ maker, ...care }: CareView): readonly string[] =>
  maker.telephone === '' ? [] : [say(care, 'care.page.spilt-call', { telephone: maker.telephone })];

/** The parts of the note in their order; what is told of taking apart is told once, with its picture. */
function noteBlocks(care: CareView, apart: Sheet | undefined): readonly Block[] {
  const told = new Set(care.apart?.steps ?? []);
  return care.note.sections.flatMap((section): readonly Block[] => {
    const { id, title, lines, spills } = section;
    const words = lines.map(({ text }) => text).filter((text) => !told.has(text));
    const own = side(2, title, words, { isCaution: id === 'rags' });
    if (id === 'moving') return [own, ...apartBlocks(care, apart)];
    if (spills === undefined) return [own];
    return [
      side(2, title, [[say(care, 'care.page.spilt-first'), ...calling(care)].join(' '), ...words]),
      ...spills.map((spill) =>
        side(
          3,
          spill.title,
          spill.stop.map(({ text }) => text),
          { steps: spill.steps.map(({ text }) => text) },
        ),
      ),
    ];
  });
}

function layerText({ name, product }: { readonly name: string; readonly product?: string }): string {
  return product === undefined ? name : `${name}: ${product}`;
}

function tableBlocks(care: CareView): readonly Block[] {
  const { maker, woods, finish, baseFinish, events, language } = care;
  const woodNames = woods.map(({ name, botanical }) => (botanical === undefined ? name : `${name} (${botanical})`)).join(', ');
  const again = (months: number | undefined): string =>
    months === undefined ? '' : ` (${say(care, 'care.page.again', { months: String(months) })})`;
  return [
    side(2, say(care, 'care.page.call'), [
      say(care, 'care.page.call-says', { piece: care.piece }),
      [maker.telephone, maker.email].filter((part) => part !== '').join(', '),
      say(care, 'care.page.call-nobody'),
    ]),
    { kind: 'heading', level: 2, text: say(care, 'care.page.days') },
    rows(events.map(({ day, title, everyMonths }) => [formatDate(day, language), `${title}${again(everyMonths)}`])),
    { kind: 'heading', level: 2, text: say(care, 'care.page.this-table') },
    rows([
      [say(care, 'care.page.piece'), care.piece],
      [say(care, woods.length === 1 ? 'care.page.wood' : 'care.page.woods'), woodNames],
      [say(care, 'care.page.finish'), layerText(finish)],
      ...(baseFinish === undefined ? [] : [[say(care, 'care.page.base-finish'), layerText(baseFinish)] as const]),
      [say(care, 'care.page.size'), care.size],
      [say(care, 'care.page.mass'), care.mass],
      [say(care, 'care.page.finished'), care.finished],
      [say(care, 'care.page.delivered'), care.delivered],
      [say(care, 'care.page.maker'), [maker.name, maker.trade, maker.address].filter((part) => part !== '').join(', ')],
    ]),
    paragraph(
      [
        say(care, 'care.page.edition', { edition: String(care.edition), date: care.date }),
        ...(maker.isInvented ? [say(care, 'care.page.invented')] : []),
      ].join(' '),
      'small',
    ),
  ];
}

/**
 * Writes the care of a table as a tagged PDF with an outline, to lie in its drawer. The same view, fonts and picture give the same
 * bytes; nothing in them names a client.
 *
 * @param apart the table drawn apart; absent where it does not come apart
 */
export async function writeCare(care: CareView, fonts: DocumentFonts, apart?: Sheet): Promise<Uint8Array> {
  const { maker } = care;
  const blocks: readonly Block[] = [
    paragraph([maker.name, maker.trade].filter((part) => part !== '').join(', '), 'small'),
    { kind: 'gap', mm: 1 },
    { kind: 'title', text: care.title },
    paragraph(say(care, 'care.page.of', { finish: care.finish.name }), 'lead'),
    { kind: 'gap', mm: 1 },
    ...noteBlocks(care, apart),
    ...tableBlocks(care),
  ];
  const layout = layOut(blocks, { ...papers[care.paper], marginPt: MARGIN_PT, footPt: 4 * ptPerMm }, measureWith(fonts));
  const name = say(care, 'care.page.foot', { title: care.title, piece: care.piece });
  return paintDocument(
    layout,
    fonts,
    {
      title: `${name}: ${say(care, 'care.page.title')}`,
      author: maker.name,
      subject: say(care, 'care.page.edition', { edition: String(care.edition), date: care.date }),
      language: care.language,
      dateIso: care.dateIso,
      foot: [name, maker.name, maker.telephone].filter((part) => part !== '').join(' · '),
      pageOf: (page, pages) => say(care, 'care.page.page-of', { page: String(page), pages: String(pages) }),
      hasOutline: true,
    },
    MARGIN_PT,
  );
}
