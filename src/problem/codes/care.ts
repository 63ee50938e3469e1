import type { CodeEntry } from './entry.ts';

/** Codes of the rules of care and of the note made from them. */
export const careCodes: Readonly<Record<`care/${string}`, CodeEntry>> = {
  'care/contradiction': {
    title: 'one rule of care tells to use what another tells never to use',
    explain:
      'Both can stand in one note. Silence one with null, replace it by its id, or say in `when` for which finish, wood or place each holds. What the first days forbid is forbidden in them alone.',
  },
  'care/promise': {
    title: 'a line of care promises what a table can not keep',
    explain: 'Words such as heat proof or free of care are refused everywhere: say what is known, and what is not.',
  },
  'care/unknown-name': {
    title: 'a line of care has a name in braces that nothing fills',
    explain: 'The names that can be filled are listed with the message. Some are there only for some tables: say so in `when`.',
  },
  'care/no-line': {
    title: 'the care note lacks a part that this table needs',
    explain: 'A part is empty when every rule for it is silenced, or when none is written for the class of this finish.',
  },
  'care/too-many-lines': {
    title: 'a part of the care note has more lines than will be read',
    explain: 'Each part has a most, and a spill has at most three steps: with a wet cloth in hand nobody reads on.',
  },
  'care/no-front-matter': {
    title: 'a page of care does not begin with the keys of its rule',
    explain:
      'A page of templates/care begins with a line of three hyphens, then section, when, use, never and source, then such a line again. What stands below is what the rule says. `silence: true` there silences the rule of that id.',
  },
  'care/wrong-place': {
    title: 'a rule of care is a step where none is, or a line among steps',
    explain: 'In the sections of spills every rule is a step or when to stop; in all others it is a line.',
  },
};
