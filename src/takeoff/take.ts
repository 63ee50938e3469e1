import type { Table } from '../design/index.ts';
import type { EffectiveSpec } from '../spec/index.ts';
import { listCuts } from './cutting-list.ts';
import { listHardware } from './hardware.ts';
import { listOperations } from './operations.ts';
import { useOwnStock } from './own-stock.ts';
import { checkHours } from './sanity.ts';
import { listSurfaces } from './surfaces.ts';
import type { OperationLine, TakeOff } from './take-off.ts';
import { listTimber } from './timber-lines.ts';

/**
 * Takes one table off: cutting list, timber to buy, hours, hardware and finish, at full precision; money rounds later. A proposal for several
 * tables prices this one several times. Problems: those of the lists and `checkHours`.
 */
export function takeOff(spec: EffectiveSpec, table: Table): TakeOff {
  const cuts = listCuts(spec, table);
  const stock = useOwnStock(spec, cuts.cuttingList, table.top.partId);
  const finish = listSurfaces(spec, table);
  const bought = listHardware(spec, table);
  const work = listOperations(spec, { table, cuttingList: cuts.cuttingList, surfaces: finish.surfaces });
  const hours = addHours(work.operations);
  const finishingShare = hours.mid === 0 ? 0 : addHours(work.operations.filter((line) => line.finishing)).mid / hours.mid;
  return {
    cuttingList: cuts.cuttingList,
    timber: listTimber(spec, cuts.cuttingList, stock),
    operations: work.operations,
    hardware: bought.hardware,
    finish: finish.surfaces.map(({ method: _, ...line }) => line),
    finishAreaM2: finish.finishAreaM2,
    undersideAreaM2: finish.undersideAreaM2,
    hours,
    finishingShare,
    problems: [
      ...cuts.problems,
      ...stock.problems,
      ...finish.problems,
      ...bought.problems,
      ...work.problems,
      ...checkHours(spec, hours.mid, finishingShare),
    ],
  };
}

function addHours(lines: readonly OperationLine[]): TakeOff['hours'] {
  const add = (key: 'low' | 'mid' | 'high'): number => lines.reduce((sum, line) => sum + line.hours[key], 0);
  return { low: add('low'), mid: add('mid'), high: add('high') };
}
