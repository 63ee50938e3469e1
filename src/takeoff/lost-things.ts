import type { HardwareSpec, StageWord } from '../spec/index.ts';
import { isReached } from '../spec/index.ts';
import { piecesOf } from './hardware.ts';
import { materialFates } from './part-fates.ts';
import type { TakenTable } from './part-share.ts';
import { furthestStage, type Progress } from './progress.ts';
import type { HardwareLine } from './take-off.ts';

/** Bought things of one table that are of no use in another: its line in the take-off, with how many. */
export interface LostThing extends Pick<HardwareLine, 'id' | 'from' | 'says' | 'count'> {
  /** Share of its price that is not lost: it goes back, or into another table. */
  readonly usablePercent: number;
}

/** A thing that has to be bought once more, of one table; days until it has come, where the maker stated them. */
export interface ThingAnew extends Pick<HardwareLine, 'id' | 'from' | 'says' | 'count'> {
  readonly days?: number;
}

/** What a change makes of bought things: hardware, and parts that are not of wood. */
export interface LostThings {
  readonly things: readonly LostThing[];
  /** Parts of metal and the like that are bought and have no like in the new table. */
  readonly parts: ReadonlySet<string>;
}

/** The maker's own entry behind a line. */
function ownEntry({ spec }: TakenTable, { id, kind, from }: HardwareLine): HardwareSpec | undefined {
  if (from === 'table') return spec.table.hardware[id];
  return Object.values(spec.table.hardware).find((entry) => entry.kind === kind && entry.price === undefined);
}

/**
 * The stage by whose end a thing is bought: as the table says, else the shop rates, else with the timber.
 *
 * @source what takes weeks to come is ordered with the timber: common practice of a small shop, from memory.
 */
const stageOfThing = (taken: TakenTable, line: HardwareLine): StageWord =>
  ownEntry(taken, line)?.stage ?? taken.spec.library.rates.hardware[line.kind]?.stage ?? 'timber-bought';

/**
 * The share of its price that a bought thing is not charged, until the table is glued up and it is built in: as the table says, else
 * the shop rates; nothing where both are silent, for what nobody said can go back.
 */
function usablePercentOf(taken: TakenTable, line: HardwareLine, stage: StageWord): number {
  if (isReached('glued', stage)) return 0;
  return (ownEntry(taken, line)?.usableElsewhere ?? taken.spec.library.rates.hardware[line.kind]?.usableElsewhere)?.percent ?? 0;
}

/** How many of a line are bought: all from the stage of their buying on, before it what was brought from a table whose place it took. */
function boughtOf(taken: TakenTable, line: HardwareLine, { stage, brought }: Progress): number {
  if (isReached(stageOfThing(taken, line), stage)) return line.count;
  return Math.min(line.count, brought?.things.get(thingOf(taken, line)) ?? 0);
}

/** Things of one table that are bought, each with the share of its price that can be used elsewhere: what was brought by how far that was. */
export function boughtThings(taken: TakenTable, progress: Progress): readonly LostThing[] {
  return taken.takeOff.hardware.flatMap((line): readonly LostThing[] => {
    const { id, from, says } = line;
    const bought = boughtOf(taken, line, progress);
    const before = Math.min(bought, progress.brought?.things.get(thingOf(taken, line)) ?? 0);
    const [usable, usableBefore] = [progress.stage, furthestStage(progress)].map((stage) => usablePercentOf(taken, line, stage));
    const parts =
      usable === usableBefore ? [[bought, usable] as const] : [[before, usableBefore] as const, [bought - before, usable] as const];
    return parts.flatMap(([count, usablePercent = 0]) => (count === 0 ? [] : [{ id, from, says, count, usablePercent }]));
  });
}

/** Parts of metal and the like that one table has, bought by a stage, and the other has no like of. */
export const lostMetal = (of: TakenTable, other: TakenTable, stage: StageWord): ReadonlySet<string> =>
  lostThings(of, other, { stage }).parts;

/** What the new table takes of the things that were bought for the ordered one, by `thingOf`. */
export function broughtThings(ordered: TakenTable, draft: TakenTable, progress: Progress): ReadonlyMap<string, number> {
  const { kept } = materialFates(ordered.table, draft.table);
  const had = new Map<string, number>();
  for (const line of ordered.takeOff.hardware) add(had, thingOf(ordered, line), boughtOf(ordered, line, progress));
  const fits = new Map<string, number>();
  for (const part of ordered.table.parts) if (kept.has(part.id)) add(fits, part.material ?? '', piecesOf(ordered.spec, part));
  return new Map(
    draft.takeOff.hardware.map((line) => {
      const thing = thingOf(draft, line);
      const isCutToSize = draft.table.parts.some(({ material }) => material === line.kind);
      const most = isCutToSize ? Math.min(line.count, fits.get(line.kind) ?? 0) : line.count;
      return [thing, Math.min(most, had.get(thing) ?? 0)];
    }),
  );
}

/** Things that would have been bought by a stage, and that the ordered table has no like of: they are bought anew, and come when they come. */
export function thingsAnew(ordered: TakenTable, draft: TakenTable, stage: StageWord): readonly ThingAnew[] {
  return lostThings(draft, ordered, { stage }).things.map(({ id, from, says, count }): ThingAnew => {
    const line = draft.takeOff.hardware.find((one) => one.id === id && one.from === from);
    const days = line === undefined ? undefined : (ownEntry(draft, line)?.days ?? draft.spec.library.rates.hardware[line.kind]?.days);
    return { id, from, says, count, ...(days === undefined ? {} : { days }) };
  });
}

/** Things are the same where they are called the same and one weighs the same. */
const thingOf = (taken: TakenTable, line: HardwareLine): string => `${line.kind} ${ownEntry(taken, line)?.mass?.kg ?? ''}`;

/**
 * Things that were bought for the ordered table, and that the new one does not take. What is cut to the size of a part is
 * lost with the part; of all else what the new table needs less of it.
 */
export function lostThings(ordered: TakenTable, draft: TakenTable, progress: Progress): LostThings {
  const { lost } = materialFates(ordered.table, draft.table);
  const gone = ordered.table.parts.filter(({ id }) => lost.has(id));
  const serving = new Map<string, number>();
  for (const line of draft.takeOff.hardware) add(serving, thingOf(draft, line), line.count);
  const cut = new Map<string, number>();
  for (const part of gone) add(cut, part.material ?? '', piecesOf(ordered.spec, part));
  const parts = new Set<string>();
  const things = ordered.takeOff.hardware.flatMap((line): readonly LostThing[] => {
    const { id, kind, from, says } = line;
    const bought = boughtOf(ordered, line, progress);
    if (bought === 0) return [];
    for (const part of gone) if (part.material === kind) parts.add(part.id);
    const isCutToSize = ordered.table.parts.some(({ material }) => material === kind);
    const count = isCutToSize ? take(cut, kind, bought) : bought - take(serving, thingOf(ordered, line), bought);
    return count === 0 ? [] : [{ id, from, says, count, usablePercent: usablePercentOf(ordered, line, furthestStage(progress)) }];
  });
  return { things, parts };
}

function add(to: Map<string, number>, key: string, count: number): void {
  to.set(key, (to.get(key) ?? 0) + count);
}

/** Takes at most so many out of what is there; gives how many. */
function take(from: Map<string, number>, key: string, most: number): number {
  const taken = Math.min(most, from.get(key) ?? 0);
  add(from, key, -taken);
  return taken;
}
