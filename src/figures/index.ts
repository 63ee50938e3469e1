/**
 * Computed proposal -> the contract `leafwright/figures/1`: plain JSON, SI units in the names of its keys, money in minor units.
 * Private figures (cost, margin, hours) are in it: it is for the maker and for `client/`, which picks what may leave.
 */
export { figuresOf } from './figures-of.ts';
export type { Figures, PriceFigures, PrintedFigures, PrintedVariant, TippingFigures, VariantFigures, WishFigures } from './schema.ts';
export { figuresFormat, figuresJsonSchema, figuresSchema } from './schema.ts';
export type { FiguresSource, TableSource, VariantSource } from './source.ts';
