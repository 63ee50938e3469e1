import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { ComputedTable } from '../../compute.ts';
import { formatProblems, hasErrors, nearestName, type Problem } from '../../problem/index.ts';
import { type MixOf, mixVariant, type ProposalRead, readProposal } from '../../read/index.ts';
import { readEntries, withLock } from '../../record/index.ts';
import type { ProposalInput } from '../../spec/index.ts';
import { formatMass, formatMoney, formatSizes } from '../../units/index.ts';
import { openFonts } from '../../write/index.ts';
import { instantOf } from '../clock.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { evaluateProposal, gatheredProblems } from '../draft/evaluate.ts';
import { writeOwnFiles } from '../draft/own-files.ts';
import { changesTodo } from '../draft/what-was-said.ts';
import { aligned, type Terminal } from '../terminal.ts';
import { proposalFolder } from '../workspace.ts';
import { beginRevision, sayPlan } from './next-revision.ts';

const how = 'write it as --mix "A.top B.base C.finish"; the finish is the top\'s where it is silent';

/** `A.top B.base C.finish` as parts. Throws a UsageFault. */
function parseMix(said: string, designs: readonly string[]): MixOf {
  const of: Partial<Record<keyof MixOf, string>> = {};
  for (const word of said.split(/[\s,;]+/).filter((one) => one !== '')) {
    const [, letter, part] = /^([A-Za-z0-9-]+)\.(top|base|finish)$/.exec(word) ?? [];
    if (letter === undefined || part === undefined) throw new UsageFault(`"${word}" is no part of a mix`, how);
    const design = letter.toUpperCase();
    const near = nearestName(design, designs);
    if (!designs.includes(design))
      throw new UsageFault(
        `there is no design ${design}${near === undefined ? '' : `; did you mean ${near}?`}`,
        `there are ${designs.join(', ')}`,
      );
    const known = part as keyof MixOf;
    if (of[known] !== undefined) throw new UsageFault(`the ${known} is taken from ${of[known]} and from ${design}`, how);
    of[known] = design;
  }
  const { top, base, finish } = of;
  if (top === undefined || base === undefined)
    throw new UsageFault(`--mix does not say whose ${top === undefined ? 'top' : 'base'} it has`, how);
  if (top === base && (finish ?? top) === top) throw new UsageFault(`that is design ${top} as it stands, and no mix`, how);
  return { top, base, finish: finish ?? top };
}

/** The letter of the new design: as said, else the first that is free. Throws a UsageFault for one that is taken. */
function letterFor(folder: string, designs: readonly string[], said: string | undefined): string {
  const isTaken = (id: string): boolean => designs.includes(id) || existsSync(join(folder, 'variants', `${id.toLowerCase()}.yaml`));
  if (said !== undefined) {
    const id = said.toUpperCase();
    if (!/^[A-Z0-9-]{1,40}$/.test(id)) throw new UsageFault(`--as ${said} is no letter of a design`, 'write --as D');
    if (isTaken(id)) throw new UsageFault(`there is a design ${id} already`, 'choose another letter, or leave --as out');
    return id;
  }
  const free = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'].find((id) => !isTaken(id));
  if (free === undefined) throw new UsageFault('every letter is taken', 'name it: --as MIX');
  return free;
}

const text = ({ library }: ProposalInput, key: string, otherwise: string): string => library.texts[key] ?? otherwise;

/** Sizes, mass, load, price, and what became of each wish, of the mix beside the designs that it came from. */
function compared(input: ProposalInput, tables: readonly (readonly [string, ComputedTable])[]): readonly string[] {
  const { show, language, wishes } = input.proposal;
  const locale = language;
  const row = (label: string, of: (table: ComputedTable) => string): readonly string[] => [label, ...tables.map(([, table]) => of(table))];
  const inside = ({ assessment }: ComputedTable): string => {
    const load = assessment.tipping.find(({ state }) => state === 'standing')?.inside50;
    return load === undefined || load === null ? 'nothing tips it' : `${Math.floor(load.loadN)} N`;
  };
  const rows = [
    ['', ...tables.map(([id]) => id)],
    row('size', ({ table: { overallMm } }) => formatSizes([overallMm.length, overallMm.width, overallMm.height], { style: show, locale })),
    row('weight', ({ assessment }) => formatMass(assessment.massKg, show, locale, 1)),
    row('tips 50 mm inside', inside),
    row('price with tax', ({ price }) => formatMoney(price.total, locale)),
    ...Object.keys(wishes).map((wish) =>
      row(wish, ({ assessment }) => assessment.wishes.find(({ id }) => id === wish)?.result.replace('-', ' ') ?? 'not answered'),
    ),
  ];
  return aligned(rows);
}

interface Written {
  readonly id: string;
  readonly of: MixOf;
  readonly left: readonly { readonly design: string; readonly option: string }[];
  readonly began?: ReturnType<typeof beginRevision>;
}

const isAhead = (folder: string, { proposal }: ProposalInput): boolean => {
  const last = readEntries(folder).findLast((entry) => entry.kind === 'issued')?.revision;
  return last === undefined || Number(proposal.revision.id.slice(1)) > Number(last.slice(1));
};

function writeMix(
  workspace: string,
  slug: string,
  { input, sources }: Required<Pick<ProposalRead, 'input' | 'sources'>>,
  { values }: Given,
): Written | { readonly problems: readonly Problem[] } {
  const folder = proposalFolder(workspace, slug);
  const designs = input.variants.map(({ variant }) => variant.id);
  const of = parseMix(values['mix'] ?? '', designs);
  const id = letterFor(folder, designs, values['as']);
  const nameOf = (design: string): string => input.variants.find(({ variant }) => variant.id === design)?.variant.name ?? design;
  const name =
    values['name'] ??
    text(input, 'revise.mix-name', '{top} top, {base} base').replace('{top}', nameOf(of.top)).replace('{base}', nameOf(of.base));
  const why = `${changesTodo} say why you offer it. The top of ${of.top} on the base of ${of.base}, finished as ${of.finish}.\n`;
  const mix = mixVariant(sources, of, { name, why });
  const wrong = writeOwnFiles(workspace, slug, [{ path: `variants/${id.toLowerCase()}.yaml`, text: mix.text }]);
  if (wrong.length > 0) return { problems: wrong };
  if (isAhead(folder, input)) return { id, of, left: mix.left };
  const began = beginRevision({
    workspace,
    slug,
    asked: { at: instantOf(values['as-of'], workspace), valid: values['valid'], free: values['free'] },
  });
  return { id, of, left: mix.left, began };
}

/** `revise --mix`: a new design with the top of one and the base of another, written as a draft and assessed. */
export async function runMix(workspace: string, slug: string, given: Given, terminal: Terminal): Promise<ExitCode> {
  const { values, switches } = given;
  const json = switches.has('json');
  const refuse = (problems: readonly Problem[]): 1 => {
    if (json) terminal.say(JSON.stringify({ schema: 'leafwright/mixed/1', proposal: slug, problems }, undefined, 2));
    else terminal.warn(formatProblems(gatheredProblems(problems), { colour: terminal.colour.err }, 'Nothing was written.').trimEnd());
    return 1;
  };
  const read = readProposal(workspace, slug);
  const { input, sources } = read;
  if (input === undefined || hasErrors(read.problems)) return refuse(read.problems);
  const locked = await withLock(proposalFolder(workspace, slug), 'the records of this proposal', async () =>
    writeMix(workspace, slug, { input, sources }, given),
  );
  const done = 'problem' in locked ? { problems: [locked.problem] } : locked.value;
  if ('problems' in done) return refuse(done.problems);

  const { id, of, left, began } = done;
  const evaluated = evaluateProposal(workspace, slug, { measure: openFonts().measure }, instantOf(values['as-of'], workspace));
  const told = evaluated.problems.filter(({ variant }) => variant === id);
  const made = evaluated.computed ?? evaluated.faulty;
  const shown = [...new Set([of.top, of.base, of.finish]), id];
  const tables = shown.flatMap((design) => {
    const standard = made?.variants.find((one) => one.id === design)?.standard;
    return standard === undefined ? [] : [[design, standard] as const];
  });
  const file = `proposals/${slug}/variants/${id.toLowerCase()}.yaml`;
  if (json) {
    const wishes = Object.fromEntries(
      tables.map(([design, { assessment, price }]) => [
        design,
        { totalMinor: price.total.minor, wishes: Object.fromEntries(assessment.wishes.map((wish) => [wish.id, wish.result])) },
      ]),
    );
    const next = began !== undefined && 'next' in began ? { revision: began.next.id } : {};
    terminal.say(
      JSON.stringify(
        { schema: 'leafwright/mixed/1', proposal: slug, design: id, of, file, ...next, left, designs: wishes, problems: told },
        undefined,
        2,
      ),
    );
    return 0;
  }
  if (told.length > 0)
    terminal.warn(
      formatProblems(
        gatheredProblems(told),
        { colour: terminal.colour.err },
        `Design ${id} is a draft; it can not be built or issued like this.`,
      ).trimEnd(),
    );
  terminal.say(`${terminal.accent(file)} is design ${id}: the top of ${of.top} on the base of ${of.base}, finished as ${of.finish}`);
  for (const { design, option } of left) terminal.say(`  option ${option} of ${design} stayed there: it changes more than what was taken`);
  for (const line of compared(input, tables)) terminal.say(line);
  if (!tables.some(([design]) => design === id)) terminal.say(`  design ${id} could not be put together, so it has no figures`);
  if (began !== undefined && 'next' in began) sayPlan(began.input, began.next, values['free'], terminal);
  else terminal.say(`\nNext: write its name, why you offer it and your answers into ${file}, then: leafwright check ${slug}`);
  return 0;
}
