import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { formatProblems, type Problem } from '../../problem/index.ts';
import { editYaml, YamlEditFault } from '../../read/index.ts';
import type { Body, Json, Standing } from '../../record/index.ts';
import type { PlanAndDone, ProposedRate } from '../../takeoff/index.ts';
import { openFonts } from '../../write/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { replaceText } from '../draft/own-files.ts';
import { atDesk, type Desk, dayOf, lookNow, type Prepared, recordEntry, saltOf, sayRefused } from '../record-desk.ts';
import { refusal } from '../refusal.ts';
import { aligned, type Terminal } from '../terminal.ts';
import { orderedTable } from './ordered-table.ts';
import { daysTold, operationsTold, planOf, type RatesSpokenFor, ratesOf, ratesTold, stockYaml, timberTold } from './plan-done.ts';

const schema = 'leafwright/lessons/1';

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

function planLines(plan: PlanAndDone, { worked }: Standing, language: string): readonly string[] {
  const rows = operationsTold(plan, language).map(({ id, reckoned, done, ratio }) => [id, reckoned, done, ratio]);
  const days = daysTold(worked);
  return [
    ...aligned([['', 'hours reckoned', 'done', ''], ...rows]),
    ...(days === '' ? [] : ['', days]),
    '',
    'Timber',
    ...timberTold(plan, language).map(({ wood, says }) => `  ${wood}: ${says}`),
  ];
}

function rateLines(spokenFor: RatesSpokenFor, language: string): readonly string[] {
  const { says, rates } = ratesTold(spokenFor, language);
  return [
    says,
    ...(rates.length === 0 ? [] : aligned(rates.map(({ operation, change, ratio, tables }) => [`  ${operation}`, change, ratio, tables]))),
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
    if (standing.order === undefined)
      return sayRefused(desk, [
        refusal('no-order', `${desk.slug} is no order, so there is no table to learn from`, { mend: `leafwright status ${desk.slug}` }),
      ]);
    const ordered = orderedTable(desk.folder, desk.slug, standing.order.confirmed, { measure });
    if ('problems' in ordered) return sayRefused(desk, ordered.problems);
    const plan = planOf(ordered, standing);
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
    for (const line of planLines(plan, standing, language)) terminal.say(line);
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
