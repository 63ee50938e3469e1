import type { CodeEntry } from './entry.ts';

/** Codes of revisions and their chain. */
export const recordCodes: Readonly<Record<`record/${string}`, CodeEntry>> = {};
