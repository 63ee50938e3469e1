/**
 * ClientView: the fields that may leave, by audience and level, in words. The wall stands here.
 * In: words, drawings and figures of one proposal. Out: plain data, every figure rounded to the safe side and formatted.
 */
export { earlierDesign } from './changed.ts';
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
export { clientView, shownFingerprint } from './view.ts';
export { type Words, wordsOf } from './words.ts';
