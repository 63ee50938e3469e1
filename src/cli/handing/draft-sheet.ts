import type { EntryOf, Standing } from '../../record/index.ts';
import { type FinishSpec, TO_FILL_IN } from '../../spec/index.ts';
import { writeLength } from '../../units/index.ts';
import { agreedSize, overallPaths, toleranceFor } from './as-built.ts';
import type { OrderedSpec } from './ordered-spec.ts';

/** What a draft is made from. */
export interface DraftSource {
  readonly slug: string;
  readonly piece: string;
  readonly ordered: OrderedSpec;
  readonly standing: Pick<Standing, 'reached' | 'measured'>;
  /** Ids of those who may accept it. */
  readonly people: readonly string[];
  /** The day of the delivery, where it is known already. */
  readonly delivered?: string;
}

const finishName = (finishes: Readonly<Record<string, FinishSpec>>, id: string): string => finishes[id]?.name ?? id;

function finishLines(key: 'finish' | 'baseFinish', id: string, { library }: OrderedSpec): readonly string[] {
  return [
    `${key}:`,
    `  is: ${id} # as ordered: ${finishName(library.finishes, id)}. Another one needs a yes: add yes: and its entry`,
    `  product: ${TO_FILL_IN} # as the tins say`,
    `  batch: ${TO_FILL_IN}`,
  ];
}

/** What was measured at the bench, for a comment: the sheet takes it over where it is silent. */
function measuredAt(measured: readonly EntryOf<'measured'>[], what: EntryOf<'measured'>['what'], when: EntryOf<'measured'>['when']) {
  const found = measured.filter((one) => one.what === what && one.when === when).flatMap(({ percent }) => percent);
  return found.length === 0 ? undefined : found.map((one) => `${one} %`).join(', ');
}

function baselineLines({ measured }: DraftSource['standing']): readonly string[] {
  const line = (key: string, value: string, known: string | undefined): string =>
    known === undefined ? `  ${key}: ${value}` : `  # ${key}: taken from the record: ${known}`;
  const moisture = measuredAt(measured, 'moisture', 'glue-up');
  const glue = measuredAt(measured, 'humidity', 'glue-up');
  const finish = measuredAt(measured, 'humidity', 'finish');
  const there = measuredAt(measured, 'humidity', 'delivery');
  const group = (key: string, lines: readonly string[]): readonly string[] =>
    lines.every((one) => one.startsWith('  #')) ? lines.map((one) => one.replace('  # ', `# ${key}.`)) : [`${key}:`, ...lines];
  return [
    ...group('glueUp', [
      line('moisture', `[${TO_FILL_IN}] # of each board that was measured, as [8.9 %, 9.2 %]`, moisture),
      line('humidity', TO_FILL_IN, glue),
    ]),
    ...group('finishing', [line('humidity', TO_FILL_IN, finish)]),
    ...group('delivery', [line('humidity', TO_FILL_IN, there)]),
  ];
}

function sizeLines({ table, library, proposal }: OrderedSpec): readonly string[] {
  // As the reader of the sheet takes it back: what was agreed may be typed or copied as what was built.
  const unit = proposal.show === 'mm+in' ? proposal.units : proposal.show;
  return overallPaths(table).map((path) => {
    const { mm, from } = toleranceFor(path, library.terms);
    const why = from === 'terms' ? 'by the agreed terms' : 'by common practice';
    return `  ${path}: { built: ${TO_FILL_IN} } # agreed: ${writeLength(agreedSize(table, path)?.mm ?? 0, unit)} \u00b1 ${writeLength(mm, unit)}, ${why}`;
  });
}

/** hand-over.yaml as it is drafted: what is known filled in, TODO where only the maker knows. */
export function draftSheet(source: DraftSource): string {
  const { slug, piece, ordered, standing, people, delivered } = source;
  const { table, revision } = ordered;
  const finished = standing.reached.findLast(({ stage }) => stage === 'finished')?.on;
  return `${[
    `# What is written down when ${slug} is handed over, as ordered with ${revision}. Replace each ${TO_FILL_IN}; then`,
    `# leafwright hand-over ${slug} records it. A line that may be left out, and that you do not know, is taken out.`,
    '',
    `piece: ${piece} # under the top, and on its label`,
    `finished: ${finished ?? TO_FILL_IN} # the day of the last coat, from which it cures`,
    `delivered: ${delivered ?? TO_FILL_IN}`,
    '',
    ...finishLines('finish', table.finish, ordered),
    ...(table.baseFinish === undefined ? [] : finishLines('baseFinish', table.baseFinish, ordered)),
    '',
    '# Moisture of the boards, and of the air: what a later claim is measured by.',
    ...baselineLines(standing),
    '',
    '# Sizes of the finished table. Any size of the ordered table may be added, as base.legs.size. A difference beyond the',
    "# tolerance needs somebody's yes: add yes: and the entry in which it stands.",
    'asBuilt:',
    ...sizeLines(ordered),
    '',
    '# The whole table on a scale, where you have one: who lifts it is told by this mass, else by the one that was reckoned.',
    '# mass: 41.5 kg',
    '',
    '# Where the boards came from, as it was stated to you, and the glue: for the paper on materials and origin.',
    '# timber:',
    `#   - { wood: ${table.top.wood ?? table.wood}, origin: Where they grew, says: Who said so }`,
    '# glue: Maker and name, as the bottle says',
    '',
    '# Before loading, from all sides; files below this folder.',
    '# photographs: [photographs/front.jpg, photographs/underside.jpg]',
    '',
    'acceptance:',
    `  inspected: ${TO_FILL_IN} # true or false`,
    `  signed: ${TO_FILL_IN} # true; or false, left unsigned`,
    `  # by: ${people[0] ?? 'client'} # who accepted it${people.length > 1 ? `: ${people.join(' or ')}` : ''}`,
    '  # paper: acceptance.pdf # a scan of the signed paper',
    '  # defects:',
    '  #   - { says: What is wrong, by: 2027-10-15 }',
    '',
    '# words: What else is to be kept.',
  ].join('\n')}\n`;
}
