import type { CodeEntry } from './entry.ts';

/** Codes of tables that can not be built. */
export const designCodes: Readonly<Record<`design/${string}`, CodeEntry>> = {};
