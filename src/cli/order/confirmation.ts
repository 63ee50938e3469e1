import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Words, wordsOf } from '../../client/index.ts';
import { type Body, shortFingerprint } from '../../record/index.ts';
import { pageOfDecider, pagesOf } from '../../spec/index.ts';
import { type MailPerson, mailDraft } from '../../write/client/index.ts';
import { frozenWords } from '../draft/frozen-view.ts';
import { type Desk, shownDay, shownMoney } from '../record-desk.ts';
import { folded } from '../terminal.ts';

type Confirmed = Body<'confirmed'>;

/** Who said yes, under which name, when and with what remark. */
export interface SaidYes {
  readonly name: string;
  readonly on: string;
  /** What was said with it, as it stands in their letter. */
  readonly remark?: string;
}

/** Those who decide and see prices; the client where none of them has an address. */
function readers({ input: { proposal } }: Desk): readonly MailPerson[] {
  const people = Object.entries(proposal.deciders.people).filter(([id]) => pageOfDecider(proposal, id).audience === 'payer');
  const written = people.flatMap(([, { name, email }]) => (email === undefined ? [] : [{ name, address: email }]));
  if (written.length > 0) return written;
  return proposal.client.email === undefined ? [] : [{ name: proposal.client.name, address: proposal.client.email }];
}

const pair = (label: string, values: readonly string[], width: number): readonly string[] =>
  values.map((value, i) => `${(i === 0 ? label : '').padEnd(width)}  ${value}`.trimEnd());

/** Label and values below each other, values in one column. */
function table(rows: readonly (readonly [label: string, values: readonly string[]])[]): string {
  const width = Math.max(...rows.map(([label]) => label.length));
  return rows.flatMap(([label, values]) => pair(label, values, width)).join('\n');
}

/** Sentences in lines of at most 76 signs, as mail is read everywhere. */
const paragraph = (text: string): string => folded(text, '', { columns: 76, hanging: '' }).join('\n');

/** What was frozen for the client; nothing where it was erased. */
function frozen(desk: Desk, { chosen }: Confirmed) {
  try {
    return frozenWords(desk.folder, chosen.revision, chosen.fingerprint);
  } catch {
    return undefined;
  }
}

/** The proposal, its revision, design and options in words: of the frozen page, of the offer where that is gone. */
function chosenWords(desk: Desk, confirmed: Confirmed, words: Words) {
  const { chosen } = confirmed;
  const view = frozen(desk, confirmed);
  const offer = desk.offers.find(({ revision }) => revision === chosen.revision);
  const found = view?.letter?.designs.find(({ id }) => id === chosen.design);
  const name = found?.name ?? offer?.designs.find(({ id }) => id === chosen.design)?.name ?? '';
  const options = chosen.options.map((id) => found?.options.find((one) => one.id === id)?.says ?? id);
  return {
    title: view?.title ?? desk.input.proposal.title,
    revision: [view?.revision.ordinal, chosen.revision, view?.revision.date ?? shownDay(desk, offer?.date ?? '')]
      .filter((one) => one !== undefined && one !== '')
      .join(', '),
    design: `${chosen.design} ${name}`.trim(),
    options: options.length === 0 ? [words.say('confirm.no-options')] : options,
  };
}

/** Whom a message is for, whose name stands below it, and whether it holds prices. */
interface Message {
  readonly name: string;
  readonly to: readonly MailPerson[];
  readonly greeted: readonly string[];
  readonly from: MailPerson;
  readonly signed: readonly (string | undefined)[];
  readonly isPriced: boolean;
}

/** One message for those who see prices, and one for each page without prices that somebody who decides is shown. */
function messagesOf(desk: Desk, revision: string, answers: readonly SaidYes[]): readonly Message[] {
  const { proposal, library } = desk.input;
  const { maker } = library;
  const own = { from: { name: maker.name, address: maker.email }, signed: [maker.name, maker.trade, maker.address, maker.telephone] };
  const name = `${revision}-confirmation`;
  const unpriced = pagesOf(proposal).flatMap((page): readonly Message[] => {
    const shown = Object.entries(proposal.deciders.people).filter(([id]) => pageOfDecider(proposal, id).id === page.id);
    if (page.audience !== 'no-price' || shown.length === 0) return [];
    const { brand } = page;
    const sender =
      brand === undefined
        ? own
        : { from: { name: brand.name, address: brand.email }, signed: [brand.name, brand.trade, brand.address, brand.telephone] };
    const to = shown.flatMap(([, { name: reader, email }]) => (email === undefined ? [] : [{ name: reader, address: email }]));
    return [{ ...sender, name: `${name}-${page.id}`, to, greeted: shown.map(([, one]) => one.name), isPriced: false }];
  });
  return [{ ...own, name, to: readers(desk), greeted: answers.map((one) => one.name), isPriced: true }, ...unpriced];
}

/** What was approved by whom, total, instalments, until when it is held, what comes next; without any amount for those who see no price. */
function confirmationText(desk: Desk, confirmed: Confirmed, answers: readonly SaidYes[], message: Message, words: Words): string {
  const { chosen, instalmentsMinor, holdUntil } = confirmed;
  const { maker } = desk.input.library;
  const { isPriced } = message;
  const said = chosenWords(desk, confirmed, words);
  const when = desk.offers.find(({ revision }) => revision === chosen.revision)?.instalments ?? [];
  const money = (minor: number): string => shownMoney(desk, chosen.currency, minor);
  const [first = 0] = instalmentsMinor;
  const held = { date: shownDay(desk, holdUntil), amount: money(first) };
  const isChange = confirmed.replaces !== undefined;
  const noOrder = `confirm.no-order${isChange ? '-change' : ''}${isPriced ? '' : '-no-price'}`;
  const consent = isPriced ? 'consent.sentence' : 'consent.sentence-no-price';
  const address = { email: message.from.address, address: maker.address };
  const blocks = [
    words.say('confirm.dear', { names: new Intl.ListFormat(words.language, { type: 'conjunction' }).format(message.greeted) }),
    paragraph(words.say(isChange ? 'confirm.lead-change' : 'confirm.lead')),
    table([
      [words.say('confirm.proposal'), [said.title, said.revision]],
      [words.say('confirm.fingerprint'), [shortFingerprint(chosen.fingerprint)]],
      [words.say('confirm.design'), [said.design]],
      [words.say('confirm.options'), said.options],
      [
        words.say('confirm.approved'),
        answers.map((one) => words.say('confirm.approved-by', { name: one.name, date: shownDay(desk, one.on) })),
      ],
      ...(isPriced
        ? [
            [words.say('confirm.total'), [money(chosen.totalMinor)]] as const,
            [
              words.say('confirm.instalments'),
              instalmentsMinor.map((minor, i) => `${i + 1}. ${money(minor)}${when[i] === undefined ? '' : `, ${when[i].when}`}`),
            ] as const,
            [words.say('confirm.held'), [held.date]] as const,
          ]
        : []),
    ]),
    // A remark may speak of money: it is for those who see prices, as in the scope.
    ...(isPriced
      ? answers.flatMap(({ name, remark }) => (remark === undefined ? [] : [paragraph(words.say('confirm.remark', { name, remark }))]))
      : []),
    paragraph(words.say(noOrder, held)),
    ...(isPriced ? [paragraph(words.say(isChange ? 'confirm.next-change' : 'confirm.next', held))] : []),
    ...(words.has(consent) ? [paragraph(words.say('confirm.consent', { sentence: words.say(consent) }))] : []),
    ...(isPriced && words.has('consent.withdraw') && words.has('consent.withdraw-label')
      ? [paragraph(`${words.say('consent.withdraw-label')}: ${words.say('consent.withdraw', address)}`)]
      : []),
    paragraph(words.say(isPriced ? 'confirm.wrong' : 'confirm.wrong-no-price')),
    ...(desk.input.proposal.invented ? [paragraph(words.say('page.invented'))] : []),
    message.signed.filter((line) => line !== undefined && line !== '').join('\n'),
  ];
  return `${blocks.join('\n\n')}\n`;
}

/** Writes the messages below the proposal's outbox, as text and as mail to be opened and sent; gives their paths below the workspace. */
export async function writeConfirmation(desk: Desk, confirmed: Confirmed, answers: readonly SaidYes[]): Promise<readonly string[]> {
  const { proposal, library } = desk.input;
  const words = wordsOf(proposal.language, library.texts);
  const { revision, fingerprint } = confirmed.chosen;
  const folder = join(desk.folder, 'outbox');
  mkdirSync(folder, { recursive: true });
  const paths: string[] = [];
  for (const message of messagesOf(desk, revision, answers)) {
    const text = confirmationText(desk, confirmed, answers, message, words);
    const mail = await mailDraft({
      from: message.from,
      to: message.to,
      subject: words.say('confirm.subject', { title: proposal.title }),
      text,
      date: desk.at,
      messageIdSeed: `${desk.slug} ${message.name.replace('-confirmation', ' confirmed')} ${fingerprint}`,
    });
    writeFileSync(join(folder, `${message.name}.txt`), text);
    writeFileSync(join(folder, `${message.name}.eml`), mail);
    paths.push(...['txt', 'eml'].map((ending) => `${desk.shown}/outbox/${message.name}.${ending}`));
  }
  return paths;
}
