/** Every problem of the price, word for word as the maker reads it (without the line of the file, which reading adds). */
import { expect, test } from 'vitest';
import { changeNotOffered, priceTable } from '../../src/price/index.ts';
import { CATALOGUE, formatProblem } from '../../src/problem/index.ts';
import type { FreeLineSpec, OptionSpec } from '../../src/spec/index.ts';
import { takeOff } from '../../src/takeoff/index.ts';
import { decimal, percent, proposal, variant } from '../fixtures.ts';
import { spec } from '../takeoff/rates.ts';
import { plain } from '../takeoff/tables.ts';

const line: FreeLineSpec = {
  says: 'Trivet',
  each: decimal('5.00'),
  quantity: 1,
  certainty: 'fixed',
  shown: true,
  tax: 'home',
  provisional: false,
};
const ceramic: OptionSpec = { says: 'Ceramic coat', default: false, excludes: [], price: decimal('240.00') };
const base = spec();
const taken = takeOff(base, plain);
const ofProposal = (over: Partial<typeof proposal>) => priceTable({ ...base, proposal: { ...proposal, ...over } }, taken);
const forty = { percent: percent(40), when: 'then' };

const prices = [
  ofProposal({ currency: 'USD' }),
  ofProposal({ tax: 'hoem' }),
  ofProposal({ lines: { trivet: { ...line, shown: false, tax: 'none' } } }),
  ofProposal({ instalments: [forty, forty] }),
  priceTable({ ...base, variant: { ...variant, priceGroups: [{ says: 'Wood', percent: percent(99.9) }] } }, taken),
  priceTable({ ...base, variant: { ...variant, options: { ceramic } } }, taken, ['ceramic']),
  priceTable(spec({}, { leastMargin: percent(30) }), taken),
  { problems: [changeNotOffered({ of: 'r3', design: 'D', options: ['ceramic'], stage: 'glued', weeks: 3 })] },
];

const first = new Map<string, string>();
for (const problem of prices.flatMap((one) => one.problems)) {
  if (!first.has(problem.code)) first.set(problem.code, formatProblem(problem, { colour: false }));
}

test('every code of the price is met', () => {
  const codes = Object.keys(CATALOGUE).filter((code) => code.startsWith('price/'));
  expect([...first.keys()].toSorted()).toEqual(codes.toSorted());
});

test('and reads so', () => {
  expect(`\n${[...first.values()].join('\n')}`).toMatchInlineSnapshot(`
    "
    error[price/currency-differs]: the proposal and its shop rates are in different currencies
      proposal.currency
      found: USD
      allowed: EUR
      to mend: write currency: EUR, or name shop rates in USD

    warning[price/margin-low]: the price leaves less margin than you wanted at least
      library.rates.leastMargin
      found: 3.6 % of €2,925.00, cost €2,820.99
      allowed: at least 15 %
      to mend: ask €3,318.81 before tax, or make it in fewer hours

    error[price/unknown-tax]: the shop rates know no tax called hoem
      proposal.tax
      found: hoem
      allowed: home, none
      to mend: if home was meant, write tax: home

    warning[price/private-line-tax]: a private line sits inside the price of the table and is taxed with it
      proposal.lines.trivet.tax
      found: none
      allowed: home
      to mend: show the line, or give it the tax of the proposal

    error[price/instalments-not-whole]: the instalments do not add up to the total
      proposal.instalments
      found: 40 + 40 = 80 %
      allowed: 100 % in all
      to mend: change the percentages so that they add up to 100 %

    error[price/groups-not-whole]: the groups of the price do not add up to it
      variant.priceGroups
      found: 99.9 %
      allowed: 100 % in all
      to mend: change the percentages so that they add up to 100 %

    error[price/no-standard-price]: option ceramic has a price of its own, but the table can not be had without it
      variant.options.ceramic.price
      found: 240.00
      to mend: leave its price out, so that it is computed, or allow the choice without it

    error[price/change-not-offered]: the change to the order names a design or options that there are not
      proposal.revision.change
      found: D with ceramic
      to mend: price the change anew: leafwright change, with --write
    "
  `);
});
