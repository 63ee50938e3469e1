import { addDays, addMonths, type CalendarDate, compareDates } from '../units/index.ts';
import type { CareInput } from './input.ts';

/** Days on which something about the care of a table changes or is due. */
export interface CareDates {
  /** Up to and including this day nothing stands on it. */
  readonly lightUseOver: CalendarDate;
  readonly lightUseFrom: CalendarDate;
  /** Up to and including this day the finish hardens. */
  readonly curedOn: CalendarDate;
  readonly curedFrom: CalendarDate;
  /** After the first heating season since it was delivered, or refinished. */
  readonly firstCheckOn: CalendarDate;
  readonly refreshFrom: CalendarDate;
  readonly refreshTo: CalendarDate;
}

const HOURS_PER_DAY = 24;
/** Middle of spring, north and south: homes have stopped heating and the wood has been through its driest weeks. Common practice. */
const SPRING = { north: { month: 4, day: 15 }, south: { month: 10, day: 15 } } as const;
/** Fewest months in the room before its first spring counts as a heating season. Common practice. */
const LEAST_SEASON_MONTHS = 3;

/**
 * The days of a table's care. Oil and varnish harden from the last coat, wherever the table stands: light use and cure count from
 * the day of finishing, in whole days rounded up, since that coat may have gone on in the evening. The first check is the first
 * mid-spring at least three months after the delivery or the last refresh; a new coat counts from the same day.
 *
 * @source hours and days: the finish's class, templates/finishes.yaml; mid-spring and three months: common practice
 */
export function careDates(
  of: Pick<CareInput, 'finish' | 'finishedOn' | 'deliveredOn' | 'refreshedOn'> & { readonly place: Pick<CareInput['place'], 'facts'> },
): CareDates {
  const { spec } = of.finish;
  const lightUseOver = addDays(of.finishedOn, Math.ceil(spec.lightUseHours / HOURS_PER_DAY));
  const curedOn = addDays(of.finishedOn, Math.max(Math.ceil(spec.fullCureDays), Math.ceil(spec.lightUseHours / HOURS_PER_DAY)));
  const inUseFrom = of.refreshedOn ?? of.deliveredOn;
  return {
    lightUseOver,
    lightUseFrom: addDays(lightUseOver, 1),
    curedOn,
    curedFrom: addDays(curedOn, 1),
    firstCheckOn: firstSpring(inUseFrom, of.place.facts.includes('southern') ? SPRING.south : SPRING.north),
    refreshFrom: addMonths(inUseFrom, spec.refreshMonths.low),
    refreshTo: addMonths(inUseFrom, spec.refreshMonths.high),
  };
}

function firstSpring(delivered: CalendarDate, spring: { readonly month: number; readonly day: number }): CalendarDate {
  const earliest = addMonths(delivered, LEAST_SEASON_MONTHS);
  const sameYear = { year: earliest.year, ...spring };
  return compareDates(sameYear, earliest) >= 0 ? sameYear : { year: earliest.year + 1, ...spring };
}
