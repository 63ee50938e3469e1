import {
  formatDate,
  formatLength,
  formatMass,
  formatNumber,
  formatPercent,
  type LengthStyle,
  parseDate,
  UNIT_SPACE,
} from '../units/index.ts';
import type { ClaimSource, ClaimStep, KeptFile, MeasuredNow, TopExpected } from './claim-source.ts';
import type { ClaimSection, ClaimSheet, ClaimTable } from './claim-view.ts';
import type { ClientView } from './client-view.ts';
import { baselineRows, builtRow, finishRows, maySee, moistureText, type Saying, sizeName } from './papers.ts';
import { type Words, wordsOf } from './words.ts';

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

interface Telling extends Saying {
  readonly isCopy: boolean;
  readonly sees: (what: string) => boolean;
}

type Row = readonly [string, string];

const section = (id: ClaimSection['id'], head: string, more: Partial<ClaimSection> = {}): ClaimSection => ({
  id,
  head,
  rows: [],
  paragraphs: [],
  small: [],
  ...more,
});
const column = (head: string, share: number, isNumber = false): ClaimTable['columns'][number] => ({ head, share, isNumber });
const listed = (parts: readonly string[]): string => parts.filter((part) => part !== '').join('; ');

function lengthOf(mm: number, { words, show }: Telling): string {
  return formatLength(mm, { style: show, locale: words.language, decimals: 1, fraction: 32 });
}

function rangeOf([a, b]: readonly [number, number], telling: Telling): string {
  const [low, high] = a < b ? [a, b] : [b, a];
  const { words, show } = telling;
  // A range says its unit once where it has one alone.
  const first = show === 'mm' ? formatNumber(low, words.language, 0) : lengthOf(low, telling);
  const last = show === 'mm' ? lengthOf(Math.round(high), telling) : lengthOf(high, telling);
  return `${first} ${words.say('range.to')} ${last}`;
}

function missing({ table, photographs }: ClaimSource, words: Words): readonly string[] {
  const { moisturePercent, humidityPercent, asBuilt, finish } = table;
  const lacks = [
    ...(moisturePercent.length === 0 ? ['moisture'] : []),
    ...(['glueUp', 'finish', 'delivery'] as const).flatMap((when) =>
      humidityPercent[when] === undefined ? [`humidity-${when === 'glueUp' ? 'glue-up' : when}`] : [],
    ),
    ...(finish.batch === undefined ? ['batch'] : []),
    ...(asBuilt.length === 0 ? ['sizes'] : []),
    ...(photographs.length === 0 ? ['photographs'] : []),
  ];
  return lacks.map((key) => words.say(`claim.lacks-${key}`));
}

/** What the record holds of the table on the day of its delivery, and what it does not hold. */
function baseline(source: ClaimSource, telling: Telling): ClaimSection {
  const { words, day, show, sees } = telling;
  const { table, inspected, signedOn, defects } = source;
  const accepted = [
    words.say(inspected ? 'claim.looked-over' : 'claim.not-looked-over'),
    signedOn === undefined ? words.say('claim.unsigned') : words.say('claim.signed-on', { date: day(signedOn) }),
  ];
  const sizes = table.asBuilt.filter(({ what }) => sees(what)).map((one) => builtRow(one, telling));
  const lacks = missing(source, words);
  return section('baseline', words.say('claim.baseline'), {
    rows: [
      [words.say('claim.piece'), words.say('claim.piece-says', { piece: table.piece, n: source.handOver })],
      [words.say('papers.delivered'), day(table.deliveredOn)],
      [words.say('papers.finished'), day(table.finishedOn)],
      ...finishRows(table, telling),
      ...baselineRows(table, telling),
      ...(table.massKg === undefined ? [] : [[words.say('claim.weighed'), formatMass(table.massKg, show, words.language, 1)] as const]),
      [words.say('claim.accepted'), listed(accepted)],
      ...(defects.length === 0 && inspected ? [[words.say('claim.defects'), words.say('claim.no-defect')] as const] : []),
      ...defects.map(
        ({ says, by, isOpen }, i): Row => [
          words.say('claim.defect', { number: i + 1 }),
          `${says.replace(/\.$/, '')}; ${words.say(isOpen ? 'claim.defect-open' : 'claim.defect-mended', { date: day(by) })}`,
        ],
      ),
    ],
    ...(sizes.length === 0
      ? {}
      : {
          table: {
            columns: [
              column(words.say('papers.built-what'), 0.34),
              column(words.say('papers.built-agreed'), 0.2, true),
              column(words.say('papers.built-built'), 0.2, true),
              column(words.say('papers.built-tolerance'), 0.26, true),
            ],
            rows: sizes.map(({ says, agreed, built, tolerance }) => [says, agreed, built, tolerance]),
          },
        }),
    small: [...(lacks.length === 0 ? [] : [words.say('claim.lacks', { list: listed(lacks) })]), words.say('claim.baseline-note')],
  });
}

const filesTable = (files: readonly KeptFile[], words: Words): ClaimTable => ({
  columns: [column(words.say('claim.file'), 0.26), column(words.say('claim.digest'), 0.74)],
  rows: files.map(({ path, sha256 }) => [path.split('/').at(-1) ?? path, sha256]),
});

/** Photographs by name and digest: before loading, then of the claim. */
function photographs({ photographs: before, opened, lookedAt, settled }: ClaimSource, { words }: Telling): readonly ClaimSection[] {
  const all = [...before, ...[opened, ...lookedAt, ...(settled === undefined ? [] : [settled])].flatMap((step) => step.photographs)];
  if (all.length === 0) return [];
  return [
    section('photographs', words.say('claim.photographs'), { table: filesTable(all, words), small: [words.say('claim.photographs-note')] }),
  ];
}

/** Visits, repairs, refinishes and what was measured, by date. */
function since({ services, measuredLater }: ClaimSource, { words, day, isCopy }: Telling): ClaimSection {
  const rows = [
    ...services.map(({ on, what, finish, batch, defects, words: said }) => ({
      on,
      says: listed([
        words.say(`claim.service-${what}`),
        finish ?? '',
        batch === undefined ? '' : words.say('papers.batch', { batch }),
        defects.length === 0 ? '' : words.count('claim.defects-mended', defects.length, { list: defects.join(', ') }),
        isCopy ? '' : (said ?? ''),
      ]),
    })),
    ...measuredLater.map(({ on, what, percent }) => ({
      on,
      says: words.say(`claim.measured-${what}`, { list: percent.map((one) => formatPercent(one, words.language, 1)).join(', ') }),
    })),
  ].toSorted((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));
  return section('since', words.say('claim.since'), {
    rows: rows.map(({ on, says }) => [day(on), says]),
    paragraphs: rows.length === 0 ? [words.say('claim.since-none')] : [],
  });
}

function agreed({ warranty, opened }: ClaimSource, { words, day }: Telling): ClaimSection {
  const head = words.say('claim.agreed');
  if (warranty === undefined) return section('agreed', head, { paragraphs: [words.say('claim.agreed-none')] });
  const { title, says, until } = warranty;
  return section('agreed', head, {
    rows: [
      [title, says],
      ...(until === undefined
        ? []
        : [
            [
              words.say('claim.until'),
              words.say(opened.on > until ? 'claim.until-over' : 'claim.until-within', { date: day(until), opened: day(opened.on) }),
            ] as const,
          ]),
    ],
    small: [words.say('claim.rights')],
  });
}

function measuredRows({ humidityPercent, celsius, moisturePercent, sizes }: MeasuredNow, telling: Telling): readonly Row[] {
  const { words, sees } = telling;
  return [
    ...(humidityPercent === undefined
      ? []
      : [[words.say('claim.humidity-now'), formatPercent(humidityPercent, words.language, 1)] as const]),
    ...(celsius === undefined ? [] : [[words.say('claim.celsius-now'), `${formatNumber(celsius, words.language, 1)}\u00a0°C`] as const]),
    ...(moisturePercent.length === 0 ? [] : [[words.say('claim.moisture-now'), moistureText(moisturePercent, words)] as const]),
    ...sizes.filter(({ what }) => sees(what)).map(({ what, mm }): Row => [sizeName(what, words), lengthOf(mm, telling)]),
  ];
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

/** What the top was to be expected to do between the boards of glue-up and the air of now; in a row of airs where that is not known yet. */
function wood({ expected }: ClaimSource, telling: Telling): ClaimSection {
  const { words } = telling;
  const head = words.say('claim.wood');
  if (expected === undefined) return section('wood', head, { paragraphs: [words.say('claim.wood-none')] });
  const { now, airs, room } = expected;
  // In a column each has as many decimals as the others.
  const percent = (value: number, decimals = 0): string => `${formatNumber(value, words.language, decimals, decimals)}${UNIT_SPACE}%`;
  const lead = words.say(expected.isMeasured ? 'claim.wood-built' : 'claim.wood-drawn', {
    size: lengthOf(expected.builtMm, telling),
    moisture: percent(expected.moisturePercent, 1),
  });
  const reckonedWith = words.say('claim.wood-room', { low: percent(room.lowPercent), high: percent(room.highPercent) });
  return section('wood', head, {
    lead: `${lead} ${reckonedWith}`,
    table: {
      columns: [
        column(words.say('claim.wood-air'), 0.36),
        column(words.say('claim.wood-moisture'), 0.3, true),
        column(words.say('claim.wood-size'), 0.34, true),
      ],
      rows: airs.map((one) => [percent(one.humidityPercent), percent(one.moisturePercent, 1), rangeOf(one.expectedMm, telling)]),
    },
    paragraphs: now === undefined ? [] : nowSays(now, expected, telling),
    small: [words.say('claim.wood-note', { celsius: `${formatNumber(expected.celsius, words.language, 0)}\u00a0°C` })],
  });
}

function nowSays(now: NonNullable<TopExpected['now']>, expected: TopExpected, telling: Telling): readonly string[] {
  const { words } = telling;
  const values = {
    humidity: formatPercent(now.humidityPercent ?? 0, words.language, 1),
    moisture: formatPercent(now.moisturePercent, words.language, 1),
    range: rangeOf(now.expectedMm, telling),
  };
  return [
    words.say(`claim.now-${now.by}`, values),
    ...(now.measuredMm === undefined || now.result === undefined
      ? []
      : [
          words.say(`claim.result-${now.result}`, {
            built: lengthOf(expected.builtMm, telling),
            measured: lengthOf(now.measuredMm, telling),
          }),
        ]),
  ];
}

/** A table to be filled in beside the piece: what was built, what is to be expected, and room for a hand. Only while a claim is open. */
function visit(source: ClaimSource, telling: Telling): readonly ClaimSection[] {
  const { words, sees } = telling;
  const { settled, table, expected } = source;
  if (settled !== undefined) return [];
  const across = expected?.what;
  const acrossRow = (builtMm: number, what: string): readonly string[] => [
    words.say('claim.visit-across', { size: sizeName(what, words) }),
    expected?.isMeasured === false ? words.say('claim.visit-not-measured') : lengthOf(builtMm, telling),
    expected?.now === undefined ? words.say('claim.visit-by-air') : rangeOf(expected.now.expectedMm, telling),
    '',
  ];
  const sizes = table.asBuilt
    .filter(({ what }) => sees(what))
    .map(({ what, builtMm }) =>
      what === across ? acrossRow(builtMm, what) : [sizeName(what, words), lengthOf(builtMm, telling), words.say('claim.visit-same'), ''],
    );
  const hasAcross = table.asBuilt.some(({ what }) => what === across);
  return [
    section('visit', words.say('claim.visit'), {
      lead: words.say('claim.visit-lead'),
      table: {
        isForHand: true,
        columns: [
          column(words.say('claim.visit-what'), 0.32),
          column(words.say('papers.built-built'), 0.18, true),
          column(words.say('claim.visit-expected'), 0.24, true),
          column(words.say('claim.visit-measured'), 0.26, true),
        ],
        rows: [
          [words.say('claim.visit-day'), '', '', ''],
          [words.say('claim.visit-air'), '', '', ''],
          [words.say('claim.visit-boards'), '', '', ''],
          ...(hasAcross || expected === undefined ? [] : [acrossRow(expected.builtMm, expected.what)]),
          ...sizes,
        ],
      },
    }),
  ];
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
