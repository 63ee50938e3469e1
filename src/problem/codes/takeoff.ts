import type { CodeEntry } from './entry.ts';

/** Codes of cutting list, boards and work. */
export const takeoffCodes: Readonly<Record<`takeoff/${string}`, CodeEntry>> = {};
