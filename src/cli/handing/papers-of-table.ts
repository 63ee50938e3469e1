import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { CareView } from '../../care/index.ts';
import {
  type ClientView,
  type DeliveredTable,
  type PaperId,
  type PapersView,
  paperIds,
  paperLine,
  papersView,
  type StatedTimber,
} from '../../client/index.ts';
import type { Problem } from '../../problem/index.ts';
import { type AnyEntry, type EntryOf, type IssuedOffer, type NamedBytes, openSeal, type Standing, sha256Hex } from '../../record/index.ts';
import { fontFiles } from '../../site/index.ts';
import type { Library, WoodSpec } from '../../spec/index.ts';
import type { LengthStyle } from '../../units/index.ts';
import { writeDrawingsAsBuilt, writeMaterials, writeScope, writeStatement } from '../../write/client/index.ts';
import { sheetCss, sheetToSvg } from '../../write/index.ts';
import { type FrozenPage, frozenPages, withChoice, withDrawings } from '../draft/frozen-view.ts';
import type { Tools } from '../draft/produce.ts';
import { approvedScope, withoutPrice } from '../order/scope.ts';
import { statementOf } from '../order/statement.ts';
import { remark } from '../refusal.ts';
import { AS_JPEG, fitToLeave } from './fit-to-leave.ts';

/** What the papers of a table are made of: its record, its care, and what the library says of its woods and finishes. */
export interface PapersRequest {
  /** The proposal's folder, and its name. */
  readonly folder: string;
  readonly slug: string;
  /** The day of the edition, `2027-02-14`: the statement is as of that day. */
  readonly today: string;
  readonly entries: readonly AnyEntry[];
  readonly offers: readonly IssuedOffer[];
  readonly standing: Standing;
  /** What was ordered, and the hand-over of it. */
  readonly confirmed: EntryOf<'confirmed'>;
  readonly handOver: EntryOf<'hand-over'>;
  /** As they are frozen with the edition. */
  readonly library: Pick<Library, 'texts' | 'finishes' | 'woods'>;
  /** How the proposal shows lengths. */
  readonly show: LengthStyle;
  /** Keys of the woods of the table, the top's first. */
  readonly woods: readonly string[];
  readonly care: CareView;
  /** The care note on paper; asked for again under the name of a page that stands under another one. */
  readonly carePdf: (view: CareView) => Promise<Uint8Array>;
  readonly tools: Pick<Tools, 'documents' | 'pages'>;
}

interface Paper {
  readonly id: PaperId;
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Words of the hand-over that lie apart; nothing where they were erased. */
function sealedWords({ folder, handOver }: PapersRequest): { readonly timber: readonly StatedTimber[]; readonly glue?: string } {
  const opened = handOver.sealed === undefined ? 'gone' : openSeal(folder, handOver.sealed);
  if (typeof opened === 'string') return { timber: [] };
  const { timber, glue } = opened.data;
  return {
    timber: Array.isArray(timber) ? (timber as unknown as readonly StatedTimber[]) : [],
    ...(typeof glue === 'string' ? { glue } : {}),
  };
}

/** Who said yes, and when: an answer, or a note of somebody who decides. */
function yesOf({ entries }: PapersRequest, n: number): { readonly person?: string; readonly on: string } | undefined {
  const entry = entries.find((one) => one.n === n);
  if (entry?.kind !== 'answer' && entry?.kind !== 'note') return undefined;
  return { on: entry.on, ...(entry.person === undefined ? {} : { person: entry.person }) };
}

const woodOf = ({ library }: PapersRequest, id: string): WoodSpec | undefined =>
  Object.hasOwn(library.woods, id) ? library.woods[id] : undefined;
const finishName = ({ library }: PapersRequest, id: string): string => library.finishes[id]?.name ?? id;

/** The record of a delivered table as its papers tell it; a refinish since then stands in place of the finish of that day. */
function deliveredTable(request: PapersRequest): DeliveredTable {
  const { handOver, today, woods, standing, care } = request;
  const { timber, glue } = sealedWords(request);
  const refinish = standing.services.findLast(({ what, finish }) => what === 'refinish' && finish !== undefined);
  const applied = (one: { readonly finish: string; readonly product?: string | undefined; readonly batch?: string | undefined }) => ({
    spec: { name: finishName(request, one.finish) },
    ...(one.product === undefined ? {} : { product: one.product }),
    ...(one.batch === undefined ? {} : { batch: one.batch }),
  });
  const top =
    refinish?.finish === undefined
      ? handOver
      : { finish: refinish.finish, ...(refinish.batch === undefined ? {} : { batch: refinish.batch }) };
  const { glueUp, finish, delivery } = handOver.humidityPercent ?? {};
  return {
    piece: handOver.piece,
    finishedOn: refinish?.on ?? handOver.finishedOn,
    deliveredOn: handOver.on,
    editionOn: today,
    asBuilt: handOver.asBuilt.flatMap(({ what, agreed, built, tolerance, unit, yes }) => {
      if (unit !== 'mm') return [];
      const said = yes === undefined ? undefined : yesOf(request, yes);
      return [{ what, agreedMm: agreed, builtMm: built, toleranceMm: tolerance, ...(said === undefined ? {} : { yes: said }) }];
    }),
    ...(handOver.massKg === undefined ? {} : { massKg: handOver.massKg }),
    inCare: { size: care.size, mass: care.mass },
    finish: applied(top),
    ...(handOver.baseFinish === undefined ? {} : { baseFinish: applied(handOver.baseFinish) }),
    otherFinish: (handOver.otherFinish ?? []).map(({ ordered, yes }) => ({
      ordered: finishName(request, ordered),
      ...(yes === undefined ? {} : yesOf(request, yes)),
    })),
    moisturePercent: handOver.moisturePercent ?? [],
    humidityPercent: {
      ...(glueUp === undefined ? {} : { glueUp }),
      ...(finish === undefined ? {} : { finish }),
      ...(delivery === undefined ? {} : { delivery }),
    },
    timber: timber.map((one) => ({ ...one, wood: woodOf(request, one.wood)?.name ?? one.wood })),
    ...(glue === undefined ? {} : { glue }),
    woods: woods.flatMap((id) => woodOf(request, id) ?? []),
  };
}

/** One page as its reader knows it, with the design that was ordered; texts of today lie beneath its own. */
interface Reader {
  readonly suffix: string;
  readonly papers: PapersView;
  /** The view as it was frozen, for papers made of it alone. */
  readonly view: ClientView;
  readonly isAsChosen: boolean;
  /** It stands under another name than the maker's. */
  readonly isBranded: boolean;
}

function readerOf(request: PapersRequest, table: DeliveredTable, { suffix, view: told }: FrozenPage): Reader | undefined {
  const { folder, confirmed, library, care, show } = request;
  const { design: id, options } = confirmed.chosen;
  const asChosen = withChoice(folder, told, id, options, suffix);
  const chosen = asChosen ?? told;
  const drawn = withDrawings(folder, chosen);
  const view: ClientView = { ...(drawn ?? chosen), texts: { ...library.texts, ...told.texts } };
  const design = view.designs.find((one) => one.id === id);
  if (design === undefined) return undefined;
  const byDefault = told.letter?.designs.find((one) => one.id === id)?.combinations.find(({ isDefault }) => isDefault)?.options;
  const isStandard = byDefault === undefined ? options.length === 0 : byDefault.toSorted().join() === options.toSorted().join();
  const papers = papersView(table, {
    page: view,
    design,
    isDrawn: drawn !== undefined,
    ...(asChosen !== undefined || isStandard ? {} : { notDrawn: options }),
    show,
  });
  return { suffix, papers, view, isAsChosen: asChosen !== undefined, isBranded: told.maker.name !== care.maker.name };
}

/** The care note of a page: under the name that stands there, where it is another one. */
function careOf({ care }: PapersRequest, { view, isBranded }: Reader): CareView {
  return isBranded ? { ...care, maker: { ...view.maker, isInvented: care.maker.isInvented } } : care;
}

/** A file of the record, where it is there and is still the one that was recorded. */
function recordedFile(folder: string, { path, sha256 }: { readonly path: string; readonly sha256: string }): Uint8Array | undefined {
  try {
    const bytes = readFileSync(join(folder, ...path.split('/')));
    return sha256Hex(bytes) === sha256 ? bytes : undefined;
  } catch {
    return undefined;
  }
}

/** The scope with its approval: the very file where it was made for this page, else made anew for it, unsigned. */
async function scopeOf(request: PapersRequest, reader: Reader, readers: readonly Reader[]): Promise<Uint8Array | undefined> {
  const { folder, confirmed, entries, standing, offers, tools } = request;
  const { chosen, answers, on } = confirmed;
  const { view, isAsChosen } = reader;
  const seesPrice = view.audience === 'payer';
  const isFirst = readers.find((one) => one.view.audience === view.audience) === reader;
  const made = standing.scopes.findLast(
    (scope) =>
      scope.revision === chosen.revision &&
      scope.design === chosen.design &&
      scope.answers.join() === answers.join() &&
      scope.file.path.includes(withoutPrice) !== seesPrice,
  );
  const kept = made === undefined || !isFirst ? undefined : recordedFile(folder, made.file);
  if (kept !== undefined) return kept;
  const approval = { chosen, on, answers: entries.flatMap((one) => (one.kind === 'answer' && answers.includes(one.n) ? [one] : [])) };
  const scope = approvedScope({ folder, offers, standing, at: confirmed.at }, view, approval, undefined, isAsChosen);
  return scope === undefined || !reader.papers.isDrawn ? undefined : writeScope(view, chosen.design, tools.documents, scope);
}

type Signed = Pick<PapersRequest, 'folder' | 'slug' | 'entries' | 'handOver'>;

/** Papers that were signed at the delivery or later, oldest first, as they may go out; nothing where one may not. */
function signedFiles({ folder, entries, handOver }: Signed) {
  const later = entries.flatMap((one) =>
    one.kind === 'attached' && one.what === 'paper-signature' && one.to === handOver.n ? [one.file] : [],
  );
  const { paper } = handOver.acceptance ?? {};
  return [...(paper === undefined ? [] : [paper]), ...later].flatMap((file) => {
    const kept = recordedFile(folder, file);
    return kept === undefined ? [] : [{ path: file.path, leaving: fitToLeave(kept) }];
  });
}

/** That the signed paper is kept and is not among the client's papers, where it is of a kind that may not leave. Code: `cli/paper-stays`, a warning. */
export function signedNoteRemarks(request: Signed): readonly Problem[] {
  const files = signedFiles(request);
  const last = files.at(-1);
  if (last === undefined || files.some(({ leaving }) => leaving !== undefined)) return [];
  const { slug, handOver } = request;
  return [
    remark('paper-stays', "the signed paper is kept, and is not among the client's papers", {
      found: `${last.path}, in which a camera may have written place, day and device`,
      mend: `${AS_JPEG}: leafwright attach ${slug} FILE --to ${handOver.n} --what paper-signature --who PERSON, then leafwright care ${slug} --again`,
    }),
  ];
}

/** The signed delivery note: for the one who pays and for whoever signed it; it names the maker. */
function signedNote(request: PapersRequest, { view, isBranded }: Reader): Paper | undefined {
  const { handOver } = request;
  const fit = signedFiles(request).find(({ leaving }) => leaving !== undefined)?.leaving;
  const isTheirs = view.audience === 'payer' || view.letter?.people.some(({ id }) => id === handOver.person) === true;
  return fit === undefined || isBranded || !isTheirs
    ? undefined
    : { id: 'delivery-note', name: `delivery-note${fit.ending}`, bytes: fit.bytes };
}

async function papersOf(request: PapersRequest, reader: Reader, readers: readonly Reader[]): Promise<readonly Paper[]> {
  const { confirmed, carePdf, tools } = request;
  const { papers, view } = reader;
  const scope = await scopeOf(request, reader, readers);
  const statement = view.audience === 'payer' ? await writeStatement(view, statementOf(request, confirmed), tools.documents) : undefined;
  const note = signedNote(request, reader);
  const made: readonly Paper[] = [
    { id: 'care', name: 'care.pdf', bytes: await carePdf(careOf(request, reader)) },
    { id: 'drawings', name: 'drawings-as-built.pdf', bytes: await writeDrawingsAsBuilt(papers, tools.documents) },
    { id: 'materials', name: 'materials-and-origin.pdf', bytes: await writeMaterials(papers, tools.documents) },
    ...(scope === undefined ? [] : [{ id: 'scope', name: 'scope.pdf', bytes: scope } as const]),
    ...(statement === undefined ? [] : [{ id: 'statement', name: 'statement.pdf', bytes: statement } as const]),
    ...(note === undefined ? [] : [note]),
  ];
  return made.toSorted((a, b) => paperIds.indexOf(a.id) - paperIds.indexOf(b.id));
}

async function pageFiles(request: PapersRequest, reader: Reader, readers: readonly Reader[]): Promise<readonly NamedBytes[]> {
  const { papers, isBranded } = reader;
  const made = await papersOf(request, reader, readers);
  const page = await request.tools.pages.renderPapersPage({
    papers,
    lines: made.map(({ id, name, bytes }) => paperLine(papers, id, name, bytes.length)),
    ...(papers.isDrawn ? { svg: sheetToSvg(papers.design.picture, { idPrefix: 'picture' }) } : {}),
    sheetCss: sheetCss(),
    hasCarePage: !isBranded,
  });
  return [
    { path: 'index.html', bytes: Buffer.from(page, 'utf8') },
    ...fontFiles(),
    ...made.map(({ name, bytes }) => ({ path: name, bytes })),
  ];
}

/**
 * Makes the papers of a table for every page of the ordered revision: `papers/...` for the first page, `papers-<page>/...` for the
 * others. The same request gives the same bytes. Throws where the ordered revision is not there.
 */
export async function makePapers(request: PapersRequest): Promise<readonly NamedBytes[]> {
  const { revision, fingerprint } = request.confirmed.chosen;
  const table = deliveredTable(request);
  const readers = frozenPages(request.folder, revision, fingerprint).flatMap((page) => readerOf(request, table, page) ?? []);
  const files: NamedBytes[] = [];
  for (const reader of readers)
    for (const { path, bytes } of await pageFiles(request, reader, readers)) files.push({ path: `papers${reader.suffix}/${path}`, bytes });
  return files;
}
