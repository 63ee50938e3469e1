import { byCodeUnit } from '../units/index.ts';
import { sha256 } from './sha256.ts';

/** What somebody answers to one issued revision. The code holds all of it but name and remark, and of those a digest. */
export interface Letter {
  readonly verdict: 'yes' | 'no' | 'mix';
  /** The first 20 hex digits of the revision's fingerprint. */
  readonly fingerprint: string;
  /** The design that is chosen or refused; of a mix the one whose top is wanted. Empty where a no is to all of them. */
  readonly design: string;
  /** Of a mix: the design whose base is wanted. */
  readonly base?: string;
  /** One for each option of the design, in the order of `optionOrder`. */
  readonly options: readonly boolean[];
  /** Total as it was shown; absent where no price was. */
  readonly total?: { readonly minor: number; readonly currency: string };
  /** The day of the answer, `2027-02-14`. */
  readonly date: string;
  /** Place of the person among those who decide, their ids sorted by code unit; absent where it was not said. */
  readonly decider?: number;
  /** The first 8 hex digits of the SHA-256 of the terms that were agreed to. */
  readonly terms?: string;
  /** Of a message that asks for a yes to what was understood: the entry that it follows. */
  readonly after?: number;
  readonly name: string;
  readonly remark: string;
}

/** Ids of options in the order in which a code counts them. */
export const optionOrder = (ids: readonly string[]): readonly string[] => [...ids].sort(byCodeUnit);

/** The choice of a letter from the ids that are on. */
export function optionBits(ids: readonly string[], on: readonly string[]): readonly boolean[] {
  return optionOrder(ids).map((id) => on.includes(id));
}

/** The ids that are on; undefined where the code counts another number of options than the design has. */
export function optionsOn(ids: readonly string[], bits: readonly boolean[]): readonly string[] | undefined {
  return bits.length === ids.length ? optionOrder(ids).filter((_, i) => bits[i]) : undefined;
}

/** Bytes of the digest of the words. */
export const WORDS_DIGEST_BYTES = 6;

/** What of words stays the same when a mail program wraps, indents and quotes them, and sets other dashes and quotation marks. */
function firm(words: string): string {
  return words
    .normalize('NFC')
    .replaceAll(/[\s<>|‹›«»\u00ad\u200b-\u200d\u2060\ufeff]/gu, '')
    .replaceAll(/[‐-―−]+|-{2,}/gu, '-')
    .replaceAll(/[“”„‟]/gu, '"')
    .replaceAll(/[‘’‚‛]/gu, "'")
    .replaceAll('…', '...');
}

/**
 * Words as they may stand in a letter: guillemets, which hold them, made single; a word joiner, which reading takes away,
 * where what follows a sign would be read as markup or as an encoding.
 */
export function heldWords(words: string): string {
  return words
    .trim()
    .replaceAll('«', '‹')
    .replaceAll('»', '›')
    .replaceAll(/=(?=[0-9A-F]{2}|[ \t]*$)/gm, '=\u2060')
    .replaceAll(/<(?=[/a-z!])/gi, '<\u2060')
    .replaceAll(/&(?=#|[a-z]{2,6};)/gi, '&\u2060');
}

/** The first bytes of the SHA-256 of name and remark, apart from what a mail program may change. */
export function wordsDigest({ name, remark }: Pick<Letter, 'name' | 'remark'>): Uint8Array {
  return sha256(new TextEncoder().encode(`${firm(name)}\n${firm(remark)}`)).slice(0, WORDS_DIGEST_BYTES);
}
