import { readMaker } from '../read/index.ts';
import { dayIn } from '../record/index.ts';
import { UsageFault } from './command.ts';

/**
 * The instant of this run in UTC, whole seconds, RFC 3339: the clock, or what `--as-of` says. A day stands for its noon in UTC, or
 * for its beginning where by then the maker of that workspace has the next day already: it is that day for the maker.
 * Throws a UsageFault for what is neither a day nor an instant.
 */
export function instantOf(asOf: string | undefined, workspace?: string): string {
  const whole = (date: Date): string => `${date.toISOString().slice(0, 19)}Z`;
  if (asOf === undefined) return whole(new Date());
  const isDay = /^\d{4}-\d{2}-\d{2}$/.test(asOf);
  const isInstant = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2})?Z$/.test(asOf);
  const date = new Date(isDay ? `${asOf}T12:00:00Z` : asOf);
  const isReal = (isDay || isInstant) && !Number.isNaN(date.getTime()) && date.toISOString().startsWith(asOf.slice(0, 10));
  if (!isReal) throw new UsageFault(`--as-of ${asOf} is no date`, 'write a day, 2027-02-14, or an instant in UTC, 2027-02-14T09:30:00Z');
  const noon = whole(date);
  if (!isDay || workspace === undefined) return noon;
  const zone = readMaker(workspace).maker?.timeZone ?? 'UTC';
  return dayIn(noon, zone) > asOf ? `${asOf}T00:00:00Z` : noon;
}
