import { type SinceThen, sinceThen } from '../../assess/index.ts';
import type { EntryOf, Standing } from '../../record/index.ts';
import type { TermsSpec } from '../../spec/index.ts';
import { addMonths, formatLength, formatPercent, isoDate, parseDate, parseExact, parseLength, toNumber } from '../../units/index.ts';
import { openFonts } from '../../write/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { atDesk, type Desk, lookNow, sayRefused } from '../record-desk.ts';
import { refusal } from '../refusal.ts';
import { folded, type Terminal } from '../terminal.ts';
import { topAcrossBuilt } from './as-built.ts';
import { handOverLines } from './hand-over-words.ts';
import { type OrderedTable, orderedTable } from './ordered-table.ts';

const schema = 'leafwright/claim/1';

/** What a claim is measured by that the record does not hold. */
function missing({ moisturePercent, humidityPercent, photographs }: EntryOf<'hand-over'>): readonly string[] {
  return [
    ...((moisturePercent ?? []).length === 0 ? ['moisture of the boards at glue-up'] : []),
    ...(humidityPercent?.delivery === undefined ? ['humidity at delivery'] : []),
    ...(photographs.length === 0 ? ['photographs before loading'] : []),
  ];
}

function percentOf(said: string): number {
  const read = parseExact(said.replace(/\s*%$/, ''));
  const percent = read.ok ? toNumber(read.value) : Number.NaN;
  if (percent >= 5 && percent <= 95) return percent;
  throw new UsageFault(`--humidity ${said} is no relative humidity of a room`, 'write what a hygrometer shows there, as 28 %');
}

function widthOf(desk: Desk, said: string): number {
  const read = parseLength(said, { bare: desk.input.proposal.units });
  if (read.ok) return read.value.mm;
  throw new UsageFault(`--width ${said} is no length`, 'measure the top across its boards, as 797 mm');
}

/** What the top was to be expected to do since it was built; nothing where the record does not hold what that is reckoned from. */
function reckon(
  ordered: OrderedTable,
  handOver: EntryOf<'hand-over'>,
  humidity: number,
  measuredMm: number | undefined,
): SinceThen | undefined {
  const { spec, table, assessment } = ordered.care;
  const top = assessment.movement.find(({ partId }) => partId === table.top.partId);
  const wood = top === undefined ? undefined : spec.library.woods[top.wood];
  const boards = handOver.moisturePercent ?? [];
  if (top === undefined || wood === undefined || boards.length === 0) return undefined;
  const builtMm = topAcrossBuilt(table, handOver) ?? top.acrossMm;
  return sinceThen({
    ...{ wood, sawn: top.sawn, builtMm, humidityPercent: humidity, celsius: spec.proposal.room.temperature.celsius },
    moisturePercent: boards.reduce((sum, one) => sum + one, 0) / boards.length,
    ...(measuredMm === undefined ? {} : { measuredMm }),
  });
}

/** The words that were agreed on what the maker stands for, and until when where they name a time. */
function warrantyOf({ sections, warranty }: TermsSpec, deliveredOn: string) {
  const section = sections.find(({ title }) => title === warranty?.section);
  const from = parseDate(deliveredOn);
  const until = warranty?.months === undefined || from === undefined ? undefined : isoDate(addMonths(from, warranty.months));
  return section === undefined
    ? undefined
    : { title: section.title, says: section.body.replaceAll(/\s+/g, ' ').trim(), ...(until === undefined ? {} : { until }) };
}

const results: Readonly<Record<NonNullable<SinceThen['result']>, string>> = {
  'as-expected': 'what it did is what wood does in that air',
  'more-than-expected': 'it moved more than the air explains: look for water, heat, or a board that was wetter than measured',
  'less-than-expected': 'it moved less than the air explains: it may not have had weeks in it yet, or something holds it',
};

function sinceLines(
  { moistureNowPercent, builtMm, expectedMm, measuredChangeMm, result }: SinceThen,
  humidity: number,
  desk: Desk,
): readonly string[] {
  const { language, show } = desk.input.proposal;
  const length = (mm: number): string => formatLength(mm, { style: show, locale: language });
  const [one, other] = expectedMm.toSorted((a, b) => a - b).map(length);
  return [
    `  at ${formatPercent(humidity, language)} its boards come to about ${formatPercent(moistureNowPercent, language, 1)}, and the top to ${one} to ${other} across them`,
    ...(measuredChangeMm === undefined || result === undefined
      ? []
      : [`  it was built ${length(builtMm)} and measures ${length(builtMm + measuredChangeMm)}: ${results[result]}`]),
    '  Reckoned from the moisture of its boards at glue-up, for a room of the temperature in the proposal,',
    '  once the wood has had weeks in that air. It is a calculation and no verdict: look at the table first.',
  ];
}

function historyLines({ services, openDefects, papers, measured }: Standing): readonly string[] {
  const later = measured.filter(({ when }) => when === 'later');
  return [
    ...services.map(
      ({ on, what, finish, defects }) =>
        `  ${on}  ${what}${finish === undefined ? '' : `, ${finish}`}${defects === undefined ? '' : `, defect ${defects.join(', ')}`}`,
    ),
    ...later.map(({ on, what, percent }) => `  ${on}  ${what} ${percent.map((one) => `${one} %`).join(', ')}`),
    ...openDefects.map(({ defect, by, isLate }) => `  defect ${defect} is open, to be put right by ${by}${isLate ? ', late' : ''}`),
    ...(papers === undefined ? [] : [`  ${papers.on}  care as in edition ${papers.edition}`]),
  ];
}

/** `claim`: where a claim starts: the recorded baseline, what was done since, what the wood was to be expected to do, and the agreed words. */
export async function runClaim(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { values } = given;
  return atDesk(given, terminal, async (desk) => {
    const humidity = values['humidity'] === undefined ? undefined : percentOf(values['humidity']);
    const measuredMm = values['width'] === undefined ? undefined : widthOf(desk, values['width']);
    if (measuredMm !== undefined && humidity === undefined)
      throw new UsageFault('--width needs --humidity: in which air was it measured?', 'read a hygrometer beside the table');
    const { standing } = lookNow(desk);
    const { delivered, order } = standing;
    if (delivered === undefined || order === undefined)
      return sayRefused(desk, [
        refusal('not-delivered', `${desk.slug} was not handed over, so there is nothing that a claim could start from`, {
          mend: `leafwright hand-over ${desk.slug}`,
        }),
      ]);
    const ordered = orderedTable(desk.folder, desk.slug, order.confirmed, { measure: openFonts().measure });
    if ('problems' in ordered) return sayRefused(desk, ordered.problems);
    const since = humidity === undefined ? undefined : reckon(ordered, delivered, humidity, measuredMm);
    const { terms, finishes } = ordered.care.spec.library;
    const warranty = warrantyOf(terms, delivered.on);
    const lacks = missing(delivered);
    if (desk.json) {
      const { services, openDefects } = standing;
      const data = {
        schema,
        proposal: desk.slug,
        handOver: delivered,
        services,
        openDefects,
        missing: lacks,
        since,
        warranty,
        problems: [],
      };
      terminal.say(JSON.stringify(data, undefined, 2));
      return 0;
    }
    const { language, show } = desk.input.proposal;
    terminal.say(`Piece ${delivered.piece} of ${desk.slug}, handed over on ${delivered.on} (entry ${delivered.n})`);
    for (const line of handOverLines(delivered, { ...finishes, ...desk.input.library.finishes }, { language, show })) terminal.say(line);
    if (lacks.length > 0) terminal.say(`  not recorded  ${lacks.join('; ')}`);
    const history = historyLines(standing);
    if (history.length > 0) terminal.say('\nSince then');
    for (const line of history) terminal.say(line);
    if (humidity !== undefined) {
      terminal.say('\nWhat the wood was to be expected to do');
      if (since === undefined) terminal.say('  That can not be told: the record holds no moisture of the boards at glue-up.');
      else for (const line of sinceLines(since, humidity, desk)) terminal.say(line);
    }
    terminal.say('\nWhat was agreed');
    const said =
      warranty === undefined
        ? 'The agreed terms name no section for it.'
        : `${warranty.title}${warranty.until === undefined ? '' : ` (until ${warranty.until})`}: ${warranty.says}`;
    for (const line of folded(said, '  ', { hanging: '' })) terminal.say(line);
    for (const line of folded('Rights by law stand whatever these words say; where it matters, ask somebody licensed.', '  ', {
      hanging: '',
    }))
      terminal.say(line);
    return 0;
  });
}
