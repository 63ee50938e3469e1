/**
 * The whole flow on one screen: a checked proposal in, everything that is shown or cut out of it.
 * Pure and synchronous; what needs opening (fonts) comes in as `Kernels`. Walks the choices of options, alone.
 */

import type { Assessment } from './assess/index.ts';
import { assessTable } from './assess/index.ts';
import type { Table } from './design/index.ts';
import { designTable } from './design/index.ts';
import type { Drawings, MeasureText } from './draw/index.ts';
import { drawTable, sharedFrame } from './draw/index.ts';
import type { Price } from './price/index.ts';
import { changeNotOffered, choiceWithoutFixedPrices, priceTable } from './price/index.ts';
import type { Problem } from './problem/index.ts';
import type { BrandSpec, Choice, EffectiveSpec, ProposalInput, VariantInput } from './spec/index.ts';
import { fixedByChange, fixedToChoice, variantsInPlay } from './spec/index.ts';
import type { TakeOff } from './takeoff/index.ts';
import { takeOff } from './takeoff/index.ts';

export interface Kernels {
  readonly measure: MeasureText;
}

/** One table: a variant with one choice of options. */
export interface ComputedTable {
  readonly spec: EffectiveSpec;
  readonly choice: Choice;
  readonly table: Table;
  readonly assessment: Assessment;
  readonly takeOff: TakeOff;
  readonly price: Price;
}

/** One variant: its table with the default options, drawn, and every other combination. */
export interface ComputedVariant {
  readonly id: string;
  readonly standard: ComputedTable;
  readonly drawings: Drawings;
  readonly combinations: readonly ComputedTable[];
}

export interface ComputedProposal {
  readonly input: ProposalInput;
  readonly variants: readonly ComputedVariant[];
}

export interface ComputeResult {
  /** Absent when any variant has an error. */
  readonly computed?: ComputedProposal;
  /** Where there are errors: the tables that could be put together all the same, to look at their figures. Nothing is made from them. */
  readonly faulty?: Omit<ComputedProposal, 'variants'> & { readonly variants: readonly Omit<ComputedVariant, 'drawings'>[] };
  readonly problems: readonly Problem[];
}

type TableResult = { readonly computed?: ComputedTable; readonly problems: readonly Problem[] };

/** One table from spec to price, or the reasons why there can be none. `without` is as `priceTable` asks for it. */
function computeTable(spec: EffectiveSpec, choice: Choice, without: Price | undefined): TableResult {
  const designed = designTable(spec);
  if (designed.table === undefined) return { problems: designed.problems };
  const taken = takeOff(spec, designed.table);
  const price = priceTable(spec, taken, choice, without);
  const isPriced = ![...taken.problems, ...price.problems].some(isError);
  const assessment = assessTable(spec, designed.table, isPriced ? price : undefined);
  const problems = [...designed.problems, ...assessment.problems, ...taken.problems, ...price.problems];
  return { computed: { spec, choice, table: designed.table, assessment, takeOff: taken, price }, problems };
}

interface VariantTables {
  readonly standard?: ComputedTable;
  readonly combinations: readonly ComputedTable[];
  readonly problems: readonly Problem[];
}

/** Every combination of one variant's options. Those that lean on another's price are computed after it. */
function computeCombinations(input: ProposalInput, { variant, combinations }: VariantInput): VariantTables {
  const done = new Map<string, TableResult>();
  const compute = (choice: Choice): TableResult | undefined => {
    const key = choice.join(' ');
    const known = done.get(key);
    const table = combinations.find((c) => c.choice.join(' ') === key)?.table;
    if (known !== undefined || table === undefined) return known;
    const base = choiceWithoutFixedPrices(variant, choice);
    const without = base === undefined ? undefined : compute(base)?.computed?.price;
    const result = computeTable({ proposal: input.proposal, variant, table, library: input.library }, choice, without);
    done.set(key, result);
    return result;
  };
  const results = combinations.map((c) => ({ isDefault: c.isDefault, result: compute(c.choice) }));
  const standard = results.find((r) => r.isDefault)?.result?.computed;
  const tables = results.flatMap(({ result }) => (result?.computed === undefined ? [] : [result.computed]));
  const problems = results.flatMap(({ result }) => result?.problems ?? []).map((p) => ({ ...p, variant: variant.id }));
  return standard === undefined ? { combinations: tables, problems } : { standard, combinations: tables, problems };
}

const isError = (problem: Problem): boolean => problem.severity === 'error';

/** The same problem of many combinations is said once. */
function once(problems: readonly Problem[]): readonly Problem[] {
  const seen = new Map(problems.map((p) => [JSON.stringify([p.code, p.variant, p.title, p.path]), p]));
  return [...seen.values()];
}

/** A change to an order names a design or a choice that there is not. */
function changeProblems({ proposal }: ProposalInput, tables: readonly ({ readonly id: string } & VariantTables)[]): readonly Problem[] {
  const { change } = proposal.revision;
  const named = tables.find(({ id }) => id === change?.design);
  if (change === undefined || named?.standard !== undefined || named?.problems.some(isError) === true) return [];
  return [changeNotOffered(change)];
}

/** Every variant in play with every combination of its options; drawings share one scale and floor line. */
export function computeProposal(input: ProposalInput, kernels: Kernels): ComputeResult {
  const tables = variantsInPlay(input.proposal, input.variants).map((variant) => {
    const { problems, ...all } = computeCombinations(input, variant);
    return { id: variant.variant.id, problems, ...fixedByChange(input.proposal, all) };
  });
  const problems = once([...tables.flatMap((t) => t.problems), ...changeProblems(input, tables)]);
  const standards = tables.flatMap(({ id, standard, combinations }) => (standard === undefined ? [] : [{ id, standard, combinations }]));
  if (problems.some(isError)) return { faulty: { input, variants: standards }, problems };
  return { computed: { input, variants: drawAll(standards, kernels) }, problems };
}

type Undrawn = Omit<ComputedVariant, 'drawings'>;

/** The drawings of every variant, in one scale and on one floor line: those of `all`, which are the variants themselves where nothing is said. */
function drawAll(tables: readonly Undrawn[], kernels: Kernels, all: readonly Undrawn[] = tables): readonly ComputedVariant[] {
  const offered = all.filter((t) => t.standard.spec.variant.offered).map((t) => t.standard.table);
  const frame = sharedFrame(offered.length > 0 ? offered : all.map((t) => t.standard.table));
  return tables.map((t): ComputedVariant => {
    const { spec, table, assessment } = t.standard;
    return { ...t, drawings: drawTable(spec, table, assessment, frame, kernels.measure) };
  });
}

/** One variant alone, with another choice of its options than the default one: drawn in the scale of all, priced as what is on offer. */
export function computedWith(
  { input, variants }: ComputedProposal,
  of: ComputedVariant,
  chosen: ComputedTable,
  kernels: Kernels,
): ComputedProposal {
  return { input, variants: drawAll([{ id: of.id, ...fixedToChoice(chosen) }], kernels, variants) };
}

/** Texts that call the one who is named the maker. */
const makerLabels = ['page.maker', 'scope.maker', 'draw.maker'];

/** The same proposal under another name than the maker's, drawn anew: a title block says who draws. Nothing of the maker stays in it. */
export function computedUnder(
  { input, variants }: ComputedProposal,
  { name, trade = '', address = '', email, telephone = '' }: BrandSpec,
  kernels: Kernels,
): ComputedProposal {
  const { timeZone, invented } = input.library.maker;
  const { texts } = input.library;
  /** Who stands there does not make it. */
  const labels = Object.fromEntries(makerLabels.flatMap((key) => (texts['issue.from'] === undefined ? [] : [[key, texts['issue.from']]])));
  const maker = { name, trade, address, email, telephone, timeZone, invented };
  const library = { ...input.library, maker, texts: { ...texts, ...labels } };
  const under = <T extends { readonly spec: EffectiveSpec }>(one: T): T => ({ ...one, spec: { ...one.spec, library } });
  const tables = variants.map((variant) => ({
    ...variant,
    standard: under(variant.standard),
    combinations: variant.combinations.map(under),
  }));
  return { input: { ...input, library }, variants: drawAll(tables, kernels) };
}
