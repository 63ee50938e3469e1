import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { formatProblems, hasErrors, type Problem } from '../../problem/index.ts';
import { editYaml, readWorkspace, YamlEditFault } from '../../read/index.ts';
import { type Body, type EntryOf, issuedOffers, type Json, readEntries, type Standing, standingOf } from '../../record/index.ts';
import { type BoardsDone, LEAST_TABLES, type PlanAndDone, type ProposedRate, planAndDone, proposedRates } from '../../takeoff/index.ts';
import { formatNumber, formatPercent } from '../../units/index.ts';
import { openFonts } from '../../write/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { replaceText } from '../draft/own-files.ts';
import { atDesk, type Desk, dayOf, lookNow, type Prepared, readInput, recordEntry, saltOf, sayRefused } from '../record-desk.ts';
import { refusal } from '../refusal.ts';
import { aligned, type Terminal } from '../terminal.ts';
import { proposalFolder } from '../workspace.ts';
import { type OrderedTable, orderedTable } from './ordered-table.ts';

const schema = 'leafwright/lessons/1';

const boardsOf = (used: readonly EntryOf<'used'>[]): readonly BoardsDone[] =>
  used.map(({ wood, lengthMm, widthMm, thicknessMm, boards, what }) => ({
    ...{ wood, lengthMm, widthMm, thicknessMm, boards, isOffcut: what === 'offcut' },
  }));

/** Volume of the finished parts of a table by key of their wood. */
function finishedM3({ care: { table, assessment } }: OrderedTable): Readonly<Record<string, number>> {
  const volumes: Record<string, number> = {};
  for (const { id, wood } of table.parts)
    if (wood !== undefined) volumes[wood] = (volumes[wood] ?? 0) + (assessment.volumeOf[id] ?? 0) / 1e9;
  return volumes;
}

interface Reckoned {
  readonly plan?: PlanAndDone;
  readonly problems: readonly Problem[];
}

/** What the ordered table of a proposal was reckoned to take, and what was written down. */
function reckoned(folder: string, slug: string, standing: Standing, measure: ReturnType<typeof openFonts>['measure']): Reckoned {
  const { order, worked, used } = standing;
  if (order === undefined)
    return {
      problems: [refusal('no-order', `${slug} is no order, so there is no table to learn from`, { mend: `leafwright status ${slug}` })],
    };
  const ordered = orderedTable(folder, slug, order.confirmed, { measure });
  if ('problems' in ordered) return ordered;
  return { plan: planAndDone(ordered.care.takeOff, finishedM3(ordered), worked, boardsOf(used)), problems: [] };
}

/** Offcuts as boards of one's own, ready for the table.yaml of the next one. */
function stockYaml(slug: string, used: readonly EntryOf<'used'>[]): string {
  const lines = used
    .filter(({ what }) => what === 'offcut')
    .map(({ n, wood, lengthMm, widthMm, thicknessMm, boards, moisturePercent }) => {
      const moisture = moisturePercent === undefined ? '' : `, moisture: ${moisturePercent} %`;
      const size = `length: ${lengthMm} mm, width: ${widthMm} mm, thickness: ${thicknessMm} mm`;
      return `  ${slug}-${n}: { wood: ${wood}, ${size}, count: ${boards}${moisture} }`;
    });
  return lines.length === 0 ? '' : `stock:\n${lines.join('\n')}\n`;
}

interface Rates {
  /** Of all tables of the workspace that use the rates. */
  readonly proposed: readonly ProposedRate[];
  readonly tables: number;
}

/** Rates that all tables of the workspace speak for which were priced by the same rates and are made. */
function ratesOf(desk: Desk, measure: ReturnType<typeof openFonts>['measure']): Rates {
  const { workspace, input, today } = desk;
  const plans = readWorkspace(workspace).flatMap((slug): readonly PlanAndDone[] => {
    const folder = proposalFolder(workspace, slug);
    const standing = standingOf(readEntries(folder), issuedOffers(folder), today);
    if (standing.order === undefined || standing.worked.length === 0) return [];
    if (readInput(workspace, slug).input?.proposal.rates !== input.proposal.rates) return [];
    const { plan } = reckoned(folder, slug, standing, measure);
    return plan === undefined ? [] : [plan];
  });
  return {
    proposed: proposedRates(
      plans.map(({ operations }) => operations),
      input.library.rates.operations,
    ),
    tables: plans.length,
  };
}

/** Writes proposed rates into the workspace's own file of rates. */
function writeRates({ workspace, input }: Desk, proposed: readonly ProposedRate[]): Problem | undefined {
  const name = `templates/rates/${input.proposal.rates}.yaml`;
  const path = join(workspace, ...name.split('/'));
  if (!existsSync(path))
    return refusal('rates-not-own', 'these shop rates are those of the program, so nothing is written into them', {
      found: name,
      mend: 'copy them into your workspace under a name of your own, and write that after rates: in proposal.yaml',
    });
  const edits = proposed.flatMap(({ operation, proposed: rate }) =>
    (['low', 'mid', 'high'] as const).map((key) => ({ path: ['operations', operation, key], value: String(rate[key]) })),
  );
  try {
    replaceText(path, editYaml(readFileSync(path, 'utf8'), edits));
    return undefined;
  } catch (fault) {
    if (!(fault instanceof YamlEditFault)) throw fault;
    return refusal('rates-by-hand', fault.message, { mend: `write the proposed hours into ${name} by hand` });
  }
}

const hoursText = (hours: number): string => String(Math.round(hours * 100) / 100);

function planLines(plan: PlanAndDone, language: string): readonly string[] {
  const rows = plan.operations
    .filter(({ hours, planned }) => hours !== 0 || planned.mid > 0)
    .map(({ id, planned, hours, ratio }) => [
      id,
      `${hoursText(planned.low)} to ${hoursText(planned.high)}, usually ${hoursText(planned.mid)}`,
      hours === 0 ? '-' : hoursText(hours),
      ratio === undefined ? '' : formatPercent(ratio * 100, language),
    ]);
  const unplanned = plan.unplanned.map(({ operation, hours }) => [operation, '', hoursText(hours), '']);
  const { planned, done } = plan.hours;
  const total = ['all', `${hoursText(planned.low)} to ${hoursText(planned.high)}, usually ${hoursText(planned.mid)}`, hoursText(done), ''];
  const timber = plan.timber.map(({ wood, finishedM3, plannedM3, usedM3, offcutM3, yieldPercent }) => {
    const m3 = (volume: number): string => formatNumber(volume, language, 4);
    const yields = yieldPercent === undefined ? '' : `; ${formatPercent(yieldPercent, language)} of what was used is in the table`;
    return `  ${wood}: ${m3(finishedM3)} m³ in the table, ${m3(plannedM3)} reckoned, ${m3(usedM3)} used, ${m3(offcutM3)} back to the rack${yields}`;
  });
  return [...aligned([['', 'hours reckoned', 'done', ''], ...rows, ...unplanned, total]), '', 'Timber', ...timber];
}

function rateLines({ proposed, tables }: Rates, language: string): readonly string[] {
  if (tables < LEAST_TABLES)
    return [
      `Rates: hours of ${tables} ${tables === 1 ? 'table' : 'tables'} are written down; from ${LEAST_TABLES} on they say something of the next one`,
    ];
  if (proposed.length === 0) return [`Rates: the hours of ${tables} tables speak for no other rate`];
  return [
    `Rates that the hours of ${tables} tables speak for (median of done over reckoned; nothing is changed without --write)`,
    ...aligned(
      proposed.map(({ operation, tables: count, medianRatio, lowestRatio, highestRatio, now, proposed: rate }) => [
        `  ${operation}`,
        `${hoursText(now.mid)} -> ${hoursText(rate.mid)}`,
        `${formatPercent(medianRatio * 100, language)} (${formatPercent(lowestRatio * 100, language)} to ${formatPercent(highestRatio * 100, language)})`,
        `${count} tables`,
      ]),
    ),
  ];
}

/** Keeps a lesson in words with the record, where only the workshop reads it. */
function keepLesson(desk: Desk, said: string, on: string): Promise<ExitCode> {
  const body: Body<'lesson'> = { kind: 'lesson', on };
  return recordEntry(
    desk,
    (): Prepared => ({ body, sealed: { data: { words: said } as Record<string, Json>, random: saltOf() } }),
    (entry) => [`entry ${entry.n}: kept as a lesson of ${desk.slug}, for the workshop alone`],
  );
}

/** `lessons`: what the table was reckoned to take and what it took; offcuts as stock; rates that finished tables speak for. */
export async function runLessons(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { words, values, switches } = given;
  return atDesk(given, terminal, async (desk) => {
    const said = words[1]?.normalize('NFC').trim();
    if (said !== undefined) {
      if (said === '')
        throw new UsageFault('there are no words to keep', 'for example: leafwright lessons oak "glue the ends the day before"');
      return keepLesson(desk, said, dayOf(desk, values['on']));
    }
    const { measure } = openFonts();
    const { standing } = lookNow(desk);
    const { plan, problems } = reckoned(desk.folder, desk.slug, standing, measure);
    if (plan === undefined || hasErrors(problems)) return sayRefused(desk, problems);
    const rates = ratesOf(desk, measure);
    const stock = stockYaml(desk.slug, standing.used);
    const isWriting = switches.has('write') && rates.proposed.length > 0;
    const fault = isWriting ? writeRates(desk, rates.proposed) : undefined;
    if (desk.json) {
      const found = fault === undefined ? [] : [fault];
      const data = {
        schema,
        proposal: desk.slug,
        ...plan,
        stock,
        rates: rates.proposed,
        tables: rates.tables,
        written: isWriting && fault === undefined,
      };
      terminal.say(JSON.stringify({ ...data, problems: found }, undefined, 2));
      return fault === undefined ? 0 : 1;
    }
    const { language } = desk.input.proposal;
    for (const line of planLines(plan, language)) terminal.say(line);
    if (stock !== '') terminal.say(`\nOffcuts, for the table.yaml of the next one\n${stock.trimEnd()}`);
    terminal.say('');
    for (const line of rateLines(rates, language)) terminal.say(line);
    if (fault !== undefined) {
      terminal.warn(formatProblems([fault], { colour: terminal.colour.err }, 'No rate was written.').trimEnd());
      return 1;
    }
    if (isWriting) terminal.say(`\nWritten into templates/rates/${desk.input.proposal.rates}.yaml; look it over, then leafwright check`);
    return 0;
  });
}
