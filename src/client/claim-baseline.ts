import { formatMass, formatPercent } from '../units/index.ts';
import type { ClaimSource, KeptFile } from './claim-source.ts';
import { column, listed, type Row, section, type Telling } from './claim-telling.ts';
import type { ClaimSection, ClaimTable } from './claim-view.ts';
import { baselineRows, builtRow, finishRows } from './papers.ts';
import type { Words } from './words.ts';

/** What a claim is measured by that a record does not hold, by the keys of its texts: `claim.lacks-batch`. */
export function lackingIn({ table, photographs }: Pick<ClaimSource, 'table' | 'photographs'>): readonly string[] {
  const { moisturePercent, humidityPercent, asBuilt, finish } = table;
  return [
    ...(moisturePercent.length === 0 ? ['moisture'] : []),
    ...(['glueUp', 'finish', 'delivery'] as const).flatMap((when) =>
      humidityPercent[when] === undefined ? [`humidity-${when === 'glueUp' ? 'glue-up' : when}`] : [],
    ),
    ...(finish.batch === undefined ? ['batch'] : []),
    ...(asBuilt.length === 0 ? ['sizes'] : []),
    ...(photographs.length === 0 ? ['photographs'] : []),
  ].map((key) => `claim.lacks-${key}`);
}

/** What the record holds of the table on the day of its delivery, and what it does not hold. */
export function baseline(source: ClaimSource, telling: Telling): ClaimSection {
  const { words, day, show, sees } = telling;
  const { table, inspected, signedOn, defects } = source;
  const accepted = [
    words.say(inspected ? 'claim.looked-over' : 'claim.not-looked-over'),
    signedOn === undefined ? words.say('claim.unsigned') : words.say('claim.signed-on', { date: day(signedOn) }),
  ];
  const sizes = table.asBuilt.filter(({ what }) => sees(what)).map((one) => builtRow(one, telling));
  const lacks = lackingIn(source).map((key) => words.say(key));
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
export function photographs({ photographs: before, opened, lookedAt, settled }: ClaimSource, { words }: Telling): readonly ClaimSection[] {
  const all = [...before, ...[opened, ...lookedAt, ...(settled === undefined ? [] : [settled])].flatMap((step) => step.photographs)];
  if (all.length === 0) return [];
  return [
    section('photographs', words.say('claim.photographs'), { table: filesTable(all, words), small: [words.say('claim.photographs-note')] }),
  ];
}

/** Visits, repairs, refinishes and what was measured, by date. */
export function since({ services, measuredLater }: ClaimSource, { words, day, isCopy }: Telling): ClaimSection {
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

/** The agreed words on what the maker stands for, and until when. */
export function agreed({ warranty, opened }: ClaimSource, { words, day }: Telling): ClaimSection {
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
