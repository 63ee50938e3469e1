import type { CodeEntry } from './entry.ts';

/** Codes of reading files. */
export const readCodes: Readonly<Record<`read/${string}`, CodeEntry>> = {
  'read/no-file': {
    title: 'a file is missing',
    explain: 'A proposal is proposal.yaml, table.yaml and at least one file in variants/. Endings are .yaml.',
  },
  'read/not-a-file': {
    title: 'something that is no file stands where a file is wanted',
    explain: 'A folder or device of that name was found.',
  },
  'read/link-out': {
    title: 'a link leads out of the folder',
    explain: 'Issuing freezes what a proposal came from. A file elsewhere could change or go away unseen, so it has to be copied in.',
  },
  'read/too-large': {
    title: 'a file is over 1 MB, or has too many lines or values',
    explain: 'A proposal needs some ten thousand bytes. Something else was saved under this name.',
  },
  'read/not-utf-8': { title: 'a file is not text in UTF-8', explain: 'Another encoding would turn names and fractions into other signs.' },
  'read/not-readable': { title: 'a file can not be opened', explain: 'The system refused it; its reason is named.' },
  'read/empty-file': {
    title: 'a file is empty',
    explain: 'An editor that stopped half-way leaves such a file. Comments alone count as empty.',
  },
  'read/syntax': {
    title: 'a line can not be read as YAML',
    explain: 'The first line that went wrong is marked; what follows it may be right.',
  },
  'read/no-keys': { title: 'a file does not hold keys with values', explain: 'A list or a text fills the whole file.' },
  'read/tab': { title: 'a line is indented with a tab', explain: 'YAML indents with spaces alone. Most editors can be told to.' },
  'read/duplicate-key': { title: 'a key is written twice in one group', explain: 'One of the two would be passed over in silence.' },
  'read/empty-value': {
    title: 'a key or hyphen has nothing after it',
    explain: 'Write a value, or take the line out. In a variant, null takes a key of the shared table away.',
  },
  'read/bad-key': { title: 'a key is not a word', explain: 'Keys are plain words; braces and brackets belong to values.' },
  'read/hidden-sign': {
    title: 'a sign stands in a text that nobody can see',
    explain:
      'Signs that turn the direction of reading, or take no room, make a name, a sum or a line read otherwise than it is. They come along with text that is copied from pages and messages. Joiners that a script or a picture needs are read.',
  },
  'read/hash': {
    title: 'a # stands inside a text that is not quoted',
    explain: 'YAML ends a text before a space and #. A comment on the same line is written with a space after the sign.',
  },
  'read/merge-key': {
    title: 'a YAML merge key << is used',
    explain: 'Variants already say only what differs. Merge keys would hide where a value was written.',
  },
  'read/bad-alias': {
    title: 'an anchor or alias can not be used',
    explain: 'An alias *name stands after the anchor &name that it repeats, and carries nothing else.',
  },
  'read/too-many-aliases': { title: 'aliases repeat too much', explain: 'A few short lines could unfold into millions of values.' },
  'read/too-deep': { title: 'a file is nested too deeply', explain: 'A proposal needs about ten levels. Forty are read.' },
  'read/tag': { title: 'a YAML tag is used', explain: 'What a value means is fixed by its key, so tags with ! are not read.' },
  'read/many-documents': {
    title: 'a file holds more than one document',
    explain: 'A line of three hyphens begins a new document. One file is one thing.',
  },
  'read/bad-slug': {
    title: 'the folder of a proposal has a name that can not be used',
    explain: 'The name becomes part of file names and links: small letters, digits and hyphens, at most 40, and no device name.',
  },
  'read/no-variants': {
    title: 'a proposal has no variant',
    explain: 'Each file of variants/ is one design on offer; its name is its letter.',
  },
  'read/odd-file': {
    title: 'a file in variants/ is not read',
    explain: 'Its name is not that of a variant: a.yaml, b2.yaml. Names that begin with a dot or end in ~ are passed over.',
  },
  'read/unknown-name': {
    title: 'a name stands nowhere else',
    explain: 'Woods, finishes, materials, taxes, shop rates, terms, load cases and options are named by their ids.',
  },
  'read/unknown-wish': {
    title: 'an answer is given to a wish that nobody has',
    explain: 'Answers go by the ids of the wishes in proposal.yaml.',
  },
  'read/no-answer': {
    title: 'a wish that is a matter of judgement is not judged',
    explain: 'The client page shows every wish with what became of it. A computed wish needs no answer of yours.',
  },
  'read/other-currency': {
    title: 'shop rates and proposal are in two currencies',
    explain: 'Prices are never converted: rates change by the day.',
  },
  'read/option-group': {
    title: 'a group of options is not a choice with one default',
    explain: 'A group has two options or more, and exactly one of them is the default.',
  },
  'read/options-overlap': {
    title: 'two options that can be on together change the same thing',
    explain: 'The order of clicks must not decide what is built. Let them exclude each other, or put both into one group.',
  },
  'read/options-conflict': {
    title: 'two options are on by default and exclude each other',
    explain: 'The design as first shown would not be allowed.',
  },
  'read/too-many-combinations': {
    title: 'the options of a variant have more than 64 combinations',
    explain: 'Each is drawn, assessed and priced; nothing is added up in a browser.',
  },
  'read/to-fill-in': {
    title: 'something is still to be filled in',
    explain:
      '`leafwright hand-over` drafts a sheet and marks with TODO what only you can know: what was measured, when, and who was there.',
  },
};
