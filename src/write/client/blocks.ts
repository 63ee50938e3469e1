import type { RichRun, RichText } from '../../client/index.ts';
import type { Sheet } from '../../draw/index.ts';

/** What a document is made of before it is laid out: plain data in reading order. */
export type Block =
  | { readonly kind: 'title'; readonly text: string }
  | { readonly kind: 'heading'; readonly level: 2 | 3; readonly text: string }
  | { readonly kind: 'paragraph'; readonly runs: readonly RichRun[]; readonly style: TextStyle; readonly keepWithNext?: boolean }
  | { readonly kind: 'list'; readonly ordered: boolean; readonly items: readonly (readonly RichRun[])[] }
  | SideBlock
  | TableBlock
  /** A drawing as vectors, as wide as `widthMm` at most and no higher than `heightMm`. */
  | { readonly kind: 'figure'; readonly sheet: Sheet; readonly widthMm: number; readonly heightMm: number; readonly caption?: string }
  /** A drawing sheet on a page of its own size, so that its scale holds on paper. */
  | { readonly kind: 'sheet-page'; readonly sheet: Sheet }
  /** A row with room for a hand for each person. */
  | { readonly kind: 'signatures'; readonly people: readonly SignatureLine[] }
  | { readonly kind: 'gap'; readonly mm: number }
  | { readonly kind: 'new-page' };

/** A heading in the margin with its words beside it: paragraphs, or steps with their numbers, then paragraphs. */
export interface SideBlock {
  readonly kind: 'side';
  readonly level: 2 | 3;
  readonly head: string;
  readonly steps: readonly string[];
  readonly paragraphs: readonly string[];
  readonly isCaution?: boolean;
}

export type TextStyle = 'lead' | 'body' | 'small' | 'caution';

export interface TableBlock {
  readonly kind: 'table';
  /** Shares of the width; they add up to 1. */
  readonly columns: readonly { readonly head: string; readonly share: number; readonly align: 'left' | 'right' }[];
  /** `roomMm`: at least so high, so that a hand can write in it. */
  readonly rows: readonly {
    readonly cells: readonly string[];
    readonly strong: boolean;
    readonly indent?: boolean;
    readonly roomMm?: number;
  }[];
  /** Without a head the first column is the row's label. */
  readonly showHead: boolean;
}

export interface SignatureLine {
  readonly role: string;
  readonly name: string;
  readonly signature: string;
  readonly place: string;
}

/** One run of plain words. */
export function plain(text: string): readonly RichRun[] {
  return [{ text, strong: false, emphasis: false }];
}

/** The maker's Markdown as blocks. */
export function richBlocks(text: RichText, style: TextStyle = 'body'): readonly Block[] {
  return text.map((block): Block => (block.kind === 'paragraph' ? { kind: 'paragraph', runs: block.runs, style } : block));
}
