import { isReached, type StageWord } from '../spec/index.ts';
import { byCodeUnit } from '../units/index.ts';
import { type LostThing, lostThings, type ThingAnew, thingsAnew } from './lost-things.ts';
import { stageOfOperation } from './operation-stage.ts';
import { partFates } from './part-fates.ts';
import { type PartShare, shareOfParts, type TakenTable } from './part-share.ts';
import {
  byStage,
  furthestStage,
  isCut,
  LEAST_M3,
  type Progress,
  type StageGroup,
  stageOfPart,
  timberOnRack,
  timberToCut,
} from './progress.ts';

/** Hours that a change costs, of one table. */
export interface ChangeHours {
  /** Key of the operation in the shop rates, or `own-work/<id>`. */
  readonly id: string;
  readonly says: string;
  /** Counted once for the job, however many tables. */
  readonly once: boolean;
  /** `again`: done for parts that are lost or changed; `trim`: the top cut to size; `strip`: a finish taken off. */
  readonly why: 'again' | 'trim' | 'strip';
  readonly hours: number;
}

/** Timber that a change costs, of one table: m3 to buy, with the yield addition. */
export interface ChangeTimber {
  readonly timber: string;
  /** `lost`: cut and of no use in the new table; `surplus`: bought, not cut. */
  readonly why: 'lost' | 'surplus';
  readonly m3: number;
}

/** What a change makes of the work done up to a stage. */
export interface ChangeWork {
  /** Names of the lost parts, with how many of each. */
  readonly lost: readonly { readonly name: string; readonly count: number }[];
  readonly topCutToSize: boolean;
  readonly timber: readonly ChangeTimber[];
  /** Bought things of no use in the new table, of one table. */
  readonly things: readonly LostThing[];
  /** Bought things that the new table takes and the ordered one did not, though the stage of their buying is passed. */
  readonly anew: readonly ThingAnew[];
  readonly hours: readonly ChangeHours[];
  /** Litres of finish on what is lost or stripped. */
  readonly finish: readonly { readonly finish: string; readonly litres: number }[];
  /** The maker's own hours that could not be given to a part: to be looked at. */
  readonly notCounted: readonly string[];
  readonly waitsFor: { readonly timber: boolean; readonly glue: boolean; readonly finish: boolean };
}

/** What is lost where another table is made from where the work is: wood and work on it by `woodWork`, bought things by `lostThings`. */
export function changeWork(ordered: TakenTable, draft: TakenTable, progress: Progress): ChangeWork {
  const work = woodWork(ordered, draft, progress);
  const { things, parts } = lostThings(ordered, draft, progress);
  return { ...work, lost: [...work.lost, ...namesOf(ordered, parts)], things, anew: thingsAnew(ordered, draft, progress.stage) };
}

/**
 * What is lost of the wood and the work on it. The difference of the two prices holds all that the new table needs;
 * what is listed here was done or bought for the ordered one and does not serve the new one, so it is paid beside it. A smaller
 * design credits nothing that was done or bought.
 *
 * Up to `ordered` nothing is lost. With the timber bought: what the new table needs less of each timber. Once cut: the rough timber
 * of parts that changed, and the hours whose stage is passed, in proportion to the parts; of a top that becomes smaller, what the
 * smaller one would not have needed, and from `glued` on the trimming. Once finished: a top cut to size, and whatever gets another
 * finish, is stripped, which takes as long as sanding it, and finished again.
 *
 * @source parts by volume of their rough timber where work is counted for the table; stripping like sanding: common practice, from memory.
 */
function woodWork(ordered: TakenTable, draft: TakenTable, progress: Progress): Omit<ChangeWork, 'things' | 'anew'> {
  const rack = timberOnRack(ordered, progress);
  const { lost: changed, kept, topCutToSize: isSmaller } = partFates(ordered.table, draft.table);
  const isMade = (id: string): boolean => isCut(stageOfPart(progress, id));
  const topId = ordered.table.top.partId;
  const lost = new Set([...changed].filter(isMade));
  const cut = new Set([...kept].flatMap(([id, now]) => (isMade(id) ? [now] : [])));
  const surplus = surplusOf(rack, draft, cut);
  if (![...kept.keys(), ...changed].some(isMade)) return surplusOnly(ordered, draft, rack, surplus);
  const topCutToSize = isSmaller && isMade(topId);
  const groups = byStage(ordered, progress, (id) => lost.has(id));
  const topStage = stageOfPart(progress, topId);
  const top = topCutToSize
    ? { old: shareOfParts(ordered, new Set([topId])), new: shareOfParts(draft, new Set([draft.table.top.partId])) }
    : undefined;
  const isFinished = (id: string): boolean => isReached('finished', stageOfPart(progress, id));
  const finished = shareOfParts(ordered, new Set([...kept.keys()].filter(isFinished)));
  const again = refinished(draft, finished, topCutToSize);
  const timber = new Map<string, number>();
  for (const { share } of groups) for (const [key, m3] of share.timberM3) add(timber, key, m3);
  for (const [key, m3] of top?.old.timberM3 ?? []) add(timber, key, Math.max(0, m3 - (top?.new.timberM3.get(key) ?? 0)));
  const hours = [
    ...lostHours(ordered, groups, new Map([...timber, ...surplus.map(({ timber: id, m3 }) => [id, m3 + (timber.get(id) ?? 0)] as const)]), {
      progress,
      isTouched: lost.size > 0 || topCutToSize,
    }),
    ...(top === undefined ? [] : cutToSizeHours(ordered, top, topStage)),
    ...finishHours(ordered, again),
  ];
  const litres = new Map<string, number>();
  const lostFinished = groups.filter(({ stage }) => isReached('finished', stage)).flatMap(({ share }) => share.surfaces);
  for (const one of [...lostFinished, ...again]) add(litres, one.finish, one.litres);
  return {
    lost: namesOf(ordered, lost),
    topCutToSize,
    timber: [...sorted(timber).map(([key, m3]) => ({ timber: key, why: 'lost' as const, m3 })), ...surplus],
    hours: merged(hours),
    finish: sorted(litres).map(([finish, amount]) => ({ finish, litres: amount })),
    notCounted: lost.has(topId) || topCutToSize ? ownWork(ordered).map(({ says }) => says) : [],
    waitsFor: {
      timber: timber.size > 0 && lost.size > 0,
      glue: groups.some(({ stage }) => isReached('glued', stage)),
      finish: lostFinished.length > 0 || again.length > 0 || groups.some(({ stage }) => isReached('finished', stage)),
    },
  };
}

const NOTHING_LOST: Omit<ChangeWork, 'things' | 'anew'> = {
  lost: [],
  topCutToSize: false,
  timber: [],
  hours: [],
  finish: [],
  notCounted: [],
  waitsFor: { timber: false, glue: false, finish: false },
};

/** What is on the rack and the new table's parts that are still to be cut do not need. */
function surplusOf(rack: ReadonlyMap<string, number>, draft: TakenTable, cut: ReadonlySet<string>): readonly ChangeTimber[] {
  if (rack.size === 0) return [];
  const needed = timberToCut(draft, cut);
  return sorted(rack).flatMap(([timber, had]) => {
    const m3 = had - (needed.get(timber) ?? 0);
    return m3 > LEAST_M3 ? [{ timber, why: 'surplus' as const, m3 }] : [];
  });
}

function surplusOnly(
  ordered: TakenTable,
  draft: TakenTable,
  rack: ReadonlyMap<string, number>,
  surplus: readonly ChangeTimber[],
): Omit<ChangeWork, 'things' | 'anew'> {
  if (rack.size === 0) return NOTHING_LOST;
  const more = draft.takeOff.timber.some(({ timber, toBuyM3 }) => toBuyM3 - (rack.get(timber) ?? 0) > LEAST_M3);
  const share = buyingShare(ordered, new Map(surplus.map(({ timber, m3 }) => [timber, m3])));
  const isBought = isReached(stageOfOperation(ordered.spec, 'buying'), 'timber-bought');
  const hours = isBought ? onceHours(ordered, 'buying', share) : [];
  return { ...NOTHING_LOST, timber: surplus, hours, waitsFor: { ...NOTHING_LOST.waitsFor, timber: more } };
}

/** The share of what was bought that has to be bought anew. */
function buyingShare({ takeOff }: TakenTable, lostM3: ReadonlyMap<string, number>): number {
  const all = takeOff.timber.reduce((total, { toBuyM3 }) => total + toBuyM3, 0);
  const lost = [...lostM3.values()].reduce((total, m3) => total + m3, 0);
  return all === 0 ? 0 : lost / all;
}

function onceHours({ takeOff }: TakenTable, id: string, share: number): readonly ChangeHours[] {
  const line = takeOff.operations.find((one) => one.id === id);
  return line === undefined || share <= 0
    ? []
    : [{ id, says: line.says, once: line.per === 'job' || line.per === 'trip', why: 'again', hours: line.hours.mid * share }];
}

function lostHours(
  ordered: TakenTable,
  groups: readonly StageGroup[],
  timber: ReadonlyMap<string, number>,
  { progress, isTouched }: { readonly progress: Progress; readonly isTouched: boolean },
): readonly ChangeHours[] {
  const { operations } = ordered.spec.library.rates;
  const isDone = (id: string, stage: StageWord): boolean => isReached(stageOfOperation(ordered.spec, id), stage);
  const counted = groups.flatMap(({ stage, share }) =>
    [...share.quantities].flatMap(([id, quantity]): readonly ChangeHours[] => {
      const rate = operations[id];
      return rate === undefined || !isDone(id, stage)
        ? []
        : [{ id, says: rate.says, once: false, why: 'again', hours: rate.mid * quantity }];
    }),
  );
  const ofBase = (id: string): number => groups.reduce((sum, { stage, share }) => sum + (isDone(id, stage) ? share.ofBase : 0), 0);
  const whole = (id: string): number => (isTouched && isDone(id, progress.stage) ? 1 : 0);
  /** What is counted once: buying by timber, assembly and own work by the base, fitting and handing over anew; drawing is in the handling. */
  const shares: Readonly<Record<string, number>> = {
    buying: isDone('buying', furthestStage(progress)) ? buyingShare(ordered, timber) : 0,
    assembly: ofBase('assembly'),
    fixing: whole('fixing'),
    'hand-over': whole('hand-over'),
    delivery: whole('delivery'),
  };
  const once = Object.entries(shares).flatMap(([id, part]) => onceHours(ordered, id, part));
  const own = ownWork(ordered).flatMap(({ id, says, hours }): readonly ChangeHours[] => {
    const part = ofBase(id);
    return part > 0 ? [{ id, says, once: false, why: 'again', hours: hours.mid * part }] : [];
  });
  return [...counted, ...once, ...own];
}

const ownWork = ({ takeOff }: TakenTable) => takeOff.operations.filter(({ per }) => per === 'own');

/** Work that belongs to a surface and its finish. */
const ON_SURFACES: readonly string[] = ['sanding', 'wiped-coat', 'sprayed-coat', 'brushed-coat', 'between-coats'];

/** A top that becomes smaller: what was done of it beyond the smaller one; the trimming once it is glued; its edge once it is shaped. */
function cutToSizeHours(
  { spec }: TakenTable,
  top: { readonly old: PartShare; readonly new: PartShare },
  stage: StageWord,
): readonly ChangeHours[] {
  const { operations } = spec.library.rates;
  const isDone = (id: string): boolean => isReached(stageOfOperation(spec, id), stage);
  const done = [...top.old.quantities].flatMap(([id, quantity]): readonly ChangeHours[] => {
    const rate = operations[id];
    if (rate === undefined || !isDone(id) || ON_SURFACES.includes(id)) return [];
    const isOfEdge = id === 'edge-shaping' || id === 'under-chamfer';
    const beyond = isOfEdge ? quantity : Math.max(0, quantity - (top.new.quantities.get(id) ?? 0));
    return beyond === 0 ? [] : [{ id, says: rate.says, once: false, why: 'again', hours: rate.mid * beyond }];
  });
  const trim = operations['panel-trim'];
  const trimmed: readonly ChangeHours[] =
    trim === undefined || !isReached('glued', stage)
      ? []
      : [{ id: 'panel-trim', says: trim.says, once: false, why: 'trim', hours: trim.mid }];
  return [...done, ...trimmed];
}

/** Surfaces of parts that stay and still have to be stripped and finished again. */
function refinished(draft: TakenTable, kept: PartShare, topCutToSize: boolean): PartShare['surfaces'] {
  const next = new Map(draft.takeOff.finish.map(({ surface, finish }) => [surface, finish]));
  return kept.surfaces.filter(
    ({ surface, finish }) => (topCutToSize && surface !== 'base') || (next.has(surface) && next.get(surface) !== finish),
  );
}

function finishHours({ spec }: TakenTable, again: PartShare['surfaces']): readonly ChangeHours[] {
  const { operations } = spec.library.rates;
  const isDone = (id: string): boolean => isReached(stageOfOperation(spec, id), 'finished');
  return again.flatMap(({ method, areaM2, coats }): readonly ChangeHours[] => {
    const quantities: readonly (readonly [string, number])[] = [
      ['sanding', areaM2],
      [`${method}-coat`, areaM2 * coats],
      ['between-coats', areaM2 * Math.max(0, coats - 1)],
    ];
    const redone = quantities.flatMap(([id, quantity]): readonly ChangeHours[] => {
      const rate = operations[id];
      return rate === undefined || !isDone(id) ? [] : [{ id, says: rate.says, once: false, why: 'again', hours: rate.mid * quantity }];
    });
    const { sanding } = operations;
    return sanding === undefined
      ? redone
      : [...redone, { id: 'sanding', says: sanding.says, once: false, why: 'strip', hours: sanding.mid * areaM2 }];
  });
}

function merged(all: readonly ChangeHours[]): readonly ChangeHours[] {
  const lines = new Map<string, ChangeHours>();
  for (const one of all) {
    if (one.hours <= 0) continue;
    const key = `${one.id} ${one.why}`;
    lines.set(key, { ...one, hours: one.hours + (lines.get(key)?.hours ?? 0) });
  }
  return [...lines.values()];
}

function namesOf({ table, spec }: TakenTable, ids: ReadonlySet<string>): ChangeWork['lost'] {
  const counts = new Map<string, number>();
  for (const part of table.parts) if (ids.has(part.id)) add(counts, spec.library.texts[part.name] ?? part.name, 1);
  return [...counts].map(([name, count]) => ({ name, count }));
}

function add(to: Map<string, number>, key: string, amount: number): void {
  if (amount > 0) to.set(key, (to.get(key) ?? 0) + amount);
}

const sorted = (map: ReadonlyMap<string, number>): readonly (readonly [string, number])[] => [...map].sort(([a], [b]) => byCodeUnit(a, b));
