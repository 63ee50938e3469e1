import type { CodeEntry } from './entry.ts';

/** Codes of answers: how they are read, and how they fit what was issued. */
export const replyCodes: Readonly<Record<`reply/${string}`, CodeEntry>> = {
  'reply/no-code': {
    title: 'there is no reply code in the text',
    explain: 'Plain words are kept as they are. They approve nothing: ask with a confirmation, whose answer does.',
  },
  'reply/cut': {
    title: 'the reply code is cut off',
    explain: 'Its first signs say how many there are. Paste it to its end, or ask for it again.',
  },
  'reply/mistyped': {
    title: 'a sign of the reply code is wrong',
    explain: 'The code checks itself: a wrong sign, two exchanged or one left out always shows.',
  },
  'reply/several': {
    title: 'there are several different reply codes',
    explain: 'A thread may hold an older answer. Give the one that counts, alone.',
  },
  'reply/words-differ': {
    title: 'name or remark are not those of the reply code',
    explain: 'The code holds a digest of both. Somebody changed them after the letter was made, or a part of them is missing.',
  },
  'reply/words-missing': {
    title: 'the reply code came alone',
    explain: 'It says all but name and remark, so it counts. Whether there was a remark stands in the letter that it came from.',
  },
  'reply/unknown-revision': {
    title: 'the answer is to no revision of this proposal',
    explain: 'It may belong to another proposal. Nothing can be insisted on where there is nothing to compare with.',
  },
  'reply/superseded': {
    title: 'the answer is to a revision that has a newer one',
    explain: 'Ask for an answer to the newest. Whoever holds to the older one says so with --insist and a reason.',
  },
  'reply/too-late': {
    title: 'the answer came after the last day of the offer',
    explain: 'Prices of timber move. Issue the same again with a new date, or hold to the old price with --insist and a reason.',
  },
  'reply/unknown-design': {
    title: 'the answer names a design that the revision does not have',
    explain: 'Nothing can be insisted on where there is nothing to compare with.',
  },
  'reply/options-differ': {
    title: 'the answer counts other options than the design has',
    explain: 'Which of them are meant can not be told, so it can not be recorded.',
  },
  'reply/unknown-options': {
    title: 'the design is not offered with these options',
    explain: 'Options that exclude each other, or a choice that was left out.',
  },
  'reply/total-differs': {
    title: 'the answer names another total than the revision',
    explain: 'What was read and what was issued are not the same. Find out why before you insist.',
  },
  'reply/total-missing': {
    title: 'a yes names no total',
    explain: 'Who pays approves a design at its price. One who sees no price approves without.',
  },
  'reply/terms-differ': {
    title: 'a yes does not agree to the terms of the revision',
    explain: 'The letter ties itself to the very text of the terms by its digest.',
  },
  'reply/unknown-decider': {
    title: 'the answer is from somebody who does not decide',
    explain: 'deciders in proposal.yaml says who does; it is frozen with the revision.',
  },
  'reply/person-missing': {
    title: 'it is not said whose answer it is',
    explain: 'Each of those who decide answers for themselves; --who names them by id.',
  },
  'reply/person-differs': {
    title: 'the letter is another person’s',
    explain: 'The code says who chose their name on the page; --who says otherwise.',
  },
  'reply/name-of-another': {
    title: 'the name typed under a letter is that of another who decides',
    explain: 'Two who decide answer for themselves, each from their own page or under their own name. One yes does not stand for both.',
  },
  'reply/sender-differs': {
    title: 'the mail came from the address of another who decides',
    explain: 'Two may share a table and a computer. It is noted, and it is for you to ask.',
  },
  'reply/sender-unknown': {
    title: 'the mail came from an address that is not on file',
    explain: 'Who can read the page can write a letter in another’s name. The address is noted beside the name; ask by another way.',
  },
  'reply/sentences-differ': {
    title: 'the sentences of a letter say something else than its code',
    explain: 'The code holds what the page wrote. A sum, design or condition that was changed by hand above it was meant by somebody.',
  },
  'reply/turned-words': {
    title: 'words held signs that turn the direction of reading',
    explain: 'Nobody sees them, and a sum or a name reads otherwise with them. They came with text that was copied, or on purpose.',
  },
  'reply/overtaken': {
    title: 'this very letter is on record, and a later answer after it',
    explain: 'An old mail was probably given again. The later answer stands.',
  },
  'reply/already-confirmed': {
    title: 'what this person approved was confirmed already',
    explain: 'Whoever changes their mind after that asks for a change to the order, or cancels it.',
  },
  'reply/closed': {
    title: 'the proposal is closed',
    explain: 'It was lost or cancelled. A new revision opens it again.',
  },
  'reply/unread': {
    title: 'a confirmation came back, and it is not said that it is a yes',
    explain: 'The code of a question comes back with every answer to it, with “no” as well. Only its reader can say that it is a yes.',
  },
  'reply/unknown-question': {
    title: 'the answer is to a question that is not on record',
    explain: 'A confirmation names the entry that asked, whom, and what. One of them is not so.',
  },
  'reply/nothing-offered': {
    title: 'there is no issued revision to answer',
    explain: 'An answer is held against what was issued. Revisions issued before answers could be recorded hold no offer.',
  },
  'reply/paper-unreadable': {
    title: 'the scan is neither PDF nor picture',
    explain: 'A scan of a signed paper is kept as PDF, JPEG or PNG, by its digest.',
  },
};
