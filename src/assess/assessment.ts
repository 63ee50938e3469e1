import type { Problem } from '../problem/index.ts';
import type { Contact, Vec2, Vec3 } from '../solid/index.ts';

/** Smallest vertical load that begins to tip the table, and where it stands; `null` where no load there can. */
export interface WorstLoad {
  readonly loadN: number;
  readonly atMm: Vec2;
}

export type Result = 'enough' | 'limit' | 'not-enough';

export interface CaseResult {
  readonly id: string;
  readonly loadN: number;
  readonly pushN: number;
  readonly safetyFactor: number | null;
  readonly wanted: number;
  readonly least: number;
  readonly result: Result;
}

export interface Tipping {
  readonly state: string;
  /** On the very edge of the top. */
  readonly edge: WorstLoad | null;
  /** On the inner parallel curve 50 mm inside the outline. */
  readonly inside50: WorstLoad | null;
  /** Rectangles: the four corners of the outline, counter-clockwise from front left. */
  readonly corners: readonly { readonly atMm: Vec2; readonly loadN: number | null }[];
  /** Lowest horizontal force at overall height that begins to tip. */
  readonly push: { readonly forceN: number; readonly towards: Vec2; readonly overEdge: readonly [Vec2, Vec2] };
  /** Middle of each end and side, on the edge and 50 mm inside, for drawings and wishes. */
  readonly places: readonly {
    readonly id: 'front' | 'right' | 'back' | 'left';
    readonly edge: WorstLoad | null;
    readonly inside50: WorstLoad | null;
  }[];
  readonly tiltDeg: number;
  readonly cases: readonly CaseResult[];
}

export interface Movement {
  readonly partId: string;
  readonly wood: string;
  readonly acrossMm: number;
  readonly sawn: 'flat' | 'quarter';
  readonly moistureLowPercent: number;
  readonly moistureHighPercent: number;
  /** Change of width between the room's driest and dampest month. */
  readonly changeMm: number;
  readonly equation: 'Eq. 13-2' | 'Eq. 13-3';
  /** Both equations where both can be had, for the maker. */
  readonly byEquation: { readonly eq132Mm?: number; readonly eq133Mm?: number };
  /** Slots the fixings need: each way from the fixed line. */
  readonly slotMm?: number;
}

export interface Open {
  /** 1 - silhouette of the base below the top / (overall length or width x clear height), 0 to 1. */
  readonly front: number;
  readonly side: number;
  /** Share of the floor under the top that a standing viewer sees, eye at 1.6 m, 2.5 m from the front edge; absent until computed. */
  readonly floorSeen?: number;
}

export interface PlaceCount {
  readonly daily: number;
  readonly straddled: number;
  readonly perSide: number;
  readonly freeBetweenLegsMm: { readonly sides: number; readonly ends: number };
}

export interface Fit {
  readonly clearancesMm: Partial<Readonly<Record<'front' | 'back' | 'left' | 'right', number>>>;
  readonly clearHeightMm: number;
  readonly places?: PlaceCount;
  /** Pieces after taking apart at knock-down joints and the top's fixing, largest first. */
  readonly pieces: readonly {
    readonly parts: readonly string[];
    readonly massKg: number;
    readonly boxMm: Vec3;
    /** Who carries it on the level: one up to 25 kg, two up to 50, three and a dolly above (common practice). */
    readonly people?: number;
  }[];
  /** Per way-in entry: passes, tight (less than 25 mm to spare), not proven, does not pass. */
  readonly wayIn: readonly {
    readonly index: number;
    readonly says: string;
    readonly result: 'passes' | 'tight' | 'not-proven' | 'does-not-pass';
    readonly why: string;
  }[];
}

export interface WishAnswer {
  readonly id: string;
  readonly kind: string;
  readonly result: Result | 'judgement' | 'not-computed';
  /** In the unit of the measure: mm, N, %, kg, places, minor units; absent for judgement. */
  readonly value?: number;
  readonly target?: { readonly atLeast?: number; readonly atMost?: number };
  readonly unit?: 'mm' | 'N' | 'percent' | 'kg' | 'places' | 'minor' | 'way-in';
  /** What decided it, as a text key with values, e.g. the part that stands in the way. */
  readonly why?: { readonly key: string; readonly values: Readonly<Record<string, string | number>> };
  /** The maker's remark or judgement. */
  readonly says?: string;
}

export interface Assessment {
  readonly massKg: number;
  readonly massOf: Readonly<Record<string, number>>;
  readonly volumeOf: Readonly<Record<string, number>>;
  readonly centreOfGravityMm: Vec3;
  /** Convex hull of floor contact, counter-clockwise; vertices only. */
  readonly supportPolygonMm: readonly Vec2[];
  /** Round feet that touch the hull. */
  readonly supportArcs: readonly { readonly centreMm: Vec2; readonly rxMm: number; readonly ryMm: number }[];
  readonly contacts: readonly { readonly partId: string; readonly contact: Contact }[];
  /** One per state, standing first. */
  readonly tipping: readonly Tipping[];
  readonly movement: readonly Movement[];
  readonly open: Open;
  readonly fit: Fit;
  readonly wishes: readonly WishAnswer[];
  readonly problems: readonly Problem[];
}
