/**
 * Table -> mass, tipping, movement, open underneath, fit and the answers to wishes.
 * In: the effective spec and the designed table (mm, kg/m3), the price where wishes ask about it. Out: an `Assessment` (mm, kg, N, percent).
 * Assumes a rigid table on a rigid level floor, nothing slides; wood moves as in the Wood Handbook's equations. Calculations, no tests.
 */
export { assessTable } from './assess.ts';
export type { Assessment, CaseResult, Fit, Movement, Open, PlaceCount, Result, Tipping, WishAnswer, WorstLoad } from './assessment.ts';
export { equilibriumMoisturePercent } from './moisture.ts';
export { type SinceThen, sinceThen, TAPE_MM, type ThenAndNow } from './since-then.ts';
