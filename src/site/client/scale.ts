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

/** Style rules that give each drawing a width in proportion to its sheet, the same for all designs of the page. */
export function scaleCss(designs: readonly DesignView[]): string {
  const widestMm = Math.max(1, ...designs.flatMap((design) => rows.map((row) => rowWidthMm(design, row))));
  const rules = designs.flatMap((design) =>
    elevations.flatMap((name) => {
      const sheet = design[name];
      if (sheet === undefined) return [];
      const percent = (sheet.widthMm / widestMm) * (100 - GAP_PERCENT);
      return [`.${frameClass(design.id, name)}{width:${percent.toFixed(2)}%}`];
    }),
  );
  return `@media (min-width:56.25rem),print{${rules.join('')}}`;
}
