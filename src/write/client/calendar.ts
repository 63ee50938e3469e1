import { escape as escapeText, ICalCalendar, ICalEventTransparency } from 'ical-generator';
import { sha256Text } from '../../reply/index.ts';
import { addDays, type CalendarDate, daysInMonth, isoDate, parseDate } from '../../units/index.ts';

/** Something to be done for the table on a day, once or again and again. */
export interface CalendarEvent {
  /** What the event's identity is made of, such as `RS-2026-07 refresh`: the same seed, the same event when read again. No name. */
  readonly seed: string;
  /** The first day, `2027-02-14`. */
  readonly day: string;
  readonly title: string;
  readonly text: string;
  /** Every year on this day; the same as every 12 months. */
  readonly yearly?: boolean;
  /** Again after so many months, without end; from the 29th on counted from the end of the month. */
  readonly everyMonths?: number;
}

export interface CalendarContent {
  readonly name: string;
  readonly events: readonly CalendarEvent[];
  /** Instant in UTC, whole seconds: `2027-02-14T09:30:00Z`. */
  readonly stampedAt: string;
  /** BCP 47. */
  readonly language: string;
}

/**
 * An identity that follows from a seed: the first 128 bits of its SHA-256, marked as a UUID of one's own making. Names no host
 * and no person, as RFC 7986 section 5.3 asks.
 *
 * @source RFC 9562 section 5.8 (version 8)
 */
function uidOf(seed: string): string {
  const hex = sha256Text(`leafwright/calendar/1 ${seed}`);
  const variant = ((Number.parseInt(hex.charAt(16), 16) & 0b11) | 0b1000).toString(16);
  return [hex.slice(0, 8), hex.slice(8, 12), `8${hex.slice(13, 16)}`, `${variant}${hex.slice(17, 20)}`, hex.slice(20, 32)].join('-');
}

/**
 * A rule for every so many months. Where a month has no such day, readers leave the month out (RFC 5545 section 3.3.10), so
 * from the 29th on the day is counted from the end of the month: the 31st is its last. `BYSETPOS`, which could say "the 30th
 * or the last", is misread by common calendars.
 */
function ruleFor({ year, month, day }: CalendarDate, months: number): string {
  const years = months % 12 === 0 ? months / 12 : undefined;
  const step = years ?? months;
  const freq = `FREQ=${years === undefined ? 'MONTHLY' : 'YEARLY'}${step === 1 ? '' : `;INTERVAL=${step}`}`;
  const isFromEnd = years === undefined ? day > 28 : month === 2 && day === 29;
  if (!isFromEnd) return freq;
  return `${freq}${years === undefined ? '' : `;BYMONTH=${month}`};BYMONTHDAY=${day - daysInMonth(year, month) - 1}`;
}

function checked(text: string, what: string): string {
  const hasControl = [...text].some((c) => (c < ' ' && c !== '\n' && c !== '\t') || c.codePointAt(0) === 0x7f);
  if (hasControl || !text.isWellFormed())
    throw new RangeError(`${what} holds a character that a calendar may not: ${JSON.stringify(text)}`);
  return text;
}

function dayOf({ day, seed }: CalendarEvent): CalendarDate {
  const date = parseDate(day);
  if (date === undefined) throw new RangeError(`the event ${JSON.stringify(seed)} has no day: ${day}`);
  return date;
}

function monthsBetween({ yearly, everyMonths, seed }: CalendarEvent): number | undefined {
  const months = everyMonths ?? (yearly === true ? 12 : undefined);
  if (months !== undefined && (!Number.isSafeInteger(months) || months < 1))
    throw new RangeError(`the event ${JSON.stringify(seed)} comes every ${months} months`);
  return months;
}

/**
 * A calendar file of whole days (RFC 5545, `text/calendar`, UTF-8): days without hour or zone, so that the 14th is the 14th
 * everywhere; they leave the day free. No organiser, no attendee, no alarm: a reader's own settings say when to remind.
 *
 * The same content gives the same bytes. Throws a RangeError for a day or an instant that does not exist, a seed that two
 * events share, and characters that a calendar may not hold.
 */
export function calendarFile({ name, events, stampedAt, language }: CalendarContent): Uint8Array {
  if (!/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$/.test(stampedAt) || Number.isNaN(Date.parse(stampedAt)))
    throw new RangeError(`no instant in UTC: ${stampedAt}`);
  if (!/^[A-Za-z0-9-]+$/.test(language)) throw new RangeError(`no language: ${language}`);
  if (new Set(events.map(({ seed }) => seed)).size < events.length) throw new RangeError('two events of a calendar share a seed');
  const calendar = new ICalCalendar({
    prodId: `//Leafwright//Care of a table//${language.toUpperCase()}`,
    // The library escapes what belongs to an event, not the calendar's own name.
    name: escapeText(checked(name, 'the name'), false),
  });
  for (const event of events) {
    const date = dayOf(event);
    const months = monthsBetween(event);
    calendar.createEvent({
      id: uidOf(event.seed),
      stamp: stampedAt,
      allDay: true,
      start: isoDate(date),
      // The day after the last, which is not part of it (RFC 5545 section 3.6.1).
      end: isoDate(addDays(date, 1)),
      summary: checked(event.title, 'a title'),
      description: checked(event.text, 'a text'),
      transparency: ICalEventTransparency.TRANSPARENT,
      ...(months === undefined ? {} : { repeating: ruleFor(date, months) }),
    });
  }
  return new TextEncoder().encode(`${calendar.toString().replace(/(\r\n)+$/, '')}\r\n`);
}
