import { type Body, type EntryOf, isBeyond } from '../../record/index.ts';
import type { Library } from '../../spec/index.ts';
import { formatLength, formatMass, type LengthStyle } from '../../units/index.ts';

type HandOver = Body<'hand-over'>;

/** Signs of a name in front of what is told of it. */
const NAME_WIDTH = 14;

const percents = (list: readonly number[]): string => list.map((one) => `${one} %`).join(', ');
const plain = (word: string): string => word.replaceAll('-', ' ');

function measuredWords({ moisturePercent, humidityPercent }: HandOver): string {
  const { glueUp, finish, delivery } = humidityPercent ?? {};
  const air = [
    ...(glueUp === undefined ? [] : [`${glueUp} % at glue-up`]),
    ...(finish === undefined ? [] : [`${finish} % at finishing`]),
    ...(delivery === undefined ? [] : [`${delivery} % at delivery`]),
  ];
  return [
    ...(moisturePercent === undefined ? [] : [`boards ${percents(moisturePercent)}`]),
    ...(air.length === 0 ? [] : [`air ${air.join(', ')}`]),
  ].join('; ');
}

/** How sizes are shown: the language and style of a proposal. */
export interface SizesShown {
  readonly language: string;
  readonly show: LengthStyle;
}

/** A measured size, to a tenth of a millimetre or a sixty-fourth of an inch. */
export const shownSize = (mm: number, { language, show }: SizesShown): string =>
  formatLength(mm, { style: show, locale: language, fraction: 64, decimals: 1 });

const called: Readonly<Record<string, string>> = {
  height: 'height',
  'top.length': 'length of the top',
  'top.width': 'width of the top',
  'top.diameter': 'diameter of the top',
  'top.thickness': 'thickness of the top',
};

/** What a size is called; its path in the table where it has no name of its own. */
export const sizeName = (path: string): string => called[path] ?? path;

/** One size as built, beside what was agreed. */
export function sizeWords({ what, agreed, built, tolerance, unit, yes }: HandOver['asBuilt'][number], shown: SizesShown): string {
  const n = (mm: number): string => shownSize(mm, shown);
  const difference = { what, agreed, built, tolerance, unit };
  const beyond = isBeyond(difference) ? `, beyond it; agreed to in entry ${yes ?? '?'}` : '';
  return Math.abs(built - agreed) < 0.05
    ? `${sizeName(what)} ${n(built)}, as agreed`
    : `${sizeName(what)} ${n(built)}, agreed ${n(agreed)} \u00b1 ${n(tolerance)}${beyond}`;
}

const finishWords = (
  { finish, product, batch }: { readonly finish: string; readonly product?: string; readonly batch?: string },
  finishes: Library['finishes'],
): string =>
  [finishes[finish]?.name ?? finish, ...(product === undefined ? [] : [product]), ...(batch === undefined ? [] : [`batch ${batch}`])].join(
    ', ',
  );

/** How it was accepted, in a line. */
export function acceptanceWords({ acceptance }: HandOver): string {
  if (acceptance === undefined) return '';
  const { inspected, defects, signed } = acceptance;
  const by = [...new Set(defects.map((defect) => defect.by))].sort();
  const listed =
    defects.length === 0
      ? 'no defect found'
      : `${defects.length === 1 ? '1 defect' : `${defects.length} defects`} to put right by ${by.join(', ')}`;
  return [inspected ? 'inspected' : 'not inspected', ...(inspected ? [listed] : []), plain(signed)].join('; ');
}

/** What was recorded of a hand-over, line by line. */
export function handOverLines(entry: EntryOf<'hand-over'>, finishes: Library['finishes'], shown: SizesShown): readonly string[] {
  const { finishedOn, baseFinish, asBuilt, massKg, photographs } = entry;
  const measured = measuredWords(entry);
  const rows: readonly (readonly string[])[] = [
    ['finished', `${finishedOn}, ${finishWords(entry, finishes)}`],
    ...(baseFinish === undefined ? [] : [['base', finishWords(baseFinish, finishes)]]),
    ...(measured === '' ? [] : [['measured', measured]]),
    ...asBuilt.map((size, i) => [i === 0 ? 'as built' : '', sizeWords(size, shown)]),
    ...(massKg === undefined ? [] : [['weighed', formatMass(massKg, shown.show, shown.language, 1)]]),
    ...(photographs.length === 0 ? [] : [['photographs', `${photographs.length}, in records/files/`]]),
    ['accepted', acceptanceWords(entry)],
  ];
  return rows.map(([name = '', says = '']) => `  ${name.padEnd(NAME_WIDTH)}${says}`);
}
