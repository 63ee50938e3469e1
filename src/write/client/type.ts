/** Faces, sizes and colours of printed documents. Points (1/72 in); colours of the house. */

export type Face = 'serif' | 'serif-italic' | 'serif-semibold' | 'sans' | 'sans-semibold';

/** Width of a text in points at a size in points. */
export type MeasurePt = (text: string, face: Face, sizePt: number) => number;

export const ptPerMm = 72 / 25.4;

export const ink = '#1D1C1A';
export const quietInk = '#5F5B53';
export const hairline = '#D8D3C8';
export const caution = '#9B3A22';

export interface Setting {
  readonly face: Face;
  readonly sizePt: number;
  readonly leadingPt: number;
  readonly colour: string;
}

/** Scale of 1.2 on a body of 10 points: the measure of 166 mm then holds about 95 characters, so text is set in a column of 68. */
export const settings = {
  title: { face: 'serif', sizePt: 24, leadingPt: 29, colour: ink },
  heading2: { face: 'serif', sizePt: 14.4, leadingPt: 18, colour: ink },
  heading3: { face: 'sans-semibold', sizePt: 10, leadingPt: 14, colour: ink },
  lead: { face: 'serif', sizePt: 12, leadingPt: 17, colour: ink },
  body: { face: 'serif', sizePt: 10, leadingPt: 15, colour: ink },
  small: { face: 'sans', sizePt: 8.3, leadingPt: 12, colour: quietInk },
  caution: { face: 'serif', sizePt: 10, leadingPt: 15, colour: caution },
  /** A sheet that is kept: more of it on a page. */
  kept: { face: 'serif', sizePt: 9, leadingPt: 12.4, colour: ink },
  sideHead: { face: 'serif', sizePt: 11.5, leadingPt: 12.4, colour: ink },
  sideHeadCaution: { face: 'serif', sizePt: 11.5, leadingPt: 12.4, colour: caution },
  sideHead3: { face: 'sans-semibold', sizePt: 8.5, leadingPt: 12.4, colour: ink },
  cell: { face: 'sans', sizePt: 9, leadingPt: 12.5, colour: ink },
  cellStrong: { face: 'sans-semibold', sizePt: 9, leadingPt: 12.5, colour: ink },
  head: { face: 'sans', sizePt: 8.3, leadingPt: 12, colour: quietInk },
  foot: { face: 'sans', sizePt: 7.5, leadingPt: 10, colour: quietInk },
} as const satisfies Record<string, Setting>;

/** Distance from the top of a line to its baseline, as a share of the size: the faces' ascent, leading split evenly. */
export function baselinePt(setting: Setting): number {
  return (setting.leadingPt - setting.sizePt) / 2 + setting.sizePt * 0.78;
}
