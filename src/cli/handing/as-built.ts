import type { Table } from '../../design/index.ts';
import type { EntryOf } from '../../record/index.ts';
import { type TableSpec, type TermsSpec, type ToleranceOf, toleranceMm } from '../../spec/index.ts';

/**
 * Millimetres either way, where the agreed terms state none that can be measured by.
 *
 * @source common practice
 */
const USUAL_MM: Readonly<Record<ToleranceOf, number>> = { plan: 3, height: 3, thickness: 1, section: 1, place: 3 };

/** Two sizes are the same within what a drawing in either unit rounds to. */
const SAME_MM = 0.5;

/** Last words of paths that say where a part stands, not how large it is. */
const PLACES = new Set(['endOverhang', 'sideOverhang', 'footEndOverhang', 'footSideOverhang', 'setBack', 'at', 'below', 'overhang']);

/** A tolerance, and where it comes from. */
export interface Tolerance {
  readonly mm: number;
  readonly from: 'terms' | 'common-practice' | 'sheet';
}

/** Which tolerance a size has, by its path in the table: `top.length` is of the plan. */
export function toleranceKind(path: string): ToleranceOf {
  if (path === 'height') return 'height';
  if (path === 'top.thickness') return 'thickness';
  if (/^top\.(?:length|width|diameter)$/.test(path)) return 'plan';
  return PLACES.has(path.split('.').at(-1) ?? '') ? 'place' : 'section';
}

/** The tolerance of a size: as the agreed terms state it, else by common practice. */
export function toleranceFor(path: string, { tolerances }: Pick<TermsSpec, 'tolerances'>): Tolerance {
  const kind = toleranceKind(path);
  const stated = tolerances.find(({ of }) => of === kind);
  const mm = stated === undefined ? undefined : toleranceMm(stated.value);
  return mm === undefined ? { mm: USUAL_MM[kind], from: 'common-practice' } : { mm, from: 'terms' };
}

const isLength = (value: unknown): value is { readonly mm: number; readonly written: string } =>
  typeof value === 'object' && value !== null && 'mm' in value && typeof value.mm === 'number' && 'written' in value;

/** The size that was agreed at a path of the table; nothing where there is none, or no single length. */
export function agreedSize(table: TableSpec, path: string): { readonly mm: number; readonly written: string } | undefined {
  const value = path
    .split('.')
    .reduce<unknown>(
      (group, key) =>
        typeof group === 'object' && group !== null && Object.hasOwn(group, key) ? (group as Record<string, unknown>)[key] : undefined,
      table,
    );
  return isLength(value) ? value : undefined;
}

/** Paths of all sizes of a table that can be measured on it, as the file has them. */
export function measurablePaths(table: TableSpec): readonly string[] {
  const walk = (value: unknown, path: readonly string[]): readonly string[] => {
    if (isLength(value)) return [path.join('.')];
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return [];
    return Object.entries(value).flatMap(([key, one]) => walk(one, [...path, key]));
  };
  const { height, top, base, parts } = table;
  return walk({ height, top, base, parts }, []);
}

/** The overall sizes: what is measured of every table. */
export const overallPaths = (table: TableSpec): readonly string[] =>
  measurablePaths(table).filter((path) => toleranceKind(path) === 'plan' || path === 'height' || path === 'top.thickness');

/** The path of the size across the boards of a top. */
export const topAcrossPath = ({ top }: Pick<Table, 'top'>): string =>
  top.shape === 'round' ? 'top.diameter' : top.grainAlong === 'x' ? 'top.width' : 'top.length';

/** Across the boards of its top: as it was measured at the hand-over; nothing where it was not. Millimetres. */
export function topAcrossBuilt(of: Pick<Table, 'top'>, { asBuilt }: Pick<EntryOf<'hand-over'>, 'asBuilt'>): number | undefined {
  const path = topAcrossPath(of);
  return asBuilt.find(({ what, unit }) => what === path && unit === 'mm')?.built;
}

/**
 * A weighed mass further than this from the reckoned one is told. One board's density spreads by about a tenth of its mean, and a table
 * is of several: beyond that, look for another reason.
 *
 * @source Wood Handbook, FPL-GTR-190 (2010), Table 5-6: coefficient of variation of specific gravity 10 %
 */
const MASS_SPREAD = 0.1;

/** True where a table weighs so much else than it was reckoned that it is worth a word. */
export const isOtherMass = (weighedKg: number, reckonedKg: number): boolean => Math.abs(weighedKg - reckonedKg) > MASS_SPREAD * reckonedKg;

/** Beyond this factor either way a mass is a slip: pounds for kilograms are 2.2, a point in the wrong place 10. */
const MASS_SLIP = 2;

/** Whether a weighed mass can not be that of the table that was reckoned, both in kg. */
export const isSlipOfMass = (weighedKg: number, reckonedKg: number): boolean =>
  weighedKg > MASS_SLIP * reckonedKg || weighedKg * MASS_SLIP < reckonedKg;

/** Overall sizes of a finished table: as it was measured at the hand-over, else as designed. Millimetres. */
export function overallAsBuilt(
  designedMm: { readonly length: number; readonly width: number; readonly height: number },
  { asBuilt }: Pick<EntryOf<'hand-over'>, 'asBuilt'>,
): { readonly length: number; readonly width: number; readonly height: number } {
  // Where the base stands out beyond the top, the top's size is not the table's.
  const built = (sizeMm: number, paths: readonly string[]): number =>
    asBuilt.find(({ what, unit, agreed }) => unit === 'mm' && paths.includes(what) && Math.abs(agreed - sizeMm) < SAME_MM)?.built ?? sizeMm;
  return {
    length: built(designedMm.length, ['top.length', 'top.diameter']),
    width: built(designedMm.width, ['top.width', 'top.diameter']),
    height: built(designedMm.height, ['height']),
  };
}
