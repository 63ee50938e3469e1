import type { OperationLine, TakeOff } from './take-off.ts';

/** Hours that were written down for an operation; negative where too many were. */
export interface WorkDone {
  readonly operation: string;
  readonly hours: number;
}

/** Boards that went into a table, or came back to the rack from it. */
export interface BoardsDone {
  readonly wood: string;
  readonly lengthMm: number;
  readonly widthMm: number;
  readonly thicknessMm: number;
  readonly boards: number;
  readonly isOffcut: boolean;
}

/** One operation: what the take-off reckoned, and what it took. */
export interface OperationDone {
  readonly id: string;
  readonly says: string;
  readonly planned: OperationLine['hours'];
  readonly hours: number;
  /** Hours over the usual ones planned; absent where nothing was written down or nothing was planned. */
  readonly ratio?: number;
}

/** One wood: what the take-off reckoned to buy, what was used, and how much of that is in the table. */
export interface TimberDone {
  readonly wood: string;
  /** Volume of the finished parts, as they stand in the table. */
  readonly finishedM3: number;
  /** To buy and of one's own, with the addition. */
  readonly plannedM3: number;
  readonly usedM3: number;
  /** Back to the rack. */
  readonly offcutM3: number;
  /** Finished parts over what was used less what came back; absent where nothing was written down. */
  readonly yieldPercent?: number;
}

/** What a table was reckoned to take, and what it took. */
export interface PlanAndDone {
  readonly operations: readonly OperationDone[];
  /** Work that nothing in the take-off counts. */
  readonly unplanned: readonly WorkDone[];
  readonly hours: { readonly planned: OperationLine['hours']; readonly done: number };
  readonly timber: readonly TimberDone[];
}

const sum = (numbers: readonly number[]): number => numbers.reduce((all, one) => all + one, 0);
const unique = (texts: readonly string[]): readonly string[] => [...new Set(texts)];

const volumeM3 = (all: readonly BoardsDone[]): number =>
  sum(all.map(({ lengthMm, widthMm, thicknessMm, boards }) => (lengthMm * widthMm * thicknessMm * boards) / 1e9));

function timberDone(wood: string, takeOff: TakeOff, finishedM3: number, boards: readonly BoardsDone[]): TimberDone {
  const of = boards.filter((one) => one.wood === wood);
  const usedM3 = volumeM3(of.filter(({ isOffcut }) => !isOffcut));
  const offcutM3 = volumeM3(of.filter(({ isOffcut }) => isOffcut));
  const plannedM3 = sum(takeOff.timber.filter((line) => line.wood === wood).map(({ grossM3 }) => grossM3));
  const consumedM3 = usedM3 - offcutM3;
  return {
    wood,
    finishedM3,
    plannedM3,
    usedM3,
    offcutM3,
    ...(usedM3 > 0 && consumedM3 > 0 ? { yieldPercent: (100 * finishedM3) / consumedM3 } : {}),
  };
}

/**
 * Holds what was written down against the take-off of the table that was ordered.
 *
 * @param finishedM3 volume of the finished parts by key of their wood: the cutting list has them rough
 */
export function planAndDone(
  takeOff: TakeOff,
  finishedM3: Readonly<Record<string, number>>,
  work: readonly WorkDone[],
  boards: readonly BoardsDone[],
): PlanAndDone {
  const hoursOn = (id: string): number => sum(work.filter(({ operation }) => operation === id).map(({ hours }) => hours));
  const known = new Set(takeOff.operations.map(({ id }) => id));
  const operations = takeOff.operations.map(({ id, says, hours: planned }): OperationDone => {
    const hours = hoursOn(id);
    return { id, says, planned, hours, ...(hours > 0 && planned.mid > 0 ? { ratio: hours / planned.mid } : {}) };
  });
  const unplanned = unique(work.map(({ operation }) => operation).filter((id) => !known.has(id))).map((operation) => ({
    operation,
    hours: hoursOn(operation),
  }));
  const woods = unique([...takeOff.cuttingList.map(({ wood }) => wood), ...boards.map(({ wood }) => wood)]);
  return {
    operations,
    unplanned: unplanned.filter(({ hours }) => hours !== 0),
    hours: { planned: takeOff.hours, done: sum(work.map(({ hours }) => hours)) },
    timber: woods.map((wood) => timberDone(wood, takeOff, finishedM3[wood] ?? 0, boards)),
  };
}
