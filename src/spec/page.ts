import type { z } from 'zod';
import { choice, patterned, text } from './field.ts';
import type { ProposalSpec } from './proposal.ts';
import { group } from './shape.ts';

export const EMAIL = /^[^\s@<>]+@[^\s@<>]+\.[^\s@<>]+$/;
/** An address below which pages are uploaded. */
export const SITE = /^https:\/\/[a-z0-9.-]+(?::\d+)?(?:\/[A-Za-z0-9._~/-]*)?$/;
export const AUDIENCES = ['payer', 'no-price'] as const;
export const LEVELS = ['sketch', 'agreed', 'full'] as const;
/** What a level shows, for the reference. */
export const levelsSay = '`sketch`: overall sizes and pictures; `agreed`: main sizes; `full`: sections, joints, model.';

const brandSchema = () =>
  group(
    "whose name stands in place of the maker's",
    {
      name: text('the name'),
      trade: text('the trade').optional(),
      address: text('the address').optional(),
      email: patterned('the e-mail address', EMAIL, 'an e-mail address', { examples: ['name@example.invalid'] }),
      telephone: text('the telephone number').optional(),
      site: patterned('where the page is uploaded', SITE, 'an address that begins with https://', {
        more: "The message to who reads it names the link below it; the maker's own is never named there.",
        examples: ['https://rooms.example.invalid/'],
      }).optional(),
    },
    { more: 'A designer who shows the table to a client of their own. Only on a page without prices.' },
  );

/** One page of a revision: who reads it, and what they may see. */
export const pageSchema = () =>
  group('a page of the revision', {
    audience: choice('who it is for', AUDIENCES, { more: '`no-price`: a page without any price.' }).prefault('payer'),
    level: choice('how much is shown', LEVELS, { more: 'As `revision.level` where silent.' }).optional(),
    brand: brandSchema().optional(),
    for: text('the name of who reads it', { more: "The client's where silent." }).optional(),
  });

export type BrandSpec = z.infer<ReturnType<typeof brandSchema>>;

/** A page with what it leaves to the revision filled in. */
export interface PageOf {
  readonly id: string;
  readonly audience: (typeof AUDIENCES)[number];
  readonly level: (typeof LEVELS)[number];
  readonly brand?: BrandSpec;
  readonly for?: string;
}

/** Id of the one page of a proposal that names none. */
const ONLY_PAGE = 'client';

/** The pages of a proposal, in its order; one as the revision says where it names none. */
export function pagesOf({ pages, revision }: ProposalSpec): readonly [PageOf, ...PageOf[]] {
  const [first, ...others] = Object.entries(pages).map(([id, page]): PageOf => ({ ...page, id, level: page.level ?? revision.level }));
  return first === undefined ? [{ id: ONLY_PAGE, audience: revision.audience, level: revision.level }] : [first, ...others];
}

/** The page that somebody who decides is shown: the one they name, else the first. */
export function pageOfDecider(proposal: ProposalSpec, person: string): PageOf {
  const pages = pagesOf(proposal);
  const named = proposal.deciders.people[person]?.page;
  return pages.find(({ id }) => id === named) ?? pages[0];
}
