import type { Part, Table } from '../design/index.ts';
import type { EffectiveSpec, MeasureSpec } from '../spec/index.ts';
import type { PlaceCount } from './assessment.ts';
import { freeRunsMm, obstaclesOf, seatingEdges, takenSpans } from './seats.ts';
import { heightsOf } from './slice.ts';

type PlacesMeasure = Extract<MeasureSpec, { kind: 'places' }>;

/** Width of a place where nobody said one, mm. @source NKBA kitchen planning guideline 9: 24 in a diner */
const usualPlaceMm = 24 * 25.4;

/** Height up to which knees need room where nobody said one, mm: common practice. */
const usualKneeMm = 650;

/** Rounding of a floor(): a place that is short by less than this is a place, mm. */
const roundingMm = 1e-6;

/** How places are counted for this proposal: as its first wish for places says, else 24 in wide with one at each end. */
export function usualPlaces(
  spec: EffectiveSpec,
): Pick<PlacesMeasure, 'ends'> & { readonly widthMm: number; readonly kneeHeightMm: number } {
  for (const wish of Object.values(spec.proposal.wishes)) {
    if (wish.measure.kind === 'places')
      return { ends: wish.measure.ends, widthMm: wish.measure.width.mm, kneeHeightMm: wish.measure.kneeHeight.mm };
  }
  return { ends: 1, widthMm: usualPlaceMm, kneeHeightMm: usualKneeMm };
}

/**
 * Places at the table. Daily: stretches of the sides with no leg within reach, each holding whole places, and at each end up to
 * `ends` where a whole place is free. Straddled: whole places along the sides, legs or not, and the ends alike.
 * A round or oval top is counted along its rim and has no ends; sides that stand against a wall have no places.
 */
export function countPlaces(
  spec: EffectiveSpec,
  table: Table,
  parts: readonly Part[],
  asked: { readonly widthMm: number; readonly kneeHeightMm: number; readonly ends: number },
): PlaceCount {
  const { standing } = obstaclesOf(table, parts, asked.kneeHeightMm);
  const wholePlaces = (mm: number): number => Math.floor((mm + roundingMm) / asked.widthMm);
  const edges = seatingEdges(spec, table).map((edge) => {
    const runs = freeRunsMm(edge, takenSpans(edge, standing, asked.kneeHeightMm));
    const isEnd = edge.id === 'left' || edge.id === 'right';
    const most = isEnd ? asked.ends : Number.POSITIVE_INFINITY;
    return {
      isEnd,
      daily: Math.min(
        most,
        runs.reduce((sum, run) => sum + wholePlaces(run), 0),
      ),
      straddled: Math.min(most, wholePlaces(edge.lengthMm)),
      freeMm: Math.max(0, ...runs),
    };
  });
  const sides = edges.filter((edge) => !edge.isEnd);
  const ends = edges.filter((edge) => edge.isEnd);
  const least = (values: readonly number[]): number => (values.length === 0 ? 0 : Math.min(...values));
  return {
    daily: edges.reduce((sum, edge) => sum + edge.daily, 0),
    straddled: edges.reduce((sum, edge) => sum + edge.straddled, 0),
    perSide: least(sides.map((edge) => edge.daily)),
    freeBetweenLegsMm: { sides: least(sides.map((edge) => edge.freeMm)), ends: least(ends.map((edge) => edge.freeMm)) },
  };
}

/** Width of a chair where nobody said one, mm: common practice. */
const usualChairMm = 560;

/**
 * Lowest underside of rails, aprons and top where chairs go in, and the part that is lowest. On each edge it is the greatest height at
 * which stretches wide enough for a chair make up half of what the legs leave free: a bearer that crosses the edge parts two chairs,
 * an apron along it stops their arms. Edges with no room for a chair do not count.
 */
export function clearHeight(
  spec: EffectiveSpec,
  table: Table,
  parts: readonly Part[],
): { readonly clearHeightMm: number; readonly lowestId: string } {
  const chairMm = spec.proposal.chairs?.width.mm ?? usualChairMm;
  const { kneeHeightMm } = usualPlaces(spec);
  const { standing, hanging } = obstaclesOf(table, parts, kneeHeightMm);
  const undersideMm = table.top.heightMm - table.top.thicknessMm;
  let lowest = { clearHeightMm: undersideMm, lowestId: table.top.partId };
  for (const edge of seatingEdges(spec, table)) {
    const legs = takenSpans(edge, standing, kneeHeightMm);
    const forChairs = (taken: readonly (readonly [number, number])[]): number =>
      freeRunsMm(edge, taken).reduce((sum, run) => sum + (run >= chairMm ? run : 0), 0);
    const roomMm = forChairs(legs);
    if (roomMm === 0) continue;
    const near = hanging
      .map((part) => ({ part, lowMm: heightsOf(part).lowMm, spans: takenSpans(edge, [part], undersideMm) }))
      .filter((it) => it.spans.length > 0 && it.lowMm < undersideMm)
      .sort((a, b) => a.lowMm - b.lowMm);
    const taken = [...legs];
    for (const { part, lowMm, spans } of near) {
      taken.push(...spans);
      if (forChairs(taken) >= roomMm / 2) continue;
      if (lowMm < lowest.clearHeightMm) lowest = { clearHeightMm: lowMm, lowestId: part.id };
      break;
    }
  }
  return lowest;
}
