import type { CodeEntry } from './entry.ts';

/** Codes of tipping, movement, fit and wishes. */
export const assessCodes: Readonly<Record<`assess/${string}`, CodeEntry>> = {};
