import type { EffectiveSpec } from '../spec/index.ts';
import { boardFeetOfM3, grossOf } from './lumber.ts';
import type { OwnStock } from './own-stock.ts';
import type { CuttingLine, TimberLine } from './take-off.ts';

/**
 * What to buy of each sawn timber, in the order of its first part: net is the rough size of the pieces, gross adds the yield addition of the
 * shop rates on the net, and what the owned boards cover comes off with the same addition. m3 and board feet, nothing rounded.
 *
 * @source the addition on the net, e.g. 30 % for clear square-edged boards: common practice.
 */
export function listTimber(spec: EffectiveSpec, cuttingList: readonly CuttingLine[], stock: OwnStock): readonly TimberLine[] {
  const keys = [...new Set(cuttingList.map((line) => line.timber))];
  return keys.flatMap((key): readonly TimberLine[] => {
    const timber = key === undefined ? undefined : spec.library.rates.timber[key];
    if (key === undefined || timber === undefined) return [];
    const lines = cuttingList.filter((line) => line.timber === key);
    const netM3 = sum(lines.map((line) => line.netM3));
    const ownedNetM3 = sum(lines.map((line) => stock.coveredM3[line.type] ?? 0));
    const additionPercent = timber.addition.percent;
    const grossM3 = grossOf(netM3, additionPercent);
    const toBuyM3 = grossOf(Math.max(0, netM3 - ownedNetM3), additionPercent);
    return [
      {
        timber: key,
        wood: timber.wood,
        thicknessMm: timber.thickness.mm,
        netM3,
        netBoardFeet: boardFeetOfM3(netM3),
        additionPercent,
        grossM3,
        grossBoardFeet: boardFeetOfM3(grossM3),
        ownedM3: grossM3 - toBuyM3,
        toBuyM3,
        toBuyBoardFeet: boardFeetOfM3(toBuyM3),
      },
    ];
  });
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
