import type { SpecPath } from '../../problem/index.ts';

/** A text, and where it stands. */
export interface TextBelow {
  readonly text: string;
  readonly path: SpecPath;
}

/** Every text below a value, in order, with its path; below a list by number from 0. */
export function textsBelow(value: unknown, path: SpecPath = []): readonly TextBelow[] {
  if (typeof value === 'string') return [{ text: value, path }];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, one]) => textsBelow(one, [...path, Array.isArray(value) ? Number(key) : key]));
}
