/**
 * A problem is a value: rooms return problems, only the command line prints them.
 *
 * `path` is a path in the effective spec of one variant, whose root is
 * `{ proposal, variant, table, library }` (spec/effective.ts), e.g. `['table', 'top', 'thickness']`.
 * Only `read/` turns it into file, line and column.
 */
export type SpecPath = readonly (string | number)[];

/** An error stops the command; a warning does not. */
export type Severity = 'error' | 'warning';

/** One thing that is wrong, or may be. */
export interface Problem {
  /** `room/what-is-wrong`; listed in catalogue.ts, never changed once published. */
  readonly code: string;
  readonly severity: Severity;
  /** What is wrong, in the maker's words, one sentence, no full stop. */
  readonly title: string;
  readonly path: SpecPath;
  /** What stands there, e.g. `270 mm`. */
  readonly found?: string;
  /** What may stand there, e.g. `12 to 80 mm`. */
  readonly allowed?: string;
  /** How to mend it: text to type where we can know it. */
  readonly mend?: string;
  /** Other places that have to do with it. */
  readonly also?: readonly { readonly path: SpecPath; readonly note: string; readonly place?: Place }[];
  /** The variant whose effective spec the path is in; absent when it holds for all. */
  readonly variant?: string;
  /** Filled in by `read/` alone. */
  readonly place?: Place;
}

/** Where something was written: 1-based line and column, and the length of the marked text. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly length: number;
  /** The lines around it for the quotation: first line number and text. */
  readonly quote: readonly { readonly line: number; readonly text: string }[];
  /** The key as shown, e.g. `top.thickness`. */
  readonly label: string;
}
