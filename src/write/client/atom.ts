import type { Sheet } from '../../draw/index.ts';
import type { Setting } from './type.ts';
import type { Line } from './wrap.ts';

/** A node of the document's structure: the reading order and roles that assistive software gets. */
export interface StructureNode {
  readonly id: number;
  readonly tag:
    | 'Document'
    | 'H1'
    | 'H2'
    | 'H3'
    | 'P'
    | 'L'
    | 'LI'
    | 'Lbl'
    | 'LBody'
    | 'Table'
    | 'TR'
    | 'TH'
    | 'TD'
    | 'Figure'
    | 'Caption'
    | 'Sect';
  readonly parent: number;
  readonly alt?: string;
}

/** Something to paint, measured from the top left of its atom in points. `node` -1 marks an artifact. */
export type Item =
  | {
      readonly kind: 'line';
      readonly node: number;
      readonly xPt: number;
      readonly yPt: number;
      readonly line: Line;
      readonly setting: Setting;
    }
  | {
      readonly kind: 'rule';
      readonly node: -1;
      readonly xPt: number;
      readonly yPt: number;
      readonly widthPt: number;
      readonly colour: string;
      readonly weightPt: number;
    }
  | {
      readonly kind: 'sheet';
      readonly node: number;
      readonly xPt: number;
      readonly yPt: number;
      readonly widthPt: number;
      readonly heightPt: number;
      readonly sheet: Sheet;
    };

/** The smallest thing that moves to the next page as a whole. */
export interface Atom {
  readonly heightPt: number;
  readonly spaceBeforePt: number;
  /** Must share a page with the atom after it. */
  readonly keepWithNext: boolean;
  readonly items: readonly Item[];
  /** Set again at the top of the next page when a page breaks before this atom. */
  readonly repeat?: Atom;
  readonly breakBefore?: boolean;
  /** A page of its own, of this size. */
  readonly ownPage?: { readonly widthPt: number; readonly heightPt: number };
}
