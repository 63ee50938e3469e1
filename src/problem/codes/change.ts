import type { CodeEntry } from './entry.ts';

/** Codes of changes to an order and of cancelling it. */
export const changeCodes: Readonly<Record<`cli/${string}`, CodeEntry>> = {
  'cli/change-without-order': {
    title: 'there is no order that could be changed',
    explain: 'Until the first instalment of what was confirmed has come, what is wanted is the next revision, at its own price.',
  },
  'cli/change-delivered': {
    title: 'the table is delivered, so its order can not be changed any more',
    explain: 'Work on a delivered table is a commission of its own.',
  },
  'cli/change-quantity': {
    title: 'the draft makes another number of tables than the order',
    explain: 'A change prices one table against another. More or fewer of them are agreed as a commission of their own.',
  },
  'cli/change-currency': {
    title: 'the draft and the order are in different currencies',
    explain: 'Nothing is converted: a change is priced in the currency of its order.',
  },
  'cli/change-nothing': {
    title: 'the draft makes the very table that is ordered',
    explain: 'A change that alters no part, hour, piece of hardware or price asks for its handling alone.',
  },
  'cli/change-breaks-wish': {
    title: 'the changed design no longer meets a wish that the ordered one meets',
    explain:
      'It is said before there is a price. --insist "why" prices it all the same; with --write the reason stands in revision.change, for you alone.',
  },
  'cli/change-draft-issued': {
    title: 'the draft was issued already',
    explain: 'A change is a revision of its own. revise makes the next draft, in which the change is drawn.',
  },
  'cli/change-not-read': {
    title: 'the ordered revision can not be computed any more',
    explain:
      'The change is priced against what was frozen with the order. This program can not read it; verify says whether it was touched.',
  },
  'cli/change-recomputed': {
    title: 'the ordered design would have another price today',
    explain: 'The program, not the order, has changed since it was issued. The difference is taken from the price that was agreed.',
  },
  'cli/change-of-another': {
    title: 'the draft changes another order than the one that stands',
    explain: 'revision.change.of names the ordered revision. Another change was ordered since it was written.',
  },
  'cli/change-stage-moved': {
    title: 'the work has gone on since the change was priced',
    explain: 'What is lost and done again depends on the stage. Price it anew before it is issued.',
  },
  'cli/change-not-priced': {
    title: 'there is an order, and the draft was not priced as a change to it',
    explain: 'The revision would ask the difference alone, and nothing for what is cut, glued or finished already.',
  },
  'cli/account-open': {
    title: 'money is open of an order that was closed',
    explain:
      'A revision that takes it up again begins another account, in which the old money does not count. It is paid, or paid back, first.',
  },
  'cli/cancel-nothing': {
    title: 'nothing was approved that could be cancelled',
    explain: 'An enquiry that comes to nothing is lost; what was approved, confirmed or ordered is cancelled.',
  },
  'cli/cancel-moved': {
    title: 'the record has gone on while a cancellation was reckoned',
    explain: 'What is due depends on the stage and on the order that stands. Reckon it again.',
  },
  'cli/cancel-delivered': {
    title: 'the table is delivered, so its order can not be cancelled',
    explain: 'Returning a table, or what is wrong with it, is no cancellation: terms and local law say what holds.',
  },
};
