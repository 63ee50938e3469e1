import type { Problem } from '../problem/index.ts';
import { parseLength } from '../units/index.ts';
import { choice } from './field.ts';

/** Kinds of sizes, each with one tolerance. */
export const TOLERANCE_OF = ['plan', 'height', 'thickness', 'section', 'place'] as const;
export type ToleranceOf = (typeof TOLERANCE_OF)[number];

/** Which sizes a tolerance of the terms is of. */
export const toleranceOf = () =>
  choice('which sizes the tolerance is of', TOLERANCE_OF, {
    more: '`plan`: length, width and diameter of the top; `height`; `thickness` of the top; `section`: sizes of parts; `place`: overhangs and heights of parts. `hand-over` then takes the amount from `value`.',
    examples: ['plan'],
  });

/** The millimetres of `± 3 mm` or `± 1/8 in`; nothing where it is no such amount. */
export function toleranceMm(value: string): number | undefined {
  const amount = /^(?:\u00b1|\+\/-)\s*(?<length>.+\s?(?:mm|cm|in|"))$/.exec(value.trim())?.groups?.['length'];
  const read = amount === undefined ? undefined : parseLength(amount, { bare: 'mm' });
  return read?.ok === true && read.value.mm > 0 ? read.value.mm : undefined;
}

interface Tolerance {
  readonly value: string;
  readonly of?: ToleranceOf | undefined;
}

/** Laws of standing terms: a tolerance by which is measured has an amount, and each kind of size has one. Code: `spec/contradiction`. */
export function termsLaws({ tolerances }: { readonly tolerances: readonly Tolerance[] }): readonly Problem[] {
  return tolerances.flatMap(({ value, of }, i): readonly Problem[] => {
    if (of === undefined) return [];
    const path = ['library', 'terms', 'tolerances', i] as const;
    const problem = (title: string, key: string, rest: Partial<Problem>): Problem => ({
      code: 'spec/contradiction',
      severity: 'error',
      title,
      path: [...path, key],
      ...rest,
    });
    const first = tolerances.findIndex((one) => one.of === of);
    return [
      ...(toleranceMm(value) === undefined
        ? [
            problem('a tolerance that is measured by has no amount', 'value', {
              found: value,
              allowed: 'an amount either way, such as ± 3 mm',
              mend: 'write the amount, or take of: out',
            }),
          ]
        : []),
      ...(first < i ? [problem('one kind of size has two tolerances', 'of', { found: of, mend: 'keep of: with one of them' })] : []),
    ];
  });
}
