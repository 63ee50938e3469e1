import { type AnyEntry, askedBy, type EntryOf, type Standing } from '../../record/index.ts';
import { formatMoney } from '../../units/index.ts';
import { type Statement, writeStatement } from '../../write/client/index.ts';
import type { ExitCode, Given } from '../command.ts';
import { openDocumentFonts } from '../draft/fonts.ts';
import { refusal } from '../refusal.ts';
import { aligned, type Terminal } from '../terminal.ts';
import { answering, noPage, openPaperDesk, type PaperDesk, paperPage } from './papers.ts';
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
  return [...entries.filter(({ n }) => n >= standing.accountFrom).flatMap(movementOf), ...changed].toSorted((a, b) =>
    a.on < b.on ? -1 : a.on > b.on ? 1 : 0,
  );
}

/** What was paid for an instalment that the order has none of. */
export const paidElsewhere = ({ instalments, paidMinor }: Standing): number =>
  paidMinor - instalments.reduce((sum, one) => sum + one.paidMinor, 0);

/** What is due, was paid and is open of what was confirmed, as of the desk's day. */
export function statementOf(desk: Pick<PaperDesk, 'standing' | 'entries' | 'today'>, confirmed: EntryOf<'confirmed'>): Statement {
  const { standing, entries } = desk;
  const waits = standing.changeWaits;
  const end = entries.find(({ n }) => n === standing.closed?.n);
  return {
    on: desk.today,
    design: confirmed.chosen.design,
    confirmedOn: confirmed.on,
    currency: confirmed.chosen.currency,
    instalments: standing.instalments.map(({ instalment, when, amountMinor, paidMinor, openMinor, requested }) => ({
      ...{ instalment, when, amountMinor, paidMinor, openMinor },
      ...(requested === undefined ? {} : { due: requested.due }),
    })),
    elsewhereMinor: paidElsewhere(standing),
    firstTotalMinor: (standing.orders[0]?.confirmed ?? confirmed).chosen.totalMinor,
    ...(waits === undefined
      ? {}
      : { waits: { revision: waits.chosen.revision, confirmedOn: waits.on, totalMinor: waits.chosen.totalMinor } }),
    movements: movementsOf(desk),
    ...(end?.kind === 'cancelled' || end?.kind === 'lost'
      ? {
          closed: {
            kind: end.kind,
            on: end.on,
            dueMinor: end.kind === 'cancelled' ? end.dueMinor : 0,
            paidMinor: standing.paidMinor,
            returnedMinor: standing.returnedMinor,
            openMinor: standing.openMinor,
          },
        }
      : {}),
    entry: entries.at(-1)?.n ?? 0,
  };
}

/** What its end left, in place of the instalments. */
function closedRows({ closed }: Statement, money: (minor: number) => string): readonly string[] {
  if (closed === undefined) return [];
  const { kind, on, dueMinor, paidMinor, returnedMinor, openMinor } = closed;
  return aligned([
    [`due, ${kind} on ${on}`, money(dueMinor)],
    ['paid', money(paidMinor + returnedMinor)],
    ...(returnedMinor === 0 ? [] : [['returned', money(-returnedMinor)] as const]),
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
  const view = paperPage(desk, confirmed.chosen, 'payer');
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
  const { elsewhereMinor } = statement;
  const elsewhere = elsewhereMinor === 0 ? [] : [['', 'of no instalment of it', '', money(elsewhereMinor), money(-elsewhereMinor)]];
  for (const row of statement.closed === undefined
    ? aligned([['', '', 'amount', 'paid', 'open'], ...rows, ...elsewhere])
    : closedRows(statement, money))
    terminal.say(row);
  terminal.say('\nNext: read it over and send it');
  return 0;
}
