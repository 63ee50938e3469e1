import type { Atom, Item, StructureNode } from './atom.ts';
import { atomsOf } from './atoms.ts';
import type { Block } from './blocks.ts';
import type { MeasurePt } from './type.ts';

export interface Page {
  readonly widthPt: number;
  readonly heightPt: number;
  /** A drawing sheet: its foot stands in the sheet's own margin. */
  readonly isSheet: boolean;
  readonly items: readonly Item[];
}

export interface Layout {
  readonly pages: readonly Page[];
  readonly structure: readonly StructureNode[];
}

export interface PageSize {
  readonly widthPt: number;
  readonly heightPt: number;
  readonly marginPt: number;
  /** Kept free for the running foot, above the bottom margin's edge. */
  readonly footPt: number;
}

interface OpenPage {
  readonly widthPt: number;
  readonly heightPt: number;
  readonly isSheet: boolean;
  readonly items: Item[];
}

function moved(atom: Atom, xPt: number, yPt: number): readonly Item[] {
  return atom.items.map((item): Item => ({ ...item, xPt: item.xPt + xPt, yPt: item.yPt + yPt }));
}

/**
 * Lays blocks out on pages: no lone heading at a foot, no lone line on either side of a break, tables break between rows
 * and repeat their head. A chain of atoms that is higher than a page breaks where the page ends. A drawing sheet stands
 * right after the page that leads to it; that page is first filled with what follows in the text.
 */
export function layOut(blocks: readonly Block[], page: PageSize, measure: MeasurePt): Layout {
  const { atoms, structure } = atomsOf(blocks, page.widthPt - 2 * page.marginPt, measure);
  const limitPt = page.heightPt - page.marginPt - page.footPt;
  const blank = (): OpenPage => ({ widthPt: page.widthPt, heightPt: page.heightPt, isSheet: false, items: [] });
  const pages: OpenPage[] = [blank()];
  let yPt = page.marginPt;
  const atTop = (): boolean => yPt === page.marginPt;
  const waiting: OpenPage[] = [];
  const turn = (): void => {
    pages.push(...waiting.splice(0), blank());
    yPt = page.marginPt;
  };
  const place = (atom: Atom): void => {
    if (!atTop()) yPt += atom.spaceBeforePt;
    pages.at(-1)?.items.push(...moved(atom, page.marginPt, yPt));
    yPt += atom.heightPt;
  };
  const placeSheet = (atom: Atom, size: { readonly widthPt: number; readonly heightPt: number }): void => {
    const sheetPage: OpenPage = { ...size, isSheet: true, items: [...atom.items] };
    if (!atTop()) {
      waiting.push(sheetPage);
      return;
    }
    pages.splice(-1, 1, sheetPage);
    turn();
  };
  let i = 0;
  while (i < atoms.length) {
    const own = atoms[i];
    if (own?.ownPage !== undefined) {
      placeSheet(own, own.ownPage);
      i++;
      continue;
    }
    let end = i;
    const joins = (next: Atom | undefined): boolean => next !== undefined && next.breakBefore !== true && next.ownPage === undefined;
    while (atoms[end]?.keepWithNext === true && joins(atoms[end + 1])) end++;
    const chain = atoms.slice(i, end + 1);
    const first = chain[0];
    if (first?.breakBefore === true && !atTop()) turn();
    const height = chain.reduce((sum, atom, k) => sum + atom.heightPt + (k === 0 && atTop() ? 0 : atom.spaceBeforePt), 0);
    if (yPt + height > limitPt && !atTop()) {
      turn();
      if (first?.repeat !== undefined) place(first.repeat);
    }
    for (const atom of chain) {
      if (yPt + atom.spaceBeforePt + atom.heightPt > limitPt && !atTop()) {
        turn();
        if (atom.repeat !== undefined) place(atom.repeat);
      }
      place(atom);
    }
    i = end + 1;
  }
  if (pages.length > 1 && pages.at(-1)?.items.length === 0) pages.pop();
  pages.push(...waiting);
  return { pages, structure };
}
