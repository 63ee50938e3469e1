import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ClientView } from '../../client/index.ts';
import {
  type Chosen,
  type EntryOf,
  type IssuedPage,
  type IssuedRevision,
  issuedOffers,
  type RevisionState,
  readEntries,
  type Standing,
  standingOf,
} from '../../record/index.ts';
import { formatDate, parseDate } from '../../units/index.ts';
import { viewName } from '../draft/frozen-view.ts';
import { escapeHtml, linkParagraph } from './papers.ts';

type Texts = Readonly<Record<string, string>>;
type OfferedChange = NonNullable<Extract<RevisionState, { readonly kind: 'ordered' | 'delivered' }>['change']>;
type Values = Readonly<Record<string, string>>;

/** Of a frozen view what the slot is written from; versions before today's may lack the latter ones. */
type FrozenWords = Pick<ClientView, 'texts' | 'revision' | 'language'> &
  Partial<Pick<ClientView, 'audience' | 'maker' | 'client' | 'deciders' | 'letter' | 'changed'>>;

/** What the slots of a proposal's pages are written from, read once. */
export interface SlotSource {
  /** The proposal's folder. */
  readonly folder: string;
  readonly revisions: readonly IssuedRevision[];
  readonly standing: Standing;
  readonly answers: readonly EntryOf<'answer'>[];
  /** Today's texts by key, for sentences that a revision was frozen without. */
  readonly today: Texts;
}

export function slotSource(folder: string, revisions: readonly IssuedRevision[], today: Texts): SlotSource {
  const entries = readEntries(folder);
  return {
    folder,
    revisions,
    standing: standingOf(entries, issuedOffers(folder), ''),
    answers: entries.filter((entry): entry is EntryOf<'answer'> => entry.kind === 'answer'),
    today,
  };
}

/** The view that was frozen for a page: its texts say how it stands, in the words of that day. Nothing where it was erased. */
function frozenWords({ folder }: SlotSource, { revision, pages }: IssuedRevision, { page }: IssuedPage): FrozenWords | undefined {
  const path = join(folder, 'issued', revision, 'data', viewName(page, pages[0]?.page === page));
  return existsSync(path) ? (JSON.parse(readFileSync(path, 'utf8')) as ClientView) : undefined;
}

/** A page of a client with its words, and how they are filled in. */
interface Telling {
  readonly source: SlotSource;
  readonly issued: IssuedRevision;
  readonly page: IssuedPage;
  readonly own: FrozenWords;
  /** A sentence as it may stand in a page; values in `names` are free words, and keep their own direction. */
  readonly say: (key: string, values?: Values, names?: Values) => string;
  readonly day: (iso: string) => string;
}

function telling(source: SlotSource, issued: IssuedRevision, page: IssuedPage): Telling | undefined {
  const own = frozenWords(source, issued, page);
  if (own === undefined) return undefined;
  return {
    source,
    issued,
    page,
    own,
    say: (key, values = {}, names = {}) =>
      escapeHtml(own.texts[key] ?? source.today[key] ?? '').replaceAll(/\{([a-z-]+)\}/g, (whole, name: string) => {
        const [value, words] = [values[name], names[name]];
        if (words !== undefined) return `<bdi>${escapeHtml(words)}</bdi>`;
        return value === undefined ? whole : escapeHtml(value);
      }),
    day: (iso) => {
      const date = parseDate(iso);
      return date === undefined ? iso : formatDate(date, own.language);
    },
  };
}

/** A page of another revision, with what was frozen for it. */
interface OtherPage {
  readonly page: IssuedPage;
  readonly words: FrozenWords;
}

/** The page of another revision for the same reader: the one of the same name, else the first of the same maker and audience. */
function samePage({ source, page, own }: Telling, revision: string): OtherPage | undefined {
  const other = source.revisions.find((one) => one.revision === revision);
  const all = (other?.pages ?? []).flatMap((one) => {
    const words = other === undefined ? undefined : frozenWords(source, other, one);
    return words === undefined ? [] : [{ page: one, words }];
  });
  const isForReader = ({ words }: { readonly words: FrozenWords }): boolean =>
    words.audience === own.audience && words.maker?.name === own.maker?.name;
  return all.find((one) => one.page.page === page.page && isForReader(one)) ?? all.find(isForReader);
}

/** Sentences as one paragraph; nothing where there are none. */
function paragraph(sentences: readonly string[]): string {
  const said = sentences.filter((words) => words !== '');
  return said.length === 0 ? '' : `<p>${said.join(' ')}</p>`;
}

const linkTo = (href: string, says: string): string => `<p><a href="${escapeHtml(href)}">${says}</a></p>`;
/** From one page to another, both below their links. */
const pageHref = ({ token }: IssuedPage): string => `../${token}/index.html`;

/** Whether the reader of this page surely is that of another: same page, audience, name on it and client. A link that only resembles would hand one reader's page to another. */
const isSameReader = ({ page, own }: Telling, other: OtherPage): boolean =>
  other.page.page === page.page && other.words.client?.name === own.client?.name;

/** The page that took the place of this one, for a reader who surely is the same. */
function newerPage(told: Telling): OtherPage | undefined {
  const { state } = told.issued;
  const newer = state.kind === 'superseded' ? samePage(told, state.by) : undefined;
  return newer !== undefined && isSameReader(told, newer) ? newer : undefined;
}

/** The sentence that says how it stands, alone. */
function firstSentence(told: Telling): string {
  const { say, day, own, issued } = told;
  const { state } = issued;
  if (state.kind === 'superseded') {
    const newer = samePage(told, state.by)?.words.revision;
    const key = newer === undefined ? 'state.superseded-bare' : state.isOpen ? 'state.superseded' : 'state.superseded-shut';
    const words = say(key, newer === undefined ? {} : { ordinal: newer.ordinal, date: newer.date });
    return newer === undefined || newerPage(told) !== undefined ? words : `${words} ${say('state.newer-link')}`;
  }
  const isChange = state.kind === 'approved' && own.revision.orderStands !== undefined;
  return say(isChange ? 'state.approved-change' : `state.${state.kind}`, { date: 'on' in state ? day(state.on) : own.revision.validUntil });
}

/** What was agreed of this revision, and the answers that it rests on; nothing before there was an approval. */
function agreedOf({ source, issued }: Telling): { readonly chosen: Chosen; readonly answers: readonly EntryOf<'answer'>[] } | undefined {
  const { order, approved } = source.standing;
  const confirmed = order?.confirmed;
  if (confirmed?.chosen.revision === issued.revision)
    return { chosen: confirmed.chosen, answers: source.answers.filter(({ n }) => confirmed.answers.includes(n)) };
  return approved?.chosen.revision === issued.revision ? approved : undefined;
}

/** The design, its options and, for the one who pays, its total. */
function chosenWords({ say, own }: Telling, { design, options }: Chosen): string {
  const offered = own.letter?.designs.find(({ id }) => id === design);
  if (offered === undefined) return '';
  const on = options.map((id) => offered.options.find((one) => one.id === id)?.says ?? id);
  const total = offered.combinations.find((one) => one.options.join() === options.join())?.total?.shown;
  const key = `state.chosen${on.length === 0 ? '' : '-with'}`;
  const what = say(key, { id: design }, { name: offered.name, options: on.join(', ') });
  return total === undefined ? what : `${what} ${say('state.chosen-total', { total })}`;
}

/** What those who read this page have answered, each with the last word among these answers to this revision. */
function answerWords({ issued, own, say, day }: Telling, answers: readonly EntryOf<'answer'>[]): string {
  const people = own.letter?.people ?? [];
  const said = people.flatMap(({ id, name }) => {
    const last = answers.findLast(({ person, revision }) => person === id && revision === issued.revision);
    return last === undefined ? [] : [{ n: last.n, words: say(`state.said-${last.verdict}`, { date: day(last.on) }, { name }) }];
  });
  return said
    .sort((a, b) => a.n - b.n)
    .map(({ words }) => words)
    .join(' ');
}

/** Whether a reader of this page ever said yes to it: how a yes is said then belongs to what is on record. */
function hasYes({ source, issued, own }: Telling): boolean {
  const readers = own.letter?.people.map(({ id }) => id) ?? [];
  return source.answers.some(
    ({ verdict, revision, person }) => verdict === 'yes' && revision === issued.revision && readers.includes(person),
  );
}

/** What a change changes, in one line: the size, then what it would come to, else what its page lists first. */
function changeLine({ say }: Telling, { changed, texts }: FrozenWords): string {
  const rows = changed?.designs[0]?.rows ?? [];
  const isPrice = (label: string): boolean => [texts['changed.price'], texts['changed.price-untaxed']].includes(label);
  const size = rows.find(({ label }) => label === texts['page.size']);
  const price = rows.find(({ label }) => isPrice(label));
  const other = rows.find(({ label }) => !isPrice(label));
  const what = size ?? other;
  return [
    ...(what === undefined ? [] : [say('state.change-row', { before: what.before, now: what.now }, { what: what.label })]),
    ...(price === undefined ? [] : [say('state.change-price', { now: price.now })]),
  ].join(' ');
}

/** A change that was offered to this order: how it stands, what it changes, that the order stands, and the way to it. */
function changeParagraphs(told: Telling, { revision, stands }: OfferedChange): string {
  const { say, own, source } = told;
  const other = samePage(told, revision);
  if (other === undefined) return `<p>${say('state.change-bare')}</p>`;
  const { ordinal, date, validUntil } = other.words.revision;
  const seesPrice = own.audience === 'payer';
  const sentence = say(`state.change-${stands}`, { ordinal, date, until: validUntil });
  const isOne = other.words.deciders?.names.length === 1;
  const more =
    stands === 'run-out'
      ? []
      : [changeLine(told, other.words), say(orderStandsKey(stands, isOne ? 'any' : (source.standing.newest?.rule ?? 'all'), seesPrice))];
  const isSure = isSameReader(told, other);
  return [
    paragraph([sentence, ...more, isSure ? '' : say('state.newer-link')]),
    isSure ? linkTo(pageHref(other.page), say(stands === 'open' ? 'state.to-change-open' : 'state.to-change')) : '',
  ].join('');
}

function orderStandsKey(stands: 'open' | 'approved', rule: 'all' | 'any', seesPrice: boolean): string {
  const agreed = stands === 'approved' ? '-agreed' : rule === 'any' ? '-any' : '';
  return `state.order-stands${agreed}${seesPrice ? '' : '-no-price'}`;
}

/** Stands in the style of every page that hides its letter of answer once the slot says so. */
const shutMark = '[data-answers=';

/**
 * What fills the slot of one frozen page: how the revision stands, what was agreed or answered, a change that is on offer, and
 * the ways to where it goes on. Its style and script take `data-answers="shut"` for no letter of answer, and `data-yes` for a
 * yes on record, without which it does not tell how one is said. Empty where there is nothing to say.
 *
 * @param html the frozen page: one that was made before it knew of this is told in words
 * @param papers the way to the papers of the table, where there are any
 */
export function slotOf(
  source: SlotSource,
  issued: IssuedRevision,
  page: IssuedPage,
  html: string,
  papers?: { readonly href: string; readonly says: string },
): string {
  const told = telling(source, issued, page);
  const toPapers = papers === undefined ? '' : linkParagraph(papers.href, papers.says);
  if (told === undefined) return toPapers;
  const { say, own } = told;
  const { state } = issued;
  const isShut = state.kind !== 'open';
  const agreed = state.kind === 'superseded' ? undefined : agreedOf(told);
  const said = isShut
    ? [agreed === undefined ? '' : chosenWords(told, agreed.chosen), answerWords(told, agreed?.answers ?? source.answers)]
    : [];
  const keepsLetter = isShut && html.includes('id="answer"') && !html.includes(shutMark);
  const newer = newerPage(told);
  const writes = (state.kind === 'run-out' || state.kind === 'closed') && own.maker !== undefined ? own.maker.email : undefined;
  const filling = [
    paragraph([firstSentence(told), keepsLetter ? say('state.letter-stays') : '']),
    paragraph(said),
    newer === undefined ? '' : linkTo(pageHref(newer.page), say('state.to-newer')),
    writes === undefined ? '' : linkTo(`mailto:${writes}`, say('state.write', { email: writes })),
    'change' in state && state.change !== undefined ? changeParagraphs(told, state.change) : '',
    toPapers,
  ].join('');
  const marks = `data-answers="${isShut ? 'shut' : 'open'}"${isShut && (agreed !== undefined || hasYes(told)) ? ' data-yes' : ''}`;
  return filling === '' ? '' : `<div class="standing" ${marks}>${filling}</div>`;
}
