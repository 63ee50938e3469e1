import { text } from './field.ts';
import type { FinishSpec } from './finish.ts';
import { finishSchema } from './finish.ts';
import type { LoadCaseSpec } from './load-case.ts';
import { loadCaseSchema } from './load-case.ts';
import type { MakerSpec, TermsSpec } from './maker.ts';
import type { ShopRatesSpec } from './rates.ts';
import { named } from './shape.ts';
import type { MaterialSpec, WoodSpec } from './wood.ts';
import { materialSchema, woodSchema } from './wood.ts';

/** templates/woods.yaml. */
export const woodsSchema = () => named('the woods', woodSchema(), { more: 'By id.' });
/** templates/materials.yaml. */
export const materialsSchema = () => named('the materials', materialSchema(), { more: 'By id.' });
/** templates/finishes.yaml. */
export const finishesSchema = () => named('the finishes', finishSchema(), { more: 'By id.' });
/** templates/load-cases.yaml. */
export const loadCasesSchema = () => named('the load cases', loadCaseSchema(), { more: 'By id.' });
/** templates/texts/<language>.yaml. */
export const textsSchema = () =>
  named('the texts', text('a text', { long: true }), { more: 'By key; plurals as `key.one`, `key.other`.', key: /^[a-z0-9.-]+$/ });

/** templates/, the program's own with the workspace's laid over it. */
export interface Library {
  readonly woods: Readonly<Record<string, WoodSpec>>;
  readonly materials: Readonly<Record<string, MaterialSpec>>;
  readonly finishes: Readonly<Record<string, FinishSpec>>;
  readonly loadCases: Readonly<Record<string, LoadCaseSpec>>;
  readonly rates: ShopRatesSpec;
  readonly maker: MakerSpec;
  readonly terms: TermsSpec;
  /** Text by key in the proposal's language; plurals as `key.one`, `key.other`. */
  readonly texts: Readonly<Record<string, string>>;
}
