import { nearestName, type Problem, type SpecPath } from '../../problem/index.ts';
import type { Body, EntryOf } from '../../record/index.ts';
import type { FinishSpec, HandOverSpec, TableSpec, TermsSpec } from '../../spec/index.ts';
import { isoDate } from '../../units/index.ts';
import { refusal, remark } from '../refusal.ts';
import { agreedSize, measurablePaths, type Tolerance, toleranceFor } from './as-built.ts';
import { type SizesShown, shownSize } from './hand-over-words.ts';

type HandOver = Body<'hand-over'>;
type Finish = HandOverSpec['finish'];

/** What a sheet is held against. */
export interface HandOverGrounds {
  /** The table as it was ordered: merged and checked, of the frozen revision. */
  readonly ordered: TableSpec;
  /** The terms that were agreed. */
  readonly terms: Pick<TermsSpec, 'tolerances'>;
  readonly finishes: Readonly<Record<string, FinishSpec>>;
  /** How sizes are shown. */
  readonly shown: SizesShown;
  /** What was measured at the bench, in the order of the record. */
  readonly measured: readonly EntryOf<'measured'>[];
}

/** Boards of one wood, by its key. */
export interface StatedBoards {
  readonly wood: string;
  readonly origin?: string;
  readonly says?: string;
  readonly certificate?: string;
}

/** What lies apart from the chain, so that it can be erased. */
export interface HandOverWords {
  readonly person?: string;
  readonly name?: string;
  readonly words?: string;
  /** What each defect is, in the order of the entry. */
  readonly defects?: readonly string[];
  /** Where the boards came from, as it was stated to the maker. */
  readonly timber?: readonly StatedBoards[];
  readonly glue?: string;
}

/** An entry as a sheet makes it, without the files that it names; what is sealed; and what is wrong or worth knowing. */
export interface HandOverMade {
  readonly body: Omit<HandOver, 'photographs'>;
  readonly words: HandOverWords;
  readonly problems: readonly Problem[];
}

const ROOT: SpecPath = ['library', 'handOver'];
const at = (problem: Problem, ...path: SpecPath): Problem => ({ ...problem, path: [...ROOT, ...path] });
const isSame = (a: number, b: number): boolean => Math.abs(a - b) < 1e-9;

type BuiltSize = HandOver['asBuilt'][number];

/** One measured size beside the agreed one; nothing where the ordered table has no such size. */
function builtSize(
  path: string,
  { built, tolerance, yes }: HandOverSpec['asBuilt'][string],
  grounds: HandOverGrounds,
): BuiltSize | undefined {
  const agreed = agreedSize(grounds.ordered, path);
  if (agreed === undefined) return undefined;
  const { mm }: Tolerance = tolerance === undefined ? toleranceFor(path, grounds.terms) : { mm: tolerance.mm, from: 'sheet' };
  return { what: path, agreed: agreed.mm, built: built.mm, tolerance: mm, unit: 'mm', ...(yes === undefined ? {} : { yes }) };
}

function sizeProblems({ asBuilt }: HandOverSpec, grounds: HandOverGrounds): readonly Problem[] {
  const known = measurablePaths(grounds.ordered);
  return Object.entries(asBuilt).flatMap(([path, { tolerance }]): readonly Problem[] => {
    if (agreedSize(grounds.ordered, path) === undefined) {
      const near = nearestName(path, known);
      return [
        at(
          refusal('hand-over-no-size', `the ordered table has no size ${path}`, {
            allowed: known.slice(0, 12).join(', '),
            ...(near === undefined ? {} : { mend: `write ${near}:` }),
          }),
          'asBuilt',
          path,
        ),
      ];
    }
    const usual = toleranceFor(path, grounds.terms);
    if (tolerance === undefined || usual.from !== 'terms' || tolerance.mm <= usual.mm + 1e-9) return [];
    return [
      at(
        refusal('hand-over-wider', `the tolerance of ${path} is wider than the one that was agreed`, {
          found: tolerance.written,
          allowed: `at most ${shownSize(usual.mm, grounds.shown)}, by the agreed terms`,
          mend: 'take tolerance: out, and name the entry of a yes to the difference',
        }),
        'asBuilt',
        path,
        'tolerance',
      ),
    ];
  });
}

/** Sizes that were held against common practice, because the agreed terms state no amount for them. */
function usualRemark({ asBuilt }: HandOverSpec, { ordered, terms, shown }: HandOverGrounds): readonly Problem[] {
  const usual = Object.entries(asBuilt)
    .filter(([path, { tolerance }]) => tolerance === undefined && agreedSize(ordered, path) !== undefined)
    .map(([path]) => ({ path, tolerance: toleranceFor(path, terms) }))
    .filter(({ tolerance }) => tolerance.from === 'common-practice');
  if (usual.length === 0) return [];
  return [
    remark('hand-over-usual-tolerance', 'some sizes are held against tolerances of common practice', {
      found: usual.map(({ path, tolerance: { mm } }) => `${path} \u00b1 ${shownSize(mm, shown)}`).join(', '),
      mend: 'where the agreed terms say another amount in words, write it as tolerance: beside the size',
    }),
  ];
}

function finishProblems(sheet: HandOverSpec, { finishes }: HandOverGrounds): readonly Problem[] {
  const known = Object.keys(finishes).sort();
  return (['finish', 'baseFinish'] as const).flatMap((key): readonly Problem[] => {
    const id = sheet[key]?.is;
    if (id === undefined || Object.hasOwn(finishes, id)) return [];
    const near = nearestName(id, known);
    return [
      at(
        refusal('hand-over-no-finish', `${id} is no finish of your library`, {
          allowed: known.join(', '),
          mend: near === undefined ? 'add it to templates/finishes.yaml' : `write is: ${near}`,
        }),
        key,
        'is',
      ),
    ];
  });
}

/** Finishes of top and base that are not those ordered; one that the library does not have is told as that alone. */
function otherFinishes({ finish, baseFinish }: HandOverSpec, { ordered, finishes }: HandOverGrounds): NonNullable<HandOver['otherFinish']> {
  const base: Finish = baseFinish ?? finish;
  const orderedBase = ordered.baseFinish ?? ordered.finish;
  const one = (on: 'top' | 'base', applied: Finish, wanted: string) =>
    applied.is === wanted || !Object.hasOwn(finishes, applied.is)
      ? []
      : [{ on, ordered: wanted, ...(applied.yes === undefined ? {} : { yes: applied.yes }) }];
  const top = one('top', finish, ordered.finish);
  // Where one finish is on both, and one was ordered for both, it is one difference.
  const isOneOfBoth = base.is === finish.is && orderedBase === ordered.finish;
  return isOneOfBoth ? top : [...top, ...one('base', base, orderedBase)];
}

const applied = ({ product, batch }: Finish) => ({
  ...(product === undefined ? {} : { product: product.slice(0, 120) }),
  ...(batch === undefined ? {} : { batch: batch.slice(0, 120) }),
});

const statedBoards = ({ wood, origin, says, certificate }: HandOverSpec['timber'][number]): StatedBoards => ({
  wood,
  ...(origin === undefined ? {} : { origin }),
  ...(says === undefined ? {} : { says }),
  ...(certificate === undefined ? {} : { certificate }),
});

/** The last humidity that was measured at one time; every moisture that was. */
const lastHumidity = (measured: readonly EntryOf<'measured'>[], when: EntryOf<'measured'>['when']): number | undefined =>
  measured.findLast((one) => one.what === 'humidity' && one.when === when)?.percent.at(-1);

/** The baseline: what the sheet says, and what was measured at the bench where it is silent. */
function baselineOf({ glueUp, finishing, delivery }: HandOverSpec, { measured }: HandOverGrounds) {
  const atBench = measured.filter(({ what, when }) => what === 'moisture' && when === 'glue-up').flatMap(({ percent }) => percent);
  const moisture = glueUp?.moisture?.map(({ percent }) => percent) ?? (atBench.length === 0 ? undefined : atBench);
  const glue = glueUp?.humidity?.percent ?? lastHumidity(measured, 'glue-up');
  const finish = finishing?.humidity.percent ?? lastHumidity(measured, 'finish');
  const there = delivery?.humidity.percent ?? lastHumidity(measured, 'delivery');
  const humidity = {
    ...(glue === undefined ? {} : { glueUp: glue }),
    ...(finish === undefined ? {} : { finish }),
    ...(there === undefined ? {} : { delivery: there }),
  };
  return {
    ...(moisture === undefined ? {} : { moisturePercent: moisture }),
    ...(Object.keys(humidity).length === 0 ? {} : { humidityPercent: humidity }),
  };
}

/**
 * The entry that a sheet makes, held against what was ordered. Photographs and the signed paper are added where files are kept.
 *
 * Problems point into the sheet by paths below `['library', 'handOver']`. Errors: `cli/hand-over-no-size hand-over-wider
 * hand-over-no-finish`. Warning: `cli/hand-over-usual-tolerance`.
 */
export function handOverOf(sheet: HandOverSpec, grounds: HandOverGrounds): HandOverMade {
  const { piece, finished, delivered, finish, baseFinish, acceptance, storage, words } = sheet;
  const { by, name, defects, inspected, signed } = acceptance;
  const other = otherFinishes(sheet, grounds);
  const asBuilt = Object.entries(sheet.asBuilt).flatMap(([path, size]) => builtSize(path, size, grounds) ?? []);
  return {
    body: {
      kind: 'hand-over',
      on: isoDate(delivered),
      piece,
      finishedOn: isoDate(finished),
      finish: finish.is,
      ...applied(finish),
      ...(baseFinish === undefined ? {} : { baseFinish: { finish: baseFinish.is, ...applied(baseFinish) } }),
      ...(other.length === 0 ? {} : { otherFinish: other }),
      ...baselineOf(sheet, grounds),
      asBuilt,
      ...(sheet.mass === undefined ? {} : { massKg: sheet.mass.kg }),
      ...(by === undefined ? {} : { person: by }),
      acceptance: {
        inspected,
        defects: defects.map((defect) => ({ by: isoDate(defect.by) })),
        signed: signed ? 'signed' : 'left-unsigned',
      },
      ...(storage === undefined
        ? {}
        : { storage: { from: isoDate(storage.from), ...(storage.until === undefined ? {} : { until: isoDate(storage.until) }) } }),
    },
    words: {
      ...(by === undefined ? {} : { person: by }),
      ...(name === undefined ? {} : { name }),
      ...(words === undefined ? {} : { words }),
      ...(defects.length === 0 ? {} : { defects: defects.map(({ says }) => says) }),
      ...(sheet.timber.length === 0 ? {} : { timber: sheet.timber.map(statedBoards) }),
      ...(sheet.glue === undefined ? {} : { glue: sheet.glue }),
    },
    problems: [...sizeProblems(sheet, grounds), ...finishProblems(sheet, grounds), ...usualRemark(sheet, grounds)],
  };
}

/** Sizes that differ from what was agreed at all, in the words of a report. */
export const differingSizes = (asBuilt: HandOver['asBuilt']): HandOver['asBuilt'] =>
  asBuilt.filter(({ agreed, built }) => !isSame(agreed, built));
