import type { CodeEntry } from './entry.ts';

/** Codes of money. */
export const priceCodes: Readonly<Record<`price/${string}`, CodeEntry>> = {};
