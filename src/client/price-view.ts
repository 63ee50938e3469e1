import type { OptionSpec } from '../spec/index.ts';
import type { ShownDesign, ShownPrice } from './client-source.ts';
import type { PriceView } from './client-view.ts';
import { keepFigures } from './keep-figures.ts';
import type { Shown } from './shown.ts';
import type { Words } from './words.ts';

function lineView(line: ShownPrice['lines'][number], shown: Shown, words: Words): PriceView['lines'][number] {
  const certainty = line.provisional ? 'provisional' : line.certainty;
  return {
    says: line.says,
    ...(line.quantity === 1
      ? {}
      : { quantity: words.say('price.quantity', { quantity: shown.number(line.quantity), each: shown.money(line.eachMinor) }) }),
    certainty: words.say(`price.certainty.${certainty}`),
    amount: shown.money(line.amountMinor),
    groups: line.groups.map((group) => ({ says: group.says, amount: shown.money(group.amountMinor) })),
  };
}

function taxText(tax: ShownPrice['taxes'][number], shown: Shown, words: Words): string {
  return words.say('price.tax', { says: tax.says, percent: shown.exactPercent(tax.percent) });
}

/** What the large figure holds: tax by name, or that there is none. */
function totalNote(price: ShownPrice, shown: Shown, headline: Shown['wholeMoney'], words: Words): string {
  const taxes = price.taxes.filter((tax) => tax.amountMinor !== 0);
  if (taxes.length === 0) return words.say('price.total-untaxed');
  return words.say('price.total-taxed', {
    net: headline(price.netMinor),
    taxes: taxes.map((tax) => taxText(tax, shown, words)).join('; '),
  });
}

/** What an option adds: an amount, or where to look; of the one combination on offer it is in the total. */
function differenceText({ options, combinations }: ShownPrice, id: string, shown: Shown, words: Words): string {
  const minor = options.find((option) => option.id === id)?.differenceMinor;
  if (minor === undefined) return words.say(combinations.length === 1 ? 'price.option-included' : 'price.option-in-totals');
  return minor === 0 ? words.say('price.option-same') : shown.moneyChange(minor);
}

function optionView(option: ShownPrice['options'][number], spec: OptionSpec | undefined, difference: string): PriceView['options'][number] {
  return {
    id: option.id,
    says: option.says,
    ...(spec?.why === undefined ? {} : { why: keepFigures(spec.why) }),
    difference,
    isDefault: option.isDefault,
    ...(option.group === undefined ? {} : { group: option.group }),
  };
}

/**
 * The price of a design in words: lines that add up, tax, instalments, options and the total of every combination of them.
 * `headline` shows the large figure and the net amount beside it, the same way for all designs.
 */
export function priceView(design: ShownDesign, shown: Shown, headline: Shown['wholeMoney'], words: Words): PriceView {
  const { price, spec } = design;
  const optionSays = (id: string): string => price.options.find((option) => option.id === id)?.says ?? id;
  return {
    headline: headline(price.totalMinor),
    total: shown.money(price.totalMinor),
    totalNote: totalNote(price, shown, headline, words),
    lines: price.lines.map((line) => lineView(line, shown, words)),
    net: shown.money(price.netMinor),
    taxes: price.taxes.map((tax) => ({ says: taxText(tax, shown, words), amount: shown.money(tax.amountMinor) })),
    instalments: price.instalments.map((one) => ({
      percent: shown.exactPercent(one.percent),
      when: one.when,
      amount: shown.money(one.amountMinor),
    })),
    options: price.options.map((option) =>
      optionView(option, spec.variant.options[option.id], differenceText(price, option.id, shown, words)),
    ),
    combinations: price.combinations.map((one) => ({
      options: one.options,
      says: one.options.length === 0 ? words.say('price.no-options') : one.options.map(optionSays).join('; '),
      net: shown.money(one.netMinor),
      total: shown.money(one.totalMinor),
    })),
  };
}
