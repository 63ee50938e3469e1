import { type Body, deliveryProblems, type EntryOf, failedDeliveries, handOverProblems } from '../../record/index.ts';
import type { HandOverSpec } from '../../spec/index.ts';
import { isoDate } from '../../units/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { wordsGiven } from '../hearing/note.ts';
import { type Desk, dayOf, type Now, oneOf, type Prepared, recordEntry, saltOf } from '../record-desk.ts';
import type { OrderedSpec } from './ordered-spec.ts';
import { nextPiece, piecesOf } from './piece-number.ts';
import { storageLines } from './storage.ts';

type HandOver = Body<'hand-over'>;

/** Which table it was and when it was finished: as typed, as the sheet says, as an earlier delivery, as the record has it. */
function tableOf(desk: Desk, { values }: Given, { standing }: Now, ordered: OrderedSpec, sheet: HandOverSpec | undefined) {
  const before = standing.failedDeliveries.at(-1);
  const recorded = standing.reached.findLast(({ stage }) => stage === 'finished')?.on;
  const typed = values['finished'] === undefined ? undefined : dayOf(desk, values['finished'], '--finished');
  const finishedOn = typed ?? (sheet === undefined ? undefined : isoDate(sheet.finished)) ?? before?.finishedOn ?? recorded;
  if (finishedOn === undefined)
    throw new UsageFault(
      '--finished is missing: when was the last coat?',
      'write the day, as --finished 2027-08-10; the finish cures from it',
    );
  const piece =
    values['piece'] ??
    sheet?.piece ??
    before?.piece ??
    nextPiece(desk.input.library.maker.name, Number(desk.today.slice(0, 4)), piecesOf(desk.workspace));
  if (!/^[A-Za-z0-9](?:[A-Za-z0-9./-]{0,38}[A-Za-z0-9])?$/.test(piece))
    throw new UsageFault(`--piece ${piece} is no piece number`, 'letters, digits, points, hyphens and strokes, at most 40, as RS-2027-01');
  const finish = sheet?.finish.is ?? ordered.table.finish;
  const baseFinish = sheet?.baseFinish?.is ?? ordered.table.baseFinish;
  return { piece, finishedOn, finish, ...(baseFinish === undefined ? {} : { baseFinish: { finish: baseFinish } }) };
}

/** Where the table is kept since: from the day said, or that of the delivery, where any of it is said. */
function storageOf(desk: Desk, { values, switches }: Given, on: string): HandOver['storage'] {
  const until = values['stored-until'];
  if (!switches.has('stored') && until === undefined) return undefined;
  if (until !== undefined && !/^\d{4}-\d\d-\d\d$/.test(until))
    throw new UsageFault(`--stored-until ${until} is no day`, `write it as ${desk.today}`);
  return { from: on, ...(until === undefined ? {} : { until }) };
}

const plain = (word: string): string => word.replaceAll('-', ' ');

/** Records a delivery that failed, with its reason, and that the table is stored. */
export async function failedDelivery(desk: Desk, given: Given, ordered: OrderedSpec, sheet: HandOverSpec | undefined): Promise<ExitCode> {
  const { values, words } = given;
  const reason = oneOf(failedDeliveries, values['failed'], '--failed');
  const on = dayOf(desk, values['on']);
  const said = words[1] === undefined ? undefined : wordsGiven(words[1], undefined, `leafwright hand-over ${desk.slug} --failed ${reason}`);
  const storage = storageOf(desk, given, on);
  const { language } = desk.input.proposal;
  const prepare = (now: Now): Prepared => {
    const stops = deliveryProblems(now.standing, desk.slug);
    if (stops.length > 0) return { problems: stops };
    const body: HandOver = {
      kind: 'hand-over',
      on,
      ...tableOf(desk, given, now, ordered, sheet),
      asBuilt: [],
      photographs: [],
      failed: { reason },
      ...(storage === undefined ? {} : { storage }),
    };
    // What a baseline lacks is told once the table is there.
    const found = handOverProblems(now.standing, body, { slug: desk.slug, language }).filter(
      ({ code }) => code !== 'record/hand-over-bare',
    );
    const errors = found.filter(({ severity }) => severity === 'error');
    if (errors.length > 0) return { problems: errors };
    return { body, ...(said === undefined ? {} : { sealed: { data: { words: said }, random: saltOf() } }), warnings: found };
  };
  const currency = ordered.proposal.currency;
  return recordEntry(desk, prepare, (entry) =>
    entry.kind === 'hand-over' ? failedLines(entry, ordered, { today: desk.today, currency, language }) : [],
  );
}

function failedLines(
  { n, piece, on, failed, storage }: EntryOf<'hand-over'>,
  { library }: OrderedSpec,
  now: { readonly today: string; readonly currency: string; readonly language: string },
): readonly string[] {
  return [
    `entry ${n}: piece ${piece} was brought on ${on} and not handed over: ${plain(failed?.reason ?? 'other')}`,
    ...storageLines(storage, library.terms.storage, now),
  ];
}
