import type { CancelPrice } from '../../price/index.ts';
import { priceCancellation } from '../../price/index.ts';
import type { Problem } from '../../problem/index.ts';
import type { EntryOf, Standing } from '../../record/index.ts';
import { isReached } from '../../spec/index.ts';
import { openFonts } from '../../write/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { atDesk, type Desk, dayOf, deciderOf, lookNow, recordEntry, saltOf, sayRefused, shownMoney } from '../record-desk.ts';
import { alreadyClosed, refusal } from '../refusal.ts';
import { aligned, type Terminal } from '../terminal.ts';
import { standingOrder } from './change-tables.ts';

/** Why nothing can be cancelled. Codes: `cli/is-closed cancel-nothing cancel-delivered`. */
function notCancellable(slug: string, { closed, approved, confirmed, stage }: Standing): readonly Problem[] {
  if (closed !== undefined) return [alreadyClosed(slug, closed)];
  if (approved === undefined && confirmed === undefined)
    return [
      refusal('cancel-nothing', 'nothing was approved that could be cancelled', {
        found: `it is ${stage}`,
        mend: `an enquiry that comes to nothing is lost: leafwright lost ${slug} --help`,
      }),
    ];
  if (isReached('delivered', stage))
    return [
      refusal('cancel-delivered', 'the table is delivered, so its order can not be cancelled', {
        found: `it is ${stage}`,
        mend: 'returning it, or what is wrong with it, is another matter: see your terms and local law',
      }),
    ];
  return [];
}

interface Due {
  readonly currency: string;
  readonly stage: Standing['stage'];
  readonly dueMinor: number;
  readonly paidMinor: number;
  readonly price?: CancelPrice;
}

/** What a cancellation leaves due: nothing before there is an order. */
function dueOf(desk: Desk, standing: Standing): Due | { readonly problems: readonly Problem[] } {
  const { order, approved, confirmed, paidMinor, stage } = standing;
  const currency = (order?.confirmed ?? confirmed ?? approved)?.chosen.currency ?? desk.input.proposal.currency;
  if (order === undefined) return { currency, stage, dueMinor: 0, paidMinor };
  const made = standingOrder(desk.folder, desk.slug, standing, desk.offers, { measure: openFonts().measure });
  if ('problems' in made) return made;
  const { ordered, brought } = made;
  const { spec, table, takeOff } = ordered.computed;
  const price = priceCancellation({
    ordered: { spec, table, takeOff },
    net: ordered.net,
    total: { currency, minor: order.confirmed.chosen.totalMinor },
    earlier: ordered.earlier,
    stage,
    ...(brought === undefined ? {} : { brought }),
    paidMinor,
  });
  return { currency, stage, dueMinor: price.due.minor, paidMinor, price };
}

const LAW = 'This follows your own terms and is no legal advice: a right of withdrawal, and local law, come first.';

function said(desk: Desk, { currency, stage, dueMinor, paidMinor, price }: Due): readonly string[] {
  const money = (minor: number): string => shownMoney(desk, currency, minor);
  const open = dueMinor - paidMinor;
  const lines = price?.lines.map(({ says, quantity = '', amount }) => [says, quantity, money(amount.minor)]) ?? [];
  const sums = [
    ...(price === undefined ? [] : [['Before tax', money(price.net.minor)] as const, ['Tax', money(price.tax.minor)] as const]),
    ['Due', money(dueMinor)],
    ['Paid', money(paidMinor)],
    [open < 0 ? 'To be returned' : 'Still due', money(Math.abs(open))],
  ];
  const why =
    price === undefined
      ? 'there is no order yet, so nothing is due'
      : { 'design-hours': 'the hours of drawing', 'work-and-timber': 'the work done and what was bought for it', price: 'the price' }[
          price.rule.kind
        ];
  return [
    `${desk.slug} cancelled at the stage ${stage}: ${why}`,
    '',
    ...(lines.length === 0 ? [] : [...aligned(lines), '']),
    ...aligned(sums),
    '',
    LAW,
  ];
}

const sameOrder = (a: EntryOf<'confirmed'> | undefined, b: EntryOf<'confirmed'> | undefined): boolean => a?.n === b?.n;

/** `cancel`: what is due when an order is cancelled at the stage reached; recorded with `--yes` alone. */
export async function runCancel(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { values, switches } = given;
  return atDesk(given, terminal, async (desk) => {
    const { standing } = lookNow(desk);
    const on = dayOf(desk, values['on']);
    const person = values['who'] === undefined ? undefined : deciderOf(desk, values['who']);
    const not = notCancellable(desk.slug, standing);
    if (not.length > 0) return sayRefused(desk, not);
    const due = dueOf(desk, standing);
    if ('problems' in due) return sayRefused(desk, due.problems);
    if (!switches.has('yes')) {
      if (desk.json) {
        const { price, ...rest } = due;
        terminal.say(JSON.stringify({ schema: 'leafwright/cancel/1', proposal: desk.slug, on, ...rest, ...price }, undefined, 2));
        return 0;
      }
      for (const line of said(desk, due)) terminal.say(line);
      terminal.say(
        `\nNothing was recorded. To record it: leafwright cancel ${desk.slug}${person === undefined ? '' : ` --who ${person}`}${values['on'] === undefined ? '' : ` --on ${on}`} --reason "why" --yes`,
      );
      return 0;
    }
    const reason = values['reason']?.normalize('NFC').trim() ?? '';
    if (reason === '')
      throw new UsageFault(
        '--reason is missing: why is it cancelled?',
        `for example: leafwright cancel ${desk.slug} --reason "they move abroad" --yes`,
      );
    const { currency, dueMinor, stage } = due;
    return recordEntry(
      desk,
      ({ standing: now }) => {
        const still = notCancellable(desk.slug, now);
        if (still.length > 0) return { problems: still };
        if (now.stage !== stage || !sameOrder(now.order?.confirmed, standing.order?.confirmed))
          return { problems: [refusal('cancel-moved', 'the record has gone on while this was reckoned', { mend: 'run it again' })] };
        return {
          body: { kind: 'cancelled', on, stage, dueMinor, currency },
          sealed: { data: { ...(person === undefined ? {} : { person }), reason }, random: saltOf() },
        };
      },
      (entry) => [`entry ${entry.n}: ${desk.slug} is cancelled since ${on}`, '', ...said(desk, due)],
    );
  });
}
