import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { type Figures, figuresOf, type PrintedFigures, type PrintedVariant } from '../../figures/index.ts';
import { formatProblems, hasErrors, nearestName, type Problem } from '../../problem/index.ts';
import { isRevisionId } from '../../record/index.ts';
import { formatMass, formatMoney, formatSizes, type LengthStyle } from '../../units/index.ts';
import { openFonts } from '../../write/index.ts';
import { instantOf } from '../clock.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { evaluateProposal, gatheredProblems } from '../draft/evaluate.ts';
import { aligned, type Terminal } from '../terminal.ts';
import { findWorkspace, namedProposals, proposalFolder } from '../workspace.ts';

/** The figures that were frozen with an issued revision. */
function frozenFigures(workspace: string, slug: string, revision: string): Figures | undefined {
  const file = join(proposalFolder(workspace, slug), 'issued', revision, 'data', 'figures.json');
  if (statSync(file, { throwIfNoEntry: false })?.isFile() !== true) return undefined;
  return JSON.parse(readFileSync(file, 'utf8')) as Figures;
}

function onlyVariant(figures: PrintedFigures, id: string | undefined): PrintedFigures {
  if (id === undefined) return figures;
  const name = id.toUpperCase();
  const found = Object.hasOwn(figures.variants, name) ? figures.variants[name] : undefined;
  if (found !== undefined) return { ...figures, variants: { [name]: found } };
  const names = Object.keys(figures.variants);
  const near = nearestName(name, names);
  throw new UsageFault(`there is no design ${id}${near === undefined ? '' : `; did you mean ${near}?`}`, `there are ${names.join(', ')}`);
}

/** A price that rests on an error is left out: no figure is better than a wrong one. */
function withoutFaultyPrices(figures: Figures, problems: readonly Problem[]): PrintedFigures {
  const faulty = problems.filter(({ severity, code }) => severity === 'error' && /^(?:takeoff|price)\//.test(code));
  const variants = Object.entries(figures.variants).map(([id, { price, ...rest }]): readonly [string, PrintedVariant] => [
    id,
    faulty.some(({ variant }) => variant === undefined || variant === id) ? rest : { ...rest, price },
  ]);
  return { ...figures, variants: Object.fromEntries(variants) };
}

/** How sizes and money are written: as the proposal says, millimetres and British English for a frozen revision. */
interface Manner {
  readonly style: LengthStyle;
  readonly locale: string;
}

function row(id: string, variant: PrintedVariant, { style, locale }: Manner): readonly string[] {
  const { length, width, height } = variant.overallMm;
  const inside = variant.tipping['standing']?.inside50;
  return [
    id,
    variant.name,
    formatSizes([length, width, height], { style, locale }),
    formatMass(variant.massKg, style, locale, 1),
    inside === undefined || inside === null ? 'no tipping load there' : `tips at ${Math.floor(inside.loadN)} N`,
    variant.price === undefined ? 'no price' : formatMoney({ currency: variant.price.currency, minor: variant.price.totalMinor }, locale),
  ];
}

function sayFigures(figures: PrintedFigures, manner: Manner, terminal: Terminal): void {
  terminal.say(`${figures.proposal} ${figures.revision}`);
  for (const line of aligned(Object.entries(figures.variants).map(([id, variant]) => row(id, variant, manner)))) terminal.say(line);
  terminal.say('\nLowest load 50 mm inside the edge, calculated and not tested; total with tax. Everything: add --json');
}

/** `figures`: what was computed, as text or as the contract `leafwright/figures/1`. */
export async function runFigures({ words, values, switches }: Given, terminal: Terminal): Promise<ExitCode> {
  const workspace = findWorkspace(values['workspace']);
  const slug = namedProposals(workspace, words)[0] ?? '';
  const revision = values['revision'];
  if (revision !== undefined && !isRevisionId(revision)) throw new UsageFault(`--revision ${revision} is none`, 'write r1, r2 and so on');
  let faults = false;
  let manner: Manner = { style: 'mm', locale: 'en-GB' };
  let figures: PrintedFigures | undefined = revision === undefined ? undefined : frozenFigures(workspace, slug, revision);
  if (figures === undefined) {
    const { measure } = openFonts();
    const { input, computed, faulty, problems } = evaluateProposal(workspace, slug, { measure }, instantOf(undefined));
    if (revision !== undefined && input !== undefined && input.proposal.revision.id !== revision)
      throw new UsageFault(
        `${slug} has no revision ${revision}`,
        `its draft is ${input.proposal.revision.id}; leafwright verify ${slug} lists what was issued`,
      );
    const source = computed ?? (faulty === undefined || faulty.variants.length === 0 ? undefined : faulty);
    const left = source === undefined ? 'Nothing was computed.' : 'What could be computed is printed; nothing can be built or issued.';
    faults = hasErrors(problems);
    if (faults) terminal.warn(formatProblems(gatheredProblems(problems), { colour: terminal.colour.err }, left).trimEnd());
    if (source === undefined) return 1;
    manner = { style: source.input.proposal.show, locale: source.input.proposal.language };
    figures = computed === undefined ? withoutFaultyPrices(figuresOf(source), problems) : figuresOf(source);
  }
  const shown = onlyVariant(figures, values['variant']);
  if (switches.has('json')) terminal.say(JSON.stringify(shown, undefined, 2));
  else sayFigures(shown, manner, terminal);
  return faults ? 1 : 0;
}
