import type { Problem } from '../../problem/index.ts';
import type { AnyEntry, Standing } from '../../record/index.ts';
import { compareExact, type DecimalText, exactDecimal, exactMoney, isCurrencyCode, minorDigits, roundMinor } from '../../units/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { atDesk, type Desk, dayOf, type Now, type Prepared, recordEntry, saltOf, shownMoney } from '../record-desk.ts';
import { refusal, weighed } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';

/** An amount as typed: `2539.20`, `2539.20 EUR`, `EUR 2539.20`. */
export interface TypedAmount {
  readonly minor: number;
  readonly currency: string;
}

/** Reads an amount; `currency` where none is typed. Throws a UsageFault with the text to type. */
export function amountOf(said: string | undefined, currency: string): TypedAmount {
  if (said === undefined) throw new UsageFault('--amount is missing', 'write what came, as --amount 2539.20');
  const found = /^(?:([A-Za-z]{3})\s*)?(\d{1,12}(?:\.\d+)?)(?:\s*([A-Za-z]{3}))?$/.exec(said.trim());
  const stated = (found?.[1] ?? found?.[3] ?? currency).toUpperCase();
  const digits = found?.[2];
  if (digits === undefined || (found?.[1] !== undefined && found[3] !== undefined) || !isCurrencyCode(stated))
    throw new UsageFault(`--amount ${said} is no amount`, 'write digits and a decimal point, nothing between thousands: 2539.20');
  const value = exactDecimal(digits as DecimalText);
  const rounded = roundMinor(value, stated);
  if (compareExact(exactMoney(rounded), value) !== 0)
    throw new UsageFault(
      `--amount ${said} has more than ${minorDigits(stated)} decimals`,
      `${stated} is paid in steps of ${minorDigits(stated) === 0 ? '1' : `0.${'0'.repeat(minorDigits(stated) - 1)}1`}`,
    );
  if (rounded.minor === 0) throw new UsageFault('--amount is nothing', 'write what came, as --amount 2539.20');
  return { minor: rounded.minor, currency: stated };
}

/** What money is held against: the change that waits for it, else what is confirmed. */
function accountOf({ entries, standing }: Now, instalment: number) {
  const confirmed = standing.changeWaits ?? standing.confirmed;
  const paidMinor = entries
    .filter((entry) => entry.kind === 'paid' && entry.n >= standing.accountFrom && entry.instalment === instalment)
    .reduce((sum, entry) => sum + (entry.kind === 'paid' ? entry.amountMinor : 0), 0);
  return { confirmed, paidMinor, asked: confirmed?.instalmentsMinor[instalment - 1] };
}

interface Payment extends TypedAmount {
  readonly instalment: number;
  readonly isBack: boolean;
}

/** Why a payment is not simply taken: what can not be, and what can with a reason. */
function refusals(desk: Desk, now: Now, { minor, currency, instalment, isBack }: Payment) {
  const { standing } = now;
  const { confirmed, paidMinor, asked } = accountOf(now, instalment);
  const shown = (amount: number): string => shownMoney(desk, currency, amount);
  const hard: Problem[] = [];
  const soft: Problem[] = [];
  const known = confirmed?.chosen.currency ?? standing.currency ?? desk.input.proposal.currency;
  if (currency !== known)
    hard.push(
      refusal('other-currency', `the order is in ${known}, not in ${currency}`, {
        found: shown(minor),
        mend: `write what your bank booked in ${known}`,
      }),
    );
  const { closed } = standing;
  if (closed?.kind === 'lost' && !isBack)
    soft.push(refusal('order-closed', `${desk.slug} is closed: nothing is due`, { found: `lost on ${closed.on}` }));
  else if (confirmed === undefined && !isBack)
    soft.push(
      refusal('not-confirmed', `nothing is confirmed in ${desk.slug}, so nothing is due`, {
        mend: `first: leafwright confirm ${desk.slug}`,
      }),
    );
  else if (confirmed !== undefined && asked === undefined)
    soft.push(
      refusal('no-such-instalment', `there is no instalment ${instalment}`, { allowed: `1 to ${confirmed.instalmentsMinor.length}` }),
    );
  if (hard.length > 0) return { hard, soft };
  if (isBack && minor > paidMinor)
    soft.push(
      refusal('back-too-much', `more would go back than was paid for instalment ${instalment}`, {
        found: shown(minor),
        allowed: `up to ${shown(Math.max(0, paidMinor))}`,
        mend: `name the instalment that it was paid for: leafwright statement ${desk.slug} lists them`,
      }),
    );
  if (isBack && closed !== undefined && minor <= paidMinor && minor > -standing.openMinor)
    soft.push(
      refusal('back-too-much', `more would go back than ${desk.slug} left to be returned`, {
        found: shown(minor),
        allowed: `up to ${shown(Math.max(0, -standing.openMinor))}`,
        mend: `what is due and what was paid: leafwright statement ${desk.slug}`,
      }),
    );
  const openMinor = closed?.kind === 'cancelled' ? standing.openMinor : asked === undefined ? undefined : asked - paidMinor;
  if (!isBack && openMinor !== undefined && minor > openMinor)
    soft.push(
      refusal(
        'over-paid',
        closed?.kind === 'cancelled'
          ? 'more was paid than the cancellation left due'
          : `more was paid than is open of instalment ${instalment}`,
        {
          found: shown(minor),
          allowed: `up to ${shown(Math.max(0, openMinor))}`,
          mend: closed?.kind === 'cancelled' ? 'what goes beyond it goes back' : 'enter the rest for the next instalment',
        },
      ),
    );
  return { hard, soft };
}

function preparePayment(desk: Desk, now: Now, payment: Payment, on: string, reason: string | undefined): Prepared {
  const { hard, soft } = refusals(desk, now, payment);
  const outcome = weighed(hard, soft, reason);
  if ('problems' in outcome) return outcome;
  const { insisted, warnings } = outcome;
  const { minor, currency, instalment, isBack } = payment;
  return {
    body: {
      kind: 'paid',
      on,
      amountMinor: isBack ? -minor : minor,
      currency,
      instalment,
      ...(insisted === undefined ? {} : { insisted }),
    },
    ...(insisted === undefined ? {} : { sealed: { data: { reason: outcome.reason }, random: saltOf() } }),
    warnings,
  };
}

/** What is open of the whole, or is to go back. */
function openSays({ closed, openMinor }: Standing, shown: (minor: number) => string): string {
  const of = closed === undefined ? 'of the total' : 'of what its end left due';
  return openMinor < 0 ? `  paid beyond it, to go back: ${shown(-openMinor)}` : `  open ${of}: ${shown(openMinor)}`;
}

/** What a payment has made of the order. */
function becomes(desk: Desk, entry: AnyEntry, before: Standing, after: Standing): readonly string[] {
  if (entry.kind !== 'paid') return [];
  const { amountMinor, currency, instalment, on } = entry;
  const shown = (minor: number): string => shownMoney(desk, currency, minor);
  const first =
    amountMinor < 0
      ? `entry ${entry.n}: ${shown(-amountMinor)} of instalment ${instalment} went back on ${on}`
      : `entry ${entry.n}: ${shown(amountMinor)} for instalment ${instalment} came on ${on}`;
  const isClosed = after.closed !== undefined;
  const one = isClosed ? undefined : (after.changeInstalments ?? after.instalments).find((each) => each.instalment === instalment);
  const rest =
    one === undefined
      ? []
      : [
          one.openMinor > 0
            ? `  ${shown(one.openMinor)} of it is still open`
            : one.openMinor === 0
              ? '  it is paid in full'
              : `  it is overpaid by ${shown(-one.openMinor)}`,
        ];
  const isOrder = before.order === undefined && after.order !== undefined;
  const isChange = before.changeWaits !== undefined && after.changeWaits === undefined;
  const made = isOrder
    ? [`  this makes the order, on ${after.order?.on ?? on}`]
    : isChange
      ? [
          `  the change takes the place of the order${after.againFrom === undefined ? '' : `, and the work goes back to ${after.stage}: record the stages anew as they are reached`}`,
        ]
      : [];
  const total = after.confirmed === undefined && !isClosed ? [] : [openSays(after, shown)];
  return [first, ...rest, ...made, ...total];
}

/** `pay`: money that came, or went back. */
export async function runPay(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { values, switches } = given;
  return atDesk(given, terminal, async (desk) => {
    const instalment = Number(values['instalment']);
    if (!Number.isInteger(instalment) || instalment < 1)
      throw new UsageFault(
        values['instalment'] === undefined ? '--instalment is missing' : `--instalment ${values['instalment']} is none`,
        'write its number, as --instalment 1',
      );
    const newest = desk.offers.at(-1);
    const amount = amountOf(values['amount'], newest?.currency ?? desk.input.proposal.currency);
    const on = dayOf(desk, values['on']);
    const payment = { ...amount, instalment, isBack: switches.has('back') };
    return recordEntry(
      desk,
      (now) => preparePayment(desk, now, payment, on, values['insist']),
      (entry, before, after) => becomes(desk, entry, before, after),
    );
  });
}
