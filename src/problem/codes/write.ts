import type { CodeEntry } from './entry.ts';

/** Codes of pages and documents. */
export const writeCodes: Readonly<Record<`write/${string}`, CodeEntry>> = {};
