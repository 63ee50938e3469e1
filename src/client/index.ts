/**
 * ClientView: the fields that may leave, by audience and level, in words. The wall stands here.
 * In: words, drawings and figures of one proposal. Out: plain data, every figure rounded to the safe side and formatted.
 */
export { earlierDesign } from './changed.ts';
export { type ClaimReader, claimSheet } from './claim.ts';
export { lackingIn } from './claim-baseline.ts';
export type { ClaimSource, ClaimStep, KeptFile, TopExpected } from './claim-source.ts';
export type { ClaimSection, ClaimSheet, ClaimTable } from './claim-view.ts';
export type { ClientOptions, ClientSource, PreviousRevision } from './client-source.ts';
export type {
  CareView,
  ChangedDesign,
  ChangedView,
  ClientView,
  ConsentView,
  DesignView,
  LetterDesign,
  LetterView,
  MaterialView,
  PriceView,
  RichRun,
  RichText,
  WishView,
} from './client-view.ts';
export { factIds } from './facts.ts';
export { decidersInOrder, type Offer, type OfferedChange, offerOf, termsDigest, termsText } from './offer.ts';
export {
  type AppliedFinish,
  type DeliveredTable,
  type OrderedPage,
  type PaperId,
  paperIds,
  paperLine,
  papersView,
  type StatedTimber,
} from './papers.ts';
export type { BuiltRow, PaperLine, PapersView, WoodFacts } from './papers-view.ts';
export { clientView, shownFingerprint } from './view.ts';
export { type Words, wordsOf } from './words.ts';
