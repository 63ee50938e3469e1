import { z } from 'zod';
import type { Bounds } from './bounds.ts';

/** What the reference page and the messages know of one field. */
export interface FieldNote {
  /** `the thickness of the top`: what the field is, to stand inside a sentence. */
  readonly noun: string;
  /** More for the reference, whole sentences. */
  readonly more?: string;
  /** In words: `a length`, `12 to 80 mm`. */
  readonly wants: string;
  readonly examples: readonly string[];
  /** JSON Schema keywords. */
  readonly json: Readonly<Record<string, unknown>>;
}

/** Notes by schema; the one place where messages, JSON Schemas and the reference page look. */
export const NOTES = z.registry<FieldNote>();

/** What a field says of a value that it refuses; carried in the `params` of zod's custom issue. */
export interface Refusal {
  readonly code: 'missing' | 'wrong-type' | 'not-a-quantity' | 'out-of-range' | 'not-a-choice' | 'bad-text';
  readonly noun: string;
  /** What is wrong, to follow the noun or found text. */
  readonly why?: string;
  readonly found?: string;
  readonly allowed?: string;
  /** Text to type for the value, without its key. */
  readonly type?: string;
  /** The values that may stand there, for the nearest name. */
  readonly choices?: readonly string[];
}

/** A value read from a text, or why it was refused. */
export type Read<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly refusal: Omit<Refusal, 'noun'> };

/** A field read by one function from the text in the file (or the same value built in code). */
export function leaf<T>(note: FieldNote, read: (text: string) => Read<T>) {
  const schema = z.unknown().transform((value, context): T => {
    const text = plainText(value);
    const result: Read<T> =
      text !== undefined
        ? read(text)
        : value === undefined || value === null
          ? { ok: false, refusal: { code: 'missing', allowed: note.wants } }
          : { ok: false, refusal: { code: 'wrong-type', found: Array.isArray(value) ? 'a list' : 'a group of keys', allowed: note.wants } };
    if (result.ok) return result.value;
    const refusal: Refusal = { noun: note.noun, ...result.refusal };
    context.addIssue({ code: 'custom', message: refusal.code, params: { refusal } });
    return z.NEVER;
  });
  NOTES.add(schema, note);
  return schema;
}

function plainText(value: unknown): string | undefined {
  if (typeof value === 'string') return value;
  return typeof value === 'number' || typeof value === 'boolean' ? String(value) : undefined;
}

/** What else the reference says of a field. */
export interface Told {
  readonly more?: string;
  readonly examples?: readonly string[];
}

/** A refusal of something that is no quantity at all. */
export function notQuantity(read: { readonly why: string; readonly type?: string }, written: string, wants: string): Read<never> {
  const found = written.trim() === '' ? undefined : quoted(written.trim());
  return { ok: false, refusal: { code: 'not-a-quantity', why: read.why, found, allowed: wants, type: read.type } };
}

/** The value, or its refusal where it is out of bounds. */
export function within(value: number, written: string, bounds: Bounds, unit: string, wants: string): Read<number> {
  const low = bounds.from !== undefined && (value < bounds.from || (bounds.above === true && value === bounds.from));
  const high = bounds.to !== undefined && value > bounds.to;
  if (!low && !high) return { ok: true, value };
  const bareNumber = unit !== '' && /^[-\u2212\d.]+$/.test(written.trim());
  const found =
    bareNumber && unit === 'mm' && Math.abs(Number(written) - value) > 1e-9
      ? `${written.trim()}, which is ${Number(value.toFixed(1))} mm`
      : written.trim();
  return { ok: false, refusal: { code: 'out-of-range', why: low ? 'is too small' : 'is too large', found, allowed: wants } };
}

/** A found text in quotes, shortened. */
export function quoted(written: string): string {
  return written.length > 60 ? `"${written.slice(0, 57)}..."` : `"${written}"`;
}

/** `a, b or c`. */
export function listed(values: readonly string[]): string {
  const last = values.at(-1) ?? '';
  return values.length < 2 ? last : `${values.slice(0, -1).join(', ')} or ${last}`;
}
