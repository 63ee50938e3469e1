import type { DesignView } from '../../client/index.ts';
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

/** Style rules that give each drawing a width in proportion to its sheet, the same for all designs of the page. */
export function scaleCss(designs: readonly DesignView[]): string {
  const widestMm = Math.max(1, ...designs.flatMap((design) => rows.map((row) => rowWidthMm(design, row))));
  const rules = designs.flatMap((design) =>
    elevations.flatMap((name) => {
      const sheet = design[name];
      if (sheet === undefined) return [];
      const percent = (sheet.widthMm / widestMm) * (100 - GAP_PERCENT);
      const frame = frameClass(design.id, name);
      return [`.${frame}{width:${percent.toFixed(2)}%}.${frame} figcaption{padding-left:${leftPercent(sheet).toFixed(2)}%}`];
    }),
  );
  return `@media (min-width:56.25rem),print{${rules.join('')}}`;
}
