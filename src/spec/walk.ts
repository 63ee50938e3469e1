import { z } from 'zod';

/** A schema without the wrappers that say when a value may be absent or changed. */
export function unwrapped(schema: z.core.$ZodType): z.core.$ZodType {
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodReadonly || schema instanceof z.ZodPrefault) {
    return unwrapped(schema.def.innerType);
  }
  return schema;
}

/** The schema one key or index further on; a union chooses by the value's `kind`. `undefined` where nothing is known. */
export function inside(schema: z.core.$ZodType, key: PropertyKey, value: unknown): z.core.$ZodType | undefined {
  const inner = settled(unwrapped(schema), value);
  if (inner instanceof z.ZodObject) return inner.def.shape[String(key)];
  if (inner instanceof z.ZodRecord) return inner.def.valueType;
  if (inner instanceof z.ZodArray) return inner.def.element;
  if (inner instanceof z.ZodTuple) return inner.def.items[Number(key)];
  return undefined;
}

/** The schema at a path, unwrapped and with unions settled by the value that stands there. */
export function schemaAt(root: z.core.$ZodType, path: readonly PropertyKey[], value: unknown): z.core.$ZodType | undefined {
  let schema: z.core.$ZodType | undefined = root;
  let here: unknown = value;
  for (const key of path) {
    if (schema === undefined) return undefined;
    schema = inside(schema, key, here);
    here = valueAt(here, key);
  }
  return schema === undefined ? undefined : settled(unwrapped(schema), here);
}

/** One step into a plain value. */
export function valueAt(value: unknown, key: PropertyKey): unknown {
  return typeof value === 'object' && value !== null && Object.hasOwn(value, key) ? Reflect.get(value, key) : undefined;
}

function settled(schema: z.core.$ZodType, value: unknown): z.core.$ZodType {
  if (!(schema instanceof z.ZodDiscriminatedUnion)) return schema;
  const kind = valueAt(value, 'kind');
  for (const option of schema.def.options) {
    const member = unwrapped(option);
    if (kindOf(member) === kind) return member;
  }
  return schema;
}

/** The literal `kind` of a member of a union. */
export function kindOf(member: z.core.$ZodType): string | undefined {
  if (!(member instanceof z.ZodObject)) return undefined;
  const kind = member.def.shape['kind'];
  return kind instanceof z.ZodLiteral ? String(kind.def.values[0]) : undefined;
}

/** Whether a key may be left out. */
export function isOptional(schema: z.core.$ZodType): boolean {
  if (schema instanceof z.ZodReadonly) return isOptional(schema.def.innerType);
  return schema instanceof z.ZodOptional || schema instanceof z.ZodPrefault;
}

/** What stands where the maker is silent, as it would be written. */
export function defaultOf(schema: z.core.$ZodType): unknown {
  if (schema instanceof z.ZodPrefault) return schema.def.defaultValue;
  return schema instanceof z.ZodReadonly || schema instanceof z.ZodOptional ? defaultOf(schema.def.innerType) : undefined;
}
