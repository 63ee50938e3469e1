import type { HardwareSpec, StageWord } from '../spec/index.ts';
import { isReached } from '../spec/index.ts';
import { piecesOf } from './hardware.ts';
import { lostMaterialParts } from './part-fates.ts';
import type { TakenTable } from './part-share.ts';
import type { HardwareLine } from './take-off.ts';

/** Bought things of one table that are of no use in another: its line in the take-off, with how many. */
export type LostThing = Pick<HardwareLine, 'id' | 'from' | 'says' | 'count'>;

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
    return count === 0 ? [] : [{ id, from, says, count }];
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
