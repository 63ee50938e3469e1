import type { CodeEntry } from './entry.ts';

/** Codes of what the maker wrote, key by key. */
export const specCodes: Readonly<Record<`spec/${string}`, CodeEntry>> = {};
