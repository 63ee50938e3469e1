import type { Problem } from '../../problem/index.ts';
import { type Approval, type Body, type EntryOf, type IssuedOffer, openSeal, type Standing } from '../../record/index.ts';
import { addDays, isoDate, parseDate, withoutHiddenSigns } from '../../units/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { atDesk, type Desk, nameOf, type Prepared, recordEntry, saltOf, shownMoney } from '../record-desk.ts';
import { refusal, remark, weighed } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';
import { type SaidYes, writeConfirmation } from './confirmation.ts';
import { stageSays } from './stage.ts';

/** Days for which price and place are held where nothing else is said. */
const holdDays = 14;

/** The day of `--hold`, or a fortnight from today. Throws a UsageFault for what is no day, or a day that has passed. */
function holdOf({ today }: Desk, said: string | undefined): string {
  const from = parseDate(today);
  if (said === undefined) return from === undefined ? today : isoDate(addDays(from, holdDays));
  if (parseDate(said) === undefined) throw new UsageFault(`--hold ${said} is no day`, `write it as ${today}`);
  if (said < today) throw new UsageFault(`--hold ${said} has passed: today is ${today}`, 'name a day to come');
  return said;
}

const sameChoice = (a: Approval['chosen'], b: Approval['chosen']): boolean =>
  a.fingerprint === b.fingerprint && a.design === b.design && a.options.join() === b.options.join() && a.totalMinor === b.totalMinor;

/** Why nothing is approved, in words. */
function notApproved(desk: Desk, { waitingFor, disagree, answers, newest }: Standing): Problem {
  const waits = waitingFor.map(({ person, since }) => `${nameOf(desk, person)} since ${since}`);
  const said = Object.values(answers)
    .map(
      ({ person, verdict, chosen }) =>
        `${person}: ${verdict === 'yes' ? `yes to ${[chosen?.design, ...(chosen?.options ?? [])].join(' with ')}` : verdict}`,
    )
    .sort();
  const found =
    newest === undefined
      ? 'no revision was issued'
      : [said.join('; '), waits.length === 0 ? '' : `waiting for ${waits.join(', ')}`].filter((one) => one !== '').join('; ');
  return refusal(
    'not-approved',
    disagree ? `those who decide on ${desk.slug} disagree, so nothing is approved` : `nothing is approved in ${desk.slug}`,
    {
      ...(found === '' ? {} : { found }),
      mend: disagree
        ? `a revision that they can agree on: leafwright revise ${desk.slug}; or a new answer: leafwright record ${desk.slug} --file mail.txt`
        : `record the answer: leafwright record ${desk.slug} --file mail.txt`,
    },
  );
}

/** The instalments of what was approved, from the offer. */
function instalmentsOf(offers: readonly IssuedOffer[], { revision, design, options }: Approval['chosen']): readonly number[] | undefined {
  return offers
    .find((offer) => offer.revision === revision)
    ?.designs.find(({ id }) => id === design)
    ?.combinations.find((one) => one.options.join() === options.join())?.instalmentsMinor;
}

/** A sample that the proposal names and somebody has not approved: the scope is then subject to it. */
function sampleRemarks({ offers, slug }: Desk, { samples }: Standing, { chosen }: Approval): readonly Problem[] {
  const offer = offers.find(({ revision }) => revision === chosen.revision);
  const sample = offer?.sample;
  if (sample === undefined) return [];
  const said = samples.filter((one) => one.of === 'sample' && one.sample === sample);
  if (said.some(({ verdict }) => verdict === 'no'))
    return [remark('sample-refused', `sample ${sample} was refused`, { mend: 'make another, and write its mark into sample.id' })];
  if (said.length > 0) return [];
  return [
    remark('sample-open', `sample ${sample} is not approved, so the scope is subject to it`, {
      mend: `leafwright sample ${slug} ${sample} --who PERSON --yes`,
    }),
  ];
}

/** Where one yes is enough: who answered otherwise. Code: `cli/one-refused`, a warning. */
const refusedRemarks = (desk: Desk, { answers }: Standing): readonly Problem[] =>
  Object.values(answers)
    .filter(({ verdict }) => verdict !== 'yes')
    .map(({ person, verdict, on }) =>
      remark('one-refused', `one yes is enough, and ${nameOf(desk, person)} said otherwise`, {
        found: `${verdict} on ${on}`,
        mend: 'speak with them before the message goes out',
      }),
    );

/** What was sealed with an answer, empty where it is none or gone. */
function sealedField(desk: Desk, answer: Approval['answers'][number], field: 'name' | 'remark' | 'own'): string {
  const opened = answer.sealed === undefined ? 'gone' : openSeal(desk.folder, answer.sealed);
  const text = typeof opened === 'string' ? undefined : opened.data[field];
  return typeof text === 'string' ? withoutHiddenSigns(text).trim() : '';
}

/** Whoever said yes and something more: a wish in it is no part of what was priced. Code: `cli/said-with-yes`, a warning. */
const saidWithYes = (desk: Desk, { answers }: Approval): readonly Problem[] =>
  answers.flatMap((answer) => {
    const said = [sealedField(desk, answer, 'remark'), ...(answer.by === 'confirmation' ? [] : [sealedField(desk, answer, 'own')])];
    const words = said.filter((one) => one !== '').join(' / ');
    if (words === '') return [];
    return remark('said-with-yes', `${nameOf(desk, answer.person)} said yes and something more; it changes neither design nor price`, {
      found: `“${words.replaceAll(/\s+/g, ' ')}”`,
      mend: `read the message over before it is sent; what is asked for: leafwright note ${desk.slug} "what it is" --who ${answer.person}`,
    });
  });

type Confirming = {
  readonly body: Body<'confirmed'>;
  readonly approval: Approval;
  readonly warnings: readonly Problem[];
  readonly reason?: string;
};

function confirming(
  desk: Desk,
  standing: Standing,
  holdUntil: string,
  insist: string | undefined,
): Confirming | { readonly problems: readonly Problem[] } {
  const { slug, today, offers } = desk;
  const { approved, closed, order } = standing;
  if (closed !== undefined)
    return {
      problems: [
        refusal('order-closed', `${slug} is closed: there is nothing to confirm`, {
          found: `${closed.kind} on ${closed.on}`,
          mend: 'a new revision takes it up again',
        }),
      ],
    };
  if (approved === undefined) return { problems: [notApproved(desk, standing)] };
  const { chosen } = approved;
  const soft: Problem[] = [];
  const offer = offers.find(({ revision }) => revision === chosen.revision);
  const instalmentsMinor = instalmentsOf(offers, chosen);
  if (offer === undefined || instalmentsMinor === undefined)
    return {
      problems: [
        refusal('not-offered', `design ${chosen.design} with these options is not on offer in ${chosen.revision}`, {
          found: chosen.options.length === 0 ? 'no options' : chosen.options.join(', '),
          mend: 'record the answer anew; leafwright verify says whether the offer was touched',
        }),
      ],
    };
  if (order !== undefined && sameChoice(order.confirmed.chosen, chosen))
    return {
      problems: [
        refusal('is-ordered', `what was approved in ${slug} is the order already`, {
          found: `ordered on ${order.on}`,
          mend: `what comes next: leafwright status ${slug}; what is wanted otherwise: leafwright change ${slug}`,
        }),
      ],
    };
  if (order !== undefined && offer.change === undefined)
    soft.push(
      refusal('order-stands', `${chosen.revision} takes the place of an order, and is not priced as a change to it`, {
        found: `order of ${order.confirmed.chosen.revision}, design ${order.confirmed.chosen.design}, on ${order.on}`,
        mend: `price it from the stage reached: leafwright change ${slug}`,
      }),
    );
  if (offer.change !== undefined && order !== undefined && offer.change.stage !== standing.stage)
    soft.push(
      refusal('change-stage-moved', 'the work has gone on since this change was priced', {
        found: `priced from ${stageSays(offer.change.stage)}, and it is ${stageSays(standing.stage)} now`,
        mend: `what was done since at parts that it changes is in no price; price it anew in the next revision: leafwright revise ${slug}, then leafwright change ${slug} --write`,
      }),
    );
  if (today > offer.validUntil)
    soft.push(
      refusal('offer-run-out', `the offer of ${chosen.revision} has run out`, {
        found: `valid until ${offer.validUntil}, approved on ${approved.on}`,
        mend: 'look at timber and price anew first',
      }),
    );
  const outcome = weighed([], soft, insist);
  if ('problems' in outcome) return outcome;
  const { insisted, reason, warnings } = outcome;
  return {
    body: {
      kind: 'confirmed',
      on: today,
      chosen,
      answers: approved.answers.map(({ n }) => n),
      instalmentsMinor,
      holdUntil,
      ...(order === undefined ? {} : { replaces: order.confirmed.n }),
      ...(insisted === undefined ? {} : { insisted }),
    },
    approval: approved,
    warnings: [...warnings, ...refusedRemarks(desk, standing), ...saidWithYes(desk, approved), ...sampleRemarks(desk, standing, approved)],
    ...(reason === undefined ? {} : { reason }),
  };
}

/** Who said yes: under the name of their letter, else what the working files call them. */
function saidYes(desk: Desk, answer: Approval['answers'][number]): SaidYes {
  const name = sealedField(desk, answer, 'name');
  const said = sealedField(desk, answer, 'remark');
  return { name: name === '' ? nameOf(desk, answer.person) : name, on: answer.on, ...(said === '' ? {} : { remark: said }) };
}

/** The confirmation that stands for what is approved, of the order or of a change that waits, where it is asked for once more and still holds until the same day. */
function confirmedAlready(
  { confirmed: first, approved, order, changeWaits, closed }: Standing,
  today: string,
  hold: string | undefined,
): { readonly known: EntryOf<'confirmed'>; readonly approval: Approval } | undefined {
  const confirmed = order === undefined ? first : changeWaits;
  if (closed !== undefined || confirmed === undefined || approved === undefined || today > confirmed.holdUntil) return undefined;
  const isSame = sameChoice(confirmed.chosen, approved.chosen) && (hold === undefined || hold === confirmed.holdUntil);
  return isSame ? { known: confirmed, approval: approved } : undefined;
}

/** `confirm`: the maker confirms what was approved, and a message to the client is drafted. */
export async function runConfirm(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { values } = given;
  return atDesk(given, terminal, async (desk) => {
    const holdUntil = holdOf(desk, values['hold']);
    const draft = (body: Body<'confirmed'>, approval: Approval): Promise<readonly string[]> =>
      writeConfirmation(
        desk,
        body,
        approval.answers.map((answer) => saidYes(desk, answer)),
      );
    let made: Pick<Confirming, 'body' | 'approval'> | undefined;
    let paths: readonly string[] = [];
    return recordEntry(
      desk,
      (now): Prepared => {
        const again = confirmedAlready(now.standing, desk.today, values['hold']);
        if (again !== undefined) {
          made = { body: again.known, approval: again.approval };
          const { on, holdUntil: held } = again.known;
          const lead = `confirmed already on ${on}, held until ${held}; the message is drafted anew`;
          return { known: again.known, says: () => [lead, ...paths.map((path) => `  ${terminal.accent(path)}`)] };
        }
        const outcome = confirming(desk, now.standing, holdUntil, values['insist']);
        if ('problems' in outcome) return outcome;
        made = outcome;
        const { body, reason, warnings } = outcome;
        return { body, warnings, ...(reason === undefined ? {} : { sealed: { data: { reason }, random: saltOf() } }) };
      },
      (entry) => {
        if (entry.kind !== 'confirmed') return [];
        const { chosen, instalmentsMinor } = entry;
        const shown = (minor: number): string => shownMoney(desk, chosen.currency, minor);
        return [
          `entry ${entry.n}: ${desk.slug} ${chosen.revision} is confirmed: design ${chosen.design}${chosen.options.length === 0 ? '' : ` with ${chosen.options.join(', ')}`}, ${shown(chosen.totalMinor)}`,
          `  instalments   ${instalmentsMinor.map(shown).join(', ')}`,
          `  held until    ${holdUntil}; ${entry.replaces === undefined ? 'it is no order until the first instalment is in' : 'the order stands as it was until what the change adds is paid'}`,
          ...paths.map((path) => `  message       ${terminal.accent(path)}`),
        ];
      },
      async () => {
        if (made !== undefined) paths = await draft(made.body, made.approval);
      },
    );
  });
}
