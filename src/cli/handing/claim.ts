import type { SinceThen } from '../../assess/index.ts';
import { lackingIn } from '../../client/index.ts';
import type { EntryOf, Standing } from '../../record/index.ts';
import { byCodeUnit, formatLength, formatPercent } from '../../units/index.ts';
import { openFonts } from '../../write/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { atDesk, type Desk, lookNow, sayRefused } from '../record-desk.ts';
import { refusal } from '../refusal.ts';
import { folded, type Terminal } from '../terminal.ts';
import { topAcrossPath } from './as-built.ts';
import { measuredNow } from './claim-measured.ts';
import { makeClaimPaper } from './claim-paper.ts';
import { recordClaim } from './claim-record.ts';
import { baselineOf, expectedSince, warrantyOf } from './claim-source.ts';
import { handOverLines } from './hand-over-words.ts';
import { type OrderedTable, orderedTable } from './ordered-table.ts';

const schema = 'leafwright/claim/1';

const results: Readonly<Record<NonNullable<SinceThen['result']>, string>> = {
  'as-expected': 'what it did is what wood does in that air',
  'more-than-expected': 'it moved more than the air explains: look for water, heat, or a board that was wetter than measured',
  'less-than-expected': 'it moved less than the air explains: it may not have had weeks in it yet, or something holds it',
};

function sinceLines(
  { moistureNowPercent, builtMm, expectedMm, measuredChangeMm, result }: SinceThen,
  desk: Desk,
  by: string,
): readonly string[] {
  const { language, show } = desk.input.proposal;
  const length = (mm: number): string => formatLength(mm, { style: show, locale: language });
  const [one, other] = expectedMm.toSorted((a, b) => a - b).map(length);
  return [
    `  ${by} its boards come to about ${formatPercent(moistureNowPercent, language, 1)}, and the top to ${one} to ${other} across them`,
    ...(measuredChangeMm === undefined || result === undefined
      ? []
      : [`  it was built ${length(builtMm)} and measures ${length(builtMm + measuredChangeMm)}: ${results[result]}`]),
    '  Reckoned from the moisture of its boards at glue-up, for a room of the temperature in the proposal,',
    '  once the wood has had weeks in that air. It is a calculation and no verdict: look at the table first.',
  ];
}

/** What happened at the table since, by date, and what is promised and open. */
function historyLines({ services, openDefects, papers, measured }: Standing): readonly string[] {
  const dated = [
    ...services.map(
      ({ on, what, finish, defects }) =>
        `${on}  ${what}${finish === undefined ? '' : `, ${finish}`}${defects === undefined ? '' : `, defect ${defects.join(', ')}`}`,
    ),
    ...measured
      .filter(({ when }) => when === 'later')
      .map(({ on, what, percent }) => `${on}  ${what} ${percent.map((one) => `${one} %`).join(', ')}`),
    ...(papers === undefined ? [] : [`${papers.on}  care as in edition ${papers.edition}`]),
  ].toSorted((a, b) => byCodeUnit(a.slice(0, 10), b.slice(0, 10)));
  const open = openDefects.map(({ defect, by, isLate }) => `defect ${defect} is open, to be put right by ${by}${isLate ? ', late' : ''}`);
  return [...dated, ...open].map((line) => `  ${line}`);
}

/** Claims so far, each with what became of it. */
function claimLines({ claims }: Standing): readonly string[] {
  return claims.map(({ opened, lookedAt, settled }) => {
    const looked = lookedAt.at(-1);
    const state =
      settled !== undefined
        ? `settled on ${settled.on}: ${(settled.outcome ?? '').replaceAll('-', ' ')}`
        : looked === undefined
          ? 'open'
          : `open; looked at on ${looked.on}`;
    return `  entry ${opened.n}, ${opened.on}  ${opened.about ?? 'other'}; ${state}`;
  });
}

/** Says what is on record of the table, and what its wood was to be expected to do by what was measured now; records nothing. */
function lookAt(desk: Desk, given: Given, ordered: OrderedTable, delivered: EntryOf<'hand-over'>): ExitCode {
  const { terminal } = desk;
  const { standing, entries } = lookNow(desk);
  const across = topAcrossPath(ordered.care.table);
  const now = measuredNow(desk, given.values, across, ordered);
  const { humidityPercent, moisturePercent } = now;
  const acrossMm = now.sizes?.find(({ what }) => what === across)?.mm;
  if (acrossMm !== undefined && humidityPercent === undefined && moisturePercent === undefined)
    throw new UsageFault('--width needs --humidity or --moisture: in which air was it measured?', 'read a hygrometer beside the table');
  const since = expectedSince(ordered, delivered, { ...now, ...(acrossMm === undefined ? {} : { acrossMm }) });
  const { terms, finishes } = ordered.care.spec.library;
  const warranty = warrantyOf(terms, delivered.on);
  const shownFinishes = { ...finishes, ...desk.input.library.finishes };
  const { texts } = desk.input.library;
  const lacks = lackingIn(baselineOf({ entries, handOver: delivered, finishes: shownFinishes })).map((key) => texts[key] ?? key);
  const { services, openDefects, claims } = standing;
  if (desk.json) {
    const told = { handOver: delivered, services, openDefects, claims, missing: lacks, since, warranty, problems: [] };
    terminal.say(JSON.stringify({ schema, proposal: desk.slug, ...told }, undefined, 2));
    return 0;
  }
  const { language, show } = desk.input.proposal;
  terminal.say(`Piece ${delivered.piece} of ${desk.slug}, handed over on ${delivered.on} (entry ${delivered.n})`);
  for (const line of handOverLines(delivered, shownFinishes, { language, show })) terminal.say(line);
  if (lacks.length > 0) terminal.say(`  not recorded  ${lacks.join('; ')}`);
  const history = historyLines(standing);
  if (history.length > 0) terminal.say('\nSince then');
  for (const line of history) terminal.say(line);
  if (claims.length > 0) terminal.say('\nClaims');
  for (const line of claimLines(standing)) terminal.say(line);
  if (humidityPercent !== undefined || moisturePercent !== undefined) {
    terminal.say('\nWhat the wood was to be expected to do');
    const by = moisturePercent === undefined ? `at ${formatPercent(humidityPercent ?? 0, language)}` : 'as they were measured';
    if (since === undefined) terminal.say('  That can not be told: the record holds no moisture of the boards at glue-up.');
    else for (const line of sinceLines(since, desk, by)) terminal.say(line);
  }
  terminal.say('\nWhat was agreed');
  const said =
    warranty === undefined
      ? 'The agreed terms name no section for it.'
      : `${warranty.title}${warranty.until === undefined ? '' : ` (until ${warranty.until})`}: ${warranty.says}`;
  for (const text of [said, 'Rights by law stand whatever these words say; where it matters, ask somebody licensed.'])
    for (const line of folded(text, '  ', { hanging: '' })) terminal.say(line);
  return 0;
}

/** `claim`: where a claim starts, and what becomes of it: looked at, recorded, printed. */
export async function runClaim(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { values, words } = given;
  return atDesk(given, terminal, async (desk) => {
    const { delivered, order } = lookNow(desk).standing;
    if (delivered === undefined || order === undefined)
      return sayRefused(desk, [
        refusal('not-delivered', `${desk.slug} was not handed over, so there is nothing that a claim could start from`, {
          mend: `leafwright hand-over ${desk.slug}`,
        }),
      ]);
    const ordered = orderedTable(desk.folder, desk.slug, order.confirmed, { measure: openFonts().measure });
    if ('problems' in ordered) return sayRefused(desk, ordered.problems);
    if (values['sheet'] !== undefined || values['copy'] !== undefined) return makeClaimPaper(desk, given, ordered, delivered);
    if (words[1] === undefined && values['look'] === undefined && values['settle'] === undefined && values['about'] === undefined)
      return lookAt(desk, given, ordered, delivered);
    return recordClaim(desk, given, ordered, delivered);
  });
}
