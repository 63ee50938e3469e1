import { compareSentences, type Letter, optionsOn, type ReadReply, type SentencesRead } from '../../reply/index.ts';
import { sentencesOf } from '../../site/client/index.ts';
import { frozenPage } from '../draft/frozen-view.ts';
import type { Desk } from '../record-desk.ts';

/**
 * How the sentences of a letter differ from those that its page writes of the same answer, by the texts that were frozen with
 * the page; undefined where there is nothing to hold them against: no sentences, a page that was erased, another revision.
 */
export function readSentences({ folder, offers }: Desk, letter: Letter, { above }: ReadReply): SentencesRead | undefined {
  const offer = offers.find(({ fingerprint }) => fingerprint.startsWith(letter.fingerprint));
  if (offer === undefined || above === '' || letter.after !== undefined) return undefined;
  const audience = offer.people[letter.decider ?? 0]?.audience ?? 'payer';
  const ids = offer.designs.find(({ id }) => id === letter.design)?.options ?? [];
  try {
    const view = frozenPage(folder, offer.revision, offer.fingerprint, audience);
    if (view?.letter === undefined) return undefined;
    const { verdict, design, base, decider, name, remark } = letter;
    const { sentences, label } = sentencesOf(view, view.letter, {
      verdict,
      design,
      ...(base === undefined ? {} : { base }),
      options: verdict === 'yes' ? (optionsOn(ids, letter.options) ?? []) : [],
      ...(decider === undefined ? {} : { place: decider }),
      name,
      remark,
      agrees: letter.terms !== undefined,
    });
    return compareSentences(above, sentences, label);
  } catch {
    return undefined;
  }
}
