import type { ShownDesign, ShownFigures } from './client-source.ts';
import type { Shown } from './shown.ts';
import { STRENGTH_GOVERNS_N, tippingLoad } from './steadiness.ts';
import type { Words } from './words.ts';

/** A figure by which designs can be told apart. */
interface Fact {
  readonly id: string;
  /** Absent where it was not computed. */
  readonly value: (figures: ShownFigures) => number | undefined;
  /** A difference that a client would notice: below it two designs are alike in this. Common practice of the trade. */
  readonly tolerance: number;
  /** Shown where the maker names no facts, on this condition; always where it has none. */
  readonly unasked?: (design: ShownDesign) => boolean;
  readonly show: (value: number, shown: Shown, words: Words) => string;
}

const standing = (figures: ShownFigures): ShownFigures['tipping'][string] | undefined => figures.tipping.standing;

/** The lowest of the named places, 50 mm inside their edge, in newtons. */
function lowestAt(figures: ShownFigures, ids: readonly string[]): number | undefined {
  const loads = (standing(figures)?.places ?? []).flatMap((place) =>
    ids.includes(place.id) && place.inside50 !== null ? [place.inside50.loadN] : [],
  );
  return loads.length === 0 ? undefined : Math.min(...loads);
}

/** Beyond this, strength governs and not tipping: two loads above it are alike. */
const governing = (newton: number | undefined): number | undefined =>
  newton === undefined ? undefined : Math.min(newton, STRENGTH_GOVERNS_N);

const asksForLoadAt =
  (...places: readonly string[]) =>
  (design: ShownDesign): boolean =>
    Object.values(design.spec.proposal.wishes).some(({ measure }) => measure.kind === 'tipping-load' && places.includes(measure.at));

const asLength = (value: number, shown: Shown): string => shown.length(value, 'down');
const asLoad = (value: number, shown: Shown, words: Words): string => tippingLoad(value, shown, words);
const asCount = (value: number, shown: Shown): string => shown.number(value);
const asShare = (value: number, shown: Shown): string => shown.percent(value * 100, 'down');

const facts: readonly Fact[] = [
  {
    id: 'tip-ends',
    value: (f) => (f.top.shape === 'rectangle' ? governing(lowestAt(f, ['left', 'right'])) : undefined),
    tolerance: 50,
    unasked: asksForLoadAt('ends'),
    show: asLoad,
  },
  {
    id: 'tip-sides',
    value: (f) => (f.top.shape === 'rectangle' ? governing(lowestAt(f, ['front', 'back'])) : undefined),
    tolerance: 50,
    unasked: asksForLoadAt('sides'),
    show: asLoad,
  },
  {
    id: 'tip-worst',
    value: (f) => governing(standing(f)?.inside50?.loadN),
    tolerance: 50,
    unasked: (design) => !asksForLoadAt('ends', 'sides')(design),
    show: asLoad,
  },
  { id: 'clear-height', value: (f) => f.fit.clearHeightMm, tolerance: 10, show: asLength },
  { id: 'places', value: (f) => f.fit.places?.daily, tolerance: 0.5, show: asCount },
  { id: 'places-straddled', value: (f) => f.fit.places?.straddled, tolerance: 0.5, show: asCount },
  { id: 'between-legs', value: (f) => f.fit.places?.freeBetweenLegsMm.sides, tolerance: 25, show: asLength },
  { id: 'open-front', value: (f) => f.open.front, tolerance: 0.02, show: asShare },
  { id: 'open-side', value: (f) => f.open.side, tolerance: 0.02, show: asShare },
  { id: 'mass', value: (f) => f.massKg, tolerance: 3, show: (value, shown) => shown.mass(value, 'near') },
  { id: 'length', value: (f) => f.overallMm.length, tolerance: 10, show: (value, shown) => shown.length(value) },
  { id: 'width', value: (f) => f.overallMm.width, tolerance: 10, show: (value, shown) => shown.length(value) },
  { id: 'height', value: (f) => f.overallMm.height, tolerance: 5, show: (value, shown) => shown.length(value) },
  { id: 'thickness', value: (f) => f.top.thicknessMm, tolerance: 2, show: (value, shown) => shown.length(value) },
  { id: 'clearance-front', value: (f) => f.fit.clearancesMm.front, tolerance: 10, show: asLength },
  { id: 'clearance-back', value: (f) => f.fit.clearancesMm.back, tolerance: 10, show: asLength },
  { id: 'clearance-left', value: (f) => f.fit.clearancesMm.left, tolerance: 10, show: asLength },
  { id: 'clearance-right', value: (f) => f.fit.clearancesMm.right, tolerance: 10, show: asLength },
];

/** The day it is ready is words, so it is compared only where the maker names it. */
const READY = 'ready';

/** Names that `proposal.compare` may use. */
export const factIds: readonly string[] = [...facts.map((fact) => fact.id), READY];

const SHOWN_AT_MOST = 3;

/** Spread of a fact over the designs in steps that a client would notice; 0 where a design does not have it. */
function noticeable(fact: Fact, designs: readonly ShownDesign[]): number {
  const values = designs.map((design) => fact.value(design.figures));
  if (values.some((value) => value === undefined)) return 0;
  const known = values as number[];
  return (Math.max(...known) - Math.min(...known)) / fact.tolerance;
}

/** Facts in the order in which they tell these designs apart; those that do not are left out. A single design shows the first it has. */
function tellingApart(designs: readonly ShownDesign[]): readonly string[] {
  if (designs.length < 2) {
    const first = ['tip-worst', 'clear-height', 'mass'];
    return first.filter((id) => facts.some((fact) => fact.id === id && designs.some((d) => fact.value(d.figures) !== undefined)));
  }
  const ranked = facts
    .map((fact, order) => ({ fact, order, steps: noticeable(fact, designs) }))
    .filter((one) => one.steps > 1 && designs.every((design) => one.fact.unasked?.(design) !== false))
    .sort((a, b) => b.steps - a.steps || a.order - b.order)
    .map((one) => one.fact);
  return ranked.map((fact) => fact.id);
}

/** The facts shown under each picture: those the maker named, else the ones in which the designs differ most. At most three, same order in each. */
export function sharedFacts(designs: readonly ShownDesign[], named: readonly string[] | undefined): readonly string[] {
  const chosen = named === undefined ? tellingApart(designs) : named.filter((id) => factIds.includes(id));
  return chosen.slice(0, SHOWN_AT_MOST);
}

/** A fact of a design's figures in words, without its spec; undefined where it has none or the fact is unknown. */
export function factValue(id: string, figures: ShownFigures, shown: Shown, words: Words): string | undefined {
  const fact = facts.find((one) => one.id === id);
  const value = fact?.value(figures);
  return fact === undefined || value === undefined ? undefined : fact.show(value, shown, words);
}

/** One fact of one design in words. */
export function factOf(design: ShownDesign, id: string, shown: Shown, words: Words): { readonly label: string; readonly value: string } {
  const label = words.say(`fact.${id}`);
  if (id === READY) return { label, value: design.spec.variant.ready ?? design.spec.proposal.leadTime };
  return { label, value: factValue(id, design.figures, shown, words) ?? words.say('fact.none') };
}
