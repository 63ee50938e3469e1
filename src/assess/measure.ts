import type { Part, Table } from '../design/index.ts';
import type { EffectiveSpec, MeasureSpec } from '../spec/index.ts';
import type { Money } from '../units/index.ts';
import { exactDecimal, roundMinor } from '../units/index.ts';
import type { Assessment, WishAnswer } from './assessment.ts';
import { hullOf, shapeOf } from './convex.ts';
import { insetAlongMm, insetMm } from './inset.ts';
import { kneeSpace } from './knee-space.ts';
import { clearHeight, countPlaces } from './places.ts';
import { innerRim } from './rim.ts';
import { planHulls } from './slice.ts';
import type { StandingState } from './steadiness.ts';
import { middleOf, namedPlaces, reachMm } from './steadiness.ts';
import type { Stance } from './tip.ts';
import { lowestLoadN, lowestWorst, standsByItself } from './tip.ts';

/** All that a wish may ask about. */
export interface Findings {
  readonly spec: EffectiveSpec;
  readonly table: Table;
  readonly parts: readonly Part[];
  readonly standing: readonly StandingState[];
  readonly assessment: Omit<Assessment, 'wishes' | 'problems'>;
  /** Net and total of the price, where it is known. */
  readonly price?: { readonly net: Money; readonly total: Money };
}

/**
 * What was found for a measure. `value` is absent where nothing limits it (a load that tips nothing); `exact` says that it follows from
 * the drawing or the price alone, without weights.
 */
export interface Finding {
  readonly value?: number;
  readonly unit?: WishAnswer['unit'];
  readonly target?: WishAnswer['target'];
  readonly why?: WishAnswer['why'];
  readonly exact: boolean;
  /** Set where the answer is no number against a target. */
  readonly result?: WishAnswer['result'];
}

/** The value of one measure with the part, place or step that decides it. */
export function find(measure: MeasureSpec, findings: Findings): Finding {
  const { spec, table, parts, assessment } = findings;
  switch (measure.kind) {
    case 'places': {
      const asked = { widthMm: measure.width.mm, kneeHeightMm: measure.kneeHeight.mm, ends: measure.ends };
      const count = countPlaces(spec, table, parts, asked);
      const values = { daily: count.daily, straddled: count.straddled, perSide: count.perSide, freeMm: count.freeBetweenLegsMm.sides };
      const value = measure.straddled ? count.straddled : count.daily;
      const kind = table.top.outline.kind === 'ellipse' ? '-rim' : measure.straddled ? '-straddled' : '';
      const key = `wish.why.places${kind}`;
      return { value, unit: 'places', target: { atLeast: measure.atLeast }, why: { key, values }, exact: true };
    }
    case 'clearance': {
      const inTheWay = Object.values(spec.proposal.room.obstacles).find((obstacle) => obstacle.side === measure.side);
      const why = inTheWay === undefined ? {} : { why: { key: 'wish.why.to-obstacle', values: { obstacle: inTheWay.says } } };
      return atLeastMm(assessment.fit.clearancesMm[measure.side] ?? 0, measure.atLeast.mm, why);
    }
    case 'clear-height': {
      const { clearHeightMm, lowestId } = clearHeight(spec, table, parts);
      return atLeastMm(clearHeightMm, measure.atLeast.mm, { why: partWhy('wish.why.lowest-part', lowestId, parts) });
    }
    case 'inset':
      return findInset(measure, findings);
    case 'knee-space': {
      const { heightMm, blockedBy } = kneeSpace(table, parts, measure.wide.mm, measure.deep.mm);
      return atLeastMm(heightMm, measure.atLeast.mm, { why: partWhy('wish.why.lowest-part', blockedBy, parts) });
    }
    case 'tipping-load':
      return findTippingLoad(measure, findings);
    case 'push': {
      const worst = assessment.tipping.reduce((a, b) => (b.push.forceN < a.push.forceN ? b : a));
      const crossways = Math.abs(worst.push.towards[1]) > Math.abs(worst.push.towards[0]);
      const why = { key: crossways ? 'wish.why.push-crossways' : 'wish.why.push-lengthways', values: {} };
      return { value: worst.push.forceN, unit: 'N', target: { atLeast: measure.atLeast.n }, why, exact: false };
    }
    case 'open': {
      const share = measure.seenFrom === 'front' ? assessment.open.front : assessment.open.side;
      return { value: share * 100, unit: 'percent', target: { atLeast: measure.atLeast.percent }, exact: true };
    }
    case 'size':
      return findSize(measure, table);
    case 'mass':
      return { value: assessment.massKg, unit: 'kg', target: { atMost: measure.atMost.kg }, exact: false };
    case 'way-in':
      return findWayIn(assessment);
    case 'price': {
      if (findings.price === undefined) return { exact: true, result: 'not-computed' };
      const amount = measure.of === 'net' ? findings.price.net : findings.price.total;
      const atMost = roundMinor(exactDecimal(measure.atMost), amount.currency).minor;
      return { value: amount.minor, unit: 'minor', target: { atMost }, exact: true };
    }
    case 'judgement':
      return { exact: true, result: 'judgement' };
  }
}

function atLeastMm(value: number, atLeast: number, rest: Pick<Finding, 'why'>): Finding {
  return { value, unit: 'mm', target: { atLeast }, exact: true, ...rest };
}

function partWhy(key: string, partId: string, parts: readonly Part[]): NonNullable<Finding['why']> {
  return { key, values: { part: parts.find((part) => part.id === partId)?.name ?? partId, id: partId } };
}

/** Way inward from the named edges to the nearest part of the base between two heights; as far as the middle where nothing is there. */
function findInset(measure: Extract<MeasureSpec, { kind: 'inset' }>, { table, parts }: Findings): Finding {
  const outline = hullOf([shapeOf(table.top.outline)]);
  const normals = namedPlaces.filter(({ id }) => {
    if (measure.from === 'ends') return id === 'left' || id === 'right';
    return measure.from === 'sides' ? id === 'front' || id === 'back' : id === measure.from;
  });
  const undersideMm = table.top.heightMm - table.top.thicknessMm;
  const toMiddleMm = Math.min(...(measure.from === 'rim' ? namedPlaces : normals).map(({ normal }) => reachMm(outline, normal)));
  let nearest = { mm: toMiddleMm, partId: '' };
  for (const part of parts) {
    if (part.id === table.top.partId) continue;
    for (const shadow of planHulls(part, measure.above.mm, measure.below?.mm ?? undersideMm)) {
      const mm =
        measure.from === 'rim' ? insetMm(outline, shadow) : Math.min(...normals.map(({ normal }) => insetAlongMm(outline, shadow, normal)));
      if (mm < nearest.mm - 1e-9) nearest = { mm, partId: part.id };
    }
  }
  return atLeastMm(
    nearest.mm,
    measure.atLeast.mm,
    nearest.partId === '' ? {} : { why: partWhy('wish.why.nearest-part', nearest.partId, parts) },
  );
}

/**
 * Lowest load over the states. `worst`: anywhere on the inner parallel curve; `ends`, `sides`: in the middle of each; `corners`: the inset
 * from both edges of a corner. On a round or oval top every named place is the point of the rim that faces there.
 */
function findTippingLoad(measure: Extract<MeasureSpec, { kind: 'tipping-load' }>, { standing, table }: Findings): Finding {
  let lowest: { readonly loadN: number; readonly where: string; readonly says: string } | undefined;
  for (const one of standing) {
    const answer = one.stances.every(standsByItself) ? lowestIn(one, measure) : { loadN: 0, where: 'by-itself' };
    if (answer !== undefined && (lowest === undefined || answer.loadN < lowest.loadN)) lowest = { ...answer, says: one.state.says };
  }
  const target = { atLeast: measure.atLeast.n };
  if (lowest === undefined) return { target, unit: 'N', why: { key: 'wish.why.never-tips', values: {} }, exact: false, result: 'enough' };
  const where = table.top.outline.kind === 'ellipse' && lowest.where !== 'by-itself' ? 'rim' : lowest.where;
  const values: Readonly<Record<string, string>> = standing.length > 1 ? { state: lowest.says } : {};
  const why = { key: `wish.why.tips-${where}`, values };
  return { value: lowest.loadN, unit: 'N', target, why, exact: false };
}

function lowestIn(
  { stances, outline }: StandingState,
  measure: Extract<MeasureSpec, { kind: 'tipping-load' }>,
): { readonly loadN: number; readonly where: string } | undefined {
  const rim = innerRim(outline, measure.inset.mm);
  if (measure.at === 'worst') {
    const worst = lowestWorst(stances, rim);
    if (worst === null) return undefined;
    const atEnd = Math.abs(worst.atMm[0]) >= reachMm(outline, [1, 0]) - measure.inset.mm - 1e-6;
    const atSide = Math.abs(worst.atMm[1]) >= reachMm(outline, [0, 1]) - measure.inset.mm - 1e-6;
    return { loadN: worst.loadN, where: atEnd && atSide ? 'corner' : atEnd ? 'end' : 'side' };
  }
  if (measure.at === 'corners')
    return least(stances, rim.corners.length > 0 ? rim.corners : namedPlaces.map((p) => middleOf(rim, p.normal)), 'corner');
  const ends = measure.at === 'ends';
  const normals = namedPlaces.filter(({ id }) => (id === 'left' || id === 'right') === ends);
  return least(
    stances,
    normals.map(({ normal }) => middleOf(rim, normal)),
    ends ? 'end' : 'side',
  );
}

function least(
  stances: readonly Stance[],
  places: readonly (readonly [number, number])[],
  where: string,
): { loadN: number; where: string } | undefined {
  const loads = places.map((at) => lowestLoadN(stances, at)).filter((load) => load !== null);
  return loads.length === 0 ? undefined : { loadN: Math.min(...loads), where };
}

function findSize(measure: Extract<MeasureSpec, { kind: 'size' }>, table: Table): Finding {
  const value =
    measure.of === 'thickness' ? table.top.thicknessMm : measure.of === 'height' ? table.top.heightMm : table.overallMm[measure.of];
  const target = {
    ...(measure.atLeast === undefined ? {} : { atLeast: measure.atLeast.mm }),
    ...(measure.atMost === undefined ? {} : { atMost: measure.atMost.mm }),
  };
  return { value, unit: 'mm', target, exact: true };
}

function findWayIn({ fit }: Findings['assessment']): Finding {
  const ranks = ['passes', 'tight', 'not-proven', 'does-not-pass'];
  const hardest = [...fit.wayIn].sort((a, b) => ranks.indexOf(b.result) - ranks.indexOf(a.result) || a.index - b.index)[0];
  if (hardest === undefined) return { exact: true, result: 'not-computed' };
  const result = hardest.result === 'passes' ? 'enough' : hardest.result === 'does-not-pass' ? 'not-enough' : 'limit';
  return { unit: 'way-in', why: { key: `wish.why.way-in-${hardest.result}`, values: { step: hardest.says } }, exact: true, result };
}
