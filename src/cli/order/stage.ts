import type { Problem } from '../../problem/index.ts';
import { isLater, type Standing, stages, type WorkStage, workStages } from '../../record/index.ts';
import { decimalOfMoney, isoDate } from '../../units/index.ts';
import type { ExitCode, Given } from '../command.ts';
import { atDesk, type Desk, dayOf, lookNow, oneOf, type Prepared, recordEntry, saltOf, sayRefused, shownMoney } from '../record-desk.ts';
import { refusal, remark, weighed } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';

/** A stage in words. */
export const stageSays = (stage: string): string => stage.replaceAll('-', ' ');

const isAtLeast = (stage: WorkStage, least: WorkStage): boolean => stage === least || isLater(stage, least);

/**
 * Instalments that are due before a table leaves the workshop and are not paid: every one but the last, and whatever was
 * requested for a day that has come.
 *
 * @source common practice
 */
function dueByDelivery({ instalments }: Standing, on: string) {
  return instalments.filter(
    ({ instalment, openMinor, requested }) =>
      openMinor > 0 && (instalment < instalments.length || (requested !== undefined && requested.due <= on)),
  );
}

function refusals(desk: Desk, standing: Standing, stage: WorkStage, on: string) {
  const hard: Problem[] = [];
  const soft: Problem[] = [];
  const { closed, order, reached, currency, delivered } = standing;
  if (delivered !== undefined)
    hard.push(
      refusal('stage-handed-over', `${desk.slug} was handed over, so no stage of its work follows`, {
        found: `piece ${delivered.piece} on ${delivered.on}, entry ${delivered.n}`,
        mend: 'what is done at the table from now on is a service',
      }),
    );
  else if (isAtLeast(stage, 'delivered'))
    soft.push(
      refusal('stage-hand-over', 'a delivery is recorded by its hand-over', {
        mend: `leafwright hand-over ${desk.slug}, which asks for what a later claim is measured by`,
      }),
    );
  if (closed !== undefined)
    hard.push(
      refusal('order-closed', `${desk.slug} is closed: no work goes on`, {
        found: `${closed.kind} on ${closed.on}`,
        mend: 'a new revision takes it up again',
      }),
    );
  else if (order === undefined)
    soft.push(
      refusal('no-order', `${desk.slug} is no order yet, so the work does not begin`, {
        found: standing.stage,
        mend:
          standing.confirmed === undefined
            ? `first: leafwright confirm ${desk.slug}, and the first instalment`
            : `the first instalment comes first: leafwright pay ${desk.slug} --instalment 1 --amount ...`,
      }),
    );
  const last = reached.findLast((one) => one.stage === standing.stage);
  if (last !== undefined && !isLater(stage, last.stage))
    soft.push(
      refusal(
        'stage-back',
        last.stage === stage
          ? `${stageSays(stage)} was recorded already`
          : `${stageSays(stage)} comes before ${stageSays(last.stage)}, which was recorded already`,
        {
          found: `${stageSays(last.stage)} on ${last.on}`,
          mend: 'what must be made again belongs to a change',
        },
      ),
    );
  const due = isAtLeast(stage, 'delivered') && last?.stage !== 'delivered' ? dueByDelivery(standing, on) : [];
  if (due.length > 0 && currency !== undefined)
    soft.push(
      refusal('money-open', 'money that is due before delivery is open', {
        found: due.map(({ instalment, openMinor }) => `instalment ${instalment}, ${shownMoney(desk, currency, openMinor)}`).join('; '),
        mend: `record it first: leafwright pay ${desk.slug} --instalment ${due[0]?.instalment} --amount ...`,
      }),
    );
  return { hard, soft };
}

type OpenChoice = Desk['input']['proposal']['choices'][number];

/** Whether the last stage or the last day of a choice has passed with a stage that was reached on a day. */
function isPassed({ lastStage, lastDay }: OpenChoice, stage: Standing['stage'], on: string): boolean {
  const last = workStages.find((one) => one === lastStage);
  return (last !== undefined && (stage === last || isLater(stage, last))) || (lastDay !== undefined && on > isoDate(lastDay));
}

/** Choices still listed as open although their time has passed: each is told at the stage with which it does, later only how many there are. */
function choiceRemarks(desk: Desk, { stage: before, reached }: Standing, stage: WorkStage, on: string): readonly Problem[] {
  if (stage === 'accepted') return [];
  const late = desk.input.proposal.choices.filter((choice) => isPassed(choice, stage, on));
  const told = late.filter((choice) => reached.some((one) => isPassed(choice, one.stage, one.on)) || isPassed(choice, before, ''));
  const rest = told.length;
  return [
    ...late
      .filter((choice) => !told.includes(choice))
      .map(({ says, lastStage, lastDay }) =>
        remark('choice-open', `a choice is still open, and its last stage has passed: ${says}`, {
          found: lastDay === undefined ? stageSays(lastStage) : `${stageSays(lastStage)}, ${isoDate(lastDay)}`,
          mend: 'ask for it now; once it is made, take it out of choices in proposal.yaml',
        }),
      ),
    ...(rest === 0
      ? []
      : [
          remark(
            'choice-open',
            `${rest === 1 ? 'one choice that was' : `${rest} choices that were`} told before ${rest === 1 ? 'is' : 'are'} still open`,
          ),
        ]),
  ];
}

/** A change that is on offer or waits for its money was priced from the stage before. */
function changeRemarks({ offers, slug }: Desk, { newest, order, changeWaits }: Standing): readonly Problem[] {
  const revision = changeWaits?.chosen.revision ?? newest?.revision;
  const change = offers.find((offer) => offer.revision === revision)?.change;
  if (change === undefined || order === undefined || order.confirmed.chosen.revision === revision) return [];
  return [
    remark('stage-past-change', `${revision} changes the order, and was priced from ${stageSays(change.stage)}`, {
      found: changeWaits === undefined ? 'it is on offer' : 'it is confirmed, and waits for its money',
      mend: `what is done from now on at parts that it changes is in no price; wait for it, or price it anew: leafwright change ${slug}`,
    }),
  ];
}

/** Stages that were left out, and choices whose time has passed. */
function remarks(desk: Desk, standing: Standing, stage: WorkStage, on: string): readonly Problem[] {
  const from = stages.indexOf(standing.stage);
  const skipped = workStages.filter((one) => stages.indexOf(one) > Math.max(from, stages.indexOf('ordered')) && isLater(stage, one));
  return [
    ...(skipped.length === 0
      ? []
      : [remark('stage-skipped', `${skipped.map(stageSays).join(' and ')} ${skipped.length === 1 ? 'was' : 'were'} not recorded`)]),
    ...changeRemarks(desk, standing),
    ...choiceRemarks(desk, standing, stage, on),
  ];
}

/** Words for money that a maker may take for a stage. */
const money = ['deposit', 'balance', 'payment', 'paid'];

/** Money is asked for and recorded by commands of its own: those for the first instalment, or for the last one. */
function moneyProblem(desk: Desk, said: string): Problem {
  const { instalments, confirmed, closed, currency } = lookNow(desk).standing;
  const open = instalments.filter(({ openMinor }) => openMinor > 0);
  const one = said === 'balance' ? open.at(-1) : open[0];
  const title = `${said} is money, and no stage of the work`;
  if (closed !== undefined) return refusal('stage-is-money', title, { mend: `what is open: leafwright statement ${desk.slug}` });
  if (confirmed === undefined) return refusal('stage-is-money', title, { mend: `first: leafwright confirm ${desk.slug}` });
  if (one === undefined || currency === undefined)
    return refusal('stage-is-money', title, { found: 'every instalment is paid', mend: `to see it: leafwright statement ${desk.slug}` });
  const { instalment, when, openMinor, requested } = one;
  const pay = `leafwright pay ${desk.slug} --instalment ${instalment} --amount ${decimalOfMoney({ minor: openMinor, currency })}`;
  return refusal('stage-is-money', title, {
    found: `instalment ${instalment} of ${instalments.length}, ${when}: ${shownMoney(desk, currency, openMinor)} open${requested === undefined ? '' : `, requested on ${requested.on}, due ${requested.due}`}`,
    mend:
      requested === undefined
        ? `to ask for it: leafwright request ${desk.slug} --instalment ${instalment}; when it has come: ${pay}`
        : `when it has come: ${pay}`,
  });
}

/** `stage`: the work has come this far. */
export async function runStage(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { words, values } = given;
  return atDesk(given, terminal, async (desk) => {
    if (money.includes(words[1] ?? '')) return sayRefused(desk, [moneyProblem(desk, words[1] ?? '')]);
    const stage = oneOf(workStages, words[1], 'the stage');
    const on = dayOf(desk, values['on']);
    return recordEntry(
      desk,
      ({ standing }): Prepared => {
        const { hard, soft } = refusals(desk, standing, stage, on);
        const outcome = weighed(hard, soft, values['insist']);
        if ('problems' in outcome) return outcome;
        const { insisted, reason } = outcome;
        return {
          body: { kind: 'stage', on, stage, ...(insisted === undefined ? {} : { insisted }) },
          ...(insisted === undefined ? {} : { sealed: { data: { reason }, random: saltOf() } }),
          warnings: [...outcome.warnings, ...remarks(desk, standing, stage, on)],
        };
      },
      (entry) => [`entry ${entry.n}: ${desk.slug}, ${stageSays(stage)} on ${on}`],
    );
  });
}
