import { frozenPage } from '../../src/cli/draft/frozen-view.ts';
import { type IssuedOffer, issuedOffers } from '../../src/record/index.ts';
import type { Letter } from '../../src/reply/index.ts';
import { letterText as pageLetter } from '../../src/site/client/answer/compose.ts';
import { agreementOf, answerDataOf } from '../../src/site/client/answer/of-view.ts';

/** One thing that happens in a commission: a command line on a day, and what is pasted into it or written before it. */
export interface Step {
  readonly on: string;
  /** Words after `leafwright`; the proposal stands as `@`. Or the issue of a revision from its folder of sources. */
  readonly run: readonly string[] | { readonly issue: string };
  /** What comes in on standard input, made from what was issued so far. */
  readonly paste?: (folder: string) => string;
  /** What the maker writes into the sheet of the hand-over first: texts that must stand in it, and what takes their place. */
  readonly fill?: readonly (readonly [from: string, to: string])[];
}

/** What somebody answers, as the page would have made it. */
export interface Answer {
  readonly person: string;
  readonly name: string;
  readonly verdict: Letter['verdict'];
  readonly design?: string;
  readonly base?: string;
  readonly options?: readonly string[];
  readonly remark?: string;
}

/** The newest revision as issued. Throws where none was. */
export function newestOffer(folder: string): IssuedOffer {
  const offer = issuedOffers(folder).at(-1);
  if (offer === undefined) throw new Error(`${folder} has no issued offer`);
  return offer;
}

/** The letter that the page of the newest revision writes of an answer, with its code. Throws where that page asks this person nothing. */
export function letterText(folder: string, date: string, answer: Answer): string {
  const offer = newestOffer(folder);
  const place = offer.people.findIndex(({ id }) => id === answer.person);
  const view = frozenPage(folder, offer.revision, offer.fingerprint, offer.people[place]?.audience ?? 'payer');
  if (view?.letter === undefined) throw new Error(`no page of ${offer.revision} asks ${answer.person}`);
  const data = answerDataOf(view, { ...view.letter, fingerprint: offer.fingerprint.slice(0, 20) });
  const { verdict, design = '', base, options = [], remark = '', name } = answer;
  const filled = { verdict, design, ...(base === undefined ? {} : { base }), options, place, agrees: verdict === 'yes', name, remark };
  return pageLetter(data, filled, agreementOf(view), date);
}

/** The same letter as it comes back in a mail: a line above it, quote marks before it. */
export const quotedMail = (above: string, letter: string): string =>
  `${above}\n\n${letter
    .trimEnd()
    .split('\n')
    .map((line) => (line === '' ? '>' : `> ${line}`))
    .join('\n')}\n`;

const answers =
  (on: string, answer: Answer, above?: string): Required<Pick<Step, 'paste'>>['paste'] =>
  (folder) => {
    const text = letterText(folder, on, answer);
    return above === undefined ? text : quotedMail(above, text);
  };

/** A letter of the page on its day, with what stands above it in the mail. */
export const reply = (on: string, answer: Answer, above?: string): Step => ({
  on,
  run: ['record', '@', '--file', '-', '--on', on],
  paste: answers(on, answer, above),
});
