import { formatNumber, formatPercent, UNIT_SPACE } from '../units/index.ts';
import type { ClaimSource, TopExpected } from './claim-source.ts';
import { column, lengthOf, rangeOf, section, type Telling } from './claim-telling.ts';
import type { ClaimSection } from './claim-view.ts';
import { sizeName } from './papers.ts';

/** What the top was to be expected to do between the boards of glue-up and the air of now; in a row of airs where that is not known yet. */
export function wood({ expected }: ClaimSource, telling: Telling): ClaimSection {
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
export function visit(source: ClaimSource, telling: Telling): readonly ClaimSection[] {
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
