import type { PapersView } from '../../client/index.ts';
import type { Block } from './blocks.ts';
import type { DocumentFonts } from './paint.ts';
import { documentHead, heading, paragraph, rows, say, writeDocument } from './paper.ts';

const column = ({ page }: PapersView, key: string, share: number, align: 'left' | 'right' = 'left') => ({
  head: say(page, key),
  share,
  align,
});

function head(papers: PapersView, key: string): readonly Block[] {
  const { page, piece, finished, delivered, edition } = papers;
  return [
    ...documentHead(page, say(page, key), say(page, `${key}-lead`, { title: page.title, piece })),
    { kind: 'gap', mm: 3 },
    rows([
      [say(page, 'papers.finished'), finished],
      [say(page, 'papers.delivered'), delivered],
      [say(page, 'papers.edition'), edition],
    ]),
  ];
}

function builtBlocks(papers: PapersView): readonly Block[] {
  const { page, built, weighed } = papers;
  const mass = weighed === undefined ? [] : [paragraph(weighed)];
  const title = heading(page, 'papers.built');
  if (built.length === 0)
    return [title, paragraph(say(page, 'papers.built-none')), ...mass, paragraph(say(page, 'papers.drawings-note-none'))];
  return [
    title,
    {
      kind: 'table',
      showHead: true,
      columns: [
        column(papers, 'papers.built-what', 0.25),
        column(papers, 'papers.built-agreed', 0.14, 'right'),
        column(papers, 'papers.built-built', 0.14, 'right'),
        column(papers, 'papers.built-difference', 0.13, 'right'),
        column(papers, 'papers.built-tolerance', 0.13, 'right'),
        column(papers, 'papers.built-by', 0.21),
      ],
      rows: built.map(({ says, agreed, built: measured, difference, tolerance, agreedBy }) => ({
        cells: [says, agreed, measured, difference, tolerance, agreedBy],
        strong: false,
      })),
    },
    ...mass,
    paragraph(say(page, 'papers.drawings-note')),
  ];
}

/** Drawings as built: what was measured, then the drawings that were agreed. */
function drawingBlocks(papers: PapersView): readonly Block[] {
  const { page, design, isDrawn, standardShown } = papers;
  const picture: readonly Block[] = isDrawn ? [{ kind: 'figure', sheet: design.picture, widthMm: 130, heightMm: 72 }] : [];
  const sheet: readonly Block[] = isDrawn && design.sheet !== undefined ? [{ kind: 'sheet-page', sheet: design.sheet }] : [];
  return [
    ...head(papers, 'papers.drawings'),
    { kind: 'gap', mm: 4 },
    ...picture,
    ...builtBlocks(papers),
    ...(standardShown === undefined ? [] : [paragraph(standardShown)]),
    paragraph(say(page, isDrawn ? 'papers.scale-note' : 'papers.drawings-not-kept'), 'small'),
    ...sheet,
  ];
}

function partBlocks(papers: PapersView): readonly Block[] {
  const { page, design } = papers;
  const isSized = design.materials.some(({ size }) => size !== undefined);
  const wide = isSized ? 0.4 : 0.66;
  return [
    heading(page, 'papers.parts'),
    {
      kind: 'table',
      showHead: true,
      columns: [
        column(papers, 'papers.parts-part', 0.22),
        column(papers, 'papers.parts-count', 0.12, 'right'),
        column(papers, 'papers.parts-wood', wide),
        ...(isSized ? [column(papers, 'papers.parts-size', 0.26, 'right')] : []),
      ],
      rows: design.materials.map(({ part, count, wood, size = '' }) => ({
        cells: [part, count, wood, ...(isSized ? [size] : [])],
        strong: false,
      })),
    },
  ];
}

function timberBlocks(papers: PapersView): readonly Block[] {
  const { page, timber } = papers;
  if (timber.length === 0) return [heading(page, 'papers.timber'), paragraph(say(page, 'papers.timber-none'))];
  const or = (text: string): string => (text === '' ? '–' : text);
  return [
    heading(page, 'papers.timber'),
    {
      kind: 'table',
      showHead: true,
      columns: [
        column(papers, 'papers.timber-wood', 0.2),
        column(papers, 'papers.timber-origin', 0.26),
        column(papers, 'papers.timber-says', 0.34),
        column(papers, 'papers.timber-certificate', 0.2),
      ],
      rows: timber.map(({ wood, origin, says, certificate }) => ({ cells: [wood, or(origin), or(says), or(certificate)], strong: false })),
    },
    paragraph(say(page, 'papers.timber-note'), 'small'),
  ];
}

/** Woods, finish, metal, glue and the baseline, each with where it is from. */
function materialBlocks(papers: PapersView): readonly Block[] {
  const { page, woods, finish, metal, glue, baseline } = papers;
  return [
    ...head(papers, 'papers.materials'),
    ...partBlocks(papers),
    ...timberBlocks(papers),
    heading(page, 'papers.woods'),
    ...woods.flatMap(({ name, botanical, rows: facts, source }): readonly Block[] => [
      { kind: 'heading', level: 3, text: say(page, 'papers.wood-name', { name, botanical }) },
      rows(facts),
      paragraph(source, 'small'),
    ]),
    paragraph(say(page, 'papers.woods-note'), 'small'),
    heading(page, 'papers.finish'),
    rows(finish),
    paragraph(say(page, 'papers.finish-note'), 'small'),
    ...(metal.length === 0
      ? []
      : [
          heading(page, 'papers.metal'),
          { kind: 'list', ordered: false, items: metal.map((text) => [{ text, strong: false, emphasis: false }]) } as const,
        ]),
    ...(glue === undefined ? [] : [heading(page, 'papers.glue'), paragraph(glue)]),
    heading(page, 'papers.baseline'),
    ...(baseline.length === 0
      ? [paragraph(say(page, 'papers.baseline-none'))]
      : [rows(baseline, false, 0.42), paragraph(say(page, 'papers.baseline-note'), 'small')]),
  ];
}

async function write(papers: PapersView, key: string, foot: string, blocks: readonly Block[], fonts: DocumentFonts): Promise<Uint8Array> {
  const { page, piece, edition, editionIso } = papers;
  const name = say(page, key);
  return writeDocument(page, blocks, fonts, {
    title: `${name}: ${page.title}, ${piece}`,
    dateIso: editionIso,
    foot: say(page, foot, { name, piece, date: edition }),
  });
}

/** Writes the drawings of a delivered table as built, as PDF bytes: a sheet by itself says where its measured sizes stand. */
export const writeDrawingsAsBuilt = (papers: PapersView, fonts: DocumentFonts): Promise<Uint8Array> =>
  write(papers, 'papers.drawings', 'papers.drawings-foot', drawingBlocks(papers), fonts);

/** Writes what a delivered table is made of and where that came from, as PDF bytes. */
export const writeMaterials = (papers: PapersView, fonts: DocumentFonts): Promise<Uint8Array> =>
  write(papers, 'papers.materials', 'papers.foot', materialBlocks(papers), fonts);
