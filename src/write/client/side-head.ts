import type { Atom, Item, StructureNode } from './atom.ts';
import { plain, type SideBlock } from './blocks.ts';
import type { MeasurePt, Setting } from './type.ts';
import { baselinePt, settings } from './type.ts';
import { type Line, wrap } from './wrap.ts';

/** Share of the width that headings in the margin take, with the space to the words. */
const MARGIN_SHARE = 0.27;
const GUTTER_PT = 12;
const NUMBER_PT = 14;

/** Makes a node of the document's structure below another and returns its number. */
type MakeNode = (tag: StructureNode['tag'], parent: number) => number;

/** A line of words with what stands on it at its left. */
interface Row {
  readonly items: readonly Item[];
  readonly spaceBeforePt: number;
  readonly keepWithNext: boolean;
}

function lineItem(line: Line, node: number, xPt: number, setting: Setting): Item {
  return { kind: 'line', node, xPt, yPt: baselinePt(setting), line, setting };
}

/**
 * Sets a heading in the margin on a level with the first line of its words. A heading of more lines than its words makes room for
 * itself; no paragraph leaves a lone line on a page, and the heading stays with its first paragraph. Under a heading of level 3 nothing is
 * parted: its steps are followed with one hand.
 *
 * @param widthPt of the whole column, margin included
 */
export function sideAtoms(block: SideBlock, widthPt: number, measure: MeasurePt, makeNode: MakeNode): readonly Atom[] {
  const caution = block.isCaution === true;
  const headSetting = block.level === 3 ? settings.sideHead3 : caution ? settings.sideHeadCaution : settings.sideHead;
  const setting = settings.kept;
  const leftPt = widthPt * MARGIN_SHARE;
  const headNode = makeNode(block.level === 2 ? 'H2' : 'H3', 0);
  const head = wrap(plain(block.head), leftPt - GUTTER_PT, headSetting, measure);
  const rows: Row[] = [];
  const add = (lines: readonly Line[], node: number, xPt: number, mark: Item | undefined, spacePt: number): void => {
    for (const [i, line] of lines.entries()) {
      const items = [lineItem(line, node, xPt, setting)];
      rows.push({
        items: i === 0 && mark !== undefined ? [mark, ...items] : items,
        spaceBeforePt: i === 0 && rows.length > 0 ? spacePt : 0,
        keepWithNext: (i === 0 && lines.length > 1) || i === lines.length - 2,
      });
    }
  };
  const list = block.steps.length === 0 ? undefined : makeNode('L', 0);
  for (const [i, step] of block.steps.entries()) {
    if (list === undefined) break;
    const item = makeNode('LI', list);
    const label = makeNode('Lbl', item);
    const [number] = wrap(plain(`${i + 1}.`), NUMBER_PT, setting, measure);
    const mark = number === undefined ? undefined : lineItem(number, label, leftPt, setting);
    add(wrap(plain(step), widthPt - leftPt - NUMBER_PT, setting, measure), makeNode('LBody', item), leftPt + NUMBER_PT, mark, 2);
  }
  const indentPt = block.steps.length === 0 ? 0 : NUMBER_PT;
  for (const text of block.paragraphs) {
    add(wrap(plain(text), widthPt - leftPt - indentPt, setting, measure), makeNode('P', 0), leftPt + indentPt, undefined, 3);
  }
  const count = Math.max(rows.length, head.length);
  return Array.from({ length: count }, (_, i): Atom => {
    const row = rows[i];
    const line = head[i];
    const beside = line === undefined ? [] : [lineItem(line, headNode, 0, headSetting)];
    return {
      heightPt: setting.leadingPt,
      spaceBeforePt: i === 0 ? (block.level === 2 ? 10 : 6) : (row?.spaceBeforePt ?? 0),
      keepWithNext: i < count - 1 && (block.level === 3 || i < head.length || row?.keepWithNext === true),
      items: [...beside, ...(row?.items ?? [])],
    };
  });
}
