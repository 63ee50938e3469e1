import type { ClientView, DesignView, PriceView } from '../../client/index.ts';
import type { Block } from './blocks.ts';
import { dayText, heading, moneyText, paragraph, rows, say } from './paper.ts';
import { instalmentTable, priceTable } from './price-table.ts';

/** What was approved of a design, by whom and when: from the record of the proposal. Days as `2027-02-14`; digests as 64 hex digits. */
export interface ApprovedScope {
  /** Ids of the options that are on. */
  readonly options: readonly string[];
  /** The design in the view is the one with these options, not the standard one beside which they are told. */
  readonly isAsChosen: boolean;
  readonly currency: string;
  /** Before tax: of the standard choice, and of the chosen one. */
  readonly standardNetMinor: number;
  readonly netMinor: number;
  readonly totalMinor: number;
  readonly instalmentsMinor: readonly number[];
  readonly answers: readonly {
    /** Absent where it was erased. */
    readonly name?: string;
    readonly on: string;
    readonly by: 'code' | 'form' | 'confirmation' | 'paper';
    /** Number and digest of its entry in the record. */
    readonly n: number;
    readonly digest: string;
    readonly insisted: boolean;
    readonly remark?: string;
  }[];
  readonly confirmedOn?: string;
  readonly fingerprint: string;
  /** The sample that was approved. */
  readonly sample?: {
    readonly id: string;
    readonly name?: string;
    readonly on: string;
    readonly keeps: 'client' | 'maker' | 'half-each' | 'nobody';
  };
  /** Where the file is signed with the maker's key: its certificate, and the instant of the last answer (RFC 3339, UTC). */
  readonly signature?: { readonly certificateSha256: string; readonly at: string };
}

const inFives = (hex: string, digits: number): string => (hex.slice(0, digits).match(/.{1,5}/g) ?? []).join(' ');
const inEights = (hex: string): string => (hex.match(/.{1,8}/g) ?? []).join(' ');
const SHOWN_DIGITS = 20;

const ended = (text: string): string => (/[.!?…]$/.test(text) ? text : `${text}.`);

/** The sample as approved, as named, or as still to come. */
export function sampleText(view: ClientView, approved: ApprovedScope | undefined): string {
  const yes = approved?.sample;
  if (yes !== undefined) {
    const values = {
      id: yes.id,
      name: yes.name ?? say(view, 'paper.approval-erased'),
      date: dayText(view, yes.on),
      keeps: say(view, `paper.sample-keeps.${yes.keeps}`),
    };
    const isNamed = view.sample?.includes(yes.id) === true;
    return isNamed
      ? say(view, 'paper.sample-approved', { ...values, sample: ended(view.sample ?? '') })
      : say(view, 'paper.sample-approved-other', values);
  }
  return view.sample === undefined ? say(view, 'paper.sample-subject') : say(view, 'paper.sample-named', { sample: ended(view.sample) });
}

/** Who said yes to what, when and how, each with its entry in the record. */
export function approvalBlocks(view: ClientView, design: DesignView, approved: ApprovedScope): readonly Block[] {
  const { answers, signature } = approved;
  const nameOf = (answer: ApprovedScope['answers'][number]): string => answer.name ?? say(view, 'paper.approval-erased');
  const seesPrice = view.audience === 'payer';
  // A remark may speak of money: it is for the one who pays.
  const remarks = answers.flatMap((answer) =>
    answer.remark === undefined || answer.remark === '' || !seesPrice
      ? []
      : [paragraph(say(view, 'paper.approval-remark', { name: nameOf(answer), remark: answer.remark }))],
  );
  const facts: (readonly [string, string])[] = [[say(view, 'paper.approval-fingerprint'), inEights(approved.fingerprint)]];
  const hasOptions = (view.letter?.designs.find(({ id }) => id === design.id)?.options.length ?? 0) > 0;
  if (hasOptions) facts.unshift([say(view, 'scope.options'), choiceOf(view, design, approved).says]);
  if (seesPrice) facts.unshift([say(view, 'paper.approval-total'), moneyText(view, approved.totalMinor, approved.currency)]);
  if (approved.confirmedOn !== undefined) facts.push([say(view, 'paper.approval-confirmed'), dayText(view, approved.confirmedOn)]);
  return [
    heading(view, 'paper.approval'),
    {
      ...paragraph(say(view, 'paper.approval-says', { design: `${design.id}, ${design.name}`, revision: view.revision.id })),
      keepWithNext: true,
    } as Block,
    {
      kind: 'table',
      showHead: true,
      columns: [
        { head: say(view, 'paper.approval-who'), share: 0.25, align: 'left' },
        { head: say(view, 'paper.approval-when'), share: 0.2, align: 'left' },
        { head: say(view, 'paper.approval-how'), share: 0.27, align: 'left' },
        { head: say(view, 'paper.approval-entry'), share: 0.28, align: 'left' },
      ],
      rows: answers.map((answer) => ({
        cells: [
          nameOf(answer),
          dayText(view, answer.on),
          say(view, `paper.approval-by.${answer.by}`),
          `${answer.n}, ${inFives(answer.digest, SHOWN_DIGITS)}`,
        ],
        strong: false,
      })),
    },
    ...(answers.some(({ insisted }) => insisted) ? [paragraph(say(view, 'paper.approval-insisted'), 'small')] : []),
    ...remarks,
    rows(facts),
    paragraph(say(view, 'paper.approval-identity'), 'small'),
    ...(signature === undefined ? [] : [paragraph(say(view, 'paper.signed', { digest: inEights(signature.certificateSha256) }), 'small')]),
  ];
}

/** What was chosen, in words, and whether it is the standard choice: from what the letter of answer offered. */
function choiceOf(
  view: ClientView,
  design: DesignView,
  { options }: ApprovedScope,
): { readonly isStandard: boolean; readonly says: string } {
  const offered = view.letter?.designs.find(({ id }) => id === design.id);
  const on = new Set(options);
  const says = (offered?.options ?? []).filter(({ id }) => on.has(id)).map((option) => option.says);
  const combination = offered?.combinations.find((one) => one.options.length === on.size && one.options.every((id) => on.has(id)));
  return { isStandard: combination?.isDefault === true, says: says.length === 0 ? say(view, 'price.no-options') : says.join('; ') };
}

/** Where the design is drawn and listed as standard and something else was chosen, that is said beside it. */
export function chosenNote(view: ClientView, design: DesignView, approved: ApprovedScope): readonly Block[] {
  const { isStandard, says } = choiceOf(view, design, approved);
  return isStandard || approved.isAsChosen ? [] : [paragraph(say(view, 'paper.standard-shown', { says }))];
}

/** The price of what was chosen: the lines of the standard choice, what the chosen options change, and the totals that were agreed. */
export function approvedPriceBlocks(view: ClientView, design: DesignView, price: PriceView, approved: ApprovedScope): readonly Block[] {
  const { currency, standardNetMinor, netMinor, totalMinor } = approved;
  const money = (minor: number): string => moneyText(view, minor, currency);
  const row = (says: string, amount: string, strong = false) => ({ cells: [says, '', amount], strong });
  const on = new Set(approved.options);
  const chosen = price.options.filter(({ id }) => on.has(id));
  const { isStandard, says } = choiceOf(view, design, approved);
  const [only, ...more] = price.taxes;
  const difference = netMinor - standardNetMinor;
  const totals =
    isStandard || approved.isAsChosen
      ? [row(say(view, 'price.net'), money(netMinor)), ...price.taxes.map((tax) => row(tax.says, tax.amount))]
      : [
          row(say(view, 'paper.standard-net'), money(standardNetMinor)),
          row(say(view, 'paper.chosen-options', { says }), (difference > 0 ? '+' : '') + money(difference)),
          row(say(view, 'price.net'), money(netMinor)),
          row(only === undefined || more.length > 0 ? say(view, 'paper.tax') : only.says, money(totalMinor - netMinor)),
        ];
  const instalments = price.instalments.map((instalment, i) => ({ ...instalment, amount: money(approved.instalmentsMinor[i] ?? 0) }));
  const ticked: readonly Block[] =
    price.options.length === 0
      ? []
      : [
          heading(view, 'scope.options', 3),
          rows(
            chosen.length === 0
              ? [[say(view, 'paper.option-on', { says: say(view, 'price.no-options') }), '']]
              : chosen.map((option) => [say(view, 'paper.option-on', { says: option.says }), option.difference] as const),
            true,
          ),
        ];
  return [
    ...priceTable(view, price, [...totals, row(say(view, 'price.total'), money(totalMinor), true)]),
    ...ticked,
    ...instalmentTable(view, instalments),
  ];
}
