import { lstatSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { issuedOffers, type NamedBytes, readEntries, standingOf } from '../../record/index.ts';
import { papersSlots } from '../../site/client/index.ts';

/** Papers of the newest edition, as they go below the links of the ordered revision. */
export interface PublishedPapers {
  /** The ordered revision. */
  readonly revision: string;
  /** Files of one page by path below its papers, from the suffix of its folder: empty, or `-viewer`. Empty where it has none. */
  readonly of: (suffix: string) => readonly NamedBytes[];
  /** Token of the care link; absent where it has none. */
  readonly careToken?: string;
}

function filesBelow(folder: string, below = ''): readonly NamedBytes[] {
  if (lstatSync(folder, { throwIfNoEntry: false })?.isDirectory() !== true) return [];
  return readdirSync(folder, { withFileTypes: true })
    .toSorted((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry): readonly NamedBytes[] => {
      const path = `${below}${entry.name}`;
      if (entry.isDirectory()) return filesBelow(join(folder, entry.name), `${path}/`);
      return entry.isFile() ? [{ path, bytes: readFileSync(join(folder, entry.name)) }] : [];
    });
}

function careTokenOf(handedOver: string): string | undefined {
  try {
    const { format, token } = JSON.parse(readFileSync(join(handedOver, 'link.json'), 'utf8')) as Readonly<Record<string, unknown>>;
    return format === 'leafwright/care-link/1' && typeof token === 'string' && /^[a-z2-7]{26}$/.test(token) ? token : undefined;
  } catch {
    return undefined;
  }
}

/** What the newest edition of a proposal has for the pages of its ordered revision; nothing before a hand-over. */
export function papersToPublish(folder: string): PublishedPapers | undefined {
  const { papers, order } = standingOf(readEntries(folder), issuedOffers(folder), '');
  if (papers === undefined || order === undefined) return undefined;
  const handedOver = join(folder, 'handed-over');
  const careToken = careTokenOf(handedOver);
  return {
    revision: order.confirmed.chosen.revision,
    of: (suffix) => filesBelow(join(handedOver, String(papers.edition), `papers${suffix}`)),
    ...(careToken === undefined ? {} : { careToken }),
  };
}

const escapes: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
/** A text as it may stand in a page. */
export const escapeHtml = (text: string): string => text.replaceAll(/[&<>"]/g, (sign) => escapes[sign] ?? sign);

/** A paragraph with a link: `href` is relative, from names that need no escape. */
export const linkParagraph = (href: string, says: string): string => `<p><a href="${href}">${escapeHtml(says)}</a></p>`;

/** Fills the slots of the frozen page of papers with the ways to the care of the table and to the proposal; nothing else differs. */
export function fillPapers(html: string, texts: Readonly<Record<string, string>>, careToken: string | undefined): string {
  const fill = (page: string, { open, close }: { readonly open: string; readonly close: string }, filling: string): string =>
    page.replace(open + close, () => open + filling + close);
  const withCare =
    careToken === undefined
      ? html
      : fill(html, papersSlots.care, linkParagraph(`../../${careToken}/index.html`, texts['papers.care-online'] ?? ''));
  return fill(withCare, papersSlots.proposal, linkParagraph('../index.html', texts['papers.proposal-link'] ?? ''));
}
