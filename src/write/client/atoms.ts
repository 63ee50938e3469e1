import type { RichRun } from '../../client/index.ts';
import type { Sheet } from '../../draw/index.ts';
import type { Atom, Item, StructureNode } from './atom.ts';
import type { Block, SignatureLine, TableBlock, TextStyle } from './blocks.ts';
import { plain } from './blocks.ts';
import { sideAtoms } from './side-head.ts';
import type { MeasurePt, Setting } from './type.ts';
import { baselinePt, hairline, ink, ptPerMm, settings } from './type.ts';
import type { Line } from './wrap.ts';
import { wrap } from './wrap.ts';

const textColumnShare = 0.86;

class Setter {
  readonly atoms: Atom[] = [];
  readonly structure: StructureNode[] = [{ id: 0, tag: 'Document', parent: -1 }];
  readonly widthPt: number;
  readonly measure: MeasurePt;

  constructor(widthPt: number, measure: MeasurePt) {
    this.widthPt = widthPt;
    this.measure = measure;
  }

  node(tag: StructureNode['tag'], parent: number, alt?: string): number {
    const id = this.structure.length;
    this.structure.push(alt === undefined ? { id, tag, parent } : { id, tag, parent, alt });
    return id;
  }

  /** Lines of one paragraph; the first two and the last two stay together. */
  lines(lines: readonly Line[], setting: Setting, node: number, xPt: number, spaceBeforePt: number, keepLast: boolean): void {
    for (const [i, line] of lines.entries()) {
      const first = i === 0;
      const beforeLast = i === lines.length - 2;
      this.atoms.push({
        heightPt: setting.leadingPt,
        spaceBeforePt: first ? spaceBeforePt : 0,
        keepWithNext: (first && lines.length > 1) || beforeLast || (keepLast && i === lines.length - 1),
        items: [{ kind: 'line', node, xPt, yPt: baselinePt(setting), line, setting }],
      });
    }
  }

  table(block: TableBlock): void {
    const table = this.node('Table', 0);
    const gutterPt = 12;
    const lefts: number[] = [];
    let x = 0;
    for (const column of block.columns) {
      lefts.push(x);
      x += column.share * this.widthPt;
    }
    const row = (
      cells: readonly string[],
      setting: Setting,
      tag: 'TH' | 'TD',
      artifact: boolean,
      indent: boolean,
    ): { items: Item[]; heightPt: number } => {
      const tr = artifact ? -1 : this.node('TR', table);
      const items: Item[] = [];
      let heightPt = setting.leadingPt;
      for (const [c, column] of block.columns.entries()) {
        const text = cells[c] ?? '';
        const cell = artifact ? -1 : this.node(tag === 'TD' && c === 0 && !block.showHead ? 'TH' : tag, tr);
        const leftPt = (lefts[c] ?? 0) + (indent && c === 0 ? 12 : 0);
        const widthPt = column.share * this.widthPt - (c < block.columns.length - 1 ? gutterPt : 0) - (indent && c === 0 ? 12 : 0);
        const lines = wrap(plain(text), widthPt, setting, this.measure);
        for (const [i, line] of lines.entries()) {
          const xPt = column.align === 'right' ? leftPt + widthPt - line.widthPt : leftPt;
          items.push({ kind: 'line', node: cell, xPt, yPt: 3 + i * setting.leadingPt + baselinePt(setting), line, setting });
        }
        heightPt = Math.max(heightPt, lines.length * setting.leadingPt);
      }
      return { items, heightPt: heightPt + 6 };
    };
    const ruled = (made: { items: Item[]; heightPt: number }, colour: string): Item[] => [
      ...made.items,
      { kind: 'rule', node: -1, xPt: 0, yPt: made.heightPt, widthPt: this.widthPt, colour, weightPt: 0.5 },
    ];
    let repeat: Atom | undefined;
    const heads = block.columns.map((column) => column.head);
    if (block.showHead) {
      const again = row(heads, settings.head, 'TH', true, false);
      repeat = { heightPt: again.heightPt, spaceBeforePt: 0, keepWithNext: true, items: ruled(again, ink) };
      const head = row(heads, settings.head, 'TH', false, false);
      this.atoms.push({ heightPt: head.heightPt, spaceBeforePt: 4, keepWithNext: true, items: ruled(head, ink) });
    }
    for (const [i, r] of block.rows.entries()) {
      const set = row(r.cells, r.strong ? settings.cellStrong : settings.cell, 'TD', false, r.indent === true);
      const made = { ...set, heightPt: Math.max(set.heightPt, (r.roomMm ?? 0) * ptPerMm) };
      const atom: Atom = {
        heightPt: made.heightPt,
        spaceBeforePt: i === 0 && !block.showHead ? 4 : 0,
        // Neither the first nor the last row stands alone on a page.
        keepWithNext: (i === 0 && block.rows.length > 1) || i === block.rows.length - 2,
        items: ruled(made, hairline),
      };
      this.atoms.push(repeat === undefined || i === 0 ? atom : { ...atom, repeat });
    }
  }

  signatures(people: readonly SignatureLine[]): void {
    const columnPt = this.widthPt / 2;
    for (const [i, person] of people.entries()) {
      const heightPt = 82;
      const items: Item[] = [];
      const name = this.node('P', 0);
      const say = (text: string, setting: Setting, xPt: number, yPt: number, widthPt: number): void => {
        for (const [k, line] of wrap(plain(text), widthPt, setting, this.measure).entries()) {
          items.push({ kind: 'line', node: name, xPt, yPt: yPt + k * setting.leadingPt + baselinePt(setting), line, setting });
        }
      };
      say(person.name, settings.cellStrong, 0, 0, this.widthPt);
      say(person.role, settings.small, 0, settings.cellStrong.leadingPt, this.widthPt);
      // The hand writes on these: 12 mm of room above each.
      items.push({ kind: 'rule', node: -1, xPt: 0, yPt: 62, widthPt: columnPt + 40, colour: ink, weightPt: 0.5 });
      items.push({ kind: 'rule', node: -1, xPt: columnPt + 60, yPt: 62, widthPt: columnPt - 60, colour: ink, weightPt: 0.5 });
      say(person.signature, settings.small, 0, 64, columnPt);
      say(person.place, settings.small, columnPt + 60, 64, columnPt - 60);
      this.atoms.push({ heightPt, spaceBeforePt: i === 0 ? 10 : 14, keepWithNext: i < people.length - 1, items });
    }
  }

  paragraph(
    runs: readonly RichRun[],
    setting: Setting,
    tag: 'H1' | 'H2' | 'H3' | 'P',
    spaceBeforePt: number,
    keepWithNext = tag !== 'P',
  ): void {
    const isHeading = tag !== 'P';
    const lines = wrap(runs, isHeading ? this.widthPt : this.widthPt * textColumnShare, setting, this.measure);
    this.lines(lines, setting, this.node(tag, 0), 0, spaceBeforePt, keepWithNext);
  }

  list(ordered: boolean, items: readonly (readonly RichRun[])[]): void {
    const list = this.node('L', 0);
    const indentPt = 14;
    const setting = settings.body;
    const textPt = this.widthPt * textColumnShare - indentPt;
    const wrapped = items.map((item) => wrap(item, textPt, setting, this.measure));
    // A first or last item of one line would stand alone on its page.
    const isLoneLine = (i: number): boolean => wrapped[i]?.length === 1;
    for (const [i, lines] of wrapped.entries()) {
      const li = this.node('LI', list);
      const mark = this.node('Lbl', li);
      const body = this.node('LBody', li);
      const start = this.atoms.length;
      this.lines(
        lines,
        setting,
        body,
        indentPt,
        i === 0 ? 6 : 3,
        i < items.length - 1 && ((i === 0 && isLoneLine(i)) || (i === items.length - 2 && isLoneLine(i + 1))),
      );
      const first = this.atoms[start];
      const [line] = wrap(plain(ordered ? `${i + 1}.` : '–'), indentPt, setting, this.measure);
      if (first === undefined || line === undefined) continue;
      this.atoms[start] = {
        ...first,
        items: [{ kind: 'line', node: mark, xPt: 0, yPt: baselinePt(setting), line, setting }, ...first.items],
      };
    }
  }

  figure(sheet: Sheet, widthPt: number, heightPt: number, rest: Partial<Atom>): void {
    const figure = this.node('Figure', 0, `${sheet.title}. ${sheet.description}`);
    const items: Item[] = [{ kind: 'sheet', node: figure, xPt: 0, yPt: 0, widthPt, heightPt, sheet }];
    this.atoms.push({ heightPt, spaceBeforePt: 10, keepWithNext: false, items, ...rest });
  }

  empty(heightPt: number, rest: Partial<Atom> = {}): void {
    this.atoms.push({ heightPt, spaceBeforePt: 0, keepWithNext: true, items: [], ...rest });
  }

  /** `before` is the block above: words stand further from the last rule of a table than from other words. */
  add(block: Block, before?: Block): void {
    switch (block.kind) {
      case 'title':
        this.paragraph(plain(block.text), settings.title, 'H1', 0);
        break;
      case 'heading':
        if (block.level === 2) this.paragraph(plain(block.text), settings.heading2, 'H2', 24);
        else this.paragraph(plain(block.text), settings.heading3, 'H3', 12);
        break;
      case 'paragraph':
        this.paragraph(block.runs, settings[block.style], 'P', paragraphSpacePt(block.style, before), block.keepWithNext === true);
        break;
      case 'list':
        this.list(block.ordered, block.items);
        break;
      case 'side':
        this.atoms.push(...sideAtoms(block, this.widthPt, this.measure, (tag, parent) => this.node(tag, parent)));
        break;
      case 'table':
        this.table(block);
        break;
      case 'figure': {
        const { sheet } = block;
        const scale = Math.min(
          (block.widthMm * ptPerMm) / sheet.widthMm,
          (block.heightMm * ptPerMm) / sheet.heightMm,
          this.widthPt / sheet.widthMm,
        );
        this.figure(sheet, sheet.widthMm * scale, sheet.heightMm * scale, { keepWithNext: block.caption !== undefined });
        if (block.caption !== undefined) this.paragraph(plain(block.caption), settings.small, 'P', 4);
        break;
      }
      case 'sheet-page': {
        const widthPt = block.sheet.widthMm * ptPerMm;
        const heightPt = block.sheet.heightMm * ptPerMm;
        this.figure(block.sheet, widthPt, heightPt, { ownPage: { widthPt, heightPt } });
        break;
      }
      case 'signatures':
        this.signatures(block.people);
        break;
      case 'gap':
        this.empty(block.mm * ptPerMm);
        break;
      case 'new-page':
        this.empty(0, { breakBefore: true });
        break;
    }
  }
}

function paragraphSpacePt(style: TextStyle, before: Block | undefined): number {
  if (before?.kind === 'table') return style === 'small' ? 7 : 11;
  return style === 'small' ? 4 : 6;
}

/** Turns blocks into atoms and their structure, in reading order, for a column of this width. */
export function atomsOf(
  blocks: readonly Block[],
  widthPt: number,
  measure: MeasurePt,
): { readonly atoms: readonly Atom[]; readonly structure: readonly StructureNode[] } {
  const setter = new Setter(widthPt, measure);
  for (const [i, block] of blocks.entries()) setter.add(block, blocks[i - 1]);
  return { atoms: setter.atoms, structure: setter.structure };
}
