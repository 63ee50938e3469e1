import type { ClientView, LetterView } from '../../../client/index.ts';
import { letterSentences, sayOf } from './compose.ts';
import { type AnswerData, type Filled, isScriptText } from './data.ts';

/** What the page of a view hands to its script. */
export function answerDataOf(view: ClientView, letter: LetterView): AnswerData {
  const { proposal, title, revision, maker, texts } = view;
  return {
    proposal,
    title,
    revision: revision.id,
    validUntil: { day: revision.validUntilIso, shown: revision.validUntil },
    maker: maker.name,
    email: maker.email,
    letter,
    texts: Object.fromEntries(Object.entries(texts).filter(([key]) => isScriptText(key))),
  };
}

/** The sentence by which a yes agrees. */
export function agreementOf({ consent, audience, texts }: ClientView): string {
  return consent?.sentence ?? texts[audience === 'payer' ? 'consent.sentence' : 'consent.sentence-no-price'] ?? '';
}

/** Greeting and sentences of the letter that the page of a view writes of an answer, and the label of its name. */
export function sentencesOf(
  view: ClientView,
  letter: LetterView,
  filled: Filled,
): { readonly sentences: readonly string[]; readonly label: string } {
  const data = answerDataOf(view, letter);
  return { sentences: letterSentences(data, filled, agreementOf(view)), label: sayOf(data)('letter.js-name') };
}
