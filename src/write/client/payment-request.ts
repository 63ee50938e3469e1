import type { ClientView } from '../../client/index.ts';
import type { Block } from './blocks.ts';
import type { DocumentFonts } from './paint.ts';
import { dayText, documentHead, heading, makerLine, moneyText, paragraph, rows, say, writeDocument } from './paper.ts';

/** An instalment as it was agreed, with what is paid of it. */
export interface AskedInstalment {
  readonly instalment: number;
  readonly when: string;
  readonly amountMinor: number;
  readonly paidMinor: number;
}

/** A request to pay one instalment, or several in one. Days as `2027-02-14`; amounts in minor units, with tax. */
export interface PaymentRequest {
  readonly number: string;
  readonly on: string;
  readonly due: string;
  /** What it asks for, at least one: 1-based, of so many. */
  readonly instalments: readonly AskedInstalment[];
  readonly of: number;
  readonly design: string;
  readonly currency: string;
  readonly totalMinor: number;
  /** Paid of the whole order so far. */
  readonly paidInAllMinor: number;
  /** The maker's bank details, line by line. */
  readonly payment: readonly string[];
}

/** The design with the revision that was agreed. */
function orderText(view: ClientView, designId: string): string {
  const name = view.designs.find(({ id }) => id === designId)?.name;
  const design = name === undefined ? designId : `${designId}, ${name},`;
  return say(view, 'paper.request-order', { title: view.title, design, revision: view.revision.id });
}

const leadOf = (view: ClientView, { instalment, when }: AskedInstalment, of: number): string =>
  say(view, 'paper.request-lead', { n: String(instalment), of: String(of), when });

function toPay(view: ClientView, request: PaymentRequest): Block {
  const { currency, totalMinor, paidInAllMinor, instalments, of } = request;
  const money = (minor: number): string => moneyText(view, minor, currency);
  const row = (says: string, minor: number, strong = false) => ({ cells: [says, money(minor)], strong });
  const open = instalments.reduce((sum, { amountMinor, paidMinor }) => sum + amountMinor - paidMinor, 0);
  const table = rows([], true);
  return {
    ...table,
    rows: [
      row(say(view, 'paper.request-agreed'), totalMinor),
      ...(paidInAllMinor === 0 ? [] : [row(say(view, 'paper.request-paid-all'), paidInAllMinor)]),
      ...instalments.flatMap((one) => [
        row(instalments.length === 1 ? say(view, 'paper.request-instalment') : leadOf(view, one, of), one.amountMinor),
        ...(one.paidMinor === 0 ? [] : [row(say(view, 'paper.request-paid'), one.paidMinor)]),
      ]),
      row(say(view, 'paper.request-amount'), open, true),
      row(say(view, 'paper.request-open-after'), totalMinor - paidInAllMinor - open),
    ],
  };
}

/** A payment request as blocks in reading order. */
function paymentRequestBlocks(view: ClientView, request: PaymentRequest): readonly Block[] {
  const { client } = view;
  const [lead = '', ...further] = request.instalments.map((one) => leadOf(view, one, request.of));
  return [
    ...documentHead(view, say(view, 'paper.request-title'), lead),
    ...further.map((line) => paragraph(line)),
    { kind: 'gap', mm: 4 },
    rows([
      [say(view, 'paper.request-number'), request.number],
      [say(view, 'paper.request-date'), dayText(view, request.on)],
      [say(view, 'paper.request-due'), dayText(view, request.due)],
      [say(view, 'scope.maker'), makerLine(view)],
      [say(view, 'paper.request-to'), client.address === undefined ? client.name : `${client.name}, ${client.address}`],
      [say(view, 'paper.request-for'), orderText(view, request.design)],
    ]),
    { kind: 'gap', mm: 6 },
    toPay(view, request),
    heading(view, 'paper.request-how'),
    ...(request.payment.length === 0
      ? [paragraph(say(view, 'paper.request-no-details', { telephone: view.maker.telephone }))]
      : request.payment.map((line) => paragraph(line))),
    paragraph(say(view, 'paper.request-quote', { number: request.number })),
    { kind: 'gap', mm: 4 },
    paragraph(say(view, 'paper.request-note'), 'small'),
  ];
}

/** Writes a payment request as PDF bytes: no invoice for tax, and it says so. */
export async function writePaymentRequest(view: ClientView, request: PaymentRequest, fonts: DocumentFonts): Promise<Uint8Array> {
  const title = say(view, 'paper.request-title');
  return writeDocument(view, paymentRequestBlocks(view, request), fonts, {
    title: `${title} ${request.number}: ${view.title}`,
    dateIso: request.on,
    foot: `${title} ${request.number}  ·  ${view.title}`,
  });
}
