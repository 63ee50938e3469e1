import type { Block } from './block.ts';
import { moveBlock } from './block.ts';
import type { Drawings, Sheet } from './display-list.ts';
import { above, after, before, below, scalesFor } from './sheet.ts';
import type { ViewName } from './view.ts';
import type { Drawing } from './view-block.ts';
import { viewBlock } from './view-block.ts';

const VIEW_PAD_MM = 3;
/** Widest view with its dimensions that a page takes, mm. */
const VIEW_WIDTH_MM = 180;

/** Places of the views on a page: what shares a row or a column shares its margins, so that edges line up across them. */
const places: Readonly<Record<ViewName, { readonly row: readonly ViewName[]; readonly column: readonly ViewName[] }>> = {
  front: { row: ['front', 'side'], column: ['front', 'plan'] },
  side: { row: ['front', 'side'], column: ['side', 'underside'] },
  plan: { row: ['plan', 'underside'], column: ['front', 'plan'] },
  underside: { row: ['plan', 'underside'], column: ['side', 'underside'] },
};

/** One scale for the views that stand alone on a page, so that they can be compared. */
function singleViewScale(drawing: Drawing): number {
  const { length, width } = drawing.table.overallMm;
  const widest = Math.max(length, width);
  return scalesFor(drawing).find((s) => widest / s + 40 <= VIEW_WIDTH_MM) ?? 100;
}

/**
 * The views one by one, each a sheet of its own on one scale, laid out for two rows: front and side over plan and underside.
 * Sheets of a row are equally high and those of a column equally wide, so that the page aligns views by aligning sheets.
 * `mainFront` and so on have the main sizes alone.
 */
export function drawSingleViews(
  drawing: Drawing,
  wordsOf: (name: ViewName) => Pick<Sheet, 'title' | 'description'>,
): Pick<Drawings, ViewName | 'mainFront' | 'mainSide' | 'mainPlan'> {
  const main = viewsAlone(drawing, wordsOf, 'main');
  return { ...viewsAlone(drawing, wordsOf, 'single'), mainFront: main.front, mainSide: main.side, mainPlan: main.plan };
}

function viewsAlone(
  drawing: Drawing,
  wordsOf: (name: ViewName) => Pick<Sheet, 'title' | 'description'>,
  extent: 'single' | 'main',
): Pick<Drawings, ViewName> {
  const scale = singleViewScale(drawing);
  const blockOf = (name: ViewName): Block => viewBlock(drawing, name, { scale, extent });
  const blocks: Readonly<Record<ViewName, Block>> = {
    front: blockOf('front'),
    side: blockOf('side'),
    plan: blockOf('plan'),
    underside: blockOf('underside'),
  };
  const most = (names: readonly ViewName[], room: (block: Block) => number): number => Math.max(...names.map((n) => room(blocks[n])));
  const sheetOf = (name: ViewName): Sheet => {
    const { row, column } = places[name];
    const [zeroX, zeroY] = [VIEW_PAD_MM + most(column, before), VIEW_PAD_MM + most(row, above)];
    return {
      id: extent === 'main' ? `main-${name}` : name,
      ...wordsOf(name),
      widthMm: zeroX + most(column, after) + VIEW_PAD_MM,
      heightMm: zeroY + most(row, below) + VIEW_PAD_MM,
      scale,
      marks: moveBlock(blocks[name], zeroX, zeroY).marks,
    };
  };
  return { front: sheetOf('front'), side: sheetOf('side'), plan: sheetOf('plan'), underside: sheetOf('underside') };
}
