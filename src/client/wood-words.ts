import type { VariantFigures } from '../figures/index.ts';
import { movementRangeMm } from '../spec/index.ts';
import type { ShownDesign } from './client-source.ts';
import type { CareView, MaterialView } from './client-view.ts';
import { plainText } from './rich-text.ts';
import type { Shown } from './shown.ts';
import type { Words } from './words.ts';

type Level = 'sketch' | 'agreed' | 'full';

function movementSentence(one: VariantFigures['movement'][number], design: ShownDesign, shown: Shown, words: Words): string {
  const wood = design.spec.library.woods[one.wood];
  if (wood === undefined) throw new Error(`no wood ${one.wood} in the library`);
  const part = design.figures.parts.find((candidate) => candidate.id === one.partId);
  const { lowMm, highMm } = movementRangeMm(one.changeMm, one.sawn, wood);
  const key = part?.role === 'top' ? 'movement.top' : 'movement.part';
  return words.say(key, {
    part: part?.name ?? one.partId,
    across: shown.length(one.acrossMm),
    range: shown.lengthRange(lowMm, highMm, words.say('range.to')),
  });
}

/** How the wood will move, and that it is held so that it can; of other parts than the top, which say their width, at the level `full`. */
export function movementWords(design: ShownDesign, level: Level, shown: Shown, words: Words): readonly string[] {
  const { low, high } = design.spec.proposal.room.humidity;
  const tops = new Set(design.figures.parts.filter(({ role }) => role === 'top').map(({ id }) => id));
  const moves = design.figures.movement.filter(({ partId }) => level === 'full' || tops.has(partId));
  if (moves.length === 0) return [];
  const { kind } = design.spec.table.fixing;
  return [
    ...new Set(moves.map((one) => movementSentence(one, design, shown, words))),
    words.say('movement.room', { low: shown.number(low.percent), high: shown.percent(high.percent) }),
    ...(kind === 'rigid' ? [] : [words.say('movement.fixing')]),
  ];
}

function finishOf(design: ShownDesign, isTop: boolean): string {
  const { table, library } = design.spec;
  const id = isTop ? table.finish : (table.baseFinish ?? table.finish);
  return library.finishes[id]?.name ?? id;
}

function boardText(boards: number, words: Words): string | undefined {
  return boards > 1 ? words.count('material.boards', boards) : undefined;
}

function woodRow(
  line: ShownDesign['figures']['cuttingList'][number],
  design: ShownDesign,
  level: Level,
  shown: Shown,
  words: Words,
): MaterialView {
  const wood = design.spec.library.woods[line.wood];
  const parts = design.figures.parts.filter((part) => line.partIds.includes(part.id));
  const isTop = parts.some((part) => part.role === 'top');
  const { length, width, thickness } = line.finishedMm;
  const name = wood === undefined ? line.wood : wood.name;
  const boards = level === 'sketch' ? undefined : boardText(line.boards, words);
  return {
    part: line.name,
    count: shown.number(line.count),
    wood: boards === undefined ? name : words.say('material.glued', { wood: name, boards }),
    ...(wood?.origin === undefined ? {} : { origin: wood.origin }),
    finish: finishOf(design, isTop),
    ...(level === 'full' || (level === 'agreed' && isTop)
      ? { size: shown.sizes([length, width, thickness]), amount: shown.volume(parts.reduce((sum, part) => sum + part.volumeMm3, 0)) }
      : {}),
  };
}

type AnyPart = VariantFigures['parts'][number];

/** Parts that are not of wood, those of one name, material and size together. */
function alike(parts: readonly AnyPart[]): readonly (readonly [AnyPart, ...AnyPart[]])[] {
  const rows = new Map<string, [AnyPart, ...AnyPart[]]>();
  for (const part of parts) {
    if (part.material === undefined) continue;
    const key = JSON.stringify([part.name, part.material, part.sizeMm]);
    const row = rows.get(key);
    if (row === undefined) rows.set(key, [part]);
    else row.push(part);
  }
  return [...rows.values()];
}

function otherRow(parts: readonly [AnyPart, ...AnyPart[]], design: ShownDesign, level: Level, shown: Shown): MaterialView {
  const [part] = parts;
  const material = part.material === undefined ? undefined : design.spec.library.materials[part.material];
  const { length, width, thickness } = part.sizeMm;
  const massKg = parts.reduce((sum, one) => sum + one.massKg, 0);
  return {
    part: part.name,
    count: shown.number(parts.length),
    wood: material?.name ?? part.material ?? '',
    ...(level === 'full' ? { size: shown.sizes([length, width, thickness]), amount: shown.mass(massKg, 'up') } : {}),
  };
}

/** What the table is made of, part by part: quantities only, no price of any of it. Sizes of the top from the level `agreed` on, of every part at the level `full`. */
export function materialRows(design: ShownDesign, level: Level, shown: Shown, words: Words): readonly MaterialView[] {
  return [
    ...design.figures.cuttingList.map((line) => woodRow(line, design, level, shown, words)),
    ...alike(design.figures.parts).map((parts) => otherRow(parts, design, level, shown)),
  ];
}

/** Care for this finish on this wood, with the cautions that the finish needs. */
export function careWords(design: ShownDesign, words: Words): CareView {
  const { table, library } = design.spec;
  const finish = library.finishes[table.finish];
  if (finish === undefined) throw new Error(`no finish ${table.finish} in the library`);
  const ageing = library.woods[table.wood]?.ageing;
  return {
    finish: finish.name,
    daily: plainText(finish.care.daily),
    spills: plainText(finish.care.spills),
    never: plainText(finish.care.never),
    refresh: plainText(finish.care.refresh),
    resists: words.say('care.resists', { water: finish.resists.water, heat: finish.resists.heat, alcohol: finish.resists.alcohol }),
    cure: words.say('care.cure', { hours: finish.lightUseHours, days: finish.fullCureDays }),
    wood: ageing !== undefined && words.has(ageing) ? words.say(ageing) : '',
    cautions: finish.cautions,
  };
}
