import type { CodeEntry } from './entry.ts';

/** Codes of the commands that hand a table over. */
export const handOverCodes: Readonly<Record<`cli/${string}`, CodeEntry>> = {
  'cli/hand-over-no-size': {
    title: 'the ordered table has no such size',
    explain: 'Sizes of the finished table are named by their path in the table as it was ordered: top.length, height, base.legs.size.',
  },
  'cli/hand-over-wider': {
    title: 'a tolerance is wider than the one that was agreed',
    explain: 'A sheet can hold a table to less than the agreed terms allow, never to more. A larger difference needs a yes.',
  },
  'cli/hand-over-no-finish': {
    title: 'the finish is not in the library',
    explain: 'The care of a table is composed from its finish. Its entry in templates/finishes.yaml says how long it cures and what it stands.',
  },
  'cli/hand-over-usual-tolerance': {
    title: 'sizes are held against tolerances of common practice',
    explain:
      'The agreed terms state no amount for them that can be measured by: 3 mm for the plan, the height and places of parts, 1 mm for thickness and sections.',
  },
};
