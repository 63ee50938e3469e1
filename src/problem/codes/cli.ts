import type { CodeEntry } from './entry.ts';

/** Codes of the command line. */
export const cliCodes: Readonly<Record<`cli/${string}`, CodeEntry>> = {};
