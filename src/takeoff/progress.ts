import type { Table } from '../design/index.ts';
import { isReached, type StageWord } from '../spec/index.ts';
import { type PartShare, shareOfParts, type TakenTable } from './part-share.ts';

/** What a table that took the place of another was begun with: what of the other serves in it. */
export interface Brought {
  /** Parts that were cut already, by id, with the stage to which they are made. */
  readonly parts: ReadonlyMap<string, StageWord>;
  /** m3 of each timber that was bought and not yet cut, of one table. */
  readonly timberM3: ReadonlyMap<string, number>;
  /** How many of each bought thing, by `thingOf`, of one table. */
  readonly things: ReadonlyMap<string, number>;
}

/** How far the work at an ordered table is. */
export interface Progress {
  /** Of what is made for it. */
  readonly stage: StageWord;
  /** Absent where it took no other's place: then everything in it is at that stage. */
  readonly brought?: Brought;
}

export const laterStage = (a: StageWord, b: StageWord): StageWord => (isReached(a, b) ? b : a);
const earlierStage = (a: StageWord, b: StageWord): StageWord => (isReached(a, b) ? a : b);

/** The stage that a part has reached. */
export const stageOfPart = ({ stage, brought }: Progress, id: string): StageWord => laterStage(stage, brought?.parts.get(id) ?? stage);

/** The furthest stage that anything of it has reached; bought timber is `timber-bought`. */
export function furthestStage({ stage, brought }: Progress): StageWord {
  const isOnRack = [...(brought?.timberM3.values() ?? [])].some((m3) => m3 > 0);
  return [...(brought?.parts.values() ?? [])].reduce(laterStage, isOnRack ? laterStage(stage, 'timber-bought') : stage);
}

/**
 * The stage by which terms that speak of a whole table go: the furthest that any of it has reached, but `finished` only once all of it is.
 *
 * @source a table of which a part must be made again is not finished: common practice, from memory.
 */
export const stageOfWhole = (progress: Progress): StageWord => laterStage(progress.stage, earlierStage(furthestStage(progress), 'glued'));

/** Parts that have reached one stage, and their share of the table. */
export interface StageGroup {
  readonly stage: StageWord;
  readonly ids: ReadonlySet<string>;
  readonly share: PartShare;
}

/** Some parts of a table by the stage that they have reached; all of them where none are named. */
export function byStage(taken: TakenTable, progress: Progress, isMeant: (id: string) => boolean = () => true): readonly StageGroup[] {
  const groups = new Map<StageWord, Set<string>>();
  for (const { id } of taken.table.parts) {
    if (!isMeant(id)) continue;
    const stage = stageOfPart(progress, id);
    const group = groups.get(stage);
    if (group === undefined) groups.set(stage, new Set([id]));
    else group.add(id);
  }
  return [...groups].map(([stage, ids]) => ({ stage, ids, share: shareOfParts(taken, ids) }));
}

export const isCut = (stage: StageWord): boolean => isReached('cut', stage);

/** Parts of wood that are not cut yet. */
export const uncutParts = (table: Table, progress: Progress): ReadonlySet<string> =>
  new Set(table.parts.flatMap(({ id, wood }) => (wood === undefined || isCut(stageOfPart(progress, id)) ? [] : [id])));

/** m3 of each timber for the parts of one table that are not cut: all but those named. */
export function timberToCut(taken: TakenTable, cut: Pick<ReadonlySet<string>, 'has'>): ReadonlyMap<string, number> {
  const uncut = taken.table.parts.flatMap(({ id, wood }) => (wood === undefined || cut.has(id) ? [] : [id]));
  return uncut.length === 0 ? new Map() : shareOfParts(taken, new Set(uncut)).timberM3;
}

/** Less than this of a timber is rounding, m3. */
export const LEAST_M3 = 1e-9;

/** m3 of each timber that is bought and not cut, of one table. */
export function timberOnRack(taken: TakenTable, progress: Progress): ReadonlyMap<string, number> {
  if (!isReached('timber-bought', progress.stage)) return progress.brought?.timberM3 ?? new Map();
  const uncut = uncutParts(taken.table, progress);
  return uncut.size === 0 ? new Map() : shareOfParts(taken, uncut).timberM3;
}
