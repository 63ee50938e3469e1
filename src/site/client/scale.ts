import type { ClientView, DesignView } from '../../client/index.ts';
import type { DrawingName } from './locals.ts';

const elevations: readonly DrawingName[] = ['front', 'side', 'plan', 'underside'];

/** Sheets that stand side by side share the row; the widest row of all designs fills the page, so that every drawing has one scale. */
const rows: readonly (readonly DrawingName[])[] = [
  ['front', 'side'],
  ['plan', 'underside'],
];

/** Room between two drawings of a row, as a share of the page. */
const GAP_PERCENT = 3;

/** Class of a drawing's frame. */
export function frameClass(designId: string, name: DrawingName): string {
  return `at-${designId.toLowerCase()}-${name}`;
}

function rowWidthMm(design: DesignView, row: readonly DrawingName[]): number {
  return row.reduce((sum, name) => sum + (design[name]?.widthMm ?? 0), 0);
}

/** Where the drawn table begins, as a share of its sheet: names of views stand under it and not under its dimensions. */
function leftPercent({ widthMm, marks }: NonNullable<DesignView[DrawingName]>): number {
  const across = marks.flatMap((mark) =>
    mark.kind === 'line' && mark.class === 'outline' ? mark.steps.flatMap((step) => (step[0] === 'Z' ? [] : [Number(step.at(-2))])) : [],
  );
  return across.length === 0 ? 0 : (across.reduce((least, x) => Math.min(least, x)) / widthMm) * 100;
}

/** On paper a drawing is this much smaller than its sheet: capitals of 2.5 mm become 1.8 mm, which can still be read. */
const PAPER_SHARE = 0.7;
/** Where two fit beside each other by a little less, they do: capitals of 1.55 mm. */
const LEAST_PAPER_SHARE = 0.62;
/** Room for a row on the narrower paper, A4 within the margins of the page. */
const PAPER_ROW_MM = 170;

/** How much smaller than its sheet a drawing is on paper, for the widest row of all designs. */
function paperShare(rowMm: number): number {
  const fits = (PAPER_ROW_MM * (1 - GAP_PERCENT / 100)) / rowMm;
  return fits < LEAST_PAPER_SHARE ? PAPER_SHARE : Math.min(PAPER_SHARE, fits);
}

/**
 * Style rules that give each drawing a width in proportion to its sheet, the same for all designs of the page. Paper is too
 * narrow for two wide drawings beside each other: there a drawing has a size of its own, and the next goes where it fits.
 */
export function scaleCss(designs: readonly DesignView[]): string {
  const rowMm = Math.max(1, ...designs.flatMap((design) => rows.map((row) => rowWidthMm(design, row))));
  const rulesFor = (widthOf: (widthMm: number) => string): string =>
    designs
      .flatMap((design) =>
        elevations.flatMap((name) => {
          const sheet = design[name];
          if (sheet === undefined) return [];
          const frame = frameClass(design.id, name);
          return [`.${frame}{width:${widthOf(sheet.widthMm)}}.${frame} figcaption{padding-left:${leftPercent(sheet).toFixed(2)}%}`];
        }),
      )
      .join('');
  const screen = rulesFor((widthMm) => `${((widthMm / rowMm) * (100 - GAP_PERCENT)).toFixed(2)}%`);
  const paper = rulesFor((widthMm) => `${(widthMm * paperShare(rowMm)).toFixed(1)}mm`);
  return `@media screen and (min-width:56.25rem){${screen}}@media print{${paper}}`;
}

/** Key of the SVG of a design drawn over the one that it grew from. */
export const overKey = (designId: string, side: 'front' | 'side'): string => `${designId}/over-${side}`;
/** Class of its frame. */
export const overClass = (designId: string, side: 'front' | 'side'): string => `over-${designId.toLowerCase()}-${side}`;

/** Room between front and side, as a share of the column. */
const OVER_GAP_PERCENT = 6;

/** Style rules that keep front and side on one scale: beside each other at a desk and on paper, below each other on a telephone. */
export function overCss({ changed }: ClientView): string {
  const rules = (changed?.designs ?? []).flatMap(({ id, over }) => {
    if (over === undefined) return [];
    const { front, side } = over;
    const rule = (name: 'front' | 'side', mm: number, of: number, percent: number): string =>
      `.${overClass(id, name)}{width:${((mm / of) * percent).toFixed(2)}%}`;
    const rulesFor = (of: number, percent: number): string =>
      rule('front', front.widthMm, of, percent) + (side === undefined ? '' : rule('side', side.widthMm, of, percent));
    const alone = rulesFor(Math.max(front.widthMm, side?.widthMm ?? 0), 100);
    const beside = rulesFor(front.widthMm + (side ?? front).widthMm, 100 - OVER_GAP_PERCENT);
    return [`${alone}@media (min-width:48rem),print{${beside}}`];
  });
  return rules.join('');
}
