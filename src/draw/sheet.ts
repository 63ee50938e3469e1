import type { Block } from './block.ts';
import { moveBlock } from './block.ts';
import type { Drawings, Mark, Sheet } from './display-list.ts';
import { LETTERING_MM, lettering, TITLE_MM } from './lettering.ts';
import { angleOf, TITLE_BLOCK_MM, titleBlock } from './title-block.ts';
import type { ViewName } from './view.ts';
import type { Drawing, ViewBlockLook } from './view-block.ts';
import { viewBlock, viewTitle } from './view-block.ts';

/** Scales of the drawing office, real mm per sheet mm. @source ISO 5455 (1:5, 1:10, 1:20), common practice for the others and for inches */
export const scales = { mm: [5, 10, 15, 20, 25, 50, 100], in: [4, 8, 12, 16, 24, 48, 96] } as const;

interface Paper {
  readonly name: string;
  readonly widthMm: number;
  readonly heightMm: number;
  /** A smaller scale than this wants the larger paper. */
  readonly leastScale: number;
}

const papers: Readonly<Record<'a4' | 'letter', readonly Paper[]>> = {
  a4: [
    { name: 'A4', widthMm: 297, heightMm: 210, leastScale: 15 },
    { name: 'A3', widthMm: 420, heightMm: 297, leastScale: Number.POSITIVE_INFINITY },
  ],
  letter: [
    { name: 'Letter', widthMm: 279.4, heightMm: 215.9, leastScale: 16 },
    { name: 'Tabloid', widthMm: 431.8, heightMm: 279.4, leastScale: Number.POSITIVE_INFINITY },
  ],
};

const MARGIN_MM = 10;
/** Room for the name over a view. */
const NAME_MM = 9;
/** White between two views: four times the lettering. */
const BETWEEN_MM = 10;

export const scalesFor = ({ shown }: Drawing): readonly number[] => scales[shown.style === 'in' ? 'in' : 'mm'];

/** Views in rows and columns, so that neighbours line up: first angle with the end at the left, third angle with it at the right. */
const arrangements: Readonly<Record<'first-angle' | 'third-angle', readonly (readonly [ViewName, ViewName])[]>> = {
  'first-angle': [
    ['side', 'front'],
    ['underside', 'plan'],
  ],
  'third-angle': [
    ['plan', 'underside'],
    ['front', 'side'],
  ],
};

interface Arranged {
  readonly blocks: readonly (readonly Block[])[];
  readonly widthMm: number;
  readonly heightMm: number;
}

/** Room that a block takes left, right, above and below of its own zero, mm. */
export const before = (b: Block): number => -b.box.x;
export const after = (b: Block): number => b.box.x + b.box.width;
export const above = (b: Block): number => -b.box.y;
export const below = (b: Block): number => b.box.y + b.box.height;

function arrange(drawing: Drawing, scale: number, extent: 'full' | 'main' = 'full'): Arranged {
  const lookOf = (name: ViewName): ViewBlockLook => ({ scale, extent: name === 'plan' ? 'full' : extent });
  const blocks = arrangements[angleOf(drawing)].map((names) => names.map((name) => viewBlock(drawing, name, lookOf(name))));
  const columns = [0, 1].map((c) => blocks.map((r) => r[c]).filter((b) => b !== undefined));
  const widthMm = columns.reduce((sum, c) => sum + Math.max(...c.map(before)) + Math.max(...c.map(after)), BETWEEN_MM);
  const heightMm = blocks.reduce((sum, r) => sum + NAME_MM + Math.max(...r.map(above)) + Math.max(...r.map(below)), BETWEEN_MM);
  return { blocks, widthMm, heightMm };
}

/** Views alone, without a single figure: what fails here needs no drawing. */
function couldFit({ table }: Drawing, paper: Paper, scale: number): boolean {
  const { length, width, height } = table.overallMm;
  return (
    (2 * length) / scale + 3 * BETWEEN_MM < paper.widthMm - 2 * MARGIN_MM &&
    (width + height) / scale + 6 * BETWEEN_MM < paper.heightMm - TITLE_BLOCK_MM
  );
}

/** The largest usual scale on the smallest paper on which the drawing can be read. */
function chooseSheet(drawing: Drawing): { readonly paper: Paper; readonly scale: number; readonly arranged: Arranged } {
  const list = papers[drawing.spec.proposal.paper];
  const tried = new Map<number, Arranged>();
  for (const paper of list) {
    for (const scale of scalesFor(drawing)) {
      if (scale > paper.leastScale) break;
      if (!couldFit(drawing, paper, scale)) continue;
      const arranged = tried.get(scale) ?? arrange(drawing, scale);
      tried.set(scale, arranged);
      const roomy =
        arranged.widthMm <= paper.widthMm - 2 * MARGIN_MM && arranged.heightMm <= paper.heightMm - 2 * MARGIN_MM - TITLE_BLOCK_MM - 9;
      if (roomy) return { paper, scale, arranged };
    }
  }
  const paper = list.at(-1);
  const scale = scalesFor(drawing).at(-1);
  if (paper === undefined || scale === undefined) throw new Error('no paper or no scale to draw on');
  return { paper, scale, arranged: arrange(drawing, scale) };
}

/**
 * The full sheet: front, end, plan and underside in line with each other, title block along the foot. `mainSheet` is for who may
 * see the main sizes alone: no section of a part, no underside and no fixings; that quarter stays empty.
 */
export function drawSheets(drawing: Drawing, words: Pick<Sheet, 'title' | 'description'>): Pick<Drawings, 'sheet' | 'mainSheet'> {
  const chosen = chooseSheet(drawing);
  return {
    sheet: { id: 'sheet', ...sheetOf(drawing, chosen, () => true, words) },
    mainSheet: {
      id: 'main-sheet',
      ...sheetOf(drawing, { ...chosen, arranged: arrange(drawing, chosen.scale, 'main') }, (name) => name !== 'underside', words),
    },
  };
}

function sheetOf(
  drawing: Drawing,
  { paper, scale, arranged }: ReturnType<typeof chooseSheet>,
  isShown: (name: ViewName) => boolean,
  words: Pick<Sheet, 'title' | 'description'>,
): Omit<Sheet, 'id'> {
  const { blocks } = arranged;
  const roomX = paper.widthMm - 2 * MARGIN_MM - arranged.widthMm;
  const roomY = paper.heightMm - 2 * MARGIN_MM - TITLE_BLOCK_MM - arranged.heightMm;
  // Spare room goes between and around the views in equal shares.
  const [gapX, gapY] = [Math.max(0, roomX / 3), Math.max(0, roomY / 3)];
  const marks: Mark[] = [];
  let y = MARGIN_MM + gapY;
  const names = arrangements[angleOf(drawing)];
  blocks.forEach((row, r) => {
    const zeroY = y + NAME_MM + Math.max(...row.map(above));
    let x = MARGIN_MM + gapX;
    row.forEach((block, c) => {
      const column = blocks.map((r) => r[c]).filter((b) => b !== undefined);
      const zeroX = x + Math.max(...column.map(before));
      const name = names[r]?.[c] ?? 'front';
      const left = zeroX + drawing.views[name].box[0] / scale;
      x = zeroX + Math.max(...column.map(after)) + BETWEEN_MM + gapX;
      if (!isShown(name)) return;
      const title = lettering(viewTitle(drawing, name), [left, y + NAME_MM - 5], drawing.measure, {
        class: 'title',
        sizeMm: TITLE_MM * 0.86,
      });
      marks.push(title, ...moveBlock(block, zeroX, zeroY).marks);
    });
    y = zeroY + Math.max(...row.map(below)) + BETWEEN_MM + gapY;
  });
  const yMm = paper.heightMm - MARGIN_MM - TITLE_BLOCK_MM;
  marks.push(...titleBlock(drawing, { scale, sheetName: paper.name, xMm: MARGIN_MM, yMm, widthMm: paper.widthMm - 2 * MARGIN_MM }));
  return { ...words, widthMm: paper.widthMm, heightMm: paper.heightMm, scale, marks };
}

/** 350 px at 96 px an inch. */
const PHONE_MM = (350 / 96) * 25.4;
/** 13 px on the same telephone. */
const PHONE_LETTERING_MM = Math.max((13 / 96) * 25.4, LETTERING_MM * 0.9);
const phoneScales = [5, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100];

/** For a telephone: front over end with overall sizes alone, in lettering that can be read there. */
export function drawSmall(drawing: Drawing, words: Pick<Sheet, 'title' | 'description'>): Sheet {
  const blocksAt = (scale: number): readonly Block[] =>
    (['front', 'side'] as const).map((name) => viewBlock(drawing, name, { scale, extent: 'overall', letteringMm: PHONE_LETTERING_MM }));
  const room = PHONE_MM - 2;
  const widthOf = (blocks: readonly Block[]): number => Math.max(...blocks.map(before)) + Math.max(...blocks.map(after));
  const longest = Math.max(drawing.table.overallMm.length, drawing.table.overallMm.width);
  const scale = phoneScales.find((s) => longest / s <= room - 14 && widthOf(blocksAt(s)) <= room) ?? 100;
  const blocks = blocksAt(scale);
  const zeroX = (PHONE_MM - widthOf(blocks)) / 2 + Math.max(...blocks.map(before));
  const marks: Mark[] = [];
  let y = 1;
  for (const block of blocks) {
    const zeroY = y + above(block);
    marks.push(...moveBlock(block, zeroX, zeroY).marks);
    y = zeroY + below(block) + 6;
  }
  return { id: 'small', ...words, widthMm: PHONE_MM, heightMm: y - 5, scale, marks };
}
