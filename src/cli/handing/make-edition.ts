import {
  type AppliedFinish,
  type CareInput,
  type CareNote,
  type CareView,
  careInputOf,
  careLaws,
  careViewOf,
  checkNote,
  composeCare,
  type HandedOver,
  woodsOf,
} from '../../care/index.ts';
import { hasErrors, type Problem } from '../../problem/index.ts';
import { placeProblems, readCare } from '../../read/index.ts';
import {
  canonicalJson,
  careEditions,
  type Edition,
  type EntryOf,
  type Json,
  makeEdition,
  type NamedBytes,
  tokenBytes,
} from '../../record/index.ts';
import { type CalendarDate, parseDate } from '../../units/index.ts';
import { openTools, type Tools } from '../draft/produce.ts';
import { programVersion } from '../program.ts';
import { type Desk, lookNow, type Now } from '../record-desk.ts';
import { overallAsBuilt, topAcrossBuilt } from './as-built.ts';
import { apartSheet, careAddress, careLinkFiles, carePaper, labelFiles } from './care-files.ts';
import { type OrderedTable, orderedTable } from './ordered-table.ts';
import { makePapers, signedNoteRemarks } from './papers-of-table.ts';

/** What an edition is made of. */
interface Ground {
  readonly confirmed: EntryOf<'confirmed'>;
  readonly handOver: EntryOf<'hand-over'>;
  /** The entry since which the care is this one. */
  readonly of: number;
}

/** What is asked for beyond an edition of what has changed. */
export interface EditionWish {
  /** Also where the newest edition says the same. */
  readonly again?: boolean;
  /** A new link of the care, in place of the one it has. */
  readonly renewLink?: boolean;
}

/** An edition that was made, the one that stands where nothing would differ, or why none was. */
export interface EditionMade {
  readonly edition?: Edition;
  /** The newest edition says the same already. */
  readonly standing?: EntryOf<'care'>;
  readonly problems: readonly Problem[];
}

function dayOf(day: string): CalendarDate {
  const date = parseDate(day);
  if (date === undefined) throw new RangeError(`no day: ${day}`);
  return date;
}

function groundOf({ standing }: Now): Ground | undefined {
  const { delivered, care, order } = standing;
  return delivered === undefined || care === undefined || order === undefined
    ? undefined
    : { confirmed: order.confirmed, handOver: delivered, of: care.n };
}

const applied = (id: string, product: string | undefined, batch: string | undefined): AppliedFinish => ({
  id,
  ...(product === undefined ? {} : { product }),
  ...(batch === undefined ? {} : { batch }),
});

/** What the table bears now, and since when: as handed over, or as a refinish left it. */
function handedOver({ handOver }: Ground, { standing }: Now, { table }: OrderedTable['care']): HandedOver {
  const refinish = standing.services.findLast(({ what, finish }) => what === 'refinish' && finish !== undefined);
  const { baseFinish, massKg } = handOver;
  const topAcrossMm = topAcrossBuilt(table, handOver);
  const base =
    baseFinish === undefined
      ? // A refinish is of the top: the base keeps what it had.
        refinish === undefined
        ? undefined
        : applied(handOver.finish, handOver.product, handOver.batch)
      : applied(baseFinish.finish, baseFinish.product, baseFinish.batch);
  return {
    finish:
      refinish?.finish === undefined
        ? applied(handOver.finish, handOver.product, handOver.batch)
        : applied(refinish.finish, undefined, refinish.batch),
    ...(base === undefined ? {} : { baseFinish: base }),
    finishedOn: dayOf(refinish?.on ?? handOver.finishedOn),
    deliveredOn: dayOf(handOver.on),
    ...(refinish === undefined ? {} : { refreshedOn: dayOf(refinish.on), madeOn: dayOf(handOver.finishedOn) }),
    ...(massKg === undefined ? {} : { massKg }),
    ...(topAcrossMm === undefined ? {} : { topAcrossMm }),
  };
}

interface Composed {
  readonly input: CareInput;
  readonly note: CareNote;
  /** Files that were read for it: rules, texts, maker, woods, finishes. */
  readonly read: readonly NamedBytes[];
  readonly problems: readonly Problem[];
}

/** Templates that the papers of care are made of, beside their rules; none of them is of a client. */
const READ = /^(?:program\/)?templates\/(?:texts\/[^/]+|maker|woods|finishes)\.yaml$/;

/** The care note of the table by the rules of the workspace, or what is wrong with rules or note. */
function composed(desk: Desk, ground: Ground, now: Now, ordered: OrderedTable): Composed | { readonly problems: readonly Problem[] } {
  const { workspace, input: draft } = desk;
  const read = readCare(workspace);
  if (read.book === undefined) return { problems: read.problems };
  const { texts, finishes } = draft.library;
  const laws = careLaws(read.book, { finishes, texts, own: read.own });
  // A finish that was in the library when the table was ordered may be gone since.
  const known = { ...ordered.care.spec.library.finishes, ...finishes };
  const input = careInputOf(ordered.care, handedOver(ground, now, ordered.care), draft.proposal, {
    book: read.book,
    texts,
    finishes: known,
  });
  const note = composeCare(input);
  const problems = [...read.problems, ...placeProblems(read.sources, [...laws, ...checkNote(note, input)])];
  if (hasErrors(problems)) return { problems };
  const files = [...read.files, ...draft.files.filter(({ path }) => READ.test(path))];
  return { input, note, read: files.map(({ path, text }) => ({ path, bytes: Buffer.from(text, 'utf8') })), problems };
}

/** The care view of an edition. */
function viewOf(desk: Desk, { handOver }: Ground, { input, note }: Composed, ordered: OrderedTable, edition: number): CareView {
  const { maker } = desk.input.library;
  const { spec, table } = ordered.care;
  const woods = woodsOf(ordered.care).flatMap((id) => {
    const wood = spec.library.woods[id];
    return wood === undefined ? [] : [[id, wood.botanical] as const];
  });
  return careViewOf(input, note, {
    piece: handOver.piece,
    edition,
    on: dayOf(desk.today),
    maker: {
      name: maker.name,
      trade: maker.trade,
      address: maker.address,
      telephone: maker.telephone,
      email: maker.email,
      isInvented: maker.invented || desk.input.proposal.invented,
    },
    paper: desk.input.proposal.paper,
    use: desk.input.proposal.use,
    overallMm: overallAsBuilt(table.overallMm, handOver),
    isRound: table.top.shape === 'round',
    botanical: Object.fromEntries(woods),
  });
}

/** Of a view what makes an edition differ from the one before. */
const substance = ({ edition: _edition, date: _date, dateIso: _dateIso, ...view }: CareView): string =>
  canonicalJson(view as unknown as Json);

const viewName = 'data/care.json';

/** The care view of an edition as it was frozen; nothing where it is gone. */
function viewIn(desk: Desk, { edition }: EntryOf<'care'>): CareView | undefined {
  const found = careEditions(desk.folder).find(({ entry }) => entry.edition === edition);
  const file = found?.filesOf('data').find(({ path }) => `data/${path}` === viewName);
  return file === undefined ? undefined : (JSON.parse(Buffer.from(file.bytes).toString('utf8')) as CareView);
}

const below = (folder: string, files: readonly NamedBytes[]): readonly NamedBytes[] =>
  files.map(({ path, bytes }) => ({ path: `${folder}/${path}`, bytes }));

interface Making {
  readonly desk: Desk;
  readonly ground: Ground;
  readonly now: Now;
  readonly care: Composed;
  readonly ordered: OrderedTable;
  readonly tools: Tools;
}

/** All files of an edition, by path below its folder, and what is worth knowing of them. */
async function editionFiles(
  { desk, ground, now, care, ordered, tools }: Making,
  view: CareView,
  token: string,
): Promise<{ readonly files: readonly NamedBytes[]; readonly problems: readonly Problem[] }> {
  const { maker, texts, finishes, woods } = desk.input.library;
  const address = careAddress(maker.site, token);
  const label = address === undefined ? { files: [], problems: [] } : await labelFiles(view, address, tools);
  const apart = apartSheet(view, ordered.care, tools.fonts.measure);
  const papers = await makePapers({
    ...{ folder: desk.folder, slug: desk.slug, today: desk.today, entries: now.entries, offers: desk.offers, standing: now.standing },
    ...{ confirmed: ground.confirmed, handOver: ground.handOver, care: view, tools },
    library: {
      texts,
      finishes: { ...ordered.care.spec.library.finishes, ...finishes },
      woods: { ...ordered.care.spec.library.woods, ...woods },
    },
    show: desk.input.proposal.show,
    woods: woodsOf(ordered.care),
    carePdf: (shown) => carePaper(shown, apart, tools),
  });
  const files = [
    ...below('in', care.read),
    { path: viewName, bytes: Buffer.from(canonicalJson(view as unknown as Json), 'utf8') },
    ...below('care', await careLinkFiles(view, apart, desk.at, tools)),
    ...below('label', label.files),
    ...papers,
  ];
  const signed = signedNoteRemarks({ folder: desk.folder, slug: desk.slug, entries: now.entries, handOver: ground.handOver });
  return { files, problems: [...label.problems, ...signed] };
}

/**
 * Makes the next edition of the papers of the table that was handed over: its care for whoever has it, the label, and the client's
 * papers. Nothing is made where the newest edition says the same, unless `again` asks for it, or a new link of the care is wanted.
 *
 * Codes: `record/not-handed-over cli/hand-over-not-read`, those of the rules of care and of adding to the record.
 */
export async function makeTableEdition(
  desk: Desk,
  { again = false, renewLink = false }: EditionWish = {},
  tools: Tools = openTools(),
): Promise<EditionMade> {
  const now = lookNow(desk);
  const ground = groundOf(now);
  if (ground === undefined) return { problems: [] };
  const ordered = orderedTable(desk.folder, desk.slug, ground.confirmed, { measure: tools.fonts.measure });
  if ('problems' in ordered) return ordered;
  const care = composed(desk, ground, now, ordered);
  if (!('note' in care)) return care;
  const newest = now.standing.papers;
  const next = (newest?.edition ?? 0) + 1;
  if (newest !== undefined && newest.of === ground.of && !again && !renewLink) {
    const before = viewIn(desk, newest);
    if (before !== undefined && substance(before) === substance(viewOf(desk, ground, care, ordered, next)))
      return { standing: newest, problems: care.problems };
  }
  const making: Making = { desk, ground, now, care, ordered, tools };
  let told: readonly Problem[] = [];
  const outcome = await makeEdition({
    ...{ folder: desk.folder, shown: desk.shown, at: desk.at, zone: desk.zone, proposal: desk.slug },
    program: `leafwright ${programVersion}`,
    on: desk.today,
    of: ground.of,
    random: crypto.getRandomValues(new Uint8Array(tokenBytes)),
    renewLink,
    make: async (edition, token) => {
      const { files, problems } = await editionFiles(making, viewOf(desk, ground, care, ordered, edition), token);
      told = problems;
      return files;
    },
  });
  return {
    ...(outcome.edition === undefined ? {} : { edition: outcome.edition }),
    problems: [...care.problems, ...told, ...outcome.problems],
  };
}
