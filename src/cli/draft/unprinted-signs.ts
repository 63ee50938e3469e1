import type { ComputedProposal } from '../../compute.ts';
import type { Problem, SpecPath } from '../../problem/index.ts';

/** A text, where it stands, and of which design. */
interface Text {
  readonly text: string;
  readonly path: SpecPath;
  readonly variant?: string;
}

/** Every text below a value, with its path. */
function textsIn(value: unknown, path: SpecPath): readonly Text[] {
  if (typeof value === 'string') return [{ text: value, path }];
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, one]) => textsIn(one, [...path, Array.isArray(value) ? Number(key) : key]));
}

/** Signs that are told by name at most. */
const MOST_SIGNS = 12;

/** Ends of lines and the like are set by what follows them, never by a letter. */
const isSet = (sign: string, hasSign: (sign: string) => boolean): boolean => /[\p{Cc}\p{Cf}\p{Z}]/u.test(sign) || hasSign(sign);

/**
 * Texts that the papers' type has no letters for: on a scope they would be empty boxes, and somebody would sign below one.
 * Code: `cli/unprinted-sign`.
 *
 * @param hasSign whether the faces of the papers have a letter for one sign
 */
export function unprintedSigns({ input, variants }: ComputedProposal, hasSign: (sign: string) => boolean): readonly Problem[] {
  const { proposal, library } = input;
  const texts = [
    ...textsIn(proposal, ['proposal']),
    ...textsIn(library.maker, ['library', 'maker']),
    ...textsIn(library.terms, ['library', 'terms']),
    ...variants
      .filter(({ standard }) => standard.spec.variant.offered)
      .flatMap(({ id, standard }) => textsIn(standard.spec.variant, ['variant']).map((one) => ({ ...one, variant: id }))),
  ];
  return texts.flatMap(({ text, path, variant }) => {
    const signs = [...new Set([...text.normalize('NFC')].filter((sign) => !isSet(sign, hasSign)))];
    if (signs.length === 0) return [];
    const found = `${signs.slice(0, MOST_SIGNS).join(' ')}${signs.length > MOST_SIGNS ? ' …' : ''}`;
    return [
      {
        code: 'cli/unprinted-sign',
        severity: 'error',
        title: 'papers have no letters for a text, and would show empty boxes in its place',
        path,
        ...(variant === undefined ? {} : { variant }),
        found,
        allowed: 'letters of the Latin, Greek and Cyrillic alphabets, figures and the usual signs',
        mend: 'write it in those letters; a name, as its owner’s passport spells it beside the other',
      },
    ];
  });
}
