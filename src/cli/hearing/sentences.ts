import { type EntryOf, type IssuedOffer, readEntries } from '../../record/index.ts';
import { compareSentences, type Letter, optionsOn, type ReadReply, type SentencesRead } from '../../reply/index.ts';
import { sentencesOf } from '../../site/client/index.ts';
import { frozenPage } from '../draft/frozen-view.ts';
import type { Desk } from '../record-desk.ts';
import { questionSentences } from './confirmation.ts';

/**
 * How the lines of a question came back. Only other words in their place are told: the maker reads a draft over before it is sent,
 * and who answers may quote as little of it as they like.
 */
function readQuestion(desk: Desk, offer: IssuedOffer, letter: Letter, above: string): SentencesRead | undefined {
  const asked = readEntries(desk.folder).find((entry): entry is EntryOf<'asked'> => entry.kind === 'asked' && entry.n === letter.after);
  if (asked === undefined) return undefined;
  const { sentences, label } = questionSentences(desk, asked, offer);
  const read = compareSentences(above, sentences, label);
  return read === undefined ? undefined : { changed: read.changed, missing: [], added: [] };
}

/**
 * How the sentences of a letter differ from those that its page writes of the same answer, by the texts that were frozen with
 * the page; undefined where there is nothing to hold them against: no sentences, a page that was erased, another revision.
 */
export function readSentences(desk: Desk, letter: Letter, { above }: ReadReply): SentencesRead | undefined {
  const { folder, offers } = desk;
  const offer = offers.find(({ fingerprint }) => fingerprint.startsWith(letter.fingerprint));
  if (offer === undefined || above === '') return undefined;
  if (letter.after !== undefined) return readQuestion(desk, offer, letter, above);
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
