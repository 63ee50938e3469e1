import { spawnSync } from 'node:child_process';
import ICAL from 'ical.js';
import { describe, expect, test } from 'vitest';
import { type CalendarEvent, calendarFile } from '../../src/write/client/calendar.ts';

/**
 * Calendars are read back by two general libraries that know nothing of ours: ical.js, and Python's `icalendar` with `dateutil`
 * where they are installed. Days after a leap year are counted by hand; 2028 and 2032 are leap years, 2100 is none.
 */
const stampedAt = '2026-07-14T09:30:00Z';
const write = (...events: readonly CalendarEvent[]): string =>
  new TextDecoder('utf-8', { fatal: true }).decode(calendarFile({ name: 'Table RS-2026-07', events, stampedAt, language: 'en-GB' }));
const event = (day: string, more: Partial<CalendarEvent> = {}): CalendarEvent => ({
  seed: `RS-2026-07 ${day}`,
  day,
  title: 'Oil',
  text: 'One thin coat.',
  ...more,
});
const read = (file: string) =>
  new ICAL.Component(ICAL.parse(file))
    .getAllSubcomponents('vevent')
    .map((component) => new ICAL.Event(component, { strictExceptions: true }));
const firstOf = (file: string): ICAL.Event => {
  const [first] = read(file);
  if (first === undefined) throw new Error('no event');
  return first;
};
function daysOf(file: string, count: number): readonly string[] {
  const days = firstOf(file).iterator();
  return Array.from({ length: count }, () => days.next()?.toString() ?? '');
}

const python = '/usr/bin/python3';
const script = `
import sys, json, itertools, datetime
from icalendar import Calendar
from dateutil.rrule import rrulestr
cal = Calendar.from_ical(sys.stdin.buffer.read())
out = []
for e in cal.walk('VEVENT'):
    start, end = e.decoded('DTSTART'), e.decoded('DTEND')
    days = []
    if 'RRULE' in e:
        rule = rrulestr(e['RRULE'].to_ical().decode(), dtstart=datetime.datetime.combine(start, datetime.time()))
        days = [d.date().isoformat() for d in itertools.islice(rule, 6)]
    out.append({'uid': str(e['UID']), 'title': str(e['SUMMARY']), 'text': str(e['DESCRIPTION']), 'whole': type(start) is datetime.date,
                'start': start.isoformat(), 'end': end.isoformat(), 'stamp': e.decoded('DTSTAMP').isoformat(), 'days': days,
                'errors': [str(x) for x in e.errors]})
print(json.dumps({'name': str(cal['X-WR-CALNAME']), 'prodid': str(cal['PRODID']), 'errors': [str(x) for x in cal.errors], 'events': out}))
`;
const hasPython = spawnSync(python, ['-c', 'import icalendar, dateutil.rrule']).status === 0;
interface PythonEvent {
  readonly title: string;
  readonly text: string;
  readonly whole: boolean;
  readonly start: string;
  readonly end: string;
  readonly stamp: string;
  readonly days: readonly string[];
  readonly errors: readonly string[];
}
function readByPython(file: string): {
  readonly name: string;
  readonly errors: readonly string[];
  readonly events: readonly PythonEvent[];
} {
  const { stdout, stderr, status } = spawnSync(python, ['-c', script], { input: file, encoding: 'utf8' });
  if (status !== 0) throw new Error(stderr);
  return JSON.parse(stdout);
}

const hard = 'Öl: dünn auftragen; nachwischen, fertig \\ gut 🪵🪑 "ja"\nZweite Zeile: ⅜ Zoll, 日本語 '.repeat(9).trim();

/** What is due when the rule meets a day that some months or years do not have; counted by hand. */
const rules: readonly (readonly [string, Partial<CalendarEvent>, readonly string[]])[] = [
  ['2028-02-29', { yearly: true }, ['2028-02-29', '2029-02-28', '2030-02-28', '2031-02-28', '2032-02-29', '2033-02-28']],
  ['2027-03-01', { yearly: true }, ['2027-03-01', '2028-03-01', '2029-03-01', '2030-03-01', '2031-03-01', '2032-03-01']],
  ['2096-02-29', { everyMonths: 24 }, ['2096-02-29', '2098-02-28', '2100-02-28', '2102-02-28', '2104-02-29', '2106-02-28']],
  ['2026-08-31', { everyMonths: 6 }, ['2026-08-31', '2027-02-28', '2027-08-31', '2028-02-29', '2028-08-31', '2029-02-28']],
  ['2026-08-30', { everyMonths: 18 }, ['2026-08-30', '2028-02-28', '2029-08-30', '2031-02-27', '2032-08-30', '2034-02-27']],
  ['2026-12-15', { everyMonths: 18 }, ['2026-12-15', '2028-06-15', '2029-12-15', '2031-06-15', '2032-12-15', '2034-06-15']],
  ['2026-11-30', { everyMonths: 3 }, ['2026-11-30', '2027-02-28', '2027-05-31', '2027-08-31', '2027-11-30', '2028-02-29']],
  ['2026-10-31', { everyMonths: 1 }, ['2026-10-31', '2026-11-30', '2026-12-31', '2027-01-31', '2027-02-28', '2027-03-31']],
];

describe('a calendar of care', () => {
  test('is read back: name, words, whole day with the end after it, instant of writing', () => {
    const file = write(event('2028-02-28', { title: 'Check, then tighten; gently', text: hard }), event('2027-12-31'));
    expect(new ICAL.Component(ICAL.parse(file)).getFirstPropertyValue('x-wr-calname')).toBe('Table RS-2026-07');
    const [first, last] = read(file);
    expect([first?.summary, first?.description]).toEqual(['Check, then tighten; gently', hard]);
    expect([first?.startDate.isDate, first?.startDate.toString(), first?.endDate.toString()]).toEqual([true, '2028-02-28', '2028-02-29']);
    expect([last?.startDate.toString(), last?.endDate.toString()]).toEqual(['2027-12-31', '2028-01-01']);
    expect(first?.component.getFirstPropertyValue('dtstamp')?.toString()).toBe(stampedAt);
  });

  test('a name with marks of the format is read as it was written', () => {
    const name = 'Table; oak, oiled \\ RS-2026-07\nsecond';
    const file = new TextDecoder().decode(calendarFile({ name, events: [event('2027-01-01')], stampedAt, language: 'en-GB' }));
    // ical.js knows no type for this property of RFC 7986 and gives it as it stands; it is a text, escaped as a summary is.
    const raw = new ICAL.Component(ICAL.parse(file)).getFirstPropertyValue('name');
    expect(firstOf(file.replace(/SUMMARY:.*/, `SUMMARY:${raw}`)).summary).toBe(name);
  });

  test.each(rules)('from %s, %j', (day, more, expected) => {
    expect(daysOf(write(event(day, more)), 6)).toEqual(expected);
  });

  test.skipIf(!hasPython)('a library of another language reads the same', () => {
    const file = write(...rules.map(([day, more]) => event(day, { ...more, text: hard, title: 'Öl, Wachs; Seife' })));
    const { name, errors, events } = readByPython(file);
    expect([name, errors]).toEqual(['Table RS-2026-07', []]);
    expect(events.map(({ days }) => days)).toEqual(rules.map(([, , expected]) => expected));
    for (const one of events)
      expect(one).toMatchObject({ title: 'Öl, Wachs; Seife', text: hard, whole: true, stamp: '2026-07-14T09:30:00+00:00', errors: [] });
    expect([events[0]?.start, events[0]?.end]).toEqual(['2028-02-29', '2028-03-01']);
  });

  test.each(['Pacific/Kiritimati', 'Pacific/Pago_Pago', 'America/New_York', 'Europe/Berlin'])(
    'the machine stands in %s: the same bytes, the same day',
    (TZ) => {
      const content = [event('2027-03-28', { yearly: true }), event('2027-11-07')];
      const module = new URL('../../src/write/client/calendar.ts', import.meta.url).href;
      const program = `import { calendarFile } from ${JSON.stringify(module)};
        const bytes = calendarFile({ name: 'Table RS-2026-07', events: ${JSON.stringify(content)}, stampedAt: '${stampedAt}', language: 'en-GB' });
        process.stdout.write(JSON.stringify({ hours: new Date(2027, 0, 1).getTimezoneOffset() / 60, file: new TextDecoder().decode(bytes) }));`;
      const ran = spawnSync(process.execPath, ['--input-type=module', '-e', program], { encoding: 'utf8', env: { ...process.env, TZ } });
      const { hours, file } = JSON.parse(ran.stdout) as { readonly hours: number; readonly file: string };
      expect(hours).not.toBe(0);
      expect(file).toBe(write(...content));
      expect(file).toContain('DTSTART;VALUE=DATE:20270328\r\nDTEND;VALUE=DATE:20270329\r\n');
    },
  );

  /** @source RFC 5545 section 3.1: lines end in CR LF and are folded at 75 octets, which may not part a character here */
  test('ends every line in CR LF, folds at 75 octets, never inside a character', () => {
    for (let shift = 0; shift < 80; shift += 1) {
      const file = write(event('2027-01-01', { text: `${'x'.repeat(shift)}${hard}` }));
      expect(file.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
      expect(file.endsWith('END:VCALENDAR\r\n')).toBe(true);
      for (const line of file.split('\r\n')) {
        expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
        expect(line.isWellFormed()).toBe(true);
      }
      expect(firstOf(file).description).toBe(`${'x'.repeat(shift)}${hard}`);
    }
  });

  test('an event is told by its seed alone: the same when the file is made again, another for another table', () => {
    const uid = (seed: string, day: string): string => firstOf(write(event(day, { seed }))).uid;
    expect(uid('RS-2026-07 refresh', '2027-01-01')).toBe(uid('RS-2026-07 refresh', '2028-01-01'));
    expect(uid('RS-2026-07 refresh', '2027-01-01')).not.toBe(uid('RS-2026-08 refresh', '2027-01-01'));
    // The form of a UUID of version 8: RFC 9562 section 5.8.
    expect(uid('x', '2027-01-01')).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    expect(write(event('2027-01-01'))).toBe(write(event('2027-01-01')));
  });

  test('names no organiser, nobody who attends, and rings no bell', () => {
    expect(write(event('2027-01-01', { yearly: true }))).not.toMatch(/^(ORGANIZER|ATTENDEE|CONTACT|METHOD|BEGIN:VALARM|BEGIN:VTIMEZONE)/m);
  });

  test('refuses what is no day, no instant, told twice, or may not stand in a calendar', () => {
    const refused = (events: readonly CalendarEvent[], more: { readonly stampedAt?: string; readonly language?: string } = {}) =>
      expect(() => calendarFile({ name: 'x', events, stampedAt, language: 'en-GB', ...more }));
    refused([event('2027-02-29')]).toThrow('the event "RS-2026-07 2027-02-29" has no day: 2027-02-29');
    refused([event('2027-01-01'), event('2027-01-01')]).toThrow('two events of a calendar share a seed');
    refused([], { stampedAt: '2026-07-14 09:30' }).toThrow('no instant in UTC: 2026-07-14 09:30');
    refused([], { stampedAt: '2026-13-14T09:30:00Z' }).toThrow('no instant in UTC');
    refused([], { language: 'en\r\nX-A:1' }).toThrow('no language');
    refused([event('2027-01-01', { text: 'a\u0007b' })]).toThrow('a text holds a character that a calendar may not: "a\\u0007b"');
    refused([event('2027-01-01', { title: 'a\ud83eb' })]).toThrow('a title holds a character that a calendar may not');
    refused([event('2027-01-01', { everyMonths: 0 })]).toThrow('the event "RS-2026-07 2027-01-01" comes every 0 months');
  });
});
