import type { CodeEntry } from './entry.ts';

/** Codes of what may leave the workshop. */
export const clientCodes: Readonly<Record<`client/${string}`, CodeEntry>> = {};
