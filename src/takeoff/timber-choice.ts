import type { ShopRatesSpec, TimberSpec } from '../spec/index.ts';
import { byCodeUnit } from '../units/index.ts';

/**
 * From this length on a part counts as long and must come from the lower yield of the shop rates: a long board is less flat.
 *
 * @source common practice (quarters of hardwood: up to 1.0 m and 1.0 to 2.4 m).
 */
export const LONG_PART_FROM_MM = 1000;

/** Room for a thickness that was written in inches and came back from millimetres. */
const SAME_THICKNESS_MM = 1e-6;

export interface TimberChoice {
  /** Key in `rates.timber`. */
  readonly key: string;
  readonly timber: TimberSpec;
  /** Layers glued face to face: 1 where one board is thick enough. */
  readonly layers: number;
}

/** Thickest finished part that a timber yields at this length, in mm. */
export function yieldMm(timber: TimberSpec, lengthMm: number): number {
  return lengthMm > LONG_PART_FROM_MM ? timber.yields.long.mm : timber.yields.short.mm;
}

/**
 * The thinnest sawn timber of a wood that yields a part of this finished length and thickness in mm; where none does, the one that gives
 * the thinnest stack of layers, then the fewest layers. `undefined` where the shop rates list no timber of the wood.
 *
 * @source common practice: smallest rough thickness whose yield for the part's length reaches the finished thickness, otherwise laminate.
 */
export function chooseTimber(
  timber: ShopRatesSpec['timber'],
  wood: string,
  lengthMm: number,
  thicknessMm: number,
): TimberChoice | undefined {
  const choices = Object.entries(timber)
    .filter(([, one]) => one.wood === wood)
    .map(([key, one]): TimberChoice => ({ key, timber: one, layers: layersOf(thicknessMm, yieldMm(one, lengthMm)) }));
  return choices.toSorted(thinnerFirst)[0];
}

function layersOf(thicknessMm: number, layerMm: number): number {
  return Math.max(1, Math.ceil((thicknessMm - SAME_THICKNESS_MM) / layerMm));
}

function thinnerFirst(a: TimberChoice, b: TimberChoice): number {
  if ((a.layers === 1) !== (b.layers === 1)) return a.layers === 1 ? -1 : 1;
  const stack = a.layers * a.timber.thickness.mm - b.layers * b.timber.thickness.mm;
  if (Math.abs(stack) > SAME_THICKNESS_MM) return stack;
  return a.layers - b.layers || byCodeUnit(a.key, b.key);
}
