import type { Problem, SpecPath } from '../problem/index.ts';
import type { EffectiveSpec } from '../spec/index.ts';

type Extra = Pick<Problem, 'found' | 'allowed' | 'mend' | 'also'>;

/** A reason why the table can not be built. */
export const refuse = (code: `design/${string}`, title: string, path: SpecPath, extra: Extra = {}): Problem => ({
  code,
  severity: 'error',
  title,
  path,
  ...extra,
});

/** Something to look at before building. */
export const warn = (code: `design/${string}`, title: string, path: SpecPath, extra: Extra = {}): Problem => ({
  ...refuse(code, title, path, extra),
  severity: 'warning',
});

const MM_PER_INCH = 25.4;
const MM3_PER_CM3 = 1000;

/** How amounts are written in problems: in the file's own unit, as it could be typed. */
export interface Amounts {
  /** `12.5 mm`, `0.492 in`. */
  readonly length: (mm: number) => string;
  /** `120 mm3`, `4.5 cm3`. */
  readonly volume: (mm3: number) => string;
}

/** Amounts in the unit that the maker's files are written in. */
export function amountsFor(spec: EffectiveSpec): Amounts {
  const inches = spec.proposal.units === 'in';
  return {
    length: (mm) => (inches ? `${trimmed(mm / MM_PER_INCH, 3)} in` : `${trimmed(mm, 2)} mm`),
    volume: (mm3) => (mm3 < MM3_PER_CM3 ? `${trimmed(mm3, 0)} mm3` : `${trimmed(mm3 / MM3_PER_CM3, mm3 < 10 * MM3_PER_CM3 ? 1 : 0)} cm3`),
  };
}

const trimmed = (value: number, decimals: number): string => String(Number(value.toFixed(decimals)));
