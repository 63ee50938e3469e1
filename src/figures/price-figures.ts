import type { Price } from '../price/index.ts';
import type { OptionSpec } from '../spec/index.ts';
import type { PriceFigures } from './schema.ts';
import type { TableSource, VariantSource } from './source.ts';

/** A choice as one string, whatever the order of its ids. */
function choiceKey(choice: readonly string[]): string {
  return [...choice].sort().join(' ');
}

/**
 * The choice to compare an option with: the default one with this option switched to its other state.
 * A member of a group takes the place of the group's default.
 */
function choiceWith(id: string, option: OptionSpec, options: Readonly<Record<string, OptionSpec>>, standard: readonly string[]): string[] {
  const rivals = option.group === undefined ? [] : Object.keys(options).filter((other) => options[other]?.group === option.group);
  return [...standard.filter((other) => other !== id && !rivals.includes(other) && !option.excludes.includes(other)), id];
}

/** What an option adds or takes: its price less that of the table without it (ungrouped) or as offered (grouped). */
function difference(id: string, option: OptionSpec, variant: VariantSource): { net: number; total: number } | undefined {
  const find = (choice: readonly string[]): Price | undefined =>
    variant.combinations.find((one) => choiceKey(one.choice) === choiceKey(choice))?.price;
  const standard = variant.standard.choice;
  const withIt = find(choiceWith(id, option, variant.standard.spec.variant.options, standard));
  const withoutIt = option.group === undefined ? find(standard.filter((other) => other !== id)) : variant.standard.price;
  if (withIt === undefined || withoutIt === undefined) return undefined;
  return { net: withIt.net.minor - withoutIt.net.minor, total: withIt.total.minor - withoutIt.total.minor };
}

function optionFigures(variant: VariantSource): PriceFigures['options'] {
  return Object.entries(variant.standard.spec.variant.options).map(([id, option]) => {
    const change = difference(id, option, variant);
    return {
      id,
      says: option.says,
      ...(option.group === undefined ? {} : { group: option.group }),
      isDefault: option.default,
      ...(change === undefined ? {} : { differenceNetMinor: change.net, differenceMinor: change.total }),
    };
  });
}

function combinationFigures(one: TableSource, standard: readonly string[]): PriceFigures['combinations'][number] {
  return {
    options: [...one.choice],
    isDefault: choiceKey(one.choice) === choiceKey(standard),
    netMinor: one.price.net.minor,
    totalMinor: one.price.total.minor,
    instalmentsMinor: one.price.instalments.map(({ amount }) => amount.minor),
  };
}

/** The price of a variant with its default options, what each option changes, and the total of every combination; minor units. */
export function priceFigures(variant: VariantSource, words: (says: string) => string): PriceFigures {
  const price = variant.standard.price;
  return {
    currency: price.currency,
    build: price.build.map((line) => ({
      id: line.id,
      group: line.group,
      says: words(line.says),
      ...(line.quantity === undefined ? {} : { quantity: line.quantity }),
      ...(line.rate === undefined ? {} : { rate: line.rate }),
      amountMinor: line.amount.minor,
    })),
    costMinor: price.costMinor,
    marginPercent: price.marginPercent,
    lines: price.shown.map((line) => ({
      id: line.id,
      says: words(line.says),
      quantity: line.quantity,
      eachMinor: line.each.minor,
      amountMinor: line.amount.minor,
      certainty: line.certainty,
      provisional: line.provisional,
      taxId: line.taxId,
      groups: line.groups.map((group) => ({ says: group.says, amountMinor: group.amount.minor })),
    })),
    netMinor: price.net.minor,
    taxes: price.taxes.map((tax) => ({
      id: tax.id,
      says: tax.says,
      percent: tax.percent,
      baseMinor: tax.base.minor,
      amountMinor: tax.amount.minor,
    })),
    totalMinor: price.total.minor,
    instalments: price.instalments.map((one) => ({ percent: one.percent, when: one.when, amountMinor: one.amount.minor })),
    options: optionFigures(variant),
    combinations: variant.combinations.map((one) => combinationFigures(one, variant.standard.choice)),
  };
}
