import { issuedOffers, type NamedBytes, readEntries, standingOf } from '../../record/index.ts';
import { papersSlots } from '../../site/client/index.ts';
import { labelFolder, labelsOf, newestEdition, papersFolderOf } from '../on-record/papers-shown.ts';

/** Papers of the newest edition, as they go below the links of the ordered revision. */
export interface PublishedPapers {
  /** The ordered revision. */
  readonly revision: string;
  /** Files of one page by path below its papers, from its folder: `out`, or `out-viewer`. Empty where it has none. */
  readonly of: (pageFolder: string) => readonly NamedBytes[];
  /** Token of the care link. */
  readonly careToken: string;
}

/** What the newest edition of a proposal has for the pages of its ordered revision; nothing before there is one. */
export function papersToPublish(folder: string): PublishedPapers | undefined {
  const { order } = standingOf(readEntries(folder), issuedOffers(folder), '');
  const newest = newestEdition(folder);
  if (newest === undefined || order === undefined) return undefined;
  return {
    revision: order.confirmed.chosen.revision,
    of: (pageFolder) => newest.filesOf(papersFolderOf(pageFolder)),
    careToken: newest.token,
  };
}

/** The care of a delivered table as it is published. */
export interface PublishedCare {
  /** Number of the table, as on its label. */
  readonly piece: string;
  readonly edition: number;
  readonly token: string;
}

/**
 * The care of a table below its own link, for whoever has the table, and its labels beside the maker's page, who alone prints them;
 * nothing before there is an edition. `care` is absent where it was erased.
 */
export function publishEdition(folder: string, slug: string): { readonly care?: PublishedCare; readonly files: readonly NamedBytes[] } {
  const newest = newestEdition(folder);
  if (newest === undefined) return { files: [] };
  const { entry, token, filesOf } = newest;
  const { delivered } = standingOf(readEntries(folder), issuedOffers(folder), '');
  const care = filesOf('care').map(({ path, bytes }) => ({ path: `client/${token}/${path}`, bytes }));
  const labels = labelsOf(newest).map(({ path, bytes }) => ({ path: `workshop/${slug}/${labelFolder}/${path}`, bytes }));
  return {
    ...(care.length === 0 || delivered === undefined ? {} : { care: { piece: delivered.piece, edition: entry.edition, token } }),
    files: [...care, ...labels],
  };
}

const escapes: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
/** A text as it may stand in a page. */
export const escapeHtml = (text: string): string => text.replaceAll(/[&<>"]/g, (sign) => escapes[sign] ?? sign);

/** A paragraph with a link: `href` is relative, from names that need no escape. */
export const linkParagraph = (href: string, says: string): string => `<p><a href="${href}">${escapeHtml(says)}</a></p>`;

/** Fills the slots of the frozen page of papers with the ways to the care of the table and to the proposal; nothing else differs. */
export function fillPapers(html: string, texts: Readonly<Record<string, string>>, careToken: string): string {
  const fill = (page: string, { open, close }: { readonly open: string; readonly close: string }, filling: string): string =>
    page.replace(open + close, () => open + filling + close);
  const withCare = fill(html, papersSlots.care, linkParagraph(`../../${careToken}/index.html`, texts['papers.care-online'] ?? ''));
  return fill(withCare, papersSlots.proposal, linkParagraph('../index.html', texts['papers.proposal-link'] ?? ''));
}
