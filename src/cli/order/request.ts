import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Problem } from '../../problem/index.ts';
import { addEntry, type EntryOf, type InstalmentStanding, standingOf } from '../../record/index.ts';
import { addDays, decimalOfMoney, isoDate, parseDate } from '../../units/index.ts';
import { type PaymentRequest, writePaymentRequest } from '../../write/client/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { openDocumentFonts } from '../draft/fonts.ts';
import { frozenPage } from '../draft/frozen-view.ts';
import type { Terminal } from '../terminal.ts';
import { answering, noPage, openPaperDesk, type PaperDesk, paperProblem } from './papers.ts';

const schema = 'leafwright/request/1';
const daysToPay = 14;

const requestsOf = (entries: PaperDesk['entries']): readonly EntryOf<'requested'>[] =>
  entries.flatMap((entry) => (entry.kind === 'requested' ? [entry] : []));

function dayAfter(today: string, days: number): string {
  const day = parseDate(today);
  if (day === undefined) throw new RangeError(`${today} is no day`);
  return isoDate(addDays(day, days));
}

function asked({ values }: Given): { readonly instalment: number; readonly due?: string; readonly number?: string } {
  const { instalment = '', due, number } = values;
  if (!/^[1-9]\d?$/.test(instalment)) throw new UsageFault('which instalment is requested?', 'write --instalment 1, or 2 and so on');
  if (due !== undefined && (!/^\d{4}-\d\d-\d\d$/.test(due) || parseDate(due) === undefined))
    throw new UsageFault(`--due ${due} is no day`, 'write it as 2027-02-14');
  if (number !== undefined && !/^[A-Za-z0-9][A-Za-z0-9._-]{0,39}$/.test(number))
    throw new UsageFault(
      `--number ${number} can not be a number of a request`,
      'letters, digits, full stop and hyphen, at most 40, as 2027-014',
    );
  return { instalment: Number(instalment), ...(due === undefined ? {} : { due }), ...(number === undefined ? {} : { number }) };
}

/** What is asked for: the instalments of what is confirmed, or of a confirmed change that waits for its money. */
function accountOf({ confirmed, changeWaits, instalments, changeInstalments }: PaperDesk['standing']) {
  return changeWaits === undefined || changeInstalments === undefined
    ? { confirmed, instalments }
    : { confirmed: changeWaits, instalments: changeInstalments };
}

/** The proposal and the instalment, counted on where a request bears that number already. */
function numberFor({ slug, entries }: PaperDesk, instalment: number): string {
  const used = new Set(requestsOf(entries).map(({ number }) => number));
  const number = `${slug.slice(0, 30)}-${instalment}`;
  for (let count = 2; used.has(number); count += 1) if (!used.has(`${number}-${count}`)) return `${number}-${count}`;
  return number;
}

/** Why an instalment can not be requested. Codes: `cli/order-closed not-confirmed no-such-instalment instalment-paid due-before-today number-used instalment-requested`. */
function refusals(desk: PaperDesk, wanted: ReturnType<typeof asked>): readonly Problem[] {
  const { slug, standing, today } = desk;
  const { closed } = standing;
  const { confirmed, instalments } = accountOf(standing);
  if (closed !== undefined)
    return [
      paperProblem('order-closed', `${slug} was ${closed.kind} on ${closed.on}`, {
        mend: `what is still open: leafwright statement ${slug}`,
      }),
    ];
  if (confirmed === undefined)
    return [paperProblem('not-confirmed', `no order of ${slug} was confirmed yet`, { mend: `leafwright confirm ${slug}` })];
  const one = instalments.find(({ instalment }) => instalment === wanted.instalment);
  if (one === undefined)
    return [
      paperProblem('no-such-instalment', `${slug} has no instalment ${wanted.instalment}`, {
        allowed: `1 to ${instalments.length}`,
        mend: `leafwright statement ${slug} lists them`,
      }),
    ];
  if (one.openMinor <= 0)
    return [
      paperProblem('instalment-paid', `instalment ${wanted.instalment} of ${slug} is paid`, {
        mend: `what is open: leafwright statement ${slug}`,
      }),
    ];
  if (wanted.due !== undefined && wanted.due < today)
    return [
      paperProblem('due-before-today', `the request would be due before it is made`, {
        found: wanted.due,
        mend: `write --due ${dayAfter(today, daysToPay)}`,
      }),
    ];
  const used = requestsOf(desk.entries).find(({ number }) => number === wanted.number);
  if (used !== undefined)
    return [
      paperProblem('number-used', `number ${used.number} was used for instalment ${used.instalment} on ${used.on}`, {
        mend: 'give it another number',
      }),
    ];
  if (one.requested !== undefined && wanted.number === undefined)
    return [
      paperProblem('instalment-requested', `instalment ${wanted.instalment} of ${slug} was requested on ${one.requested.on}`, {
        found: `number ${one.requested.number}, due ${one.requested.due}`,
        mend: 'to remind, give the new request a number of its own: --number',
      }),
    ];
  return [];
}

function requestOf(
  desk: PaperDesk,
  confirmed: EntryOf<'confirmed'>,
  one: InstalmentStanding,
  wanted: ReturnType<typeof asked>,
): PaymentRequest {
  const { standing, today, payment } = desk;
  return {
    number: wanted.number ?? numberFor(desk, one.instalment),
    on: today,
    due: wanted.due ?? dayAfter(today, daysToPay),
    instalment: one.instalment,
    of: confirmed.instalmentsMinor.length,
    when: one.when,
    design: confirmed.chosen.design,
    currency: confirmed.chosen.currency,
    totalMinor: confirmed.chosen.totalMinor,
    amountMinor: one.amountMinor,
    paidMinor: one.paidMinor,
    paidInAllMinor: standing.paidMinor,
    payment,
  };
}

/** Writes a paper for the client into the outbox of a proposal; gives its path as the maker sees it. */
export function intoOutbox(desk: Pick<PaperDesk, 'folder' | 'shown'>, name: string, bytes: Uint8Array): string {
  mkdirSync(join(desk.folder, 'outbox'), { recursive: true });
  writeFileSync(join(desk.folder, 'outbox', name), bytes);
  return `${desk.shown}/outbox/${name}`;
}

/** `request`: a payment request for one instalment, recorded and laid into the outbox. */
export async function runRequest(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { switches } = given;
  const { refuse, warn } = answering(schema, 'Nothing was requested.', switches, terminal);
  const wanted = asked(given);
  const opened = openPaperDesk(given);
  const { desk } = opened;
  if (desk === undefined) return refuse(opened.problems);
  const refused = refusals(desk, wanted);
  const { confirmed, instalments } = accountOf(desk.standing);
  const one = instalments.find(({ instalment }) => instalment === wanted.instalment);
  if (refused.length > 0 || confirmed === undefined || one === undefined) return refuse(refused);

  const request = requestOf(desk, confirmed, one, wanted);
  const view = frozenPage(desk.folder, confirmed.chosen.revision, confirmed.chosen.fingerprint, 'payer');
  if (view === undefined) return refuse([noPage(desk, confirmed.chosen.revision, 'with prices')]);
  const bytes = await writePaymentRequest(view, request, openDocumentFonts());
  const openMinor = request.amountMinor - request.paidMinor;
  let file = '';
  const added = await addEntry({ folder: desk.folder, shown: desk.shown, at: desk.at, zone: desk.zone }, (entries) => {
    const changed = refusals({ ...desk, entries, standing: standingOf(entries, desk.offers, desk.today) }, wanted);
    if (changed.length > 0) return { problems: changed };
    const { number, on, due, instalment, currency } = request;
    file = intoOutbox(desk, `request-${number}.pdf`, bytes);
    return { body: { kind: 'requested', on, number, instalment, amountMinor: openMinor, currency, due } };
  });
  const { entry } = added;
  if (entry === undefined) return refuse(added.problems);
  if (switches.has('json')) {
    const { number, instalment, currency, due } = request;
    terminal.say(
      JSON.stringify(
        {
          schema,
          proposal: desk.slug,
          entry: entry.n,
          number,
          instalment,
          amountMinor: openMinor,
          currency,
          due,
          file,
          problems: added.problems,
        },
        undefined,
        2,
      ),
    );
    return 0;
  }
  warn(added.problems);
  terminal.say(
    `Instalment ${request.instalment} of ${request.of} is requested under ${request.number}, due ${request.due}: ${terminal.accent(file)}`,
  );
  if (desk.payment.length === 0)
    terminal.say(
      '  It names no account: write your bank details under payment in templates/maker.yaml, then request it under a new number',
    );
  const amount = decimalOfMoney({ minor: openMinor, currency: request.currency });
  terminal.say(
    `\nNext: send it; when the money has come, leafwright pay ${desk.slug} --instalment ${request.instalment} --amount ${amount}`,
  );
  return 0;
}
