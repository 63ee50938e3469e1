import type { ComputedProposal } from '../../compute.ts';
import type { Problem } from '../../problem/index.ts';
import { type TextBelow, textsBelow } from './texts-below.ts';

/** A text of the proposal, or of one design. */
interface Text extends TextBelow {
  readonly variant?: string;
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
  const texts: readonly Text[] = [
    ...textsBelow(proposal, ['proposal']),
    ...textsBelow(library.maker, ['library', 'maker']),
    ...textsBelow(library.terms, ['library', 'terms']),
    ...variants
      .filter(({ standard }) => standard.spec.variant.offered)
      .flatMap(({ id, standard }) => textsBelow(standard.spec.variant, ['variant']).map((one) => ({ ...one, variant: id }))),
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
