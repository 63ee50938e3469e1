import { isReached, type StageWord } from '../spec/index.ts';
import { broughtThings, lostMetal } from './lost-things.ts';
import { partFates } from './part-fates.ts';
import type { TakenTable } from './part-share.ts';
import { type Brought, isCut, LEAST_M3, type Progress, stageOfPart, timberOnRack, timberToCut, uncutParts } from './progress.ts';

/**
 * What of an ordered table serves in the one that takes its place: parts with what was done at them, bought timber, bought things. What
 * is finished and gets another finish, or a top that is cut to size, goes back to `glued`.
 */
export function broughtBy(ordered: TakenTable, draft: TakenTable, progress: Progress): Brought {
  const { kept, topCutToSize } = partFates(ordered.table, draft.table);
  const surfaceOf = (id: string): readonly string[] => (id === draft.table.top.partId ? ['top', 'underside'] : ['base']);
  const finishes = (of: TakenTable, surfaces: readonly string[]): string =>
    of.takeOff.finish
      .filter(({ surface }) => surfaces.includes(surface))
      .map(({ surface, finish }) => `${surface} ${finish}`)
      .sort()
      .join();
  const isAnew = (id: string): boolean =>
    (topCutToSize && id === draft.table.top.partId) || finishes(ordered, surfaceOf(id)) !== finishes(draft, surfaceOf(id));
  const parts = new Map(
    [...kept].flatMap(([old, id]): readonly (readonly [string, StageWord])[] => {
      const stage = stageOfPart(progress, old);
      if (!isCut(stage)) return [];
      return [[id, isReached('finished', stage) && isAnew(id) ? 'glued' : stage]];
    }),
  );
  const rack = timberOnRack(ordered, progress);
  const needed = timberToCut(draft, parts);
  const timberM3 = new Map([...rack].map(([timber, had]) => [timber, Math.min(had, needed.get(timber) ?? 0)]));
  return { parts, timberM3, things: broughtThings(ordered, draft, progress) };
}

/**
 * The stage to which the work goes back where another table takes the place of the ordered one: `ordered` where wood has to be bought or
 * a part of metal made anew, `glued` where what is finished is finished again; undefined where all that was done stands. Screws and the
 * like that come on top put nothing back.
 */
export function againFrom(ordered: TakenTable, draft: TakenTable, progress: Progress): 'ordered' | 'glued' | undefined {
  const { stage } = progress;
  if (!isReached('timber-bought', stage)) return undefined;
  const brought = broughtBy(ordered, draft, progress);
  const needed = timberToCut(draft, brought.parts);
  const isShort = isCut(stage)
    ? uncutParts(draft.table, { stage: 'ordered', brought }).size > 0
    : [...needed].some(([timber, m3]) => m3 - (brought.timberM3.get(timber) ?? 0) > LEAST_M3);
  if (isShort || lostMetal(draft, ordered, stage).size > 0) return 'ordered';
  const isStripped = [...brought.parts.values()].some((of) => !isReached('finished', of));
  return isReached('finished', stage) && isStripped ? 'glued' : undefined;
}
