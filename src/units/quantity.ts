/** Quantities as a maker wrote them: the value in the unit that names the field, and the author's own text for showing. */

/** A length in millimetres. */
export interface Length {
  readonly mm: number;
  readonly written: string;
}
/** An angle in degrees. */
export interface Angle {
  readonly deg: number;
  readonly written: string;
}
/** A mass in kilograms. */
export interface Mass {
  readonly kg: number;
  readonly written: string;
}
/** A force in newtons. */
export interface Force {
  readonly n: number;
  readonly written: string;
}
/** A share in percent: 20 for 20 %. */
export interface Percent {
  readonly percent: number;
  readonly written: string;
}
/** A temperature in degrees Celsius. */
export interface Temperature {
  readonly celsius: number;
  readonly written: string;
}
/** A duration in hours. */
export interface Duration {
  readonly hours: number;
  readonly written: string;
}

/** A point or a size along x, y, z of the table's frame, as written. */
export type Length3 = readonly [Length, Length, Length];
/** A point or a size in plan, x and y. */
export type Length2 = readonly [Length, Length];

/** What a bare number means in a file: the file's `units`. */
export type BareUnit = 'mm' | 'in';

/** How lengths are shown to a reader. */
export type LengthStyle = 'mm' | 'in' | 'mm+in';

/** An exact decimal as text, e.g. "57.93": never a binary float. */
export type DecimalText = string & { readonly __decimal: true };

/** An amount of money in whole minor units (cents); `minor` is a safe integer. */
export interface Money {
  readonly currency: string;
  readonly minor: number;
}

/** A day in the maker's calendar. */
export interface CalendarDate {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}
