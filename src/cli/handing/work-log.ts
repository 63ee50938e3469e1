import { nearestName } from '../../problem/index.ts';
import type { Body } from '../../record/index.ts';
import { type BareUnit, parseExact, parseLength, toNumber } from '../../units/index.ts';
import { openFonts } from '../../write/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { atDesk, type Desk, dayOf, lookNow, type Prepared, recordEntry, saltOf } from '../record-desk.ts';
import { refusal } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';
import { percentOf } from './measure.ts';
import { orderedTable } from './ordered-table.ts';

/** Work that no operation of the take-off counts. */
export const UNPLANNED = 'unplanned';
const mostHours = 200;

/** The operations of the table that was ordered; the draft's rates where nothing was ordered yet. */
export function knownOperations(desk: Desk): readonly string[] {
  const { order } = lookNow(desk).standing;
  const ordered = order === undefined ? undefined : orderedTable(desk.folder, desk.slug, order.confirmed, { measure: openFonts().measure });
  const ids =
    ordered === undefined || 'problems' in ordered
      ? Object.keys(desk.input.library.rates.operations)
      : ordered.care.takeOff.operations.map(({ id }) => id);
  return [...ids, UNPLANNED];
}

/** A number as it is typed. Throws a UsageFault. */
function numberOf(typed: string, what: string): number {
  const read = parseExact(typed);
  if (read.ok) return toNumber(read.value);
  throw new UsageFault(`${typed} is no number of ${what}: ${read.why}`, read.type === undefined ? 'write it as 6.5' : `write ${read.type}`);
}

function operationOf(desk: Desk, said: string): string {
  const known = knownOperations(desk);
  if (known.includes(said)) return said;
  const near = nearestName(said, known);
  throw new UsageFault(
    `${desk.slug} has no operation ${said}${near === undefined ? '' : `; did you mean ${near}?`}`,
    `there are ${known.join(', ')}`,
  );
}

const notOrdered = (desk: Desk, what: string) => ({
  problems: [
    refusal('no-order', `${desk.slug} is no order yet, so there is no table to write ${what} down for`, {
      mend: `first: leafwright confirm ${desk.slug}, and the first instalment`,
    }),
  ],
});

/** `hours`: hours at the bench on an operation of the take-off; `--back` takes back what was too much. */
export async function runHours(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { words, values, switches } = given;
  return atDesk(given, terminal, async (desk) => {
    const operation = operationOf(desk, words[1] ?? '');
    const typed = numberOf(words[2] ?? '', 'hours');
    if (typed <= 0 || typed > mostHours)
      throw new UsageFault(
        `${typed} hours can not be written down at once`,
        `write up to ${mostHours}; --back takes back what was too much`,
      );
    const hours = switches.has('back') ? -typed : typed;
    const on = dayOf(desk, values['on']);
    const said = words[3]?.normalize('NFC').trim() ?? '';
    return recordEntry(
      desk,
      ({ standing }): Prepared => {
        if (standing.order === undefined) return notOrdered(desk, 'hours');
        const before = standing.worked.filter((one) => one.operation === operation).reduce((sum, one) => sum + one.hours, 0);
        if (before + hours < -1e-9)
          return {
            problems: [
              refusal('hours-below', `${operation} has ${before} hours, so ${-hours} can not be taken back`, {
                mend: `take back ${before} at most`,
              }),
            ],
          };
        const body: Body<'worked'> = { kind: 'worked', on, operation, hours };
        return { body, ...(said === '' ? {} : { sealed: { data: { words: said }, random: saltOf() } }) };
      },
      (entry, _before, after) => {
        const sum = after.worked.filter((one) => one.operation === operation).reduce((all, one) => all + one.hours, 0);
        return [`entry ${entry.n}: ${hours} h on ${operation}, ${on}; ${Math.round(sum * 100) / 100} h on it so far`];
      },
    );
  });
}

/** No board is thinner than a veneer, longer than a trunk or thicker than a beam: another unit was meant. @source common practice */
const leastMm = 0.5;
const mostMm = 20_000;
const thickestMm = 400;

const SIZE = /\s*[x\u00d7]\s*/;

/** `2400 x 220 x 45`, bare lengths in the proposal's unit. Throws a UsageFault. */
function sizeOf(said: string | undefined, bare: BareUnit): readonly [number, number, number] {
  const parts = (said ?? '').trim().split(SIZE);
  const [length, width, thickness] = parts.map((part) => parseLength(part, { bare }));
  if (parts.length !== 3 || length?.ok !== true || width?.ok !== true || thickness?.ok !== true)
    throw new UsageFault(
      said === undefined ? '--size is missing' : `--size ${said} is no size of a board`,
      'write length x width x thickness, as "2400 x 220 x 45 mm" or "2400x220x45"',
    );
  const size = [length.value.mm, width.value.mm, thickness.value.mm] as const;
  const isTurned = size[2] > size[0];
  if (isTurned || Math.min(...size) < leastMm || size[0] > mostMm || size[2] > thickestMm)
    throw new UsageFault(
      `--size ${said} can be no board`,
      isTurned ? 'write its length first, then width and thickness' : 'write each with its unit, as "2400 mm x 220 mm x 45 mm"',
    );
  return size;
}

function woodOf({ input }: Desk, said: string | undefined): string {
  const known = Object.keys(input.library.woods).sort();
  if (said !== undefined && known.includes(said)) return said;
  const near = said === undefined ? undefined : nearestName(said, known);
  throw new UsageFault(
    said === undefined ? '--wood is missing' : `there is no wood ${said}${near === undefined ? '' : `; did you mean ${near}?`}`,
    `there are ${known.join(', ')}`,
  );
}

/** `used`: boards that went into the table, or came back to the rack from it. */
export async function runUsed(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { values, switches } = given;
  return atDesk(given, terminal, async (desk) => {
    const wood = woodOf(desk, values['wood']);
    const [lengthMm, widthMm, thicknessMm] = sizeOf(values['size'], desk.input.proposal.units);
    const boards = numberOf(values['boards'] ?? '1', 'boards');
    if (!Number.isSafeInteger(boards) || boards < 1) throw new UsageFault(`--boards ${boards} is no count`, 'write 1 or more');
    const moisture = values['moisture'] === undefined ? undefined : percentOf(values['moisture'], 'moisture');
    const on = dayOf(desk, values['on']);
    const isOffcut = switches.has('offcut');
    const body: Body<'used'> = {
      ...{ kind: 'used', on, what: isOffcut ? 'offcut' : 'used', wood, lengthMm, widthMm, thicknessMm, boards },
      ...(moisture === undefined ? {} : { moisturePercent: moisture }),
    };
    return recordEntry(
      desk,
      ({ standing }): Prepared => (standing.order === undefined ? notOrdered(desk, 'timber') : { body }),
      (entry) => [
        `entry ${entry.n}: ${boards} of ${lengthMm} × ${widthMm} × ${thicknessMm} mm, ${wood}, ${isOffcut ? 'back to the rack' : 'went into the table'}, ${on}`,
      ],
    );
  });
}
