import type { CodeEntry } from './entry.ts';

/** Codes of the commands that add to a record. */
export const recordCommandCodes: Readonly<Record<`cli/${string}`, CodeEntry>> = {
  'cli/nothing-to-insist': {
    title: 'nothing stood against it',
    explain: 'A reason is kept only where something was refused without it.',
  },
  'cli/no-note': {
    title: 'the entry is no note',
    explain: 'Notes are told by the number of their entry in decisions.jsonl.',
  },
  'cli/note-settled': {
    title: 'the note is settled already',
    explain: 'What became of a note is said once. What was said since is a note of its own.',
  },
  'cli/other-sample': {
    title: 'the sample is another than the proposal names',
    explain: 'The scope is subject to the sample that the proposal names until that one is approved.',
  },
  'cli/sample-open': {
    title: 'the sample is not approved yet',
    explain: 'Colour, figure and sheen are agreed by a sample. Until somebody said yes to it the scope is subject to it.',
  },
  'cli/sample-refused': {
    title: 'the sample was refused',
    explain: 'Colour, figure and sheen are not agreed. Make another sample before the first coat.',
  },
  'cli/is-closed': {
    title: 'the proposal is closed already',
    explain: 'It was lost or cancelled. A revision that is issued takes it up again.',
  },
  'cli/order-stands': {
    title: 'there is an order',
    explain: 'An order is changed by a change that is priced from the stage reached, or it is cancelled.',
  },
  'cli/not-offered': {
    title: 'what was approved is not on offer',
    explain: 'A confirmation takes its instalments from the offer that was frozen with the revision.',
  },
  'cli/is-ordered': {
    title: 'what was approved is the order already',
    explain: 'It was confirmed and its first instalment came.',
  },
  'cli/said-with-yes': {
    title: 'somebody said yes and something more',
    explain: 'A remark changes neither design nor price. What is asked for in it is kept as a note, or taken into a revision.',
  },
  'cli/one-refused': {
    title: 'one yes is enough, and somebody else said otherwise',
    explain: 'Under deciders.rule any the first yes approves. Whoever said no is told before work begins, or finds out later.',
  },
  'cli/offer-run-out': {
    title: 'the offer has run out',
    explain: 'Prices of timber move. --insist "why" confirms it all the same; the reason is kept apart from the chain.',
  },
  'cli/other-currency': {
    title: 'the amount is in another currency than the order',
    explain: 'What is open is counted in one currency: that of the offer.',
  },
  'cli/over-paid': {
    title: 'more was paid than is open',
    explain: 'A payment is entered for the instalment that it was asked for; what goes beyond belongs to the next one or back.',
  },
  'cli/back-too-much': {
    title: 'more would go back than was paid',
    explain: 'Money goes back for an instalment that was paid.',
  },
  'cli/no-order': {
    title: 'there is no order yet',
    explain: 'Approved is not ordered: the confirmation and the first instalment make the order. Timber bought before is at your own risk.',
  },
  'cli/stage-back': {
    title: 'the stage does not come after the one reached',
    explain: 'Stages go one way. What has to be made again is a change to the order, priced from the stage reached.',
  },
  'cli/stage-is-money': {
    title: 'a payment is no stage of the work',
    explain:
      'Money is asked for with leafwright request and recorded with leafwright pay: so an account adds up, whatever stage the work is at.',
  },
  'cli/stage-past-change': {
    title: 'the work goes on while a change to the order is out',
    explain:
      'A change is priced from the stage reached. What is done after that at parts that it makes of no use is nobody’s but yours to pay.',
  },
  'cli/stage-skipped': {
    title: 'a stage was left out',
    explain: 'A change is priced from the stage reached, so each stage is worth its one command.',
  },
  'cli/money-open': {
    title: 'money that is due before delivery is open',
    explain:
      'All instalments but the last are due before the table leaves the workshop, and whatever was requested for a day that has come.',
  },
  'cli/choice-open': {
    title: 'a choice is still open although its last stage or day has passed',
    explain: 'A late choice costs what has to be done again.',
  },
  'cli/no-entry': {
    title: 'there is no such entry',
    explain: 'Entries of decisions.jsonl are counted from 1.',
  },
};
