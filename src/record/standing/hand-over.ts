import type { Problem } from '../../problem/index.ts';
import { formatLength, formatMoney, formatNumber, type LengthStyle } from '../../units/index.ts';
import type { AnyEntry, Body } from '../chain/entries.ts';
import { recordProblem } from '../chain/record-problem.ts';
import type { Standing } from './standing.ts';

type HandOver = Body<'hand-over'>;
type Difference = HandOver['asBuilt'][number];
/** Where the sheet of a hand-over is read: problems point into it. */
const SHEET: Problem['path'] = ['library', 'handOver'];

/** True where something was built further from what was agreed than its tolerance: then it needs a client's yes. */
export function isBeyond({ agreed, built, tolerance }: Difference): boolean {
  // Decimals of millimetres are no binary fractions: 0.3 - 0.2 is not 0.1.
  return Math.abs(built - agreed) > tolerance + 1e-9;
}

/** True for an entry in which somebody is on record with a yes, in whatever words: an answer, words that were noted or kept. */
export function maySayYes(entry: AnyEntry | undefined): boolean {
  if (entry?.kind === 'answer') return entry.verdict === 'yes';
  return (entry?.kind === 'note' || entry?.kind === 'evidence') && entry.person !== undefined;
}

/** Where in the sheet a hand-over says what can not be: the line to mend first. */
function faultPath({ on, finishedOn, acceptance, storage, failed }: HandOver): Problem['path'] {
  // A delivery that failed is said on the command line and has no sheet.
  if (failed !== undefined) return [];
  if (finishedOn > on) return [...SHEET, 'finished'];
  const early = acceptance?.defects.findIndex(({ by }) => by < on) ?? -1;
  if (early >= 0) return [...SHEET, 'acceptance', 'defects', early, 'by'];
  if (acceptance?.inspected === false && acceptance.defects.length > 0) return [...SHEET, 'acceptance', 'inspected'];
  return storage?.until !== undefined && storage.until < storage.from ? [...SHEET, 'storage', 'until'] : SHEET;
}

/** Why a hand-over can not be what it says, in words that follow the name of the entry; nothing where it can. */
export function handOverFault({ on, finishedOn, acceptance, failed, storage }: HandOver): string | undefined {
  if (failed === undefined && acceptance === undefined) return 'says neither how the table was accepted nor why the delivery failed';
  if (failed !== undefined && acceptance !== undefined) return 'says that the delivery failed, and how the table was accepted';
  if (finishedOn > on) return `is of a table that was finished on ${finishedOn}, after ${on}`;
  const early = acceptance?.defects.find(({ by }) => by < on);
  if (early !== undefined) return `promises to put a defect right by ${early.by}, before ${on}`;
  if (acceptance?.inspected === false && acceptance.defects.length > 0) return 'lists defects of a table that was not inspected';
  if (storage?.until !== undefined && storage.until < storage.from)
    return `stores the table until ${storage.until}, before ${storage.from}`;
  return undefined;
}

/** Why a service can not be what it says, in words that follow the name of the entry; nothing where it can. */
export function serviceFault({ what, finish, of, defects }: Body<'service'>): string | undefined {
  if (what === 'refinish' && finish === undefined) return 'is a refinish and names no finish';
  if (what !== 'refinish' && finish !== undefined) return `names a finish and is a ${what}`;
  return (defects?.length ?? 0) > 0 && of === undefined ? 'puts defects right and names no hand-over' : undefined;
}

/** Why a claim can not be what it says, in words that follow the name of the entry; nothing where it can. */
export function claimFault({ event, about, person, outcome }: Body<'claim'>): string | undefined {
  if (event === 'opened' && about === undefined) return 'opens a claim and does not say what about';
  if (event !== 'opened' && (about !== undefined || person !== undefined)) return 'says anew what a claim is about, or whose it is';
  if (event === 'settled' && outcome === undefined) return 'settles a claim and does not say how';
  return event !== 'settled' && outcome !== undefined ? 'says what became of a claim that it does not settle' : undefined;
}

/**
 * Why nothing can be handed over as the proposal stands. Codes: `record/hand-over-closed hand-over-no-order hand-over-again`.
 *
 * @param slug the proposal's
 */
export function deliveryProblems({ order, closed, confirmed, delivered }: Standing, slug: string): readonly Problem[] {
  if (closed !== undefined)
    return [
      recordProblem('hand-over-closed', `${slug} is closed: there is nothing to hand over`, {
        found: `${closed.kind} on ${closed.on}`,
        mend: `a revision that is issued takes it up again: leafwright revise ${slug}`,
      }),
    ];
  if (order === undefined)
    return [
      recordProblem('hand-over-no-order', `${slug} is no order, so there is no table to hand over`, {
        mend:
          confirmed === undefined
            ? `first: leafwright confirm ${slug}, and the first instalment`
            : `first the first instalment: leafwright pay ${slug} --instalment 1 --amount ...`,
      }),
    ];
  if (delivered === undefined) return [];
  return [
    recordProblem('hand-over-again', `${slug} was handed over already`, {
      found: `piece ${delivered.piece} on ${delivered.on}, entry ${delivered.n}`,
      mend: `a signature that came later: leafwright attach ${slug} --to ${delivered.n}; work at the table is a service`,
    }),
  ];
}

const howToAgree = (slug: string): string =>
  `ask, keep the answer with leafwright note ${slug} "..." --who PERSON, and name its entry after yes:`;

/** How a problem names things: the proposal's slug, the language of numbers and money, how lengths are shown (mm where silent). */
interface Named {
  readonly slug: string;
  readonly language: string;
  readonly show?: LengthStyle;
}

function differenceProblems(asBuilt: readonly Difference[], { slug, language, show = 'mm' }: Named): readonly Problem[] {
  return asBuilt
    .filter((one) => isBeyond(one) && one.yes === undefined)
    .map(({ what, agreed, built, tolerance, unit }) => {
      const n = (value: number): string =>
        unit === 'mm' && show !== 'mm'
          ? formatLength(value, { style: show, locale: language, fraction: 64, decimals: 1 })
          : `${formatNumber(value, language, 3)} ${unit}`;
      return recordProblem('hand-over-unagreed', `${what} was built beyond its tolerance, and nobody has said yes to it`, {
        found: `${n(built)} where ${n(agreed)} was agreed`,
        allowed: `${n(agreed - tolerance)} to ${n(agreed + tolerance)}`,
        path: [...SHEET, 'asBuilt', what],
        mend: howToAgree(slug),
      });
    });
}

function finishProblems({ otherFinish, baseFinish, finish }: HandOver, slug: string): readonly Problem[] {
  return (otherFinish ?? [])
    .filter(({ yes }) => yes === undefined)
    .map(({ on, ordered }) =>
      recordProblem('hand-over-other-finish', `the ${on} bears another finish than was ordered, and nobody has said yes to it`, {
        found: (on === 'base' ? baseFinish?.finish : undefined) ?? finish,
        allowed: ordered,
        path: [...SHEET, on === 'base' && baseFinish !== undefined ? 'baseFinish' : 'finish'],
        mend: howToAgree(slug),
      }),
    );
}

/** What a later claim would be measured by and is not there. */
function missing({ batch, moisturePercent, humidityPercent, photographs, failed }: HandOver): readonly string[] {
  return [
    ...(photographs.length === 0 ? ['photographs before loading'] : []),
    ...(batch === undefined ? ['the batch of the finish'] : []),
    ...((moisturePercent ?? []).length === 0 ? ['the moisture of the boards at glue-up'] : []),
    ...(humidityPercent?.glueUp === undefined ? ['the humidity at glue-up'] : []),
    ...(humidityPercent?.finish === undefined ? ['the humidity at finishing'] : []),
    ...(humidityPercent?.delivery === undefined && failed === undefined ? ['the humidity at delivery'] : []),
  ];
}

/**
 * What stands against a hand-over, and what is worth knowing before it.
 *
 * @param standing how the proposal stands
 * @param handOver as it would be recorded
 * @param named the proposal, and how money, numbers and lengths are shown
 *
 * Errors: `record/hand-over-closed hand-over-no-order hand-over-again hand-over-can-not-be hand-over-unagreed
 * hand-over-other-finish`.
 * Warnings: `record/hand-over-balance hand-over-bare`.
 */
export function handOverProblems(standing: Standing, handOver: HandOver, named: Named): readonly Problem[] {
  const { slug, language } = named;
  const fault = handOverFault(handOver);
  const { openMinor, currency } = standing;
  const lacks = missing(handOver);
  const isOpen = standing.order !== undefined && openMinor > 0 && currency !== undefined;
  return [
    ...deliveryProblems(standing, slug),
    ...(fault === undefined
      ? []
      : [
          recordProblem('hand-over-can-not-be', `this hand-over ${fault}`, {
            path: faultPath(handOver),
            mend: 'one of the two is wrong: mend it',
          }),
        ]),
    ...differenceProblems(handOver.asBuilt, named),
    ...finishProblems(handOver, slug),
    ...(isOpen
      ? [
          recordProblem('hand-over-balance', `${formatMoney({ currency, minor: openMinor }, language)} of this order is still open`, {
            severity: 'warning' as const,
            mend: `once it is in: leafwright pay ${slug} --instalment ${standing.instalments.find((one) => one.openMinor > 0)?.instalment ?? 1} --amount ...`,
          }),
        ]
      : []),
    ...(lacks.length === 0
      ? []
      : [
          recordProblem('hand-over-bare', 'what a later claim would be measured by is not all there', {
            severity: 'warning' as const,
            found: `missing: ${lacks.join('; ')}`,
          }),
        ]),
  ];
}
