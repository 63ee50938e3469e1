/** The later of an instant and that of the last entry: a clock that runs back makes no earlier day. RFC 3339, UTC. */
export const notBefore = (at: string, last: string | undefined): string => (last !== undefined && last > at ? last : at);

/** The calendar day of an instant in a time zone, `2027-02-14`; of a zone that is none, in UTC. */
export function dayIn(at: string, zone: string): string {
  try {
    const form = new Intl.DateTimeFormat('en-GB', { timeZone: zone, year: 'numeric', month: '2-digit', day: '2-digit' });
    const parts = new Map(form.formatToParts(new Date(at)).map(({ type, value }) => [type, value]));
    return `${parts.get('year')}-${parts.get('month')}-${parts.get('day')}`;
  } catch {
    return at.slice(0, 10);
  }
}
