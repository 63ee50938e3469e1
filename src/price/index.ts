/**
 * Take-off + shop rates -> exact money: private build-up, shown lines, tax, instalments. Quantities are rounded to the steps of the shop rates
 * first, then exact fractions, then minor units once a line; so lines add up to the net price and instalments to the total.
 */
export { type CancelCase, type CancelLine, type CancelPrice, cancellationRule, priceCancellation, USUAL_CANCELLATION } from './cancel.ts';
export { type ChangeCase, type ChangeLine, type ChangePrice, type PricedTable, priceChange } from './change.ts';
export {
  CHANGE_LINES,
  type ChangeLineId,
  changeLinesOf,
  earlierChanges,
  isChangeLine,
  withChangeLines,
  withoutChangeLines,
} from './change-lines.ts';
export { choiceWithoutFixedPrices } from './fixed-price.ts';
export { marginOfMarkUp, priceForMargin } from './margin.ts';
export type { CostLine, Price, ShownLine, TaxLine } from './price.ts';
export { priceTable } from './price-table.ts';
export { changeNotOffered } from './problems.ts';
export { repeatFactor } from './repeats.ts';
export { taxInside } from './tax.ts';
