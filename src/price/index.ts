/** Take-off + shop rates -> exact money: build-up, shown lines, tax, instalments. */
export type { CostLine, Price, ShownLine, TaxLine } from './price.ts';
