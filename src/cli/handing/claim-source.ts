import { equilibriumMoisturePercent, type SinceThen, sinceThen } from '../../assess/index.ts';
import type { ClaimSource, ClaimStep, KeptFile, TopExpected } from '../../client/index.ts';
import { type AnyEntry, type ClaimStanding, type EntryOf, openSeal, type Standing } from '../../record/index.ts';
import type { Library, TermsSpec, WoodSpec } from '../../spec/index.ts';
import { addMonths, isoDate, parseDate } from '../../units/index.ts';
import { topAcrossBuilt, topAcrossPath } from './as-built.ts';
import type { OrderedTable } from './ordered-table.ts';

/** Airs for which a sheet says what the top comes to: dry winters to damp summers, in percent. @source common practice */
const AIRS = [25, 35, 45, 55, 65] as const;

/** What a claim is read from. */
export interface ClaimRecord {
  /** The proposal's folder. */
  readonly folder: string;
  readonly entries: readonly AnyEntry[];
  readonly standing: Standing;
  readonly handOver: EntryOf<'hand-over'>;
  readonly ordered: OrderedTable;
  readonly finishes: Library['finishes'];
}

/** What was measured last at a table: in its air, in its boards, across its top. */
export interface MeasuredLast {
  readonly humidityPercent?: number;
  readonly celsius?: number;
  readonly moisturePercent?: readonly number[];
  readonly acrossMm?: number;
}

const mean = (numbers: readonly number[]): number => numbers.reduce((sum, one) => sum + one, 0) / numbers.length;

/** The top of an ordered table, with what its movement is reckoned from; nothing where the moisture of its boards was not recorded, or it is not of wood. */
function topOf({ care: { spec, table, assessment } }: OrderedTable, handOver: EntryOf<'hand-over'>) {
  const top = assessment.movement.find(({ partId }) => partId === table.top.partId);
  const wood: WoodSpec | undefined = top === undefined ? undefined : spec.library.woods[top.wood];
  const boards = handOver.moisturePercent ?? [];
  if (top === undefined || wood === undefined || boards.length === 0) return undefined;
  const builtMm = topAcrossBuilt(table, handOver);
  return {
    isMeasured: builtMm !== undefined,
    ground: {
      ...{ wood, sawn: top.sawn, builtMm: builtMm ?? top.acrossMm },
      ...{ moisturePercent: mean(boards), celsius: spec.proposal.room.temperature.celsius },
    },
  };
}

/** What the top was to be expected to do since it was built; nothing where the record does not hold what that is reckoned from, or nothing was measured now. */
export function expectedSince(ordered: OrderedTable, handOver: EntryOf<'hand-over'>, last: MeasuredLast): SinceThen | undefined {
  const top = topOf(ordered, handOver);
  const { humidityPercent, celsius, moisturePercent, acrossMm } = last;
  if (top === undefined || (humidityPercent === undefined && moisturePercent === undefined)) return undefined;
  return sinceThen({
    ...top.ground,
    ...(celsius === undefined ? {} : { celsius }),
    ...(humidityPercent === undefined ? {} : { humidityPercent }),
    ...(moisturePercent === undefined ? {} : { moistureNowPercent: mean(moisturePercent) }),
    // A size that nobody measured when it was built can not have changed by a known amount.
    ...(acrossMm === undefined || !top.isMeasured ? {} : { measuredMm: acrossMm }),
  });
}

/** The words that were agreed on what the maker stands for, and until when where they name a time. */
export function warrantyOf({ sections, warranty }: TermsSpec, deliveredOn: string): ClaimSource['warranty'] {
  const section = sections.find(({ title }) => title === warranty?.section);
  const from = parseDate(deliveredOn);
  const until = warranty?.months === undefined || from === undefined ? undefined : isoDate(addMonths(from, warranty.months));
  return section === undefined
    ? undefined
    : { title: section.title, says: section.body.replaceAll(/\s+/g, ' ').trim(), ...(until === undefined ? {} : { until }) };
}

/** What lies apart of an entry; that it was erased where it was. */
function sealedOf(
  folder: string,
  { sealed }: AnyEntry,
): { readonly words?: string; readonly name?: string; readonly defects: readonly string[] } {
  const opened = sealed === undefined ? undefined : openSeal(folder, sealed);
  if (opened === undefined) return { defects: [] };
  if (typeof opened === 'string') return { words: '(erased)', defects: [] };
  const { words, who, defects } = opened.data;
  return {
    ...(typeof words === 'string' && words !== '' ? { words } : {}),
    ...(typeof who === 'string' && who !== '' ? { name: who } : {}),
    defects: Array.isArray(defects) ? defects.map(String) : [],
  };
}

/** Photographs that were laid beside an entry later. */
const attachedTo = (entries: readonly AnyEntry[], n: number): readonly KeptFile[] =>
  entries.flatMap((entry) => (entry.kind === 'attached' && entry.what === 'photograph' && entry.to === n ? [entry.file] : []));

function stepOf({ folder, entries }: ClaimRecord, entry: EntryOf<'claim'>): ClaimStep {
  const { n, on, humidityPercent, celsius, moisturePercent = [], sizes = [], photographs = [] } = entry;
  const { words } = sealedOf(folder, entry);
  return {
    n,
    on,
    ...(words === undefined ? {} : { words }),
    ...(humidityPercent === undefined ? {} : { humidityPercent }),
    ...(celsius === undefined ? {} : { celsius }),
    ...{ moisturePercent, sizes, photographs: [...photographs, ...attachedTo(entries, n)] },
  };
}

/** What was measured last, of each kind, by the entries of a claim. */
export function measuredLast(steps: readonly ClaimStep[], across: string): MeasuredLast {
  const air = steps.findLast(({ humidityPercent }) => humidityPercent !== undefined);
  const boards = steps.findLast(({ moisturePercent }) => moisturePercent.length > 0);
  const size = steps.flatMap(({ sizes }) => sizes).findLast(({ what }) => what === across);
  return {
    ...(air?.humidityPercent === undefined ? {} : { humidityPercent: air.humidityPercent }),
    ...(air?.celsius === undefined ? {} : { celsius: air.celsius }),
    ...(boards === undefined ? {} : { moisturePercent: boards.moisturePercent }),
    ...(size === undefined ? {} : { acrossMm: size.mm }),
  };
}

function expectedOf({ ordered, handOver }: ClaimRecord, steps: readonly ClaimStep[]): TopExpected | undefined {
  const top = topOf(ordered, handOver);
  if (top === undefined) return undefined;
  const { table, spec } = ordered.care;
  const what = topAcrossPath(table);
  const last = measuredLast(steps, what);
  const since = expectedSince(ordered, handOver, last);
  const { humidity } = spec.proposal.room;
  const { ground, isMeasured } = top;
  return {
    ...{ what, builtMm: ground.builtMm, isMeasured, moisturePercent: ground.moisturePercent, celsius: ground.celsius },
    room: { lowPercent: humidity.low.percent, highPercent: humidity.high.percent },
    airs: AIRS.map((humidityPercent) => ({
      humidityPercent,
      moisturePercent: equilibriumMoisturePercent(ground.celsius, humidityPercent),
      expectedMm: sinceThen({ ...ground, humidityPercent }).expectedMm,
    })),
    ...(since === undefined
      ? {}
      : {
          now: {
            by: last.moisturePercent === undefined ? ('air' as const) : ('boards' as const),
            ...(last.humidityPercent === undefined ? {} : { humidityPercent: last.humidityPercent }),
            moisturePercent: since.moistureNowPercent,
            expectedMm: since.expectedMm,
            ...(last.acrossMm === undefined ? {} : { measuredMm: last.acrossMm }),
            ...(since.result === undefined ? {} : { result: since.result }),
          },
        }),
  };
}

/** Who said yes to a difference, and when. */
function yesOf(entries: readonly AnyEntry[], n: number | undefined): { readonly person?: string; readonly on: string } | undefined {
  const entry = n === undefined ? undefined : entries.find((one) => one.n === n);
  if (entry?.kind !== 'answer' && entry?.kind !== 'note') return undefined;
  return { on: entry.on, ...(entry.person === undefined ? {} : { person: entry.person }) };
}

function tableOf({ entries, handOver, finishes }: Pick<ClaimRecord, 'entries' | 'handOver' | 'finishes'>): ClaimSource['table'] {
  const { finish: glued, glueUp, delivery } = handOver.humidityPercent ?? {};
  const applied = (one: { readonly finish: string; readonly product?: string | undefined; readonly batch?: string | undefined }) => ({
    spec: { name: finishes[one.finish]?.name ?? one.finish },
    ...(one.product === undefined ? {} : { product: one.product }),
    ...(one.batch === undefined ? {} : { batch: one.batch }),
  });
  return {
    piece: handOver.piece,
    finishedOn: handOver.finishedOn,
    deliveredOn: handOver.on,
    asBuilt: handOver.asBuilt.flatMap(({ what, agreed, built, tolerance, unit, yes }) => {
      const said = yesOf(entries, yes);
      return unit === 'mm'
        ? [{ what, agreedMm: agreed, builtMm: built, toleranceMm: tolerance, ...(said === undefined ? {} : { yes: said }) }]
        : [];
    }),
    ...(handOver.massKg === undefined ? {} : { massKg: handOver.massKg }),
    finish: applied(handOver),
    ...(handOver.baseFinish === undefined ? {} : { baseFinish: applied(handOver.baseFinish) }),
    otherFinish: (handOver.otherFinish ?? []).map(({ ordered, yes }) => ({
      ordered: finishes[ordered]?.name ?? ordered,
      ...yesOf(entries, yes),
    })),
    moisturePercent: handOver.moisturePercent ?? [],
    humidityPercent: {
      ...(glueUp === undefined ? {} : { glueUp }),
      ...(glued === undefined ? {} : { finish: glued }),
      ...(delivery === undefined ? {} : { delivery }),
    },
  };
}

/** What was recorded when the table was handed over, which every claim starts from. */
export const baselineOf = (record: Pick<ClaimRecord, 'entries' | 'handOver' | 'finishes'>): Pick<ClaimSource, 'table' | 'photographs'> => ({
  table: tableOf(record),
  photographs: [...record.handOver.photographs, ...attachedTo(record.entries, record.handOver.n)],
});

/** Everything on record of a claim, beginning with the hand-over that it starts from. */
export function claimSource(record: ClaimRecord, { opened, lookedAt, settled }: ClaimStanding): ClaimSource {
  const { folder, standing, handOver, ordered, finishes } = record;
  const said = sealedOf(folder, handOver).defects;
  const first = stepOf(record, opened);
  const looked = lookedAt.map((entry) => stepOf(record, entry));
  const last = settled === undefined ? [] : [stepOf(record, settled)];
  const expected = expectedOf(record, [first, ...looked, ...last]);
  const { name } = sealedOf(folder, opened);
  const warranty = warrantyOf(ordered.care.spec.library.terms, handOver.on);
  return {
    ...baselineOf(record),
    handOver: handOver.n,
    inspected: handOver.acceptance?.inspected === true,
    ...(standing.accepted === undefined ? {} : { signedOn: standing.accepted.on }),
    defects: (handOver.acceptance?.defects ?? []).map(({ by }, i) => ({
      says: said[i] ?? '(erased)',
      by,
      isOpen: standing.openDefects.some(({ defect }) => defect === i + 1),
    })),
    services: standing.services.map((entry) => {
      const { on, what, finish, batch, defects = [] } = entry;
      const { words } = sealedOf(folder, entry);
      return {
        ...{ on, what, defects },
        ...(finish === undefined ? {} : { finish: finishes[finish]?.name ?? finish }),
        ...(batch === undefined ? {} : { batch }),
        ...(words === undefined ? {} : { words }),
      };
    }),
    measuredLater: standing.measured.filter(({ when }) => when === 'later').map(({ on, what, percent }) => ({ on, what, percent })),
    ...(warranty === undefined ? {} : { warranty }),
    opened: {
      ...first,
      about: opened.about ?? 'other',
      ...(opened.person === undefined ? {} : { person: opened.person }),
      ...(name === undefined ? {} : { name }),
    },
    lookedAt: looked,
    ...(settled === undefined ? {} : { settled: { ...stepOf(record, settled), outcome: settled.outcome ?? 'withdrawn' } }),
    ...(expected === undefined ? {} : { expected }),
  };
}
