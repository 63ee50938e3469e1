/** What a parser gives: the value, or what is wrong in the maker's words and, where it can be known, the text to type. */
export type Parsed<T> = { readonly ok: true; readonly value: T } | Refused;

/** A text that is not the quantity wanted. */
export interface Refused {
  readonly ok: false;
  /** What is wrong with the text, to follow "this is": `a comma as decimal point`. */
  readonly why: string;
  /** Text to type instead, where one text is surely meant; else absent. */
  readonly type?: string;
}

/** The text was read. */
export function accepted<T>(value: T): Parsed<T> {
  return { ok: true, value };
}

/** The text was not read; see `Refused` for the two texts. */
export function refused(why: string, type?: string): Refused {
  return type === undefined ? { ok: false, why } : { ok: false, why, type };
}
