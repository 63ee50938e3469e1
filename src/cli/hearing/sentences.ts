import { type EntryOf, type IssuedOffer, readEntries } from '../../record/index.ts';
import { compareSentences, type Letter, optionsOn, type ReadReply, type SentencesRead, wordsAround } from '../../reply/index.ts';
import { sentencesOf } from '../../site/client/index.ts';
import { frozenPage } from '../draft/frozen-view.ts';
import type { Desk } from '../record-desk.ts';
import { questionSentences } from './confirmation.ts';

/** What the page or the question wrote above the name, and the label before it. */
interface Written {
  readonly sentences: readonly string[];
  readonly label: string;
}

function ofQuestion(desk: Desk, offer: IssuedOffer, letter: Letter): Written | undefined {
  const asked = readEntries(desk.folder).find((entry): entry is EntryOf<'asked'> => entry.kind === 'asked' && entry.n === letter.after);
  return asked === undefined ? undefined : questionSentences(desk, asked, offer);
}

function ofPage(desk: Desk, offer: IssuedOffer, letter: Letter): Written | undefined {
  const audience = offer.people[letter.decider ?? 0]?.audience ?? 'payer';
  const ids = offer.designs.find(({ id }) => id === letter.design)?.options ?? [];
  try {
    const view = frozenPage(desk.folder, offer.revision, offer.fingerprint, audience);
    if (view?.letter === undefined) return undefined;
    const { verdict, design, base, decider, name, remark } = letter;
    return sentencesOf(view, view.letter, {
      verdict,
      design,
      ...(base === undefined ? {} : { base }),
      options: verdict === 'yes' ? (optionsOn(ids, letter.options) ?? []) : [],
      ...(decider === undefined ? {} : { place: decider }),
      name,
      remark,
      agrees: letter.terms !== undefined,
    });
  } catch {
    return undefined;
  }
}

function writtenFor(desk: Desk, letter: Letter): Written | undefined {
  const offer = desk.offers.find(({ fingerprint }) => fingerprint.startsWith(letter.fingerprint));
  if (offer === undefined) return undefined;
  return letter.after === undefined ? ofPage(desk, offer, letter) : ofQuestion(desk, offer, letter);
}

/**
 * How the sentences of a letter differ from those that its page writes of the same answer, by the texts that were frozen with
 * the page; undefined where there is nothing to hold them against: no sentences, a page that was erased, another revision.
 * Of a question only other words in their place are told: the maker reads a draft over before it is sent, and who answers may
 * quote as little of it as they like.
 */
export function readSentences(desk: Desk, letter: Letter, { above }: ReadReply): SentencesRead | undefined {
  const written = above === '' ? undefined : writtenFor(desk, letter);
  const read = written === undefined ? undefined : compareSentences(above, written.sentences, written.label);
  return read === undefined || letter.after === undefined ? read : { changed: read.changed, missing: [], added: [] };
}

/** What the sender wrote beside a letter or a question, empty where there is nothing: no approval, and easily overlooked. */
export function wordsBeside(desk: Desk, letter: Letter, { own, lower, isQuoted }: ReadReply): string {
  if (isQuoted || letter.after !== undefined || (own === '' && lower === undefined)) return own;
  const sentences = writtenFor(desk, letter)?.sentences ?? [];
  if (lower === undefined) return wordsAround(own, sentences, letter);
  return [own, wordsAround(lower, sentences, letter)].filter((words) => words !== '').join('\n\n');
}
