import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ClientView } from '../../client/index.ts';
import { frozenOut, type IssuedRevision, type NamedBytes } from '../../record/index.ts';
import { stateSlot } from '../../site/client/index.ts';
import { formatDate, parseDate } from '../../units/index.ts';
import { escapeHtml, fillPapers, linkParagraph, type PublishedPapers, papersToPublish } from './papers.ts';

type FrozenWords = Pick<ClientView, 'texts' | 'revision' | 'language'>;

/** The view that was frozen with a revision: its texts say how it stands, in the words of that day. */
function frozenView(folder: string, revision: string): FrozenWords {
  return JSON.parse(readFileSync(join(folder, 'issued', revision, 'data', 'client.json'), 'utf8')) as ClientView;
}

type Texts = Readonly<Record<string, string>>;

function shownDay(day: string, language: string): string {
  const date = parseDate(day);
  return date === undefined ? day : formatDate(date, language);
}

/** What a state's sentence is filled in with. */
function stateValues(folder: string, { state }: IssuedRevision, own: FrozenWords): Readonly<Record<string, string>> {
  if (state.kind === 'superseded') {
    const { ordinal, date } = frozenView(folder, state.by).revision;
    return { ordinal, date };
  }
  return { date: 'on' in state ? shownDay(state.on, own.language) : own.revision.validUntil };
}

/** How a revision stands, as one sentence, in its own words; in today's where they have none. */
function stateText(folder: string, issued: IssuedRevision, today: Texts): string {
  const own = frozenView(folder, issued.revision);
  const key = `state.${issued.state.kind}`;
  const values = stateValues(folder, issued, own);
  return (own.texts[key] ?? today[key] ?? '').replaceAll(/\{([a-z-]+)\}/g, (whole, name: string) => values[name] ?? whole);
}

/**
 * Fills the one empty slot of a frozen page: with how it stands, and with the way to the papers of the table where there is one.
 * Throws where the page has no slot, or more than one.
 */
export function fillState(html: string, text: string, papers?: { readonly href: string; readonly says: string }): string {
  const empty = stateSlot.open + stateSlot.close;
  if (html.split(empty).length !== 2) throw new Error('a frozen page has one empty slot for its state');
  const filled = (text === '' ? '' : `<p>${escapeHtml(text)}</p>`) + (papers === undefined ? '' : linkParagraph(papers.href, papers.says));
  return html.replace(empty, () => stateSlot.open + filled + stateSlot.close);
}

const papersFolder = 'papers';

const rewritten = (bytes: Uint8Array, fill: (html: string) => string): Uint8Array =>
  Buffer.from(fill(Buffer.from(bytes).toString('utf8')), 'utf8');

/** The papers of the table for one page of a revision, by path below its link; none but for the ordered one. */
function papersBelow(papers: PublishedPapers | undefined, revision: string, pageFolder: string, today: Texts): readonly NamedBytes[] {
  if (papers?.revision !== revision) return [];
  return papers.of(pageFolder.slice('out'.length)).map(({ path, bytes }) => ({
    path: `${papersFolder}/${path}`,
    bytes: path === 'index.html' ? rewritten(bytes, (html) => fillPapers(html, today, papers.careToken)) : bytes,
  }));
}

/**
 * The frozen files of every issued revision below its link; the page's slot says how it stands today, nothing else differs. Below
 * the links of an ordered revision stand the papers of the table, once it was handed over.
 *
 * @param today today's texts by key, for sentences that a revision was frozen without
 */
export function publishRevisions(folder: string, revisions: readonly IssuedRevision[], today: Texts): readonly NamedBytes[] {
  const papers = papersToPublish(folder);
  return revisions.flatMap((issued) => {
    const text = stateText(folder, issued, today);
    return issued.pages.flatMap(({ folder: out, token }) => {
      const own = papersBelow(papers, issued.revision, out, today);
      const link = own.length === 0 ? undefined : { href: `${papersFolder}/index.html`, says: today['papers.link'] ?? '' };
      const frozen = frozenOut(folder, issued.revision, out).map(({ path, bytes }) => ({
        path,
        bytes: path === 'index.html' ? rewritten(bytes, (html) => fillState(html, text, link)) : bytes,
      }));
      return [...frozen, ...own].map(({ path, bytes }) => ({ path: `client/${token}/${path}`, bytes }));
    });
  });
}
