/** Workshop pages: what they are rendered from. The templates lie in `pages/` and `parts/`. */
export type {
  IssuedRevision,
  LineStanding,
  ProposalLine,
  RatesShown,
  WorkshopBench,
  WorkshopClaim,
  WorkshopClaimLocals,
  WorkshopDelivery,
  WorkshopIndexLocals,
  WorkshopPageLocals,
  WorkshopRecord,
} from './locals.ts';
