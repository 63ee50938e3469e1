import type { CalendarDate, DecimalText, Force, Length, Mass, Percent } from '../units/index.ts';

/** A wood of templates/woods.yaml. Mechanical values are means of small clear pieces at 12 % moisture, no design values. */
export interface WoodSpec {
  readonly name: string;
  readonly botanical: string;
  /** Density at 12 % in kg/m3: stated, or 1000 x specific gravity at 12 % x 1.12 (Wood Handbook Eq. 4-14). */
  readonly densityKgM3: number;
  readonly specificGravity12?: number;
  readonly hardness: 'hardwood' | 'softwood';
  readonly moeMPa?: number;
  readonly shrinkRadialPercent?: number;
  readonly shrinkTangentialPercent?: number;
  /** Dimensional change coefficients per 1 % of moisture, Wood Handbook Table 13-5. */
  readonly changeRadial: number;
  readonly changeTangential: number;
  /** E_T/E_L etc. where published. */
  readonly elastic?: {
    readonly etOverEl: number;
    readonly erOverEl: number;
    readonly glrOverEl?: number;
    readonly gltOverEl?: number;
    readonly grtOverEl?: number;
  };
  /** Muted colours for drawings: face, darker grain line, end grain; #rrggbb. */
  readonly colour: { readonly face: string; readonly grain: string; readonly end: string };
  readonly origin?: string;
  /** What time and light do to it, text key. */
  readonly ageing?: string;
  readonly source: string;
}

/** Steel, glass, stone: no grain, no movement. */
export interface MaterialSpec {
  readonly name: string;
  readonly densityKgM3: number;
  readonly colour: { readonly face: string; readonly grain: string; readonly end: string };
  readonly source: string;
}

export interface FinishSpec {
  readonly name: string;
  /** Row of the finish classes (finishes.csv), or two for a layered system. */
  readonly classes: readonly string[];
  readonly coats: number;
  readonly coverageM2PerLitre: number;
  readonly lossPercent: number;
  readonly method: 'wiped' | 'sprayed' | 'brushed';
  readonly pricePerLitre: DecimalText;
  readonly betweenCoatsHours: number;
  readonly lightUseHours: number;
  readonly fullCureDays: number;
  readonly refreshMonths: { readonly low: number; readonly high: number };
  readonly sheen: string;
  /** Words, not test results. */
  readonly resists: { readonly water: string; readonly heat: string; readonly alcohol: string };
  readonly repair: string;
  /** Markdown for the client page: care in a few sentences. */
  readonly care: { readonly daily: string; readonly never: string; readonly spills: string; readonly refresh: string };
  /** Cautions as short sentences: self-heating rags, fumes. */
  readonly cautions: readonly string[];
  readonly source: string;
}

/** A screening check of the maker's, by use: never a standard's name. */
export interface LoadCaseSpec {
  readonly says: string;
  readonly kind: 'vertical' | 'push' | 'both';
  readonly load?: Force;
  readonly push?: Force;
  /** Distance inside the edge; from both edges of a corner for `corner`. */
  readonly inset: Length;
  readonly at: 'worst' | 'corner';
  readonly wanted: number;
  /** Below `wanted` but at or above this: a warning. */
  readonly least: number;
  readonly uses: readonly string[];
  readonly source: string;
}

/** Sawn timber that the shop buys, by wood and thickness. */
export interface TimberSpec {
  readonly wood: string;
  /** Rough thickness. */
  readonly thickness: Length;
  /** Thickest finished part it yields, short and long parts. */
  readonly yields: { readonly short: Length; readonly long: Length };
  readonly price: DecimalText;
  readonly per: 'm3' | 'board-foot';
  /** Added on the net volume, percent. */
  readonly addition: Percent;
  readonly quotedOn: CalendarDate;
}

export type WorkUnit =
  | 'job'
  | 'm2'
  | 'm'
  | 'panel'
  | 'joint'
  | 'part'
  | 'leg'
  | 'end'
  | 'table'
  | 'm2-coat'
  | 'm2-between'
  | 'trip'
  | 'drawer';

export interface OperationSpec {
  readonly says: string;
  readonly per: WorkUnit;
  readonly low: number;
  readonly mid: number;
  readonly high: number;
  readonly finishing: boolean;
}

export interface ShopRatesSpec {
  readonly format: 'leafwright/rates/1';
  readonly currency: string;
  /** Cost of a bench hour. With `overhead.kind: in-hour` it already carries the shop's overhead. */
  readonly hour: DecimalText;
  readonly overhead: { readonly kind: 'in-hour' } | { readonly kind: 'line'; readonly amount: DecimalText };
  /** Mark-ups, each on the cost of its own base. */
  readonly markUp: { readonly timber: Percent; readonly hardware: Percent; readonly finish: Percent; readonly labour: Percent };
  /** Added on the cost of the work, inside the price. */
  readonly contingency: Percent;
  /** Least margin of the net price before the maker is warned. */
  readonly leastMargin: Percent;
  readonly delivery: DecimalText;
  /** The net price of the table is brought up to a multiple of this, by a line of its own. */
  readonly roundUpTo: DecimalText;
  /** Steps to which a quantity is rounded before it meets money. */
  readonly steps: {
    readonly boardFoot: DecimalText;
    readonly m3: DecimalText;
    readonly m2: DecimalText;
    readonly litre: DecimalText;
    readonly hour: DecimalText;
  };
  readonly timber: Readonly<Record<string, TimberSpec>>;
  readonly hardware: Readonly<Record<string, { readonly says: string; readonly price: DecimalText; readonly mass?: Mass }>>;
  readonly allowances: { readonly length: Length; readonly width: Length; readonly thickness: Length; readonly kerf: Length };
  readonly operations: Readonly<Record<string, OperationSpec>>;
  readonly taxes: Readonly<Record<string, { readonly says: string; readonly percent: Percent }>>;
}

export interface MakerSpec {
  readonly name: string;
  readonly trade: string;
  readonly address: string;
  readonly email: string;
  readonly telephone: string;
  readonly timeZone: string;
  readonly invented: boolean;
}

/** Standing terms, by id: Markdown sections in order. */
export interface TermsSpec {
  readonly sections: readonly { readonly title: string; readonly body: string }[];
  readonly tolerances: readonly { readonly says: string; readonly value: string }[];
  readonly changes: readonly { readonly stage: string; readonly says: string }[];
  readonly cancellation: readonly { readonly stage: string; readonly says: string }[];
}

/** templates/, the program's own with the workspace's laid over it. */
export interface Library {
  readonly woods: Readonly<Record<string, WoodSpec>>;
  readonly materials: Readonly<Record<string, MaterialSpec>>;
  readonly finishes: Readonly<Record<string, FinishSpec>>;
  readonly loadCases: Readonly<Record<string, LoadCaseSpec>>;
  readonly rates: ShopRatesSpec;
  readonly maker: MakerSpec;
  readonly terms: TermsSpec;
  /** Text by key in the proposal's language; plurals as `key.one`, `key.other`. */
  readonly texts: Readonly<Record<string, string>>;
}
