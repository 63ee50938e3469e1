/** What a drawing is made of before it is SVG, PDF or PNG. Sheet millimetres, origin top left, y down. */

export type LineClass =
  | 'outline'
  | 'edge'
  /** Outer and inner edges of a picture: thinner than those of a drawing. */
  | 'contour'
  | 'crease'
  | 'hidden'
  | 'centre'
  | 'dimension'
  | 'extension'
  | 'hairline'
  | 'grain'
  | 'floor'
  /** What stood there before. */
  | 'former'
  | 'caution'
  | 'fixing';

export type PathStep =
  | readonly ['M', number, number]
  | readonly ['L', number, number]
  /** Elliptical arc as in SVG: rx, ry, rotation in degrees, large, sweep, x, y. */
  | readonly ['A', number, number, number, 0 | 1, 0 | 1, number, number]
  | readonly ['C', number, number, number, number, number, number]
  | readonly ['Z'];

export interface BoxMm {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export type Mark =
  /** `colour` (#rrggbb) replaces the ink of the class: grain in the wood's own colour. */
  | { readonly kind: 'line'; readonly class: LineClass; readonly colour?: string; readonly steps: readonly PathStep[] }
  /** Filled face, non-zero rule: #rrggbb, already shaded; `stroke` draws its outline in the same call; `bleedMm` widens it by a line of that width in its own colour. `partId` for the accessible structure. */
  | {
      readonly kind: 'face';
      readonly fill: string;
      readonly opacity?: number;
      readonly stroke?: LineClass;
      readonly bleedMm?: number;
      readonly steps: readonly PathStep[];
      readonly partId?: string;
    }
  /** Filled arrowhead or tick of a dimension. */
  | { readonly kind: 'tick'; readonly steps: readonly PathStep[] }
  | {
      readonly kind: 'text';
      readonly class: 'lettering' | 'title' | 'note' | 'small';
      readonly text: string;
      readonly atMm: readonly [number, number];
      readonly sizeMm: number;
      readonly anchor: 'start' | 'middle' | 'end';
      /** 0, or -90 for lettering read from the right. */
      readonly angleDeg: number;
      /** Measured box, for the check that nothing overlaps. */
      readonly boxMm: BoxMm;
    };

/** A picture or a drawing sheet. */
export interface Sheet {
  readonly id: string;
  /** Text for the accessible name and description. */
  readonly title: string;
  readonly description: string;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Real millimetres per sheet millimetre; absent for perspectives. */
  readonly scale?: number;
  readonly marks: readonly Mark[];
}

/** Width of a text in mm at a size in mm: from the font's own advances, opened at the edge and handed in. */
export type MeasureText = (text: string, sizeMm: number, face: 'sans' | 'serif') => number;

export interface Drawings {
  /** Perspective, on the scale and floor line shared by all designs of the proposal. */
  readonly picture: Sheet;
  /** Full sheet: front, side, plan, underside with fixings, dimensioned; title block and scale bar. */
  readonly sheet: Sheet;
  /** The sheet for who may see the main sizes: no section of a part, no underside, no fixings. */
  readonly mainSheet: Sheet;
  /** The views one by one, for pages: those of a row equally high, those of a column equally wide. */
  readonly front: Sheet;
  readonly side: Sheet;
  readonly plan: Sheet;
  readonly underside: Sheet;
  /** The views with the main sizes alone. */
  readonly mainFront: Sheet;
  readonly mainSide: Sheet;
  readonly mainPlan: Sheet;
  /** Laid out for a telephone: overall sizes only, lettering at least 12 px at 350 px wide. */
  readonly small: Sheet;
}
