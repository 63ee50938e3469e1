import type { LetterDesign, LetterView } from '../../../client/index.ts';

/** What the page hands to its script, as JSON in a block that is no script. */
export interface AnswerData {
  readonly proposal: string;
  readonly title: string;
  readonly revision: string;
  /** The last day on which it can be accepted, `2027-02-14` and in words. */
  readonly validUntil: { readonly day: string; readonly shown: string };
  readonly maker: string;
  readonly email: string;
  readonly letter: LetterView;
  /** Sentences of the letter and of its status, by key. */
  readonly texts: Readonly<Record<string, string>>;
}

/** Whether the script needs the text of a key. */
export const isScriptText = (key: string): boolean => /^letter\.js-/.test(key);

/** Ids of the elements that page and script share. */
export const answerIds = { data: 'letter-data', root: 'answer', form: 'letter', done: 'letter-done' } as const;

/** Finds what publication puts into the slot of a page that takes no answer any more. */
export const shutPage = '.standing[data-answers="shut"]';

/** What the reader has filled in so far. */
export interface Filled {
  readonly verdict?: 'yes' | 'no' | 'mix';
  /** Of a yes: the chosen design. Of a no: the refused one, empty for all. Of a mix: the one whose top is wanted. */
  readonly design?: string;
  readonly base?: string;
  /** Ids of the options that are on. */
  readonly options: readonly string[];
  /** Place of the person among those who decide. */
  readonly place?: number;
  readonly name: string;
  readonly remark: string;
  readonly agrees: boolean;
}

export type Combination = LetterDesign['combinations'][number];

const isSame = (a: readonly string[], b: readonly string[]): boolean => a.length === b.length && a.every((id) => b.includes(id));

/** The combination of exactly these options; undefined where it is not offered. */
export function combinationOf(design: LetterDesign, options: readonly string[]): Combination | undefined {
  return design.combinations.find((one) => isSame(one.options, options));
}

/**
 * The offered combination nearest to what is wanted after one option was switched: that option as it was set, the others
 * as far as they go together with it. Where none has it so, the nearest of all.
 */
export function nearestCombination(design: LetterDesign, wanted: readonly string[], switched: string): Combination | undefined {
  const distance = ({ options }: Combination): number =>
    design.options.filter(({ id }) => options.includes(id) !== wanted.includes(id)).length +
    (options.includes(switched) === wanted.includes(switched) ? 0 : design.options.length);
  let best: Combination | undefined;
  for (const one of design.combinations) if (best === undefined || distance(one) < distance(best)) best = one;
  return best;
}
