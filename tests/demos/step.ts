import { type IssuedOffer, issuedOffers } from '../../src/record/index.ts';
import { type Letter, makeReply, optionBits } from '../../src/reply/index.ts';

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
  readonly says: string;
}

/** The newest revision as issued. Throws where none was. */
export function newestOffer(folder: string): IssuedOffer {
  const offer = issuedOffers(folder).at(-1);
  if (offer === undefined) throw new Error(`${folder} has no issued offer`);
  return offer;
}

/** The letter that the page of the newest revision makes of an answer, as text with its code. */
export function letterText(folder: string, date: string, answer: Answer): string {
  const offer = newestOffer(folder);
  const place = offer.people.findIndex(({ id }) => id === answer.person);
  const audience = offer.people[place]?.audience ?? 'payer';
  const design = offer.designs.find(({ id }) => id === answer.design);
  const on = [...(answer.options ?? [])].sort();
  const combination = design?.combinations.find(({ options }) => options.join() === on.join());
  const isYes = answer.verdict === 'yes';
  const letter: Letter = {
    verdict: answer.verdict,
    fingerprint: offer.fingerprint.slice(0, 20),
    design: answer.design ?? '',
    ...(answer.base === undefined ? {} : { base: answer.base }),
    options: isYes && design !== undefined ? optionBits(design.options, on) : [],
    ...(isYes && combination !== undefined && audience === 'payer'
      ? { total: { minor: combination.totalMinor, currency: offer.currency } }
      : {}),
    date,
    decider: place,
    ...(isYes && offer.terms[audience] !== undefined ? { terms: offer.terms[audience].slice(0, 8) } : {}),
    name: answer.name,
    remark: answer.remark ?? '',
  };
  return makeReply(letter, { says: answer.says, nameLabel: 'Name', remarkLabel: 'Remark' });
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
