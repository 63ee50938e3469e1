import type { ChangeLineId, ChangePrice } from '../../price/index.ts';
import type { ProposalInput } from '../../spec/index.ts';
import { formatMoney, formatNumber } from '../../units/index.ts';
import { aligned } from '../terminal.ts';

/** What is told of a change, beside its price. Amounts in minor units, with tax where nothing else is said. */
export interface ChangeReport {
  readonly proposal: string;
  readonly draft: string;
  readonly design: string;
  readonly options: readonly string[];
  readonly ordered: { readonly revision: string; readonly design: string; readonly options: readonly string[] };
  readonly orderedTotalMinor: number;
  /** Net, of the changes before. */
  readonly earlierMinor: number;
  readonly netMinor: number;
  readonly totalMinor: number;
  readonly paidMinor: number;
  readonly instalments: readonly { readonly when: string; readonly amountMinor: number; readonly orderedMinor: number }[];
  readonly dueAtOnceMinor: number;
  readonly lines: readonly { readonly id: ChangeLineId; readonly each: string }[];
}

const AGAIN: Readonly<Record<NonNullable<ChangePrice['again']>, string>> = {
  ordered: 'what is made anew begins with the buying; what stays is not charged again',
  glued: 'what stays is finished anew',
};

const chosenSays = ({ design, options }: { readonly design: string; readonly options: readonly string[] }): string =>
  `design ${design}${options.length === 0 ? '' : ` with ${options.join(' and ')}`}`;

/** `leafwright/change/1`: the maker's own, with costs. */
export function changeJson(price: ChangePrice, report: ChangeReport): object {
  return {
    schema: 'leafwright/change/1',
    ...report,
    currency: price.currency,
    stage: price.stage,
    differenceMinor: price.difference.minor,
    lostMinor: price.shown.lost.minor,
    redoneMinor: price.shown.redone.minor,
    handlingMinor: price.shown.handling.minor,
    changeNetMinor: price.net.minor,
    hours: price.hours,
    weeks: price.weeks,
    again: price.again ?? null,
    lost: price.work.lost,
    topCutToSize: price.work.topCutToSize,
    notCounted: price.work.notCounted,
    boughtAnew: price.work.anew,
    costs: price.lines.map(({ cost, shown, ...line }) => ({ ...line, costMinor: cost.minor, askedMinor: shown.minor })),
  };
}

/** The change in lines of text: what the client will see, then what is the maker's own. */
export function changeLinesSaid(price: ChangePrice, report: ChangeReport, { proposal, library }: ProposalInput): readonly string[] {
  const { language } = proposal;
  const money = (minor: number): string => formatMoney({ currency: price.currency, minor }, language);
  const number = (value: number): string => formatNumber(value, language, 1);
  const say = (id: ChangeLineId): string => library.texts[`change.${id}`] ?? id;
  const { lost, redone, handling } = price.shown;
  const shown = [
    ['Difference of the designs', money(price.difference.minor)],
    ...(lost.minor === 0 ? [] : [[say('change-lost'), money(lost.minor)]]),
    ...(redone.minor === 0 ? [] : [[say('change-redone'), money(redone.minor)]]),
    ...(handling.minor === 0 ? [] : [[say('change-handling'), money(handling.minor)]]),
    ['The change, before tax', money(price.net.minor)],
  ];
  const totals = [
    ['Total as ordered, with tax', money(report.orderedTotalMinor)],
    ['Total as changed, with tax', money(report.totalMinor)],
    ['Paid', money(report.paidMinor)],
    ...report.instalments.map(({ when, amountMinor, orderedMinor }, i) => [
      `Instalment ${i + 1}, ${when}`,
      `${money(amountMinor)} (was ${money(orderedMinor)})`,
    ]),
    ['Due with the yes to the change', money(report.dueAtOnceMinor)],
  ];
  const { hours, work } = price;
  const parts = work.lost.map(({ name, count }) => (count === 1 ? name : `${count} × ${name}`));
  return [
    `${report.proposal} ${report.draft}: ${chosenSays(report)}, in place of ${chosenSays(report.ordered)} of ${report.ordered.revision}`,
    `from the stage ${price.stage}; ${parts.length === 0 ? 'no part that is made is lost' : `lost: ${parts.join(', ')}`}${work.topCutToSize ? '; the top is cut to size' : ''}`,
    '',
    ...aligned(shown),
    '',
    ...aligned(totals),
    '',
    `New date: ${price.weeks} ${price.weeks === 1 ? 'week' : 'weeks'} later, an estimate: ${number(hours.redone)} h done again, ${number(hours.handling)} h of planning, ${number(hours.more)} h that the new design takes more, and the days that timber, things bought anew, glue and finish wait.`,
    ...price.work.anew.map(({ says, count, days }) => {
      const what = count === 1 ? says : `${count} × ${says}`;
      return days === undefined
        ? `  Bought anew: ${what}; how long the supplier takes is not in that: add it, or write days: beside it in the shop rates or the table`
        : `  Bought anew: ${what}; ${number(days)} ${days === 1 ? 'day' : 'days'} until it has come`;
    }),
    ...(price.again === undefined ? [] : [`The work goes back to ${price.again} once it takes the order’s place: ${AGAIN[price.again]}.`]),
    '',
    'For you alone: cost, and what it is asked for',
    ...aligned(
      price.lines.map(({ says, quantity, rate, cost, shown: asked }) => [says, quantity, rate, money(cost.minor), money(asked.minor)]),
    ),
    ...work.notCounted.map((says) => `  Of the top, hours of your own are not counted: ${says}`),
  ];
}
