import type { CodeEntry } from './entry.ts';

/** Codes of drawings. */
export const drawCodes: Readonly<Record<`draw/${string}`, CodeEntry>> = {};
