import { z } from 'zod';

/** What the reference page knows of a group of keys. */
export interface GroupNote {
  readonly noun: string;
  readonly more?: string;
  /** YAML that shows one. */
  readonly example?: string;
}

/** Notes on groups, unions, lists and maps, by schema. */
export const GROUPS = z.registry<GroupNote>();

/** A group of known keys; any other key is an error. */
export function group<S extends z.core.$ZodLooseShape>(noun: string, shape: S, told: Omit<GroupNote, 'noun'> = {}) {
  const schema = z.strictObject(shape);
  GROUPS.add(schema, { noun, ...told });
  return schema.readonly();
}

/** Groups told apart by their `kind`. */
export function kinds<const T extends readonly [z.core.$ZodTypeDiscriminable, ...z.core.$ZodTypeDiscriminable[]]>(
  noun: string,
  options: T,
  told: Omit<GroupNote, 'noun'> = {},
) {
  const schema = z.discriminatedUnion('kind', options);
  GROUPS.add(schema, { noun, ...told });
  return schema;
}

/** The form of ids and slugs. */
export const ID = /^[a-z0-9](?:[a-z0-9-]{0,38}[a-z0-9])?$/;
/** That form, for messages. */
export const ID_IN_WORDS = 'small letters, digits and hyphens, at most 40';

/** Named things: a map from id to value. `key` is the form of the ids, where another than the usual one. */
export function named<T extends z.ZodType>(noun: string, value: T, told: Omit<GroupNote, 'noun'> & { readonly key?: RegExp } = {}) {
  const { key, ...rest } = told;
  const schema = z.record(z.string().regex(key ?? ID), value);
  GROUPS.add(schema, { noun, ...rest });
  return schema.readonly();
}

/** A list; `least` and `most` entries. */
export function list<T extends z.ZodType>(noun: string, value: T, told: Omit<GroupNote, 'noun'> & { least?: number; most?: number } = {}) {
  const { least, most, ...rest } = told;
  const schema = z
    .array(value)
    .min(least ?? 0)
    .max(most ?? 500);
  GROUPS.add(schema, { noun, ...rest });
  return schema.readonly();
}
