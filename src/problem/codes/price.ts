import type { CodeEntry } from './entry.ts';

/** Codes of money. */
export const priceCodes: Readonly<Record<`price/${string}`, CodeEntry>> = {
  'price/currency-differs': {
    title: 'the proposal and its shop rates are in different currencies',
    explain: 'Nothing is converted: a rate of exchange is a price of its own. Name shop rates in the currency of the proposal.',
  },
  'price/unknown-tax': {
    title: 'a tax is named that the shop rates do not know',
    explain:
      'Each tax has a key, a name and a rate in the shop rates; none is for lines without tax. Which tax a supply carries is for local rules and an adviser.',
  },
  'price/private-line-tax': {
    title: 'a private line has another tax than the table',
    explain: 'A private line sits inside the price of the table and is taxed with it. Show the line if its tax differs.',
  },
  'price/instalments-not-whole': {
    title: 'the instalments do not add up to the total',
    explain: 'Their percentages must make 100 in all.',
  },
  'price/groups-not-whole': {
    title: 'the groups into which the price is opened do not add up to it',
    explain: 'Their percentages must make 100 in all.',
  },
  'price/no-standard-price': {
    title: 'an option has a price of its own, but the table can not be had without it',
    explain:
      'A price of its own stands beside the price of the table without the option. Where no allowed choice has that table, leave the price out.',
  },
  'price/margin-low': {
    title: 'the price leaves less margin than the shop rates ask at least',
    explain: 'Margin is the share of the price that is left over the cost; a mark-up of 25 % on the cost is a margin of 20 %.',
  },
  'price/change-not-offered': {
    title: 'the change to an order names a design or options that there are not',
    explain: 'revision.change fixes what the changed order is. It is written by leafwright change --write; the design was renamed since.',
  },
};
