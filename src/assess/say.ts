import type { EffectiveSpec } from '../spec/index.ts';
import { formatForce, formatLength, formatMass, formatSizes } from '../units/index.ts';

/** Amounts in the sentences of problems, in the units that the proposal shows. */
export interface Say {
  readonly length: (mm: number) => string;
  /** With one decimal of a millimetre: for movements. */
  readonly movement: (mm: number) => string;
  readonly sizes: (lengthsMm: readonly number[]) => string;
  readonly mass: (kg: number) => string;
  readonly force: (newton: number) => string;
}

export function sayIn(spec: EffectiveSpec): Say {
  const { show: style, language: locale } = spec.proposal;
  return {
    length: (mm) => formatLength(mm, { style, locale }),
    movement: (mm) => formatLength(mm, { style, locale, decimals: 1, fraction: 32 }),
    sizes: (lengthsMm) => formatSizes(lengthsMm, { style, locale }),
    mass: (kg) => formatMass(kg, style, locale),
    force: (newton) => formatForce(newton, style, locale),
  };
}
