import type { CodeEntry } from './entry.ts';

/** Codes of the command line. */
export const cliCodes: Readonly<Record<`cli/${string}`, CodeEntry>> = {
  'cli/offer-over': {
    title: 'the last day of the offer has passed',
    explain: 'Prices of timber move. Set a later revision.validUntil before it is issued.',
  },
  'cli/draft-is-issued': {
    title: 'the files were changed after their revision was issued',
    explain:
      'What the client has is frozen and stays as it was. Give the draft the next number in revision.id before you issue the change.',
  },
  'cli/offer-ends-first': {
    title: 'the offer ends before its own date',
    explain: 'revision.validUntil is earlier than revision.date.',
  },
};
