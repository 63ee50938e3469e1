import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Problem } from '../../problem/index.ts';
import { addEntry, askedBy, type EntryOf, type InstalmentStanding, standingOf } from '../../record/index.ts';
import { addDays, decimalOfMoney, isoDate, parseDate } from '../../units/index.ts';
import { type PaymentRequest, writePaymentRequest } from '../../write/client/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { openDocumentFonts } from '../draft/fonts.ts';
import { instalmentsNamed } from '../next-step.ts';
import { refusal } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';
import { answering, noPage, openPaperDesk, type PaperDesk, paperPage } from './papers.ts';

const schema = 'leafwright/request/1';
const daysToPay = 14;

const requestsOf = (entries: PaperDesk['entries']): readonly EntryOf<'requested'>[] =>
  entries.flatMap((entry) => (entry.kind === 'requested' ? [entry] : []));

function dayAfter(today: string, days: number): string {
  const day = parseDate(today);
  if (day === undefined) throw new RangeError(`${today} is no day`);
  return isoDate(addDays(day, days));
}

function asked({ values }: Given): { readonly instalments: readonly number[]; readonly due?: string; readonly number?: string } {
  const { instalment = '', due, number } = values;
  const instalments = instalment.split(',').map((one) => one.trim());
  if (!instalments.every((one) => /^[1-9]\d?$/.test(one)) || new Set(instalments).size < instalments.length)
    throw new UsageFault('which instalment is requested?', 'write --instalment 1, or 2 and so on; several in one paper as 1,2');
  if (due !== undefined && (!/^\d{4}-\d\d-\d\d$/.test(due) || parseDate(due) === undefined))
    throw new UsageFault(`--due ${due} is no day`, 'write it as 2027-02-14');
  if (number !== undefined && !/^[A-Za-z0-9][A-Za-z0-9._-]{0,39}$/.test(number))
    throw new UsageFault(
      `--number ${number} can not be a number of a request`,
      'letters, digits, full stop and hyphen, at most 40, as 2027-014',
    );
  return {
    instalments: instalments.map(Number).sort((a, b) => a - b),
    ...(due === undefined ? {} : { due }),
    ...(number === undefined ? {} : { number }),
  };
}

/** `instalment 1`, `instalments 1 and 2`. */
const instalmentsSaid = (all: readonly { readonly instalment: number }[]): string =>
  instalmentsNamed(all.map(({ instalment }) => instalment));

/** What is asked for: the instalments of what is confirmed, or of a confirmed change that waits for its money. */
function accountOf({ confirmed, changeWaits, instalments, changeInstalments }: PaperDesk['standing']) {
  return changeWaits === undefined || changeInstalments === undefined
    ? { confirmed, instalments }
    : { confirmed: changeWaits, instalments: changeInstalments };
}

/** The proposal and its instalments, counted on where a request bears that number already. */
function numberFor({ slug, entries }: PaperDesk, instalments: readonly number[]): string {
  const used = new Set(requestsOf(entries).map(({ number }) => number));
  const number = `${slug.slice(0, 30)}-${instalments.slice(0, 3).join('-')}`;
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
      refusal('order-closed', `${slug} was ${closed.kind} on ${closed.on}`, {
        mend: `what is still open: leafwright statement ${slug}`,
      }),
    ];
  if (confirmed === undefined)
    return [refusal('not-confirmed', `no order of ${slug} was confirmed yet`, { mend: `leafwright confirm ${slug}` })];
  if (wanted.due !== undefined && wanted.due < today)
    return [
      refusal('due-before-today', `the request would be due before it is made`, {
        found: wanted.due,
        mend: `write --due ${dayAfter(today, daysToPay)}`,
      }),
    ];
  const used = requestsOf(desk.entries).find(({ number }) => number === wanted.number);
  if (used !== undefined)
    return [
      refusal('number-used', `number ${used.number} was used for ${instalmentsSaid(askedBy(used))} on ${used.on}`, {
        mend: 'give it another number',
      }),
    ];
  return wanted.instalments.flatMap((instalment): readonly Problem[] => {
    const one = instalments.find((each) => each.instalment === instalment);
    if (one === undefined)
      return [
        refusal('no-such-instalment', `${slug} has no instalment ${instalment}`, {
          allowed: `1 to ${instalments.length}`,
          mend: `leafwright statement ${slug} lists them`,
        }),
      ];
    if (one.openMinor <= 0)
      return [
        refusal('instalment-paid', `instalment ${instalment} of ${slug} is paid`, {
          mend: `what is open: leafwright statement ${slug}`,
        }),
      ];
    if (one.requested === undefined || wanted.number !== undefined) return [];
    return [
      refusal('instalment-requested', `instalment ${instalment} of ${slug} was requested on ${one.requested.on}`, {
        found: `number ${one.requested.number}, due ${one.requested.due}`,
        mend: 'to remind, give the new request a number of its own: --number',
      }),
    ];
  });
}

function requestOf(
  desk: PaperDesk,
  confirmed: EntryOf<'confirmed'>,
  asking: readonly InstalmentStanding[],
  wanted: ReturnType<typeof asked>,
): PaymentRequest {
  const { standing, today, payment } = desk;
  return {
    number: wanted.number ?? numberFor(desk, wanted.instalments),
    on: today,
    due: wanted.due ?? dayAfter(today, daysToPay),
    instalments: asking.map(({ instalment, when, amountMinor, paidMinor }) => ({ instalment, when, amountMinor, paidMinor })),
    of: confirmed.instalmentsMinor.length,
    design: confirmed.chosen.design,
    currency: confirmed.chosen.currency,
    totalMinor: confirmed.chosen.totalMinor,
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

/** `request`: a payment request for one or several instalments in one paper, recorded and laid into the outbox. */
export async function runRequest(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { switches } = given;
  const { refuse, warn } = answering(schema, 'Nothing was requested.', switches, terminal);
  const wanted = asked(given);
  const opened = openPaperDesk(given);
  const { desk } = opened;
  if (desk === undefined) return refuse(opened.problems);
  const refused = refusals(desk, wanted);
  const { confirmed, instalments } = accountOf(desk.standing);
  const asking = instalments.filter(({ instalment }) => wanted.instalments.includes(instalment));
  const [first, ...further] = asking.map(({ instalment, openMinor }) => ({ instalment, amountMinor: openMinor }));
  if (refused.length > 0 || confirmed === undefined || first === undefined) return refuse(refused);

  const request = requestOf(desk, confirmed, asking, wanted);
  const view = paperPage(desk, confirmed.chosen, 'payer');
  if (view === undefined) return refuse([noPage(desk, confirmed.chosen.revision, 'with prices')]);
  const bytes = await writePaymentRequest(view, request, openDocumentFonts());
  let file = '';
  const added = await addEntry({ folder: desk.folder, shown: desk.shown, at: desk.at, zone: desk.zone }, (entries) => {
    const changed = refusals({ ...desk, entries, standing: standingOf(entries, desk.offers, desk.today) }, wanted);
    if (changed.length > 0) return { problems: changed };
    const { number, on, due, currency } = request;
    file = intoOutbox(desk, `request-${number}.pdf`, bytes);
    return { body: { kind: 'requested', on, number, ...first, currency, due, ...(further.length === 0 ? {} : { also: further }) } };
  });
  const { entry } = added;
  if (entry === undefined) return refuse(added.problems);
  if (switches.has('json')) {
    const { number, currency, due } = request;
    terminal.say(
      JSON.stringify(
        {
          schema,
          proposal: desk.slug,
          entry: entry.n,
          number,
          ...first,
          ...(further.length === 0 ? {} : { also: further }),
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
  const which = instalmentsSaid(asking);
  terminal.say(
    `${which[0]?.toUpperCase()}${which.slice(1)} of ${request.of} ${asking.length === 1 ? 'is' : 'are'} requested under ${request.number}, due ${request.due}: ${terminal.accent(file)}`,
  );
  if (desk.payment.length === 0)
    terminal.say(
      '  It names no account: write your bank details under payment in templates/maker.yaml, then request it under a new number',
    );
  const pay = [first, ...further].map(({ instalment, amountMinor }) => {
    const amount = decimalOfMoney({ minor: amountMinor, currency: request.currency });
    return `leafwright pay ${desk.slug} --instalment ${instalment} --amount ${amount}`;
  });
  terminal.say(`\nNext: send it; when the money has come, ${pay.join(' and ')}`);
  return 0;
}
