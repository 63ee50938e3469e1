import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Words, wordsOf } from '../../client/index.ts';
import { type Body, shortFingerprint } from '../../record/index.ts';
import { pageOfDecider } from '../../spec/index.ts';
import { type MailPerson, mailDraft } from '../../write/client/index.ts';
import { frozenWords } from '../draft/frozen-view.ts';
import { type Desk, shownDay, shownMoney } from '../record-desk.ts';
import { folded } from '../terminal.ts';

type Confirmed = Body<'confirmed'>;

/** Who said yes, under which name and when. */
export interface SaidYes {
  readonly name: string;
  readonly on: string;
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

/** The message to the client: what was approved by whom, total, instalments, until when it is held, what comes next. */
function confirmationText(desk: Desk, confirmed: Confirmed, answers: readonly SaidYes[], words: Words): string {
  const { chosen, instalmentsMinor, holdUntil } = confirmed;
  const { maker } = desk.input.library;
  const said = chosenWords(desk, confirmed, words);
  const when = desk.offers.find(({ revision }) => revision === chosen.revision)?.instalments ?? [];
  const money = (minor: number): string => shownMoney(desk, chosen.currency, minor);
  const [first = 0] = instalmentsMinor;
  const held = { date: shownDay(desk, holdUntil), amount: money(first) };
  const names = new Intl.ListFormat(words.language, { type: 'conjunction' }).format(answers.map((one) => one.name));
  const isChange = confirmed.replaces !== undefined;
  const sentence = words.has('consent.sentence') ? words.say('consent.sentence') : undefined;
  const address = { email: maker.email, address: maker.address };
  const blocks = [
    words.say('confirm.dear', { names }),
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
      [words.say('confirm.total'), [money(chosen.totalMinor)]],
      [
        words.say('confirm.instalments'),
        instalmentsMinor.map((minor, i) => `${i + 1}. ${money(minor)}${when[i] === undefined ? '' : `, ${when[i].when}`}`),
      ],
      [words.say('confirm.held'), [held.date]],
    ]),
    paragraph(words.say(isChange ? 'confirm.no-order-change' : 'confirm.no-order', held)),
    paragraph(words.say(isChange ? 'confirm.next-change' : 'confirm.next', held)),
    ...(sentence === undefined ? [] : [paragraph(words.say('confirm.consent', { sentence }))]),
    ...(words.has('consent.withdraw') && words.has('consent.withdraw-label')
      ? [paragraph(`${words.say('consent.withdraw-label')}: ${words.say('consent.withdraw', address)}`)]
      : []),
    paragraph(words.say('confirm.wrong')),
    ...(desk.input.proposal.invented ? [paragraph(words.say('page.invented'))] : []),
    [maker.name, maker.trade, maker.address, maker.telephone].filter((line) => line !== undefined && line !== '').join('\n'),
  ];
  return `${blocks.join('\n\n')}\n`;
}

/** Writes the message below the proposal's outbox, as text and as a mail to be opened and sent; gives their paths below the workspace. */
export async function writeConfirmation(desk: Desk, confirmed: Confirmed, answers: readonly SaidYes[]): Promise<readonly string[]> {
  const { proposal, library } = desk.input;
  const words = wordsOf(proposal.language, library.texts);
  const text = confirmationText(desk, confirmed, answers, words);
  const { revision, fingerprint } = confirmed.chosen;
  const mail = await mailDraft({
    from: { name: library.maker.name, address: library.maker.email },
    to: readers(desk),
    subject: words.say('confirm.subject', { title: proposal.title }),
    text,
    date: desk.at,
    messageIdSeed: `${desk.slug} ${revision} confirmed ${fingerprint}`,
  });
  const folder = join(desk.folder, 'outbox');
  mkdirSync(folder, { recursive: true });
  const name = `${revision}-confirmation`;
  writeFileSync(join(folder, `${name}.txt`), text);
  writeFileSync(join(folder, `${name}.eml`), mail);
  return ['txt', 'eml'].map((ending) => `${desk.shown}/outbox/${name}.${ending}`);
}
