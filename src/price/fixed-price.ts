import type { Choice, OptionSpec, VariantSpec } from '../spec/index.ts';
import { byCodeUnit } from '../units/index.ts';

/**
 * The options of a choice that ask a price of their own, by id. The default of a group has none: it is the table, whatever price it states.
 */
export function fixedPriceOptions(variant: VariantSpec, choice: Choice): readonly (readonly [string, OptionSpec])[] {
  return choice.flatMap((id): readonly (readonly [string, OptionSpec])[] => {
    const option = variant.options[id];
    return option?.price === undefined || isStandard(option) ? [] : [[id, option]];
  });
}

/**
 * The choice whose table price stands while options with a price of their own are on: the same one without them, their groups back at the
 * default. `undefined` where no such option is on and the choice is priced from its own table.
 */
export function choiceWithoutFixedPrices(variant: VariantSpec, choice: Choice): Choice | undefined {
  const fixed = fixedPriceOptions(variant, choice);
  if (fixed.length === 0) return undefined;
  const groups = fixed.flatMap(([, option]) => (option.group === undefined ? [] : [option.group]));
  const standard = Object.entries(variant.options).filter(([, o]) => o.default && o.group !== undefined && groups.includes(o.group));
  const kept = choice.filter((id) => !fixed.some(([other]) => other === id));
  return [...new Set([...kept, ...standard.map(([id]) => id)])].toSorted(byCodeUnit);
}

const isStandard = (option: OptionSpec): boolean => option.default && option.group !== undefined;
