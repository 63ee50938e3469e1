import { frozenOut, type IssuedRevision, type NamedBytes } from '../../record/index.ts';
import { stateSlot } from '../../site/client/index.ts';
import { fillPapers, type PublishedPapers, papersToPublish } from './papers.ts';
import { slotOf, slotSource } from './state-words.ts';

type Texts = Readonly<Record<string, string>>;

/** Fills the one empty slot of a frozen page. Throws where the page has no slot, or more than one. */
export function fillState(html: string, filling: string): string {
  const empty = stateSlot.open + stateSlot.close;
  if (html.split(empty).length !== 2) throw new Error('a frozen page has one empty slot for its state');
  return html.replace(empty, () => stateSlot.open + filling + stateSlot.close);
}

const papersFolder = 'papers';

const rewritten = (bytes: Uint8Array, fill: (html: string) => string): Uint8Array =>
  Buffer.from(fill(Buffer.from(bytes).toString('utf8')), 'utf8');

/** The papers of the table for one page of a revision, by path below its link; none but for the ordered one. */
function papersBelow(papers: PublishedPapers | undefined, revision: string, pageFolder: string, today: Texts): readonly NamedBytes[] {
  if (papers?.revision !== revision) return [];
  return papers.of(pageFolder).map(({ path, bytes }) => ({
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
  const source = slotSource(folder, revisions, today);
  return revisions.flatMap((issued) =>
    issued.pages.flatMap((page) => {
      const { folder: out, token } = page;
      const own = papersBelow(papers, issued.revision, out, today);
      const link = own.length === 0 ? undefined : { href: `${papersFolder}/index.html`, says: today['papers.link'] ?? '' };
      const frozen = frozenOut(folder, issued.revision, out).map(({ path, bytes }) => ({
        path,
        bytes: path === 'index.html' ? rewritten(bytes, (html) => fillState(html, slotOf(source, issued, page, html, link))) : bytes,
      }));
      return [...frozen, ...own].map(({ path, bytes }) => ({ path: `client/${token}/${path}`, bytes }));
    }),
  );
}
