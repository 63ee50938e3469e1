import type { Part, Table } from '../design/index.ts';
import { skinAreaMm2 } from '../solid/index.ts';
import type { EffectiveSpec } from '../spec/index.ts';
import { listCuts } from './cutting-list.ts';
import { DRIVERS } from './drivers.ts';
import { listSurfaces, type Surface } from './surfaces.ts';
import type { TakeOff } from './take-off.ts';

/** One table with what was computed of it. */
export interface TakenTable {
  readonly spec: EffectiveSpec;
  readonly table: Table;
  readonly takeOff: TakeOff;
}

/** What of a table's timber, surfaces and counted work belongs to some of its parts. */
export interface PartShare {
  /** m3 to buy, with the yield addition, by timber of the shop rates. */
  readonly timberM3: ReadonlyMap<string, number>;
  /** What is counted of each operation that belongs to parts, by its key. */
  readonly quantities: ReadonlyMap<string, number>;
  readonly surfaces: readonly Surface[];
  /** Their part of the rough timber of the whole table, and of all but the top: 0 to 1. */
  readonly ofAll: number;
  readonly ofBase: number;
}

const NOTHING = { kind: 'polygon', points: [] } as const;

/**
 * The share of some parts in a table. A joint of two of them counts whole, one between them and others half. The top's surfaces go
 * with the top, those of the base by skin. Work that is counted once for the table or the job is not in `quantities`.
 */
export function shareOfParts({ spec, table, takeOff }: TakenTable, ids: ReadonlySet<string>): PartShare {
  const isOne = (part: Part): boolean => ids.has(part.id);
  const parts = table.parts.filter(isOne);
  const hasTop = ids.has(table.top.partId);
  const cuttingList = listCuts(spec, { ...table, parts }).cuttingList;
  const surfaces = surfacesOf(spec, table, ids);
  const both = table.joints.filter(({ a, b }) => ids.has(a) && ids.has(b));
  const one = table.joints.filter(({ a, b }) => ids.has(a) !== ids.has(b));
  const { underChamfer: _none, ...plainTop } = table.top;
  const topOf = hasTop ? table.top : { ...plainTop, outline: NOTHING };
  const own = { table: { ...table, parts, joints: both, top: topOf }, cuttingList, surfaces };
  const shared = {
    table: { ...table, parts: [], joints: one, top: { ...plainTop, outline: NOTHING } },
    cuttingList: [],
    surfaces: [],
  };
  const quantities = new Map<string, number>();
  for (const [id, driver] of Object.entries(DRIVERS)) {
    if (isOnce(driver.per)) continue;
    const quantity = driver.quantity(own) + driver.quantity(shared) / 2;
    if (quantity > 0) quantities.set(id, quantity);
  }
  const netM3 = new Map<string, number>();
  for (const line of cuttingList) if (line.timber !== undefined) netM3.set(line.timber, (netM3.get(line.timber) ?? 0) + line.netM3);
  const timberM3 = new Map(
    takeOff.timber.flatMap(({ timber, toBuyM3, netM3: all }): readonly (readonly [string, number])[] => {
      const net = netM3.get(timber);
      return net === undefined || all === 0 ? [] : [[timber, (toBuyM3 * net) / all]];
    }),
  );
  const roughM3 = (wanted: (id: string) => boolean): number =>
    sum(takeOff.cuttingList.map(({ netM3: net, partIds, count }) => (net * partIds.filter(wanted).length) / count));
  const isBase = (id: string): boolean => id !== table.top.partId;
  return {
    timberM3,
    quantities,
    surfaces,
    ofAll: ratio(
      roughM3((id) => ids.has(id)),
      roughM3(() => true),
    ),
    ofBase: ratio(
      roughM3((id) => isBase(id) && ids.has(id)),
      roughM3(isBase),
    ),
  };
}

/** Work that a table or a job has once, whatever its parts. */
const isOnce = (per: string): boolean => per === 'job' || per === 'table' || per === 'trip';

function surfacesOf(spec: EffectiveSpec, table: Table, ids: ReadonlySet<string>): readonly Surface[] {
  const base = table.parts.filter((part) => part.wood !== undefined && part.id !== table.top.partId);
  const skin = (parts: readonly Part[]): number => sum(parts.map((part) => skinAreaMm2(part.solid)));
  const shareOfBase = ratio(skin(base.filter((part) => ids.has(part.id))), skin(base));
  const shareOfTop = ids.has(table.top.partId) ? 1 : 0;
  return listSurfaces(spec, table)
    .surfaces.map((one) => {
      const share = one.surface === 'base' ? shareOfBase : shareOfTop;
      return { ...one, areaM2: one.areaM2 * share, litres: one.litres * share };
    })
    .filter(({ areaM2 }) => areaM2 > 0);
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
const ratio = (part: number, whole: number): number => (whole === 0 ? 0 : part / whole);
