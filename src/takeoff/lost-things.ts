import type { HardwareSpec, StageWord } from '../spec/index.ts';
import { isReached } from '../spec/index.ts';
import { piecesOf } from './hardware.ts';
import { lostMaterialParts } from './part-fates.ts';
import type { TakenTable } from './part-share.ts';
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

/** Things of one table that are bought by a stage, each with the share of its price that can be used elsewhere. */
export function boughtThings(taken: TakenTable, stage: StageWord): readonly LostThing[] {
  return taken.takeOff.hardware
    .filter((line) => isReached(stageOfThing(taken, line), stage))
    .map((line) => ({
      id: line.id,
      from: line.from,
      says: line.says,
      count: line.count,
      usablePercent: usablePercentOf(taken, line, stage),
    }));
}

/** Things that would have been bought by a stage, and that the ordered table has no like of: they are bought anew, and come when they come. */
export function thingsAnew(ordered: TakenTable, draft: TakenTable, stage: StageWord): readonly ThingAnew[] {
  return lostThings(draft, ordered, stage).things.map(({ id, from, says, count }): ThingAnew => {
    const line = draft.takeOff.hardware.find((one) => one.id === id && one.from === from);
    const days = line === undefined ? undefined : (ownEntry(draft, line)?.days ?? draft.spec.library.rates.hardware[line.kind]?.days);
    return { id, from, says, count, ...(days === undefined ? {} : { days }) };
  });
}

/** Things are the same where they are called the same and one weighs the same. */
const thingOf = (taken: TakenTable, line: HardwareLine): string => `${line.kind} ${ownEntry(taken, line)?.mass?.kg ?? ''}`;

/**
 * Things that were bought for the ordered table by a stage, and that the new one does not take. What is cut to the size of a part is
 * lost with the part; of all else what the new table needs less of it.
 */
export function lostThings(ordered: TakenTable, draft: TakenTable, stage: StageWord): LostThings {
  const gone = lostMaterialParts(ordered.table, draft.table);
  const serving = new Map<string, number>();
  for (const line of draft.takeOff.hardware) add(serving, thingOf(draft, line), line.count);
  const cut = new Map<string, number>();
  for (const part of gone) add(cut, part.material ?? '', piecesOf(ordered.spec, part));
  const parts = new Set<string>();
  const things = ordered.takeOff.hardware.flatMap((line): readonly LostThing[] => {
    const { id, kind, from, says } = line;
    if (!isReached(stageOfThing(ordered, line), stage)) return [];
    for (const part of gone) if (part.material === kind) parts.add(part.id);
    const isCutToSize = ordered.table.parts.some(({ material }) => material === kind);
    const count = isCutToSize ? take(cut, kind, line.count) : line.count - take(serving, thingOf(ordered, line), line.count);
    return count === 0 ? [] : [{ id, from, says, count, usablePercent: usablePercentOf(ordered, line, stage) }];
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
