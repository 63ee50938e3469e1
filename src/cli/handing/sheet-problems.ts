import { nearestName, type Problem, type SpecPath } from '../../problem/index.ts';
import { type AnyEntry, maySayYes, type Standing } from '../../record/index.ts';
import type { HandOverSpec } from '../../spec/index.ts';
import { isoDate } from '../../units/index.ts';
import { refusal, remark } from '../refusal.ts';
import type { Piece } from './piece-number.ts';

/** What a sheet is held against beside the table that was ordered. */
export interface SheetGrounds {
  readonly slug: string;
  readonly today: string;
  readonly entries: readonly AnyEntry[];
  readonly standing: Standing;
  /** Ids of those who decide. */
  readonly people: readonly string[];
  /** Piece numbers of the workspace. */
  readonly pieces: readonly Piece[];
}

const at = (problem: Problem, ...path: SpecPath): Problem => ({ ...problem, path: ['library', 'handOver', ...path] });

function dayProblems({ delivered, finished }: HandOverSpec, { today, standing, slug }: SheetGrounds): readonly Problem[] {
  const [on, finishedOn] = [isoDate(delivered), isoDate(finished)];
  const recorded = standing.reached.findLast(({ stage }) => stage === 'finished')?.on;
  const ordered = standing.orders[0]?.on;
  return [
    ...(on > today
      ? [
          at(
            refusal('hand-over-to-come', 'the day of the delivery is still to come', {
              found: on,
              allowed: `at most ${today}`,
              mend: 'record it when it has happened',
            }),
            'delivered',
          ),
        ]
      : []),
    ...(ordered !== undefined && on < ordered
      ? [
          at(
            refusal('hand-over-too-early', `${slug} was delivered before it was ordered`, { found: on, allowed: `${ordered} or later` }),
            'delivered',
          ),
        ]
      : []),
    ...(recorded !== undefined && recorded !== finishedOn
      ? [
          at(
            remark('hand-over-other-day', 'the record has another day for the last coat', {
              found: finishedOn,
              allowed: recorded,
              mend: 'the finish cures from the day in the sheet: mend it there if the record is right',
            }),
            'finished',
          ),
        ]
      : []),
  ];
}

function pieceProblems({ piece }: HandOverSpec, { slug, pieces, standing }: SheetGrounds): readonly Problem[] {
  const same = (other: string): boolean => other.toLowerCase() === piece.toLowerCase();
  const taken = pieces.find((one) => one.proposal !== slug && same(one.piece));
  const before = standing.failedDeliveries.at(-1)?.piece;
  return [
    ...(taken === undefined
      ? []
      : [
          at(
            refusal('hand-over-piece-taken', `another table has the number ${piece}`, {
              found: `the table of ${taken.proposal}`,
              mend: 'give each table a number of its own',
            }),
            'piece',
          ),
        ]),
    ...(before === undefined || same(before)
      ? []
      : [
          at(
            remark('hand-over-other-piece', 'the delivery that failed was of another piece number', {
              found: piece,
              allowed: before,
              mend: 'one table keeps one number, on its label and on record',
            }),
            'piece',
          ),
        ]),
  ];
}

function personProblems({ acceptance: { by, signed, paper } }: HandOverSpec, { people }: SheetGrounds): readonly Problem[] {
  const near = by === undefined ? undefined : nearestName(by, people);
  return [
    ...(by === undefined || people.includes(by)
      ? []
      : [
          at(
            refusal('hand-over-nobody', `nobody who decides here is called ${by}`, {
              allowed: people.join(', '),
              mend: near === undefined ? 'write the name of somebody else after name:, without by:' : `write by: ${near}`,
            }),
            'acceptance',
            'by',
          ),
        ]),
    ...(signed && paper === undefined
      ? [
          at(
            remark('hand-over-no-paper', 'it was signed for, and no paper of it is kept', {
              mend: 'name a scan or photograph after paper:, or attach it later',
            }),
            'acceptance',
            'signed',
          ),
        ]
      : []),
  ];
}

/** Entries that a sheet takes for somebody's yes, and in which nobody says it. */
function yesProblems({ asBuilt, finish, baseFinish }: HandOverSpec, { entries, slug, standing }: SheetGrounds): readonly Problem[] {
  // What was said before the order was confirmed is a yes to the table that was ordered, and to no difference from it.
  const since = standing.order?.confirmed.n ?? 0;
  const named: readonly (readonly [SpecPath, number | undefined])[] = [
    ...Object.entries(asBuilt).map(([path, { yes }]) => [['asBuilt', path, 'yes'], yes] as const),
    [['finish', 'yes'], finish.yes],
    [['baseFinish', 'yes'], baseFinish?.yes],
  ];
  return named.flatMap(([path, yes]): readonly Problem[] => {
    const entry = entries.find(({ n }) => n === yes);
    if (yes === undefined) return [];
    const isEarly = maySayYes(entry) && yes < since;
    if (maySayYes(entry) && !isEarly) return [];
    const found =
      entry === undefined
        ? `the record ends at entry ${entries.length}`
        : isEarly
          ? `entry ${yes} is older than the order, which entry ${since} confirms`
          : `entry ${yes} is of the kind ${entry.kind}`;
    return [
      at(
        refusal('hand-over-no-yes', isEarly ? `entry ${yes} is a yes to what was ordered` : `entry ${yes} is nobody's yes`, {
          found,
          allowed: `an answer, or a note of somebody who decides${isEarly ? ', given since' : ''}`,
          mend: `note what they said: leafwright note ${slug} "..." --who PERSON, and write its number`,
        }),
        ...path,
      ),
    ];
  });
}

/** A change that was confirmed and whose first payment is open: the table is held against the order before it. */
function changeProblems({ standing, slug }: SheetGrounds): readonly Problem[] {
  const { changeWaits } = standing;
  if (changeWaits === undefined) return [];
  return [
    remark(
      'hand-over-change-waits',
      'a change to the order waits for its first payment, so the sheet is held against the order without it',
      {
        found: `${changeWaits.chosen.revision}, confirmed on ${changeWaits.on}`,
        mend: `if it was built with the change, first the payment: leafwright pay ${slug} --instalment ... --amount ...`,
      },
    ),
  ];
}

/**
 * What is wrong with a sheet by the record, and what is worth knowing. Errors: `cli/hand-over-to-come hand-over-too-early
 * hand-over-piece-taken hand-over-nobody hand-over-no-yes`. Warnings: `cli/hand-over-other-day hand-over-other-piece
 * hand-over-no-paper hand-over-change-waits`.
 */
export const sheetProblems = (sheet: HandOverSpec, grounds: SheetGrounds): readonly Problem[] => [
  ...dayProblems(sheet, grounds),
  ...pieceProblems(sheet, grounds),
  ...personProblems(sheet, grounds),
  ...yesProblems(sheet, grounds),
  ...changeProblems(grounds),
];
