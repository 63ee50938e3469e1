import { formatDate, type LengthStyle, parseDate } from '../units/index.ts';
import { agreed, baseline, photographs, since } from './claim-baseline.ts';
import type { ClaimSource, ClaimStep } from './claim-source.ts';
import { measuredRows, type Row, section, type Telling } from './claim-telling.ts';
import type { ClaimSection, ClaimSheet } from './claim-view.ts';
import { visit, wood } from './claim-wood.ts';
import type { ClientView } from './client-view.ts';
import { maySee } from './papers.ts';
import { wordsOf } from './words.ts';

/** For whom a sheet is, and how it says things. */
export interface ClaimReader {
  /** The page of the ordered revision, with today's texts: its language, level, names and maker. */
  readonly page: Pick<ClientView, 'language' | 'texts' | 'level' | 'title'>;
  /** Those whose names it may tell. */
  readonly people: readonly { readonly id: string; readonly name: string }[];
  readonly show: LengthStyle;
  /** A copy leaves the workshop: without the maker's own remarks, and with the sizes that the page's level shows. */
  readonly isCopy: boolean;
}

function complaint({ opened }: ClaimSource, telling: Telling): ClaimSection {
  const { words, day, nameOf } = telling;
  const by = opened.name ?? nameOf(opened.person);
  return section('complaint', words.say('claim.complaint'), {
    rows: [
      [words.say('claim.opened'), words.say('claim.opened-says', { date: day(opened.on), n: opened.n })],
      ...(by === undefined ? [] : [[words.say('claim.by'), by] as const]),
      [words.say('claim.about'), words.say(`claim.about-${opened.about}`)],
      ...(opened.words === undefined ? [] : [[words.say('claim.words'), opened.words] as const]),
      ...measuredRows(opened, telling),
    ],
  });
}

function found({ lookedAt }: ClaimSource, telling: Telling): readonly ClaimSection[] {
  const { words, day, isCopy } = telling;
  if (lookedAt.length === 0) return [];
  const stepRows = (step: ClaimStep): readonly Row[] => [
    [words.say('claim.looked-at'), words.say('claim.opened-says', { date: day(step.on), n: step.n })],
    ...measuredRows(step, telling),
    ...(isCopy || step.words === undefined ? [] : [[words.say('claim.remark'), step.words] as const]),
  ];
  return [section('found', words.say('claim.found'), { rows: lookedAt.flatMap(stepRows) })];
}

function settlement({ settled }: ClaimSource, telling: Telling): readonly ClaimSection[] {
  if (settled === undefined) return [];
  const { words, day } = telling;
  return [
    section('settled', words.say('claim.settled'), {
      rows: [
        [words.say('claim.settled-on'), words.say('claim.opened-says', { date: day(settled.on), n: settled.n })],
        [words.say('claim.outcome'), words.say(`claim.outcome-${settled.outcome}`)],
        ...(settled.words === undefined ? [] : [[words.say('claim.reason'), settled.words] as const]),
        ...measuredRows(settled, telling),
      ],
    }),
  ];
}

/**
 * A claim in words, beginning with what was recorded when the table was delivered.
 *
 * @param source what is on record of it
 * @param reader for whom: the maker, or whoever gets a copy
 */
export function claimSheet(source: ClaimSource, { page, people, show, isCopy }: ClaimReader): ClaimSheet {
  const words = wordsOf(page.language, page.texts);
  const day = (iso: string): string => {
    const date = parseDate(iso);
    return date === undefined ? iso : formatDate(date, page.language);
  };
  const nameOf = (person: string | undefined): string | undefined => people.find(({ id }) => id === person)?.name;
  const telling: Telling = { words, show, day, nameOf, isCopy, sees: (what) => !isCopy || maySee(page.level, what) };
  const { opened, settled, table } = source;
  return {
    title: words.say('claim.title'),
    lead: words.say('claim.lead', { title: page.title, piece: table.piece }),
    piece: table.piece,
    onIso: opened.on,
    on: day(opened.on),
    isOpen: settled === undefined,
    isCopy,
    sections: [
      baseline(source, telling),
      since(source, telling),
      agreed(source, telling),
      complaint(source, telling),
      ...found(source, telling),
      wood(source, telling),
      ...settlement(source, telling),
      ...photographs(source, telling),
      ...visit(source, telling),
    ],
    notice: [words.say('claim.notice'), words.say('claim.notice-law'), ...(isCopy ? [words.say('claim.notice-copy')] : [])],
  };
}
