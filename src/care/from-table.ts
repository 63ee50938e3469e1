import type { Assessment } from '../assess/index.ts';
import type { Table } from '../design/index.ts';
import { type CareBook, type EffectiveSpec, type FinishSpec, movementRangeMm, type ProposalSpec } from '../spec/index.ts';
import type { TakeOff } from '../takeoff/index.ts';
import type { CalendarDate, LengthStyle } from '../units/index.ts';
import { constructionFacts, placeFacts, SLIDING } from './built-facts.ts';
import { apartSteps, carriedPieces, liftBy } from './carrying.ts';
import type { CareFinish, CareInput, CareMovement, CareWood } from './input.ts';
import { sayText } from './words.ts';

/** The table that was ordered, as it was computed from what was frozen with it. */
export interface CareTable {
  readonly spec: EffectiveSpec;
  readonly table: Table;
  readonly assessment: Assessment;
  readonly takeOff: TakeOff;
  /** How steady it is, in the sentences of its own page. */
  readonly steadiness: readonly string[];
}

/** A finish as it was put on: its key in the library, and what the tin said. */
export interface AppliedFinish {
  readonly id: string;
  readonly product?: string;
  readonly batch?: string;
}

/** What the hand-over, or a later service, says of the table. */
export interface HandedOver {
  readonly finish: AppliedFinish;
  /** Absent where the base has that of the top. */
  readonly baseFinish?: AppliedFinish;
  /** The last coat on the top. */
  readonly finishedOn: CalendarDate;
  readonly deliveredOn: CalendarDate;
  /** The last time it was refreshed, where that was after the delivery. */
  readonly refreshedOn?: CalendarDate;
  /** The last coat with which it left the workshop, where it was finished anew since. */
  readonly madeOn?: CalendarDate;
  /** The whole table as it was weighed, and the top across its boards as it was measured; as reckoned where silent. */
  readonly massKg?: number;
  readonly topAcrossMm?: number;
}

/** What the words of a care note come from. */
export interface CareWords {
  readonly book: CareBook;
  readonly texts: Readonly<Record<string, string>>;
  readonly finishes: Readonly<Record<string, FinishSpec>>;
}

/** A batch whose product nobody wrote down is told with the name of its finish. */
function careFinish({ id, product, batch }: AppliedFinish, finishes: CareWords['finishes']): CareFinish {
  const spec = finishes[id];
  if (spec === undefined) throw new RangeError(`no finish ${id} in the library`);
  const tin = batch === undefined ? product : `${product ?? spec.name}, ${batch}`;
  return { id, spec, ...(tin === undefined ? {} : { product: tin }) };
}

/** Woods that are seen, the top's first, each once. */
export function woodsOf({ spec, table }: Pick<CareTable, 'spec' | 'table'>): readonly string[] {
  const top = table.parts.find(({ id }) => id === table.top.partId)?.wood;
  const others = table.parts.filter(({ role }) => role !== 'drawer' && role !== 'top').flatMap(({ wood }) => wood ?? []);
  return [...new Set([...(top === undefined ? [] : [top]), ...others])].filter((id) => spec.library.woods[id] !== undefined);
}

function careWood(id: string, { spec }: CareTable): CareWood {
  const wood = spec.library.woods[id];
  if (wood === undefined) throw new RangeError(`no wood ${id} in the library`);
  return { id, name: wood.name, hardness: wood.hardness, ...(wood.ageing === undefined ? {} : { ageing: wood.ageing }) };
}

/** The movement of the top and of each panel of wood, the top first; parts that move alike are told once. */
function careMovement(
  { spec, table, assessment }: CareTable,
  { topAcrossMm }: HandedOver,
  words: Pick<CareInput, 'texts' | 'language'>,
): readonly CareMovement[] {
  const all = assessment.movement.map((one): CareMovement => {
    const part = table.parts.find(({ id }) => id === one.partId);
    const wood = spec.library.woods[one.wood];
    if (wood === undefined) throw new RangeError(`no wood ${one.wood} in the library`);
    const isTop = one.partId === table.top.partId;
    const name = isTop || part === undefined ? '' : (words.texts[part.name] ?? part.name);
    const acrossMm = isTop ? (topAcrossMm ?? one.acrossMm) : one.acrossMm;
    // Either equation is in proportion to the size across.
    return { part: name, isTop, acrossMm, ...movementRangeMm((one.changeMm * acrossMm) / one.acrossMm, one.sawn, wood) };
  });
  const told = new Map(all.map((one) => [JSON.stringify([one.part, Math.round(one.acrossMm), Math.round(one.highMm)]), one]));
  return [...told.values()].toSorted((a, b) => Number(b.isTop) - Number(a.isTop));
}

/**
 * Everything that decides what the care note of a table says: from the table as it was ordered, what its hand-over or a later service
 * recorded, and the room and household as they are known now.
 *
 * @param place language, units, room and household of the proposal
 * @throws RangeError where a finish or wood is not in the library; Error where the texts lack a key
 */
export function careInputOf(
  of: CareTable,
  handed: HandedOver,
  place: Pick<ProposalSpec, 'language' | 'show' | 'room' | 'household'>,
  { book, texts, finishes }: CareWords,
): CareInput {
  const { spec, table, assessment, takeOff } = of;
  const { language, show, room } = place;
  const words = { texts, language };
  const construction = constructionFacts(table, spec.table, takeOff.hardware);
  const massKg = handed.massKg ?? assessment.massKg;
  // A scale tells of the whole alone: its pieces are taken to differ from what was reckoned in the same proportion.
  const pieces = carriedPieces(table, assessment.fit.pieces, words).map((piece) => ({
    ...piece,
    massKg: (piece.massKg * massKg) / assessment.massKg,
  }));
  const { kind } = table.fixing;
  const style: LengthStyle = show;
  return {
    book,
    texts,
    language,
    shown: { style, locale: language },
    finish: careFinish(handed.finish, finishes),
    ...(handed.baseFinish === undefined || handed.baseFinish.id === handed.finish.id
      ? {}
      : { baseFinish: careFinish(handed.baseFinish, finishes) }),
    woods: woodsOf(of).map((id) => careWood(id, of)),
    construction,
    ...(SLIDING.includes(kind) ? { fixings: sayText(words, `care.fixings.${kind}`) } : {}),
    place: {
      humidityLowPercent: room.humidity.low.percent,
      humidityHighPercent: room.humidity.high.percent,
      facts: placeFacts(place, spec.library.maker.timeZone),
    },
    movement: careMovement(of, handed, words),
    carrying: {
      massKg,
      ...(handed.massKg === undefined ? {} : { isWeighed: true }),
      longestMm: Math.max(table.overallMm.length, table.overallMm.width, table.overallMm.height),
      liftBy: liftBy(table, assessment.fit.pieces, words),
      pieces,
      apart: apartSteps(table, assessment.fit.pieces, construction.includes('drawer'), words),
    },
    steadiness: of.steadiness,
    finishedOn: handed.finishedOn,
    deliveredOn: handed.deliveredOn,
    ...(handed.refreshedOn === undefined ? {} : { refreshedOn: handed.refreshedOn }),
    ...(handed.madeOn === undefined ? {} : { madeOn: handed.madeOn }),
  };
}
