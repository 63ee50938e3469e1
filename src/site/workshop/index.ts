/** Workshop pages: what they are rendered from. The templates lie in `pages/` and `parts/`. */
export type { IssuedRevision, ProposalLine, WorkshopIndexLocals, WorkshopPageLocals } from './locals.ts';
