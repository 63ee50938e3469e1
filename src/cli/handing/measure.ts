import type { Problem } from '../../problem/index.ts';
import type { Body } from '../../record/index.ts';
import { parseExact, toNumber } from '../../units/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { atDesk, dayOf, oneOf, type Prepared, recordEntry } from '../record-desk.ts';
import { alreadyClosed, remark } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';

type Measured = Body<'measured'>;

/** When something is measured, in the order of the work. */
const times = ['delivery-of-timber', 'glue-up', 'finish', 'delivery', 'later'] as const satisfies readonly Measured['when'][];

/** What a meter can show. */
const bounds: Readonly<Record<Measured['what'], readonly [least: number, most: number]>> = { moisture: [1, 60], humidity: [1, 100] };

/**
 * What is usual: of furniture timber in a heated workshop, and of the air that it is worked in. Outside it the meter, its setting
 * for the wood, or the place deserves a second look.
 *
 * @source common practice
 */
const usual: typeof bounds = { moisture: [5, 16], humidity: [25, 75] };

/** Points by which boards of one glue-up may differ before they move against each other. @source common practice */
const mostSpread = 2;

/** A percentage as it is typed: `9.2`, `9.2%`. Throws a UsageFault. */
export function percentOf(typed: string, what: Measured['what']): number {
  const read = parseExact(typed.replace(/\s*%$/, ''));
  const [least, most] = bounds[what];
  if (!read.ok) {
    const mend = read.type === undefined ? 'write a number with a point, as 9.2' : `write ${read.type}`;
    throw new UsageFault(`${typed} is no percentage: ${read.why}`, mend);
  }
  const percent = toNumber(read.value);
  if (percent < least || percent > most)
    throw new UsageFault(`a ${what} of ${typed} can not be`, `write one of ${least} to ${most}, in percent`);
  return percent;
}

function remarks({ what, when, percent }: Measured): readonly Problem[] {
  const [low, high] = usual[what];
  const odd = percent.filter((one) => one < low || one > high);
  const spread = Math.max(...percent) - Math.min(...percent);
  return [
    ...(odd.length === 0
      ? []
      : [
          remark('measured-unusual', `this ${what} is unusual`, {
            found: odd.map((one) => `${one} %`).join(', '),
            allowed: `usually ${low} to ${high} %`,
            mend:
              what === 'moisture'
                ? "measure again, with the meter set to this wood, away from the boards' ends"
                : 'measure again in the shade, after a quarter of an hour',
          }),
        ]),
    ...(what === 'moisture' && when === 'glue-up' && spread > mostSpread + 1e-9
      ? [
          remark('measured-uneven', 'boards of one glue-up differ in moisture', {
            found: `${Math.round(spread * 10) / 10} points`,
            allowed: `usually at most ${mostSpread}`,
            mend: 'let them lie in sticks together until they agree',
          }),
        ]
      : []),
  ];
}

const says: Readonly<Record<Measured['when'], string>> = {
  'delivery-of-timber': 'when the timber came',
  'glue-up': 'at glue-up',
  finish: 'at finishing',
  delivery: 'at delivery',
  later: 'after the delivery',
};

/** `measure`: what meter and hygrometer showed. */
export async function runMeasure(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { words, values } = given;
  return atDesk(given, terminal, async (desk) => {
    const what = oneOf(['moisture', 'humidity'] as const, words[1], 'what is measured');
    const percent = words.slice(2).map((typed) => percentOf(typed, what));
    const when = oneOf(times, values['at'], '--at');
    const on = dayOf(desk, values['on']);
    const body: Measured = { kind: 'measured', on, what, when, percent };
    return recordEntry(
      desk,
      ({ standing: { closed, delivered } }): Prepared => {
        if (closed !== undefined) return { problems: [alreadyClosed(desk.slug, closed)] };
        const isAfter = delivered !== undefined && when !== 'later';
        const late = remark('measured-late', `${desk.slug} was handed over on ${delivered?.on}, so its baseline stands`, {
          mend: 'what is measured since then is told with --at later',
        });
        return { body, warnings: [...remarks(body), ...(isAfter ? [late] : [])] };
      },
      (entry) => [`entry ${entry.n}: ${what} ${says[when]}, ${on}: ${percent.map((one) => `${one} %`).join(', ')}`],
    );
  });
}
