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
    explain: 'What new wrote for a name, an address or an e-mail address would go on the client page and into the scope: issue refuses it.',
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
  'cli/wish-unanswered': {
    title: 'a design does not answer a wish that nothing measures',
    explain:
      'A matter of judgement needs your own words in each design that is offered: what it does for the wish, and whether it is enough.',
  },
  'cli/note-open': {
    title: 'a note of what was said has not been dealt with',
    explain:
      'What a client said becomes a wish, a change of the draft or an answer before the next revision goes out. Settling it says which.',
  },
  'cli/price-below-floor': {
    title: 'a design leaves less margin than the floor of the shop rates',
    explain: 'leastMargin is the floor. --insist "why" issues it all the same; code and reason are kept with the revision in the workshop.',
  },
  'cli/quotation-out': {
    title: "a supplier's quotation of timber has run out",
    explain:
      'A quotation holds quoteDays from quotedOn. Only timber that an offered design has to be bought from counts. --insist "why" issues it all the same; code and reason are kept with the revision in the workshop.',
  },
  'cli/unprinted-sign': {
    title: 'papers have no letters for a text',
    explain:
      'Scopes, requests and statements are set in two faces that hold Latin, Greek and Cyrillic letters. Any other script would be empty boxes, above which somebody signs.',
  },
  'cli/no-exclusions': {
    title: 'nothing is said to be excluded',
    explain: 'What is silent is taken to be included. A scope of work names what it leaves out.',
  },
  'cli/no-terms': {
    title: 'the terms have no section',
    explain: 'A yes is to the terms as well. Terms without a section would be agreed to unread.',
  },
  'cli/nobody-decides': {
    title: 'nobody who decides is shown a price',
    explain: 'An order needs a yes to a total. Where deciders is silent, the client alone decides and is shown the first page.',
  },
  'cli/no-sample': {
    title: 'there is no sample',
    explain: 'Wood and finish are agreed by a sample. Without one the scope says that they are subject to it.',
  },
  'cli/not-approved': {
    title: 'nothing is approved yet',
    explain:
      'A scope with its approval can be made when everyone whose yes is needed has said yes to the same design of the newest revision.',
  },
  'cli/drawings-not-kept': {
    title: 'the drawings of the revision were not kept with it',
    explain: 'The scope with its approval is made of the very drawings that were approved, and never of new ones.',
  },
  'cli/no-such-page': {
    title: 'the revision has no page of this kind',
    explain: 'A paper for a reader is made from the words that this reader was shown: with prices, or without.',
  },
  'cli/not-confirmed': {
    title: 'no order was confirmed yet',
    explain: 'What is due follows from the confirmation of what was approved: its total and its instalments.',
  },
  'cli/order-closed': {
    title: 'the proposal is closed',
    explain: 'After a cancellation, or when an enquiry came to nothing, no instalment falls due.',
  },
  'cli/no-such-instalment': {
    title: 'the order has no such instalment',
    explain: 'Instalments are counted from 1, as in the scope.',
  },
  'cli/instalment-paid': {
    title: 'the instalment is paid',
    explain: 'There is nothing left to ask for.',
  },
  'cli/instalment-requested': {
    title: 'the instalment was requested already',
    explain: 'A request stands until it is paid. A reminder is a request of its own, with a number of its own.',
  },
  'cli/number-used': {
    title: 'the number of the request was used already',
    explain: 'Each request of a proposal has its own number, so that a payment can be told from another.',
  },
  'cli/due-before-today': {
    title: 'the day on which the payment is due has passed',
    explain: 'A request asks for money on a day to come.',
  },
  'cli/page-tells': {
    title: 'a page would tell its reader what it may not',
    explain:
      "A page without prices holds no amount and no address of the one who pays; a page under a designer's name holds neither the maker's name nor a way to them. Fixed texts and figures keep to that by themselves: what is found stands in the maker's own words.",
  },
  'cli/revise-nothing-issued': {
    title: 'there is nothing to revise yet',
    explain: 'A revision follows one that was issued. Until then the working files are the draft of the first.',
  },
  'cli/revise-begun': {
    title: 'the next revision is begun already',
    explain: 'The draft has a higher number than anything that was issued. It is worked on and issued before another begins.',
  },
  'cli/revise-by-hand': {
    title: 'proposal.yaml is written in a way that is not edited in place',
    explain: 'What is edited keeps every other byte of the file. Where that can not be done, nothing is.',
  },
  'cli/changes-todo': {
    title: 'words that were put there for you to rewrite still stand',
    explain:
      'revise writes down what was said, and --mix a reason, each behind TODO. They are yours to say in your own words, and go out to the client.',
  },
};
