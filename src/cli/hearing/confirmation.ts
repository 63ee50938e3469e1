import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ClientView } from '../../client/index.ts';
import type { EntryOf, IssuedOffer } from '../../record/index.ts';
import { type Letter, makeReply, optionBits } from '../../reply/index.ts';
import { pageOfDecider } from '../../spec/index.ts';
import { formatDate, formatMoney, formatNumber, parseDate } from '../../units/index.ts';
import { type MailPerson, mailDraft } from '../../write/client/index.ts';
import { UsageFault } from '../command.ts';
import { frozenPage } from '../draft/frozen-view.ts';
import { type Desk, nameOf } from '../record-desk.ts';

type Asked = EntryOf<'asked'>;
type Chosen = Asked['chosen'];

/** Design and options that somebody is understood to have chosen, as the maker writes them: `A ceramic`. Throws a UsageFault. */
export function understoodIn(said: string, offer: IssuedOffer, person: string): Chosen {
  const [first = '', ...others] = said.split(/[\s,+]+/).filter((word) => word !== '');
  const design = offer.designs.find(({ id }) => id === first.toUpperCase());
  const ids = offer.designs.map(({ id }) => id).join(', ');
  if (design === undefined) throw new UsageFault(`--understood "${said}": ${offer.revision} has no design ${first}`, `there are ${ids}`);
  const options = [...new Set(others.map((id) => id.toLowerCase()))].sort();
  const found = design.combinations.find((one) => one.options.join() === options.join());
  if (found === undefined) {
    const all = design.combinations.slice(0, 12).map((one) => `"${[design.id, ...one.options].join(' ')}"`);
    throw new UsageFault(
      `--understood "${said}": design ${design.id} of ${offer.revision} is not offered so`,
      `there are ${all.join(', ')}`,
    );
  }
  const isPayer = offer.people.find(({ id }) => id === person)?.audience === 'payer';
  return {
    revision: offer.revision,
    fingerprint: offer.fingerprint,
    design: design.id,
    options,
    ...(isPayer ? { totalMinor: found.totalMinor, currency: offer.currency } : {}),
  };
}

/** The code that goes with a question: what was understood, of whom, and the entry that asks. */
function letterFor(asked: Asked, offer: IssuedOffer, name: string): Letter {
  const { chosen, person } = asked;
  const place = offer.people.findIndex(({ id }) => id === person);
  const terms = offer.terms[offer.people[place]?.audience ?? 'payer'];
  const ids = offer.designs.find(({ id }) => id === chosen.design)?.options ?? [];
  return {
    verdict: 'yes',
    fingerprint: offer.fingerprint.slice(0, 20),
    design: chosen.design,
    options: optionBits(ids, chosen.options),
    ...(chosen.totalMinor === undefined || chosen.currency === undefined
      ? {}
      : { total: { minor: chosen.totalMinor, currency: chosen.currency } }),
    date: asked.on,
    decider: place,
    ...(terms === undefined ? {} : { terms: terms.slice(0, 8) }),
    after: asked.n,
    name,
    remark: '',
  };
}

/** What was frozen of a page with the prices that this person was shown, or without; nothing where it is gone. */
function pageShown({ folder }: Desk, { revision, fingerprint, people }: IssuedOffer, person: string): ClientView | undefined {
  try {
    return frozenPage(folder, revision, fingerprint, people.find(({ id }) => id === person)?.audience ?? 'payer');
  } catch {
    return undefined;
  }
}

/** A confirmation as it is sent. */
interface Question {
  readonly subject: string;
  readonly text: string;
  readonly from: MailPerson;
  readonly to: readonly MailPerson[];
  /** Greeting and sentences as they stand in the text, without the one that says of which words it was understood; the name's label. */
  readonly sentences: readonly string[];
  readonly label: string;
}

function questionOf(desk: Desk, asked: Asked, offer: IssuedOffer, heardOn: string | undefined): Question {
  const { proposal, library } = desk.input;
  const { language } = proposal;
  const say = (key: string, values: Readonly<Record<string, string>> = {}): string => {
    const text = library.texts[`record.confirmation.${key}`];
    if (text === undefined) throw new Error(`no text with the key record.confirmation.${key} in ${language}`);
    return text.replaceAll(/\{([a-z-]+)\}/g, (whole, name: string) => values[name] ?? whole);
  };
  const day = (iso: string): string => {
    const date = parseDate(iso);
    return date === undefined ? iso : formatDate(date, language);
  };
  const { chosen } = asked;
  const design = offer.designs.find(({ id }) => id === chosen.design);
  const combination = design?.combinations.find(({ options }) => options.join() === chosen.options.join());
  const page = pageOfDecider(proposal, asked.person);
  const view = pageShown(desk, offer, asked.person);
  const shownOptions = view?.letter?.designs.find(({ id }) => id === chosen.design)?.options ?? [];
  const options = chosen.options.map((id) => shownOptions.find((one) => one.id === id)?.says ?? id).join('; ');
  const { totalMinor, currency } = chosen;
  const money = (minor: number): string => formatMoney({ minor, currency: currency ?? offer.currency }, language);
  const name = nameOf(desk, asked.person);
  const { name: maker, address = '', email, telephone = '' } = page.brand ?? library.maker;
  const terms = offer.terms[offer.people.find(({ id }) => id === asked.person)?.audience ?? 'payer'];
  const lines = [
    say('design', { id: chosen.design, name: design?.name ?? '' }),
    ...((design?.options.length ?? 0) === 0 ? [] : [options === '' ? say('no-options') : say('options', { options })]),
    ...(totalMinor === undefined ? [] : [say('total', { total: money(totalMinor) })]),
    ...(totalMinor === undefined
      ? []
      : offer.instalments.map(({ percent, when }, i) =>
          say('instalment', { amount: money(combination?.instalmentsMinor[i] ?? 0), percent: formatNumber(percent, language, 2), when }),
        )),
    say('revision', { revision: offer.revision, fingerprint: (offer.fingerprint.slice(0, 20).match(/.{5}/g) ?? []).join(' ') }),
    ...(terms === undefined ? [] : [say(totalMinor === undefined ? 'terms-no-price' : 'terms', { digest: terms.slice(0, 8) })]),
    say('until', { date: day(offer.validUntil) }),
  ];
  const consent = view?.consent?.sentence;
  const greeting = say('greeting', { name });
  const after = [
    ...(consent === undefined ? [] : [say('consent', { sentence: consent })]),
    say('ask'),
    say('otherwise'),
    [maker, address, telephone].filter((line) => line !== '').join('\n'),
    say('keep'),
  ];
  const lead = heardOn === undefined ? say('lead') : say('lead-heard', { date: day(heardOn) });
  const body = [greeting, lead, lines.map((line) => `  - ${line}`).join('\n'), ...after].join('\n\n');
  const to = proposal.deciders.people[asked.person]?.email;
  return {
    subject: say('subject', { title: proposal.title, revision: offer.revision }),
    text: makeReply(letterFor(asked, offer, name), { says: body, nameLabel: say('name'), remarkLabel: say('name') }),
    from: { name: maker, address: email },
    to: to === undefined ? [] : [{ name, address: to }],
    sentences: [greeting, ...lines, ...after],
    label: say('name'),
  };
}

/** What a question says, as its draft was written: greeting and sentences, and the label of the name. */
export function questionSentences(desk: Desk, asked: Asked, offer: IssuedOffer): Pick<Question, 'sentences' | 'label'> {
  return questionOf(desk, asked, offer, undefined);
}

/**
 * Writes the question into the proposal's outbox, as text and as a mail to be read over and sent. Gives the paths below the
 * workspace, and the text.
 *
 * @param heardOn the day of the words that were understood so; absent where none are on record
 */
export async function writeQuestion(
  desk: Desk,
  asked: Asked,
  offer: IssuedOffer,
  heardOn: string | undefined,
): Promise<{ readonly paths: readonly string[]; readonly text: string }> {
  const { from, to, subject, text } = questionOf(desk, asked, offer, heardOn);
  const name = `confirm-${asked.n}-${asked.person}`;
  const folder = join(desk.folder, 'outbox');
  const mail = await mailDraft({ from, to, subject, text, date: asked.at, messageIdSeed: `${desk.slug} ${asked.prev} ${asked.n}` });
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, `${name}.txt`), text);
  writeFileSync(join(folder, `${name}.eml`), mail);
  return { paths: ['txt', 'eml'].map((ending) => `${desk.shown}/outbox/${name}.${ending}`), text };
}
