import { join } from 'node:path';
import { formatProblems, hasErrors, type Problem } from '../../problem/index.ts';
import { HAND_OVER_FILE, type HandOverRead, placeProblems, readHandOver } from '../../read/index.ts';
import { type Body, canonicalJson, deliveryProblems, type EntryOf, handOverProblems, type Json, openSeal } from '../../record/index.ts';
import type { HandOverSpec } from '../../spec/index.ts';
import { formatMass } from '../../units/index.ts';
import { openFonts } from '../../write/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { gatheredProblems } from '../draft/evaluate.ts';
import { replaceText } from '../draft/own-files.ts';
import { atDesk, type Desk, dayOf, lookNow, type Now, type Prepared, recordEntry, saltOf, sayRefused, shownMoney } from '../record-desk.ts';
import { refusal, remark } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';
import { isOtherMass, isSlipOfMass } from './as-built.ts';
import { editionLines } from './care.ts';
import { draftSheet } from './draft-sheet.ts';
import { failedDelivery } from './failed-delivery.ts';
import { type HandOverWords, handOverOf } from './hand-over-of.ts';
import { handOverLines } from './hand-over-words.ts';
import { type EditionMade, makeTableEdition } from './make-edition.ts';
import { type OrderedSpec, orderedSpec } from './ordered-spec.ts';
import { orderedTable } from './ordered-table.ts';
import { nextPiece, piecesOf } from './piece-number.ts';
import { keptFiles, type SheetFiles, sheetFiles } from './sheet-files.ts';
import { sheetProblems } from './sheet-problems.ts';
import { storageLines } from './storage.ts';

type HandOver = Body<'hand-over'>;

const peopleOf = ({ input, offers }: Desk): readonly string[] =>
  [...new Set([...Object.keys(input.proposal.deciders.people), ...offers.flatMap(({ people }) => people.map(({ id }) => id))])].sort();

/** What an entry says, without its number and the names of its files, which hold it. */
function substance({
  n: _n,
  prev: _prev,
  at: _at,
  zone: _zone,
  sealed: _sealed,
  ...body
}: HandOver & Partial<EntryOf<'hand-over'>>): string {
  const { photographs, acceptance, ...rest } = body;
  const { paper, ...accepted } = acceptance ?? {};
  return canonicalJson({
    ...rest,
    ...accepted,
    files: [...photographs, ...(paper === undefined ? [] : [paper])].map(({ sha256 }) => sha256),
  } as unknown as Json);
}

/** True where an entry was sealed with these words, or its words were erased. */
function hasWords({ folder }: Desk, { sealed }: EntryOf<'hand-over'>, words: HandOverWords): boolean {
  const opened = sealed === undefined ? { data: {} } : openSeal(folder, sealed);
  return (
    opened === 'gone' || (typeof opened === 'object' && canonicalJson(opened.data as Json) === canonicalJson(words as unknown as Json))
  );
}

/** Writes a sheet with what is known, and says what is to be filled in; records nothing. */
function draft(desk: Desk, { values }: Given, { standing }: Now, ordered: OrderedSpec): ExitCode {
  const { slug, folder, shown, terminal, today, workspace } = desk;
  const day = values['on'] === undefined ? undefined : dayOf(desk, values['on']);
  const before = standing.failedDeliveries.at(-1)?.piece;
  const piece = values['piece'] ?? before ?? nextPiece(desk.input.library.maker.name, Number(today.slice(0, 4)), piecesOf(workspace));
  const text = draftSheet({ slug, piece, ordered, standing, people: peopleOf(desk), ...(day === undefined ? {} : { delivered: day }) });
  replaceText(join(folder, HAND_OVER_FILE), text);
  const { toFillIn: open } = readHandOver(workspace, slug, ordered.proposal.units);
  const sheet = `${shown}/${HAND_OVER_FILE}`;
  if (desk.json) {
    terminal.say(JSON.stringify({ schema: 'leafwright/hand-over-draft/1', proposal: slug, sheet, piece, toFillIn: open }, undefined, 2));
    return 0;
  }
  const { openMinor, currency } = standing;
  terminal.say(`${sheet} is drafted, and nothing is recorded`);
  terminal.say(`  piece         ${piece}`);
  terminal.say(`  to fill in    ${open.length} places, marked TODO`);
  if (openMinor > 0 && currency !== undefined) terminal.say(`  money open    ${shownMoney(desk, currency, openMinor)}`);
  terminal.say(`\nNext: fill it in at the delivery, then leafwright hand-over ${slug}`);
  return 0;
}

/** The entry of a sheet with its files, or what stands against it. */
function prepared(desk: Desk, { entries, standing }: Now, ordered: OrderedSpec, sheet: HandOverSpec, brought: SheetFiles): Prepared {
  const { slug, today, input } = desk;
  const { table, library } = ordered;
  // A finish may have come into the library after the table was ordered.
  const finishes = { ...library.finishes, ...input.library.finishes };
  const { delivered } = standing;
  const measured = standing.measured.filter(({ n }) => delivered === undefined || n < delivered.n);
  const made = handOverOf(sheet, {
    ordered: table,
    terms: library.terms,
    finishes,
    measured,
    shown: { language: input.proposal.language, show: input.proposal.show },
  });
  const { files, photographs, paper } = keptFiles(entries, brought);
  const { acceptance, ...rest } = made.body;
  const body: HandOver = {
    ...rest,
    photographs,
    ...(acceptance === undefined ? {} : { acceptance: { ...acceptance, ...(paper === undefined ? {} : { paper }) } }),
  };
  const isKnown = delivered !== undefined && substance(delivered) === substance(body) && hasWords(desk, delivered, made.words);
  if (isKnown) return { known: delivered };
  const found: readonly Problem[] = [
    ...made.problems,
    ...brought.problems,
    ...sheetProblems(sheet, { slug, today, entries, standing, people: peopleOf(desk), pieces: piecesOf(desk.workspace) }),
    ...handOverProblems(standing, body, { slug, language: input.proposal.language, show: input.proposal.show }),
  ];
  if (hasErrors(found)) return { problems: found };
  const sealed =
    Object.keys(made.words).length === 0 ? undefined : { data: made.words as unknown as Record<string, Json>, random: saltOf() };
  return { body, files, ...(sealed === undefined ? {} : { sealed }), warnings: found };
}

/** Problems of a hand-over with the lines of its sheet. */
const placed = (read: HandOverRead, outcome: Prepared): Prepared =>
  'problems' in outcome
    ? { problems: placeProblems(read.sources, outcome.problems) }
    : 'body' in outcome
      ? { ...outcome, warnings: placeProblems(read.sources, outcome.warnings ?? []) }
      : outcome;

/** That the table weighs much else than it was reckoned to. Codes: `cli/hand-over-no-mass`, and the warning `cli/hand-over-other-mass`. */
function massProblems({ folder, slug, input }: Desk, { mass }: HandOverSpec, confirmed: EntryOf<'confirmed'>): readonly Problem[] {
  if (mass === undefined) return [];
  const ordered = orderedTable(folder, slug, confirmed, { measure: openFonts().measure });
  if ('problems' in ordered) return ordered.problems;
  const { massKg } = ordered.care.assessment;
  if (!isOtherMass(mass.kg, massKg)) return [];
  const { show, language } = input.proposal;
  const n = (kg: number): string => formatMass(kg, show, language, 1);
  const isLighter = mass.kg < massKg;
  const path = ['library', 'handOver', 'mass'];
  if (isSlipOfMass(mass.kg, massKg))
    return [
      {
        ...refusal('hand-over-no-mass', 'the table can not weigh that: whoever lifts it goes by this figure', {
          found: `${n(mass.kg)} where ${n(massKg)} was reckoned`,
          allowed: 'from half of that to twice as much',
          mend: 'look at the unit and the point, and weigh it again; without a scale leave the line out',
        }),
        path,
      },
    ];
  return [
    {
      ...remark(
        'hand-over-other-mass',
        `the table is ${isLighter ? 'lighter' : 'heavier'} than it was reckoned, by more than its wood explains`,
        {
          found: `${n(mass.kg)} where ${n(massKg)} was reckoned`,
          allowed: 'a tenth either way, which is how far the density of a wood spreads',
          mend: isLighter
            ? 'weigh it again. What was said of tipping was reckoned with the greater mass: a lighter table tips sooner'
            : 'weigh it again. What was said of carrying it before was too little: care and delivery note now go by the scale',
        },
      ),
      path,
    },
  ];
}

/** The storage that began when a delivery failed, until the table was handed over: the sheet need not say it again. */
function storedUntil(stored: Now['standing']['stored'], on: string): HandOver['storage'] {
  return stored === undefined ? undefined : { from: stored.from, until: stored.until ?? on };
}

async function record(
  desk: Desk,
  read: HandOverRead,
  sheet: HandOverSpec,
  ordered: OrderedSpec,
  confirmed: EntryOf<'confirmed'>,
): Promise<ExitCode> {
  const files = sheetFiles(desk.folder, sheet);
  const brought = { ...files, problems: [...files.problems, ...massProblems(desk, sheet, confirmed)] };
  const { language, show } = desk.input.proposal;
  const shown = { language, show };
  const finishes = { ...ordered.library.finishes, ...desk.input.library.finishes };
  const papers: { made?: EditionMade } = {};
  const lines = (): readonly string[] => (papers.made === undefined ? [] : editionLines(desk, papers.made));
  return recordEntry(
    desk,
    (now) => {
      const outcome = placed(read, prepared(desk, now, ordered, sheet, brought));
      if (!('known' in outcome)) return outcome;
      return { ...outcome, says: () => [`on record already as entry ${outcome.known.n}`, ...lines()] };
    },
    (entry, before) =>
      entry.kind === 'hand-over'
        ? [
            `entry ${entry.n}: piece ${entry.piece} of ${desk.slug} is handed over, on ${entry.on}`,
            ...handOverLines(entry, finishes, shown),
            ...storageLines(entry.storage ?? storedUntil(before.stored, entry.on), ordered.library.terms.storage, {
              today: desk.today,
              currency: ordered.proposal.currency,
              language,
            }),
            ...lines(),
          ]
        : [],
    async () => {
      desk.terminal.progress(`making the papers of ${sheet.piece}`);
      papers.made = await makeTableEdition(desk);
      const { edition, problems } = papers.made;
      return {
        problems: gatheredProblems(problems),
        data: edition === undefined ? {} : { edition: edition.entry, careToken: edition.token },
      };
    },
  );
}

/** What the meter showed need not be written down a second time: a sheet that was drafted before it still asks. */
function withMeasured(problems: readonly Problem[], entries: Now['entries']): readonly Problem[] {
  const isMeasured = entries.some(({ kind }) => kind === 'measured');
  return problems.map((problem) => {
    const asksForIt = problem.code === 'read/to-fill-in' && /\.(?:moisture|humidity)\b/.test(problem.found ?? '');
    return isMeasured && asksForIt
      ? { ...problem, mend: `${problem.mend}; what leafwright measure recorded is used where its lines are out` }
      : problem;
  });
}

const ofFailure = ['finished', 'stored-until'] as const;

/** `hand-over`: drafts the sheet of a hand-over, records it once it is filled in, or records that the delivery failed. */
export async function runHandOver(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { values, switches, words } = given;
  const isFailed = values['failed'] !== undefined;
  const stray = [...ofFailure.filter((name) => values[name] !== undefined), ...(switches.has('stored') ? ['stored'] : [])][0];
  if (!isFailed && stray !== undefined) throw new UsageFault(`--${stray} goes with --failed`, 'the sheet says the rest');
  if (!isFailed && words[1] !== undefined) throw new UsageFault('words go with --failed', 'the sheet has a line words: of its own');
  return atDesk(given, terminal, async (desk) => {
    const now = lookNow(desk);
    const { order, closed } = now.standing;
    if (order === undefined || closed !== undefined) return sayRefused(desk, deliveryProblems(now.standing, desk.slug));
    const ordered = orderedSpec(desk.folder, desk.slug, order.confirmed);
    if ('problems' in ordered) return sayRefused(desk, ordered.problems);
    const read = readHandOver(desk.workspace, desk.slug, ordered.proposal.units);
    if (isFailed) return failedDelivery(desk, given, ordered, read.sheet);
    if (!read.exists) {
      const stops = deliveryProblems(now.standing, desk.slug);
      return stops.length > 0 ? sayRefused(desk, stops) : draft(desk, given, now, ordered);
    }
    const early = (['on', 'piece'] as const).find((name) => values[name] !== undefined);
    if (early !== undefined)
      throw new UsageFault(`--${early} is for the draft, and the sheet is there`, `write it into ${desk.shown}/${HAND_OVER_FILE}`);
    if (read.sheet === undefined) return sayRefused(desk, withMeasured(read.problems, now.entries));
    const remarks = read.problems;
    if (remarks.length > 0 && !desk.json) terminal.warn(formatProblems(remarks, { colour: terminal.colour.err }));
    return record(desk, read, read.sheet, ordered, order.confirmed);
  });
}
