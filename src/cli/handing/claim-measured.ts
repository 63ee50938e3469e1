import type { Body } from '../../record/index.ts';
import { parseExact, parseLength, parseTemperature, toNumber } from '../../units/index.ts';
import { type Given, UsageFault } from '../command.ts';
import type { Desk } from '../record-desk.ts';
import { agreedSize, measurablePaths } from './as-built.ts';
import type { OrderedTable } from './ordered-table.ts';

/** What was measured beside a table and on it, as an entry holds it. */
export type Measured = Pick<Body<'claim'>, 'humidityPercent' | 'celsius' | 'moisturePercent' | 'sizes'>;

function percentOf(said: string, option: string, [least, most]: readonly [number, number], what: string, mend: string): number {
  const read = parseExact(said.trim().replace(/\s*%$/, ''));
  const percent = read.ok ? toNumber(read.value) : Number.NaN;
  if (percent >= least && percent <= most) return percent;
  throw new UsageFault(`${option} ${said} is no ${what}`, mend);
}

function lengthOf({ input }: Desk, said: string, option: string): number {
  const read = parseLength(said, { bare: input.proposal.units });
  if (read.ok && read.value.mm > 0) return read.value.mm;
  throw new UsageFault(`${option} ${said} is no length`, 'measure with a tape, as 797 mm');
}

function celsiusOf(said: string): number {
  const read = parseTemperature(/^-?\d+(?:\.\d+)?$/.test(said.trim()) ? `${said.trim()} C` : said);
  if (read.ok && read.value.celsius >= -20 && read.value.celsius <= 50) return read.value.celsius;
  throw new UsageFault(`--temperature ${said} is no temperature of a room`, 'write what a thermometer shows there, as 21 C');
}

/** Sizes as `height=744 mm, top.length=2098 mm`. Paths are those of the ordered table. */
function sizesOf(desk: Desk, said: string | undefined, ordered: OrderedTable | undefined): NonNullable<Measured['sizes']> {
  if (said === undefined) return [];
  return said.split(',').map((pair) => {
    const [what = '', length = ''] = pair.split('=').map((one) => one.trim());
    const table = ordered?.care.spec.table;
    if (table !== undefined && agreedSize(table, what) === undefined)
      throw new UsageFault(`the ordered table has no size ${what}`, `there are ${measurablePaths(table).slice(0, 12).join(', ')}`);
    return { what, mm: lengthOf(desk, length, `--sizes ${what}`) };
  });
}

/** Refuses a size that half or twice of what was agreed can not explain: another unit was meant. Throws a UsageFault. */
function refuseOtherUnit({ what, mm }: NonNullable<Measured['sizes']>[number], ordered: OrderedTable | undefined): void {
  const agreed = ordered === undefined ? undefined : agreedSize(ordered.care.spec.table, what);
  if (agreed === undefined || (mm >= agreed.mm / 2 && mm <= agreed.mm * 2)) return;
  throw new UsageFault(`${what} can not measure ${mm} mm where ${agreed.written} was agreed`, 'measure again, and write the unit with it');
}

/**
 * What the options say was measured: the air, the boards, the top across its boards, other sizes. Throws a UsageFault.
 *
 * @param across the path of the size across the boards of the top
 */
export function measuredNow(desk: Desk, values: Given['values'], across: string, ordered?: OrderedTable): Measured {
  const { humidity, moisture, temperature, width } = values;
  const boards = moisture
    ?.split(',')
    .map((one) => percentOf(one, '--moisture', [3, 40], 'moisture of a board in a room', 'write what the meter shows, as 6.4,6.8'));
  const sizes = [
    ...(width === undefined ? [] : [{ what: across, mm: lengthOf(desk, width, '--width') }]),
    ...sizesOf(desk, values['sizes'], ordered),
  ];
  for (const size of sizes) refuseOtherUnit(size, ordered);
  return {
    ...(humidity === undefined
      ? {}
      : {
          humidityPercent: percentOf(
            humidity,
            '--humidity',
            [5, 95],
            'relative humidity of a room',
            'write what a hygrometer shows there, as 28 %',
          ),
        }),
    ...(temperature === undefined ? {} : { celsius: celsiusOf(temperature) }),
    ...(boards === undefined ? {} : { moisturePercent: boards }),
    ...(sizes.length === 0 ? {} : { sizes }),
  };
}
