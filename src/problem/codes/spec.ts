import type { CodeEntry } from './entry.ts';

/** Codes of what the maker wrote, key by key. */
export const specCodes: Readonly<Record<`spec/${string}`, CodeEntry>> = {
  'spec/missing': {
    title: 'a key that must be there is missing',
    explain: 'The line above the gap is marked. Add the key with a value; the reference page of the file format shows one.',
  },
  'spec/wrong-type': {
    title: 'a single value, a list or a group of keys stands where another of them is wanted',
    explain: 'A group is written as keys on lines further in, or between braces; a list as lines with a hyphen, or between brackets.',
  },
  'spec/not-a-quantity': {
    title: 'a number or quantity can not be read',
    explain:
      'Decimal points only, no marks between thousands, units from the reference page. A bare number is a length in the unit that the proposal names; masses, forces, angles and percentages always carry their unit.',
  },
  'spec/out-of-range': {
    title: 'a value is smaller or larger than it can be',
    explain: 'The bounds are wide: what lies outside is a slip, such as centimetres for millimetres, and not a bold design.',
  },
  'spec/not-a-choice': {
    title: 'a word is none of the few that may stand there',
    explain: 'The words that are known are listed with the problem.',
  },
  'spec/bad-text': {
    title: 'a text is not in the form that is wanted',
    explain: 'Ids, days, addresses and colours have a form that is named with the problem.',
  },
  'spec/unknown-key': {
    title: 'a key is not known where it stands',
    explain: 'Nothing that is written is passed over in silence: a mistyped key would leave its default in place unseen.',
  },
  'spec/unknown-kind': {
    title: 'a `kind` is not known where it stands',
    explain: 'The kind decides which other keys are wanted; those that are known are listed.',
  },
  'spec/bad-id': {
    title: 'a name can not be an id',
    explain: 'Ids become file names, links and anchors: small letters, digits and hyphens, at most 40.',
  },
  'spec/wrong-count': {
    title: 'a list has too few or too many entries',
    explain: 'An outline has three corners or more, a place has three numbers.',
  },
  'spec/contradiction': {
    title: 'two values can not both be right',
    explain: 'Each of them may stand there by itself: shares that do not add up to 100 %, a least above its greatest.',
  },
};
