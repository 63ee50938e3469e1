import type { ComputedTable } from '../../compute.ts';
import { type ChangePrice, changeLinesOf, isChangeLine, priceChange, withChangeLines, withoutChangeLines } from '../../price/index.ts';
import { formatProblems, type Problem } from '../../problem/index.ts';
import { type EntryOf, issuedRevisions } from '../../record/index.ts';
import type { ProposalInput } from '../../spec/index.ts';
import { byCodeUnit } from '../../units/index.ts';
import { openFonts } from '../../write/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { computeOne, gatheredProblems, readOne } from '../draft/evaluate.ts';
import { isTodo } from '../draft/what-was-said.ts';
import { tableIn } from '../order/ordered.ts';
import { atDesk, type Desk, lookNow } from '../record-desk.ts';
import { refusal, weighed } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';
import { brokenWishes, notChangeable, notComparable, sameTable } from './change-problems.ts';
import { type ChangeReport, changeJson, changeLinesSaid } from './change-report.ts';
import { pricedTable, type StandingOrder, standingOrder, tableOf } from './change-tables.ts';
import { writeChange } from './change-write.ts';

type Kernels = Parameters<typeof tableOf>[1];

function refuse({ json, terminal, slug }: Desk, problems: readonly Problem[]): 1 {
  if (json) terminal.say(JSON.stringify({ schema: 'leafwright/change/1', proposal: slug, problems }, undefined, 2));
  else terminal.warn(formatProblems(gatheredProblems(problems), { colour: terminal.colour.err }, 'Nothing was priced.').trimEnd());
  return 1;
}

/** The draft as its designs are by themselves: without what an earlier run wrote of a change. */
function bareDraft(input: ProposalInput): ProposalInput {
  const { change: _change, ...revision } = input.proposal.revision;
  const bare = withoutChangeLines(input);
  return { ...bare, proposal: { ...bare.proposal, revision } };
}

interface Chosen {
  readonly design: string;
  readonly options: readonly string[];
}

/** What the draft is to become: as said, else as ordered. Throws a UsageFault for what the draft does not have. */
function chosenOf(input: ProposalInput, ordered: Chosen, values: Given['values']): Chosen {
  const ids = input.variants.map(({ variant }) => variant.id);
  const design = values['design']?.toUpperCase() ?? ordered.design;
  const variant = input.variants.find((one) => one.variant.id === design);
  if (variant === undefined) throw new UsageFault(`the draft has no design ${design}`, `--design says which: there are ${ids.join(', ')}`);
  const said = values['options'];
  const known = Object.keys(variant.variant.options);
  const wanted = said === undefined ? ordered.options.filter((id) => known.includes(id)) : said === 'none' ? [] : said.split(',');
  const options = [...new Set(wanted.map((id) => id.trim()))].toSorted(byCodeUnit);
  if (variant.combinations.some(({ choice }) => choice.toSorted(byCodeUnit).join() === options.join())) return { design, options };
  const choices = variant.combinations.map(({ choice }) => (choice.length === 0 ? 'none' : choice.join(',')));
  throw new UsageFault(
    `design ${design} can not be had with ${options.length === 0 ? 'no options' : options.join(' and ')}`,
    `--options says which: ${choices.join('   ')}`,
  );
}

/** The draft without the change that an earlier run wrote, as read; lines of that change by id. */
function readDraft(desk: Desk) {
  const read = readOne(desk.workspace, desk.slug, desk.at);
  return read.input === undefined
    ? { read }
    : { read, input: bareDraft(read.input), lines: Object.keys(read.input.proposal.lines).filter(isChangeLine) };
}

/** How many instalments of the order are covered, and what the change makes due at once beyond what is paid. */
function dueAtOnce(order: EntryOf<'confirmed'>, paidMinor: number, next: readonly number[]): number {
  const upTo = (list: readonly number[], count: number): number => list.slice(0, count).reduce((sum, one) => sum + one, 0);
  const old = order.instalmentsMinor;
  const covered = old.filter((_, i) => paidMinor >= upTo(old, i + 1)).length;
  return Math.max(0, upTo(next, Math.max(1, covered)) - paidMinor);
}

interface Priced {
  readonly price: ChangePrice;
  readonly report: ChangeReport;
}

function priced(
  desk: Desk,
  input: ProposalInput,
  order: EntryOf<'confirmed'>,
  { ordered, brought }: StandingOrder,
  draft: ComputedTable,
  chosen: Chosen,
  kernels: Kernels,
): Priced {
  const { standing } = lookNow(desk);
  const price = priceChange({
    ordered: ordered.priced,
    draft: pricedTable(draft),
    stage: standing.stage,
    ...(brought === undefined ? {} : { brought }),
  });
  const lines = changeLinesOf(price, ordered.earlier);
  const changed = withChangeLines(input, lines, (id) => input.library.texts[`change.${id}`] ?? id);
  const whole = tableOf(changed, kernels, chosen.design, chosen.options);
  if (whole === undefined) throw new Error(`design ${chosen.design} was computed and then was not`);
  const instalmentsMinor = whole.price.instalments.map(({ amount }) => amount.minor);
  const report: ChangeReport = {
    proposal: desk.slug,
    draft: input.proposal.revision.id,
    ...chosen,
    ordered: { revision: order.chosen.revision, design: order.chosen.design, options: order.chosen.options },
    orderedTotalMinor: order.chosen.totalMinor,
    earlierMinor: ordered.earlier.minor,
    netMinor: whole.price.net.minor,
    totalMinor: whole.price.total.minor,
    paidMinor: standing.paidMinor,
    instalments: whole.price.instalments.map(({ when, amount }, i) => ({
      when,
      amountMinor: amount.minor,
      orderedMinor: order.instalmentsMinor[i] ?? 0,
    })),
    dueAtOnceMinor: dueAtOnce(order, standing.paidMinor, instalmentsMinor),
    lines,
  };
  return { price, report };
}

const toMend = (problem: Problem): Problem =>
  problem.code === 'cli/change-breaks-wish' ? { ...problem, mend: 'draw it otherwise, or price it all the same: --insist "why"' } : problem;

/**
 * `change`: what the draft would cost as a change to the order, from the stage that the work has reached. What no longer fits is said
 * first, and stops it.
 */
export async function runChange(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { values, switches } = given;
  const because = values['insist']?.normalize('NFC').trim();
  if (because === '') throw new UsageFault('--insist needs a reason', 'for example: --insist "they move the radiator"');
  return atDesk(given, terminal, async (desk) => {
    const { standing } = lookNow(desk);
    const not = notChangeable(desk.slug, standing);
    const order = standing.order?.confirmed;
    if (not.length > 0 || order === undefined) return refuse(desk, not);
    const kernels: Kernels = { measure: openFonts().measure };
    terminal.progress(`computing ${desk.slug} as it was ordered`);
    const made = standingOrder(desk.folder, desk.slug, standing, desk.offers, kernels);
    if ('problems' in made) return refuse(desk, made.problems);
    const { ordered } = made;
    terminal.progress(`computing the draft of ${desk.slug}`);
    const { read, input, lines = [] } = readDraft(desk);
    if (input === undefined) return refuse(desk, read.problems);
    const chosen = chosenOf(input, order.chosen, values);
    /** What is wrong with a design that nobody ordered holds up no change. */
    const alone = { ...input, variants: input.variants.filter(({ variant }) => variant.id === chosen.design) };
    const { computed, problems } = computeOne({ ...read, input: alone }, kernels);
    const draft = computed === undefined ? undefined : tableIn(computed, chosen.options);
    if (draft === undefined) return refuse(desk, problems);

    const { revision } = input.proposal;
    const isIssued = issuedRevisions(desk.folder).some((one) => one.revision === revision.id);
    const hard = [
      ...notComparable(ordered.computed.spec.proposal, input.proposal),
      ...(isIssued && switches.has('write')
        ? [
            refusal('change-draft-issued', `${revision.id} was issued already, so no change can be written into it`, {
              mend: `begin the next draft: leafwright revise ${desk.slug}`,
            }),
          ]
        : []),
    ];
    const outcome = weighed(hard, brokenWishes(ordered.computed, draft), because);
    if ('problems' in outcome) return refuse(desk, outcome.problems.map(toMend));
    const { price, report } = priced(desk, input, order, made, draft, chosen, kernels);
    const warnings = [...sameTable(ordered.computed, draft, price), ...ordered.warnings, ...outcome.warnings];
    const written = switches.has('write')
      ? writeChange(desk.workspace, input, price, report, outcome.insisted === undefined ? undefined : because, lines)
      : undefined;
    if (desk.json) {
      terminal.say(JSON.stringify({ ...changeJson(price, report), written: written ?? null, problems: warnings }, undefined, 2));
      return 0;
    }
    if (warnings.length > 0) terminal.warn(formatProblems(warnings, { colour: terminal.colour.err }));
    for (const line of changeLinesSaid(price, report, input)) terminal.say(line);
    terminal.say(
      written === undefined
        ? '\nNothing was written. The same with --write puts it into the draft.'
        : `\nwritten into ${terminal.accent(written)}: the lines and revision.change\nNext: ${isTodo(revision.changes) ? 'write revision.changes anew, in your own words, then: ' : ''}leafwright issue ${desk.slug}; the order stands as it is until the change is approved, confirmed and paid`,
    );
    return 0;
  });
}
