import type { CodeEntry } from './entry.ts';

/** Codes of reading files. */
export const readCodes: Readonly<Record<`read/${string}`, CodeEntry>> = {};
