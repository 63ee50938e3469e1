/** Table -> mass, tipping, movement, open underneath, fit and the answers to wishes. */
export type { Assessment, CaseResult, Fit, Movement, Open, PlaceCount, Result, Tipping, WishAnswer, WorstLoad } from './assessment.ts';
