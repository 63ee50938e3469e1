import type { Length } from '../units/index.ts';

/** How the boards were sawn: sets which of R and T lies across the face. */
export type Sawn = 'flat' | 'quarter';

/** Chamfer under the edge: `in` from the edge, `up` from the underside. */
export interface UnderChamfer {
  readonly in: Length;
  readonly up: Length;
}

interface TopCommon {
  readonly thickness: Length;
  /** Falls back to the table's wood. */
  readonly wood?: string;
  readonly sawn: Sawn;
  /** Direction of the boards: along x (length) or along y (width). */
  readonly grain: 'length' | 'width';
  /** Usual width of a board in the glue-up; the drawn and counted boards come from it. */
  readonly boardWidth?: Length;
  readonly underChamfer?: UnderChamfer;
}

export interface RectangleTop extends TopCommon {
  readonly kind: 'rectangle';
  readonly length: Length;
  readonly width: Length;
}
export interface RoundTop extends TopCommon {
  readonly kind: 'round';
  readonly diameter: Length;
}
/** An ellipse in plan. */
export interface OvalTop extends TopCommon {
  readonly kind: 'oval';
  readonly length: Length;
  readonly width: Length;
}

export type TopSpec = RectangleTop | RoundTop | OvalTop;

/** How the top is held to the base. `rigid` can not slide; the others let the top move across its grain. */
export interface FixingSpec {
  readonly kind: 'buttons' | 'slotted-screws' | 'figure-eights' | 'slotted-plates' | 'rigid' | 'loose';
  /** Counted from the base when absent. */
  readonly count?: number;
}
