import type { Problem } from '../problem/index.ts';
import { nearestName } from '../problem/index.ts';
import type { EffectiveSpec, OrderChangeSpec } from '../spec/index.ts';
import type { Exact, Money } from '../units/index.ts';
import { compareExact, exact, exactMoney, exactOfNumber, formatMoney, over, plus, roundMinor, toNumber, ZERO } from '../units/index.ts';
import { linesOf } from './free-lines.ts';
import { priceForMargin } from './margin.ts';
import { NO_TAX } from './tax.ts';

const HUNDRED = exact(100n);

/** What is wrong with the money of a proposal before anything is counted. */
export function checkTerms(spec: EffectiveSpec): readonly Problem[] {
  return [...currencies(spec), ...taxes(spec), ...shares(spec)];
}

/** `price/margin-low` where less than the least margin of the shop rates is left. */
export function checkMargin(spec: EffectiveSpec, net: Money, cost: Money, marginPercent: number): readonly Problem[] {
  const { leastMargin, currency } = spec.library.rates;
  const { language } = spec.proposal;
  if (net.minor <= 0 || marginPercent >= leastMargin.percent) return [];
  const asked = priceForMargin(exactMoney(cost), over(exactOfNumber(leastMargin.percent), HUNDRED));
  return [
    {
      code: 'price/margin-low',
      severity: 'warning',
      title: 'the price leaves less margin than you wanted at least',
      path: ['library', 'rates', 'leastMargin'],
      found: `${marginPercent.toFixed(1)} % of ${formatMoney(net, language)}, cost ${formatMoney(cost, language)}`,
      allowed: `at least ${leastMargin.written}`,
      mend: `ask ${formatMoney(roundMinor(asked, currency), language)} before tax, or make it in fewer hours`,
    },
  ];
}

/** `price/no-standard-price`: an option asks a price of its own, but no allowed choice has the table without it. */
export function noStandardPrice(spec: EffectiveSpec, ids: readonly string[]): readonly Problem[] {
  return ids.map((id) => ({
    code: 'price/no-standard-price',
    severity: 'error',
    title: `option ${id} has a price of its own, but the table can not be had without it`,
    path: ['variant', 'options', id, 'price'],
    found: spec.variant.options[id]?.price,
    mend: 'leave its price out, so that it is computed, or allow the choice without it',
  }));
}

/** `price/change-not-offered`: the change to an order names a design or options that there are not. */
export function changeNotOffered(change: OrderChangeSpec): Problem {
  return {
    code: 'price/change-not-offered',
    severity: 'error',
    title: 'the change to the order names a design or options that there are not',
    path: ['proposal', 'revision', 'change'],
    found: [change.design, ...change.options].join(' with '),
    mend: 'price the change anew: leafwright change, with --write',
  };
}

function currencies(spec: EffectiveSpec): readonly Problem[] {
  const { currency } = spec.library.rates;
  if (spec.proposal.currency === currency) return [];
  return [
    {
      code: 'price/currency-differs',
      severity: 'error',
      title: 'the proposal and its shop rates are in different currencies',
      path: ['proposal', 'currency'],
      found: spec.proposal.currency,
      allowed: currency,
      mend: `write currency: ${currency}, or name shop rates in ${spec.proposal.currency}`,
    },
  ];
}

function taxes(spec: EffectiveSpec): readonly Problem[] {
  const known = Object.keys(spec.library.rates.taxes).sort();
  const used = [
    { path: ['proposal', 'tax'], found: spec.proposal.tax },
    ...linesOf(spec, true).map(({ id, line }) => ({ path: ['proposal', 'lines', id, 'tax'], found: line.tax })),
  ];
  const unknown = used
    .filter(({ found }) => found !== NO_TAX && !known.includes(found))
    .map(({ path, found }): Problem => {
      const ids = [...known.filter((id) => id !== NO_TAX), NO_TAX];
      const allowed = ids.join(', ');
      const near = nearestName(found, ids);
      const mend = near === undefined ? 'write one of these, or add the tax to the shop rates' : `if ${near} was meant, write tax: ${near}`;
      return {
        code: 'price/unknown-tax',
        severity: 'error',
        title: `the shop rates know no tax called ${found}`,
        path,
        found,
        allowed,
        mend,
      };
    });
  const inside = linesOf(spec, false)
    .filter(({ line }) => line.tax !== spec.proposal.tax)
    .map(
      ({ id, line }): Problem => ({
        code: 'price/private-line-tax',
        severity: 'warning',
        title: 'a private line sits inside the price of the table and is taxed with it',
        path: ['proposal', 'lines', id, 'tax'],
        found: line.tax,
        allowed: spec.proposal.tax,
        mend: 'show the line, or give it the tax of the proposal',
      }),
    );
  return [...unknown, ...inside];
}

function shares(spec: EffectiveSpec): readonly Problem[] {
  const { instalments } = spec.proposal;
  const { priceGroups } = spec.variant;
  return [
    ...notWhole(['proposal', 'instalments'], 'price/instalments-not-whole', 'the instalments do not add up to the total', instalments),
    ...notWhole(['variant', 'priceGroups'], 'price/groups-not-whole', 'the groups of the price do not add up to it', priceGroups),
  ];
}

function notWhole(
  path: Problem['path'],
  code: string,
  title: string,
  list: readonly { readonly percent: { readonly percent: number } }[] = [],
): readonly Problem[] {
  if (list.length === 0) return [];
  const sum = list.reduce<Exact>((all, one) => plus(all, exactOfNumber(one.percent.percent)), ZERO);
  if (compareExact(sum, HUNDRED) === 0) return [];
  const terms = list.length === 1 ? '' : `${list.map((one) => one.percent.percent).join(' + ')} = `;
  const found = `${terms}${toNumber(sum)} %`;
  return [
    { code, severity: 'error', title, path, found, allowed: '100 % in all', mend: 'change the percentages so that they add up to 100 %' },
  ];
}
