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
  'cli/placeholder': {
    title: 'placeholders of a starter still stand',
    explain: 'What new wrote for a name, an address or an e-mail address would go on the client page and into the scope.',
  },
  'cli/invented-maker': {
    title: 'the maker is the invented one',
    explain: 'templates/maker.yaml says invented: true, so every page tells its reader that people, prices and places are invented.',
  },
  'cli/invented-rates': {
    title: 'the shop rates are the invented ones',
    explain: 'Hours, mark-ups and timber prices of an invented shop would price a real table.',
  },
  'cli/offer-ends-first': {
    title: 'the offer ends before its own date',
    explain: 'revision.validUntil is earlier than revision.date.',
  },
};
