import type { ClientView } from '../../client/index.ts';
import type { Block, TableBlock } from './blocks.ts';
import type { DocumentFonts } from './paint.ts';
import { dayText, documentHead, heading, moneyText, paragraph, rows, say, writeDocument } from './paper.ts';

/** What is due, was paid and is open of an order. Days as `2027-02-14`; amounts in minor units, with tax. */
export interface Statement {
  readonly on: string;
  readonly design: string;
  readonly confirmedOn: string;
  readonly currency: string;
  readonly instalments: readonly {
    readonly instalment: number;
    readonly when: string;
    readonly amountMinor: number;
    readonly paidMinor: number;
    readonly openMinor: number;
    /** Absent where it was not requested yet. */
    readonly due?: string;
  }[];
  /** Paid for an instalment that the order has none of. */
  readonly elsewhereMinor: number;
  /** What the order came to when it became one. */
  readonly firstTotalMinor: number;
  /** A change that is confirmed and waits for its money: the order stands as it was. */
  readonly waits?: { readonly revision: string; readonly confirmedOn: string; readonly totalMinor: number };
  /** In the order in which it happened. A payment that went back is negative. */
  readonly movements: readonly (
    | {
        readonly kind: 'requested';
        readonly on: string;
        readonly instalment: number;
        readonly number: string;
        readonly due: string;
        readonly amountMinor: number;
      }
    | { readonly kind: 'paid'; readonly on: string; readonly instalment: number; readonly amountMinor: number }
    /** A change took the place of the order, which comes to `totalMinor` from then on. */
    | { readonly kind: 'changed'; readonly on: string; readonly revision: string; readonly totalMinor: number }
  )[];
  /** After a cancellation: what it left due, in place of the instalments; of what was lost before it was an order, nothing. `paidMinor` less what was returned. */
  readonly closed?: {
    readonly kind: 'cancelled' | 'lost';
    readonly on: string;
    readonly dueMinor: number;
    readonly paidMinor: number;
    readonly returnedMinor: number;
    readonly openMinor: number;
  };
  /** The last entry of the record that was looked at. */
  readonly entry: number;
}

const sum = (amounts: readonly number[]): number => amounts.reduce((total, one) => total + one, 0);

/** After a cancellation nothing is open of an instalment: that column is left out. */
function instalmentRows(view: ClientView, { instalments, elsewhereMinor, currency, closed }: Statement): TableBlock {
  const money = (minor: number): string => moneyText(view, minor, currency);
  const isOver = closed !== undefined;
  const amounts = (row: { readonly amountMinor: number; readonly paidMinor: number; readonly openMinor: number }): readonly string[] =>
    [row.amountMinor, row.paidMinor, ...(isOver ? [] : [row.openMinor])].map(money);
  const total = {
    amountMinor: sum(instalments.map((one) => one.amountMinor)),
    paidMinor: sum([...instalments.map((one) => one.paidMinor), elsewhereMinor]),
    openMinor: sum([...instalments.map((one) => one.openMinor), -elsewhereMinor]),
  };
  const elsewhere = { amountMinor: 0, paidMinor: elsewhereMinor, openMinor: -elsewhereMinor };
  const column = (key: string, share: number, align: 'left' | 'right' = 'left') => ({ head: say(view, key), share, align });
  return {
    kind: 'table',
    showHead: true,
    columns: [
      column('paper.statement-n', 0.06),
      column('paper.statement-when', isOver ? 0.44 : 0.28),
      column('paper.statement-due-on', 0.18),
      column('paper.statement-amount', 0.16, 'right'),
      column('paper.statement-paid', 0.16, 'right'),
      ...(isOver ? [] : [column('paper.statement-open', 0.16, 'right')]),
    ],
    rows: [
      ...instalments.map((one) => ({
        cells: [String(one.instalment), one.when, one.due === undefined ? '–' : dayText(view, one.due), ...amounts(one)],
        strong: false,
      })),
      ...(elsewhereMinor === 0 ? [] : [{ cells: ['', say(view, 'paper.statement-elsewhere'), '', ...amounts(elsewhere)], strong: false }]),
      { cells: ['', say(view, 'paper.statement-total'), '', ...amounts(total)], strong: true },
    ],
  };
}

/** What happened, a cancellation among it, by the day. */
type Happened = Statement['movements'][number] | Pick<NonNullable<Statement['closed']>, 'kind' | 'on' | 'dueMinor'>;

function happenings({ movements, closed }: Statement): readonly Happened[] {
  if (closed === undefined) return movements;
  const before = movements.filter((one) => one.on <= closed.on);
  return [...before, closed, ...movements.slice(before.length)];
}

function movementRows(view: ClientView, statement: Statement): TableBlock {
  const money = (minor: number): string => moneyText(view, minor, statement.currency);
  let totalMinor = statement.firstTotalMinor;
  let open = totalMinor;
  const column = (key: string, share: number, align: 'left' | 'right' = 'left') => ({ head: say(view, key), share, align });
  return {
    kind: 'table',
    showHead: true,
    columns: [
      column('paper.statement-date', 0.18),
      column('paper.statement-what', 0.34),
      column('paper.statement-requested', 0.16, 'right'),
      column('paper.statement-paid', 0.16, 'right'),
      column('paper.statement-balance', 0.16, 'right'),
    ],
    rows: happenings(statement).map((one) => {
      if ('dueMinor' in one) {
        open -= totalMinor - one.dueMinor;
        const says = say(view, `paper.statement-was-${one.kind}`, { due: money(one.dueMinor) });
        return { cells: [dayText(view, one.on), says, '', '', money(open)], strong: false };
      }
      if (one.kind === 'changed') {
        open += one.totalMinor - totalMinor;
        totalMinor = one.totalMinor;
        const says = say(view, 'paper.statement-was-changed', { revision: one.revision, total: money(one.totalMinor) });
        return { cells: [dayText(view, one.on), says, '', '', money(open)], strong: false };
      }
      const n = String(one.instalment);
      if (one.kind === 'requested') {
        const says = say(view, 'paper.statement-was-requested', { n, number: one.number, due: dayText(view, one.due) });
        return { cells: [dayText(view, one.on), says, money(one.amountMinor), '', money(open)], strong: false };
      }
      open -= one.amountMinor;
      const says = say(view, one.amountMinor < 0 ? 'paper.statement-was-returned' : 'paper.statement-was-paid', { n });
      return { cells: [dayText(view, one.on), says, '', money(one.amountMinor), money(open)], strong: false };
    }),
  };
}

/** What a cancellation left due takes the place of the instalments. */
function closedBlocks(view: ClientView, { closed, currency }: Statement): readonly Block[] {
  if (closed === undefined) return [];
  const { kind, on, dueMinor, paidMinor, returnedMinor, openMinor } = closed;
  const money = (minor: number): string => moneyText(view, minor, currency);
  const isBack = openMinor < 0;
  const last = say(view, isBack ? 'paper.statement-back' : 'paper.statement-open');
  const account = rows(
    [
      [say(view, `paper.statement-${kind}-due`, { date: dayText(view, on) }), money(dueMinor)],
      [say(view, 'paper.statement-paid'), money(paidMinor + returnedMinor)],
      ...(returnedMinor === 0 ? [] : [[say(view, 'paper.statement-returned'), money(-returnedMinor)] as const]),
    ],
    true,
  );
  const left = { cells: [last, money(Math.abs(openMinor))], strong: true };
  return [heading(view, `paper.statement-${kind}`), { ...account, rows: [...account.rows, left] }];
}

/** That the order stands as it was while a change waits. */
function waitingBlocks(view: ClientView, { waits, currency, closed }: Statement): readonly Block[] {
  if (waits === undefined || closed !== undefined) return [];
  const { revision, confirmedOn, totalMinor } = waits;
  const values = { revision, date: dayText(view, confirmedOn), total: moneyText(view, totalMinor, currency) };
  return [paragraph(say(view, 'paper.statement-change-waits', values))];
}

/** A statement as blocks in reading order. */
function statementBlocks(view: ClientView, statement: Statement): readonly Block[] {
  const name = view.designs.find(({ id }) => id === statement.design)?.name;
  const design = name === undefined ? statement.design : `${statement.design}, ${name},`;
  const confirmed = { design, revision: view.revision.id, date: dayText(view, statement.confirmedOn) };
  return [
    ...documentHead(view, say(view, 'paper.statement-title'), say(view, 'paper.statement-lead', { date: dayText(view, statement.on) })),
    { kind: 'gap', mm: 4 },
    paragraph(`${view.client.name}. ${view.title}.`),
    paragraph(`${say(view, 'paper.statement-follows', confirmed)}.`),
    ...waitingBlocks(view, statement),
    ...closedBlocks(view, statement),
    heading(view, statement.closed === undefined ? 'paper.statement-instalments' : 'paper.statement-instalments-before'),
    instalmentRows(view, statement),
    heading(view, 'paper.statement-movements'),
    statement.movements.length === 0 ? paragraph(say(view, 'paper.statement-nothing-yet')) : movementRows(view, statement),
    paragraph(say(view, 'paper.statement-note', { n: String(statement.entry) }), 'small'),
  ];
}

/** Writes a statement as PDF bytes. */
export async function writeStatement(view: ClientView, statement: Statement, fonts: DocumentFonts): Promise<Uint8Array> {
  const title = say(view, 'paper.statement-title');
  return writeDocument(view, statementBlocks(view, statement), fonts, {
    title: `${title}: ${view.title}`,
    dateIso: statement.on,
    foot: `${title}  ·  ${view.title}  ·  ${dayText(view, statement.on)}`,
  });
}
