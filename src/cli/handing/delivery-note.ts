import { careDates, handsFor } from '../../care/index.ts';
import { readHandOver, readProposal } from '../../read/index.ts';
import { deliveryProblems, type EntryOf, type Standing } from '../../record/index.ts';
import type { FinishSpec, HandOverSpec } from '../../spec/index.ts';
import { formatLiftedMass, formatPercent, isoDate, parseDate } from '../../units/index.ts';
import { type DeliveryNote, writeDeliveryNote } from '../../write/client/index.ts';
import { openFonts } from '../../write/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { openDocumentFonts } from '../draft/fonts.ts';
import { type FrozenPage, frozenPages, withChoice } from '../draft/frozen-view.ts';
import { answering, openPaperDesk, type PaperDesk } from '../order/papers.ts';
import { intoOutbox } from '../order/request.ts';
import type { Terminal } from '../terminal.ts';
import { type OrderedSpec, orderedSpec } from './ordered-spec.ts';
import { orderedTable } from './ordered-table.ts';
import { nextPiece, piecesOf } from './piece-number.ts';

const schema = 'leafwright/delivery-note/1';
/** Whoever carries a whole table is never alone. */
const LEAST_PEOPLE = 2;

/** The day of the delivery: that of `--on`, which may be still to come. */
function dayOf(said: string | undefined, today: string): string {
  if (said === undefined) return today;
  if (!/^\d{4}-\d\d-\d\d$/.test(said) || parseDate(said) === undefined)
    throw new UsageFault(`--on ${said} is no day`, `write it as ${today}`);
  return said;
}

/** The page of the ordered revision under whose name the note stands: the first, or the one that is named. */
export function pageOf(desk: Pick<PaperDesk, 'folder' | 'slug'>, { chosen }: EntryOf<'confirmed'>, named: string | undefined): FrozenPage {
  const pages = frozenPages(desk.folder, chosen.revision, chosen.fingerprint);
  const found = named === undefined ? pages[0] : pages.find(({ suffix }) => suffix === `-${named}`);
  const known = pages.flatMap(({ suffix }) => (suffix === '' ? [] : [suffix.slice(1)]));
  if (found !== undefined) return found;
  throw new UsageFault(
    `${desk.slug} ${chosen.revision} has no page ${named ?? ''}`,
    known.length === 0 ? 'leave --page out: it has one page alone' : `beside the first page there is ${known.join(', ')}`,
  );
}

/** The last coat: as the sheet says, else the day on which the table was finished. */
function finishedOf(sheet: HandOverSpec | undefined, { reached }: Standing): string | undefined {
  return sheet === undefined ? reached.findLast(({ stage }) => stage === 'finished')?.on : isoDate(sheet.finished);
}

function daysOf(spec: FinishSpec, finishedOn: string | undefined, on: string): DeliveryNote['days'] {
  const finished = finishedOn === undefined ? undefined : parseDate(finishedOn);
  const delivered = parseDate(on);
  if (finished === undefined || delivered === undefined) return undefined;
  // Neither season nor refresh stands on the note.
  const dates = careDates({ finish: { id: '', spec }, finishedOn: finished, deliveredOn: delivered, place: { facts: [] } });
  const { lightUseOver, lightUseFrom, curedOn, curedFrom } = dates;
  return { lightOver: isoDate(lightUseOver), lightFrom: isoDate(lightUseFrom), curedOver: isoDate(curedOn), curedFrom: isoDate(curedFrom) };
}

/** What was measured in the room on the day of the delivery. */
function humidityOf({ standing }: PaperDesk, on: string): number | undefined {
  return standing.measured.findLast((one) => one.what === 'humidity' && one.when === 'delivery' && one.on === on)?.percent.at(-1);
}

function noteOf(desk: PaperDesk, confirmed: EntryOf<'confirmed'>, ordered: OrderedSpec, reckonedKg: number, given: Given): DeliveryNote {
  const { values, switches } = given;
  const { proposal, table, library } = ordered;
  const { language, show } = proposal;
  const on = dayOf(values['on'], desk.today);
  const { sheet } = readHandOver(desk.workspace, desk.slug, proposal.units);
  const massKg = sheet?.mass?.kg ?? reckonedKg;
  const finish = { ...(sheet?.finish ?? {}), is: sheet?.finish.is ?? table.finish };
  const spec = library.finishes[finish.is];
  const finishedOn = finishedOf(sheet, desk.standing);
  const days = spec === undefined ? undefined : daysOf(spec, finishedOn, on);
  const humidity = humidityOf(desk, on);
  const pieces = piecesOf(desk.workspace);
  const own = pieces.findLast((one) => one.proposal === desk.slug)?.piece;
  return {
    design: confirmed.chosen.design,
    on,
    piece: own ?? nextPiece(desk.maker, Number(desk.today.slice(0, 4)), pieces),
    ...(finishedOn === undefined ? {} : { finishedOn }),
    finish: [spec?.name ?? finish.is, finish.product, finish.batch].filter((text) => text !== undefined).join('; '),
    mass: formatLiftedMass(massKg, show, language),
    people: handsFor(massKg, LEAST_PEOPLE),
    ...(days === undefined ? {} : { days }),
    refreshKit: switches.has('refresh-kit'),
    ...(humidity === undefined ? {} : { humidity: formatPercent(humidity, language) }),
  };
}

/** `delivery-note`: a note to take along and have signed on paper, laid into the outbox; records nothing. */
export async function runDeliveryNote(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { switches, values } = given;
  const { refuse } = answering(schema, 'Nothing was made.', switches, terminal);
  const opened = openPaperDesk(given);
  const { desk } = opened;
  if (desk === undefined) return refuse(opened.problems);
  const confirmed = desk.standing.order?.confirmed;
  if (confirmed === undefined)
    return refuse([
      {
        code: 'record/hand-over-no-order',
        severity: 'error',
        title: `${desk.slug} is no order, so there is no table to hand over`,
        path: [],
        mend: `how it stands: leafwright status ${desk.slug}`,
      },
    ]);
  if (desk.standing.closed !== undefined) return refuse(deliveryProblems(desk.standing, desk.slug));
  // What was frozen with an older revision has no words for this paper.
  const { input, problems } = readProposal(desk.workspace, desk.slug);
  if (input === undefined) return refuse(problems);
  const ordered = orderedSpec(desk.folder, desk.slug, confirmed);
  if ('problems' in ordered) return refuse(ordered.problems);
  const made = orderedTable(desk.folder, desk.slug, confirmed, { measure: openFonts().measure });
  if ('problems' in made) return refuse(made.problems);
  const note = noteOf(desk, confirmed, ordered, made.care.assessment.massKg, given);
  const { view: told, suffix } = pageOf(desk, confirmed, values['page']);
  const { design, options } = confirmed.chosen;
  const view = withChoice(desk.folder, told, design, options, suffix) ?? told;
  const bytes = await writeDeliveryNote({ ...view, texts: { ...input.library.texts, ...view.texts } }, note, openDocumentFonts());
  const file = intoOutbox(desk, `delivery-note${suffix}-${note.on}.pdf`, bytes);
  if (switches.has('json')) {
    terminal.say(JSON.stringify({ schema, proposal: desk.slug, file, ...note, problems: [] }, undefined, 2));
    return 0;
  }
  terminal.say(`The delivery note of ${desk.slug} is ${terminal.accent(file)}`);
  terminal.say(`  piece         ${note.piece ?? ''}`);
  terminal.say(`  carried by    ${note.people} at least, by weight alone (${note.mass})`);
  terminal.say(`  last coat     ${note.finishedOn ?? 'not known yet: the note has room for it'}`);
  terminal.say(`\nNext: print it, take it along and have it signed; then leafwright hand-over ${desk.slug}`);
  return 0;
}
