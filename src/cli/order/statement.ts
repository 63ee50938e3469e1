import { type AnyEntry, askedBy, type EntryOf } from '../../record/index.ts';
import { formatMoney } from '../../units/index.ts';
import { type Statement, writeStatement } from '../../write/client/index.ts';
import type { ExitCode, Given } from '../command.ts';
import { openDocumentFonts } from '../draft/fonts.ts';
import { frozenPage } from '../draft/frozen-view.ts';
import { refusal } from '../refusal.ts';
import { aligned, type Terminal } from '../terminal.ts';
import { answering, noPage, openPaperDesk, type PaperDesk } from './papers.ts';
import { intoOutbox } from './request.ts';

const schema = 'leafwright/statement/1';

type Movement = Statement['movements'][number];

function movementOf(entry: AnyEntry): readonly Movement[] {
  if (entry.kind === 'requested') {
    const { on, number, due } = entry;
    return askedBy(entry).map(({ instalment, amountMinor }): Movement => ({ kind: 'requested', on, instalment, number, due, amountMinor }));
  }
  if (entry.kind === 'paid') return [{ kind: 'paid', on: entry.on, instalment: entry.instalment, amountMinor: entry.amountMinor }];
  return [];
}

/** A payment may be recorded days after it came: by the day, and in the order of the record within one; a change after the money that it took. */
function movementsOf({ standing, entries }: Pick<PaperDesk, 'standing' | 'entries'>): readonly Movement[] {
  const changed = standing.orders.slice(1).map(({ confirmed: { chosen }, on }): Movement => {
    const { revision, totalMinor } = chosen;
    return { kind: 'changed', on, revision, totalMinor };
  });
  return [...entries.flatMap(movementOf), ...changed].toSorted((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));
}

/** What is due, was paid and is open of what was confirmed, as of the desk's day. */
export function statementOf(desk: Pick<PaperDesk, 'standing' | 'entries' | 'today'>, confirmed: EntryOf<'confirmed'>): Statement {
  const { standing, entries } = desk;
  const waits = standing.changeWaits;
  const cancelled = standing.closed?.kind === 'cancelled' ? entries.find(({ n }) => n === standing.closed?.n) : undefined;
  return {
    on: desk.today,
    design: confirmed.chosen.design,
    confirmedOn: confirmed.on,
    currency: confirmed.chosen.currency,
    instalments: standing.instalments.map(({ instalment, when, amountMinor, paidMinor, openMinor, requested }) => ({
      ...{ instalment, when, amountMinor, paidMinor, openMinor },
      ...(requested === undefined ? {} : { due: requested.due }),
    })),
    firstTotalMinor: (standing.orders[0]?.confirmed ?? confirmed).chosen.totalMinor,
    ...(waits === undefined
      ? {}
      : { waits: { revision: waits.chosen.revision, confirmedOn: waits.on, totalMinor: waits.chosen.totalMinor } }),
    movements: movementsOf(desk),
    ...(cancelled?.kind === 'cancelled'
      ? { cancelled: { on: cancelled.on, dueMinor: cancelled.dueMinor, paidMinor: standing.paidMinor, openMinor: standing.openMinor } }
      : {}),
    entry: entries.at(-1)?.n ?? 0,
  };
}

/** What a cancellation left, in place of the instalments. */
function cancelledRows({ cancelled }: Statement, money: (minor: number) => string): readonly string[] {
  if (cancelled === undefined) return [];
  const { on, dueMinor, paidMinor, openMinor } = cancelled;
  return aligned([
    [`due, cancelled on ${on}`, money(dueMinor)],
    ['paid', money(paidMinor)],
    [openMinor < 0 ? 'to be returned' : 'open', money(Math.abs(openMinor))],
  ]);
}

/** `statement`: what is due, was paid and is open, laid into the outbox; records nothing. */
export async function runStatement(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { switches } = given;
  const { refuse } = answering(schema, 'Nothing was made.', switches, terminal);
  const opened = openPaperDesk(given);
  const { desk } = opened;
  if (desk === undefined) return refuse(opened.problems);
  const { confirmed } = desk.standing;
  if (confirmed === undefined)
    return refuse([refusal('not-confirmed', `no order of ${desk.slug} was confirmed yet`, { mend: `leafwright confirm ${desk.slug}` })]);
  const statement = statementOf(desk, confirmed);
  const view = frozenPage(desk.folder, confirmed.chosen.revision, confirmed.chosen.fingerprint, 'payer');
  if (view === undefined) return refuse([noPage(desk, confirmed.chosen.revision, 'with prices')]);
  const file = intoOutbox(desk, `statement-${desk.today}.pdf`, await writeStatement(view, statement, openDocumentFonts()));
  if (switches.has('json')) {
    terminal.say(JSON.stringify({ schema, proposal: desk.slug, file, ...statement, problems: [] }, undefined, 2));
    return 0;
  }
  const money = (minor: number): string => formatMoney({ currency: statement.currency, minor }, view.language);
  const rows = statement.instalments.map((one) => [
    String(one.instalment),
    one.when,
    money(one.amountMinor),
    money(one.paidMinor),
    money(one.openMinor),
  ]);
  terminal.say(`The statement of ${desk.slug} as of ${desk.today} is ${terminal.accent(file)}`);
  for (const row of statement.cancelled === undefined
    ? aligned([['', '', 'amount', 'paid', 'open'], ...rows])
    : cancelledRows(statement, money))
    terminal.say(row);
  terminal.say('\nNext: read it over and send it');
  return 0;
}
