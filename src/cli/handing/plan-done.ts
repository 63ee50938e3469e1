import { readWorkspace } from '../../read/index.ts';
import { type EntryOf, issuedOffers, readEntries, type Standing, standingOf } from '../../record/index.ts';
import type { ShopRatesSpec } from '../../spec/index.ts';
import {
  type BoardsDone,
  LEAST_TABLES,
  type OperationDone,
  type PlanAndDone,
  type ProposedRate,
  planAndDone,
  proposedRates,
} from '../../takeoff/index.ts';
import { formatNumber, formatPercent } from '../../units/index.ts';
import { type Desk, readInput } from '../record-desk.ts';
import { proposalFolder } from '../workspace.ts';
import { type OrderedTable, orderedTable } from './ordered-table.ts';

type Measure = Parameters<typeof orderedTable>[3]['measure'];

const boardsOf = (used: readonly EntryOf<'used'>[]): readonly BoardsDone[] =>
  used.map(({ wood, lengthMm, widthMm, thicknessMm, boards, what }) => ({
    ...{ wood, lengthMm, widthMm, thicknessMm, boards, isOffcut: what === 'offcut' },
  }));

/** Volume of the finished parts of a table by key of their wood. */
function finishedM3({ care: { table, assessment } }: OrderedTable): Readonly<Record<string, number>> {
  const volumes: Record<string, number> = {};
  for (const { id, wood } of table.parts)
    if (wood !== undefined) volumes[wood] = (volumes[wood] ?? 0) + (assessment.volumeOf[id] ?? 0) / 1e9;
  return volumes;
}

/** What an ordered table was reckoned to take, and what was written down. */
export const planOf = (ordered: OrderedTable, { worked, used }: Pick<Standing, 'worked' | 'used'>): PlanAndDone =>
  planAndDone(ordered.care.takeOff, finishedM3(ordered), worked, boardsOf(used));

/** Rates that tables speak for which were priced by the same rates. */
export interface RatesSpokenFor {
  readonly proposed: readonly ProposedRate[];
  readonly tables: number;
}

/** What the operations of such tables speak for, beside the rates as they are. */
export const ratesFrom = (
  tables: readonly (readonly OperationDone[])[],
  operations: Readonly<Record<string, ShopRatesSpec['operations'][string]>>,
): RatesSpokenFor => ({ proposed: proposedRates(tables, operations), tables: tables.length });

/** True where a table has something to say of rates: it was ordered, and hours of it were written down. */
export const speaksOfRates = ({ order, worked }: Pick<Standing, 'order' | 'worked'>): boolean => order !== undefined && worked.length > 0;

/** Rates that all tables of the workspace speak for which were priced by the same rates and are made. */
export function ratesOf({ workspace, input, today }: Pick<Desk, 'workspace' | 'input' | 'today'>, measure: Measure): RatesSpokenFor {
  const tables = readWorkspace(workspace).flatMap((slug): readonly (readonly OperationDone[])[] => {
    const folder = proposalFolder(workspace, slug);
    const standing = standingOf(readEntries(folder), issuedOffers(folder), today);
    if (!speaksOfRates(standing) || standing.order === undefined) return [];
    if (readInput(workspace, slug).input?.proposal.rates !== input.proposal.rates) return [];
    const ordered = orderedTable(folder, slug, standing.order.confirmed, { measure });
    return 'problems' in ordered ? [] : [planOf(ordered, standing).operations];
  });
  return ratesFrom(tables, input.library.rates.operations);
}

const hoursText = (hours: number): string => String(Math.round(hours * 100) / 100);
const plannedText = ({ low, mid, high }: OperationDone['planned']): string =>
  `${hoursText(low)} to ${hoursText(high)}, usually ${hoursText(mid)}`;

/** An operation in words; `ratio` is of what was done over the usual hours. Empty where there is nothing to say. */
export interface OperationTold {
  readonly id: string;
  readonly reckoned: string;
  readonly done: string;
  readonly ratio: string;
}

/** Operations that were reckoned or done, then what nothing in the take-off counts, then all of it. */
export function operationsTold({ operations, unplanned, hours }: PlanAndDone, language: string): readonly OperationTold[] {
  return [
    ...operations
      .filter((one) => one.hours !== 0 || one.planned.mid > 0)
      .map(({ id, planned, hours: done, ratio }) => ({
        ...{ id, reckoned: plannedText(planned), done: done === 0 ? '-' : hoursText(done) },
        ratio: ratio === undefined ? '' : formatPercent(ratio * 100, language),
      })),
    ...unplanned.map(({ operation, hours: done }) => ({ id: operation, reckoned: '', done: hoursText(done), ratio: '' })),
    { id: 'all', reckoned: plannedText(hours.planned), done: hoursText(hours.done), ratio: '' },
  ];
}

/** The timber of each wood in words: in the table, reckoned, used, back to the rack, and the yield. */
export function timberTold({ timber }: PlanAndDone, language: string): readonly { readonly wood: string; readonly says: string }[] {
  const m3 = (volume: number): string => formatNumber(volume, language, 4);
  return timber.map(({ wood, finishedM3: finished, plannedM3, usedM3, offcutM3, yieldPercent }) => {
    const yields = yieldPercent === undefined ? '' : `; ${formatPercent(yieldPercent, language)} of what was used is in the table`;
    return {
      wood,
      says: `${m3(finished)} m³ in the table, ${m3(plannedM3)} reckoned, ${m3(usedM3)} used, ${m3(offcutM3)} back to the rack${yields}`,
    };
  });
}

/** On how many days hours were written down, from when to when; empty where none were. */
export function daysTold(worked: readonly Pick<EntryOf<'worked'>, 'on' | 'hours'>[]): string {
  const days = [...new Set(worked.filter(({ hours }) => hours > 0).map(({ on }) => on))].sort();
  const [first, last] = [days[0], days.at(-1)];
  if (first === undefined || last === undefined) return '';
  return days.length === 1
    ? `Hours are written down of 1 day, ${first}`
    : `Hours are written down of ${days.length} days, ${first} to ${last}`;
}

/** One rate in words: what it is and would be, and by which tables. */
export interface RateTold {
  readonly operation: string;
  readonly change: string;
  readonly ratio: string;
  readonly tables: string;
}

/** What tables speak for in words; no rates below the number of tables that say something. */
export function ratesTold(
  { proposed, tables }: RatesSpokenFor,
  language: string,
): { readonly says: string; readonly rates: readonly RateTold[] } {
  if (tables < LEAST_TABLES)
    return {
      says: `Rates: hours of ${tables} ${tables === 1 ? 'table' : 'tables'} are written down; from ${LEAST_TABLES} on they say something of the next one`,
      rates: [],
    };
  if (proposed.length === 0) return { says: `Rates: the hours of ${tables} tables speak for no other rate`, rates: [] };
  return {
    says: `Rates that the hours of ${tables} tables speak for (median of done over reckoned; nothing is changed without --write)`,
    rates: proposed.map(({ operation, tables: count, medianRatio, lowestRatio, highestRatio, now, proposed: rate }) => ({
      operation,
      change: `${hoursText(now.mid)} → ${hoursText(rate.mid)}`,
      ratio: `${formatPercent(medianRatio * 100, language)} (${formatPercent(lowestRatio * 100, language)} to ${formatPercent(highestRatio * 100, language)})`,
      tables: `${count} tables`,
    })),
  };
}

/** Offcuts as boards of one's own, ready for the table.yaml of the next one; empty where there are none. */
export function stockYaml(slug: string, used: readonly EntryOf<'used'>[]): string {
  const lines = used
    .filter(({ what }) => what === 'offcut')
    .map(({ n, wood, lengthMm, widthMm, thicknessMm, boards, moisturePercent }) => {
      const moisture = moisturePercent === undefined ? '' : `, moisture: ${moisturePercent} %`;
      const size = `length: ${lengthMm} mm, width: ${widthMm} mm, thickness: ${thicknessMm} mm`;
      return `  ${slug}-${n}: { wood: ${wood}, ${size}, count: ${boards}${moisture} }`;
    });
  return lines.length === 0 ? '' : `stock:\n${lines.join('\n')}\n`;
}
