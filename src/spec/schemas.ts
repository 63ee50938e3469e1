import { careSchema } from './care.ts';
import { handOverSchema } from './hand-over.ts';
import { finishesSchema, loadCasesSchema, materialsSchema, textsSchema, woodsSchema } from './library.ts';
import { makerSchema, termsSchema } from './maker.ts';
import { proposalSchema } from './proposal.ts';
import { ratesSchema } from './rates.ts';
import { tableSchema } from './table.ts';
import { variantSchema } from './variant.ts';

/** The schema of every file, built once; those whose bare numbers follow the proposal's unit, once for each. */
export const SCHEMAS = {
  proposal: { mm: proposalSchema('mm'), in: proposalSchema('in') },
  table: { mm: tableSchema('mm'), in: tableSchema('in') },
  variant: variantSchema(),
  handOver: { mm: handOverSchema('mm'), in: handOverSchema('in') },
  rates: ratesSchema(),
  woods: woodsSchema(),
  materials: materialsSchema(),
  finishes: finishesSchema(),
  loadCases: loadCasesSchema(),
  care: careSchema(),
  maker: makerSchema(),
  terms: termsSchema(),
  texts: textsSchema(),
} as const;
