import { describe, expect, test } from 'vitest';
import type { Price } from '../../src/price/index.ts';
import { choiceWithoutFixedPrices, marginOfMarkUp, priceForMargin, priceTable, repeatFactor, taxInside } from '../../src/price/index.ts';
import type { EffectiveSpec, FreeLineSpec, OptionSpec, ProposalSpec, VariantSpec } from '../../src/spec/index.ts';
import type { TakeOff } from '../../src/takeoff/index.ts';
import { exact, exactOf, exactOfNumber, toDecimal, toNumber, ZERO } from '../../src/units/index.ts';
import { decimal, percent, proposal, variant } from '../fixtures.ts';
import { lumberChecks } from '../published/trade-lumber.ts';
import { instalmentRows, marginRows, moneyChecks } from '../published/trade-money.ts';
import { rates, spec } from '../takeoff/rates.ts';

const nothing: TakeOff = {
  cuttingList: [],
  timber: [],
  operations: [],
  hardware: [],
  finish: [],
  finishAreaM2: 0,
  undersideAreaM2: 0,
  hours: { low: 0, mid: 0, high: 0 },
  finishingShare: 0,
  problems: [],
};

const free = (each: string, more: Partial<FreeLineSpec> = {}): FreeLineSpec => ({
  says: 'a line',
  each: decimal(each),
  quantity: 1,
  certainty: 'fixed',
  shown: true,
  tax: 'home',
  provisional: false,
  ...more,
});

/** A proposal with nothing in it but free lines: what is on paper in the published checks. */
const bare = (over: Partial<ProposalSpec>, rate: Partial<typeof rates> = {}, variantOver: Partial<VariantSpec> = {}): EffectiveSpec => ({
  ...spec({}, { delivery: decimal('0'), contingency: percent(0), ...rate }),
  proposal: { ...proposal, ...over },
  variant: { ...variant, ...variantOver },
});

const work = (id: string, per: TakeOff['operations'][number]['per'], mid: number): TakeOff['operations'][number] => ({
  id,
  says: id,
  driver: id,
  quantity: 1,
  per,
  hours: { low: mid / 2, mid, high: mid * 2 },
  finishing: false,
});

const sum = (amounts: readonly { readonly minor: number }[]): number => amounts.reduce((all, one) => all + one.minor, 0);
const group = (price: Price, name: string): number => sum(price.build.filter((l) => l.group === name).map((l) => l.amount));

/** Everything that must hold of any price, whatever is in it. */
function checkSums(price: Price): void {
  const table = price.shown.find((line) => line.id === 'table');
  expect(sum(price.build.map((l) => l.amount))).toBe(table?.amount.minor);
  expect(sum(price.shown.map((l) => l.amount))).toBe(price.net.minor);
  expect(price.net.minor + sum(price.taxes.map((t) => t.amount))).toBe(price.total.minor);
  if (price.instalments.length > 0) expect(sum(price.instalments.map((i) => i.amount))).toBe(price.total.minor);
  for (const line of price.shown) if (line.groups.length > 0) expect(sum(line.groups.map((g) => g.amount))).toBe(line.amount.minor);
}

describe('published money', () => {
  test.each(marginRows)('$id $says of $inputs.markup', ({ inputs, expected, tolerance }) => {
    expect(Math.abs(toNumber(marginOfMarkUp(exactOfNumber(inputs.markup))) - expected)).toBeLessThanOrEqual(Math.max(tolerance, 1e-9));
  });

  test('a margin of 25 % on a cost of 20 asks 26.67; the multiplier of a third', () => {
    const { 'mm-02': asked, 'mm-03': multiplier } = moneyChecks;
    const price = priceForMargin(exactOfNumber(asked.inputs.cost), exactOfNumber(asked.inputs.margin));
    expect(Math.abs(toNumber(price) - asked.expected)).toBeLessThanOrEqual(asked.tolerance);
    expect(
      Math.abs(toNumber(priceForMargin(exact(1n), exactOfNumber(multiplier.inputs.margin))) - multiplier.expected),
    ).toBeLessThanOrEqual(multiplier.tolerance);
  });

  test('a mark-up of 50 % on 100: price and margin', () => {
    const { inputs, expected } = moneyChecks['mm-01'];
    const marked = bare(
      { instalments: [] },
      { hour: decimal(String(inputs.cost)), markUp: { ...rates.markUp, labour: percent(inputs.markup * 100) }, roundUpTo: decimal('0') },
    );
    const price = priceTable(marked, { ...nothing, operations: [work('a', 'table', 1)] });
    expect(price.net.minor / 100).toBe(expected[0]);
    expect(price.marginPercent / 100).toBeCloseTo(expected[1], 6);
  });

  test.each(instalmentRows)('$id $says', ({ inputs, expected }) => {
    const currency = inputs.exponent === 0 ? 'JPY' : inputs.exponent === 3 ? 'KWD' : 'EUR';
    const digits = inputs.exponent ?? 2;
    const each = toDecimal(exact(BigInt(inputs.totalMinor), 10n ** BigInt(digits)), digits);
    const instalments = inputs.weights.map((w) => ({ percent: percent(w), when: 'then' }));
    const price = priceTable(bare({ currency, instalments, lines: { a: free(each, { tax: 'none' }) } }, { currency }), nothing);
    expect(price.total.minor).toBe(inputs.totalMinor);
    expect(price.instalments.map((i) => i.amount.minor)).toEqual(expected);
  });

  test('three lines of 33.335 are rounded, then added; tax once on their sum', () => {
    const { 'inv-01': lines, 'inv-02': tax } = moneyChecks;
    const price = priceTable(bare({ lines: { a: free('33.335'), b: free('33.335'), c: free('33.335') } }), nothing);
    expect(toDecimal(exact(BigInt(price.net.minor), 100n), 2)).toBe(lines.expected[0]);
    expect(price.taxes.map((t) => toDecimal(exact(BigInt(t.amount.minor), 100n), 2))).toEqual([tax.expected[0]]);
    expect(toDecimal(exact(BigInt(price.total.minor), 100n), 2)).toBe(tax.expected[1]);
  });

  test('tax inside an amount', () => {
    const { inputs, expected } = moneyChecks['inv-04'];
    const tax = taxInside({ currency: 'EUR', minor: Number(inputs.gross.replace('.', '')) }, exactOf(String(inputs.rate * 100)) ?? ZERO);
    expect(tax.minor).toBe(Number(expected) * 100);
  });

  test('delivery before title is taxed, separately stated installation is not', () => {
    const { inputs, expected } = moneyChecks['tax-01'];
    const taxes = { home: { says: 'sales tax', percent: percent(inputs.rate * 100) }, none: { says: 'none', percent: percent(0) } };
    const lines = { table: free(String(inputs.table)), install: free(String(inputs.installation), { tax: 'none' }) };
    const price = priceTable(bare({ lines }, { taxes, delivery: decimal(String(inputs.deliveryBeforeTitle)) }), nothing);
    expect(price.taxes.map((t) => t.amount.minor)).toEqual([expected * 100]);
  });

  test('identical pieces take 5 % less each, at most 30 %', () => {
    const { inputs, expected, tolerance } = lumberChecks['lab-01'];
    expect(Math.abs(toNumber(repeatFactor(inputs.joints)) * inputs.firstH - expected)).toBeLessThanOrEqual(tolerance);
  });
});

describe('the build-up', () => {
  test('a line rounds its quantity to the step first, then its amount once', () => {
    const taken = { ...nothing, operations: [work('a', 'table', 1.024), work('b', 'table', 1.026)] };
    const price = priceTable(bare({}), taken);
    const labour = price.build.filter((l) => l.group === 'labour');
    expect(labour.map((l) => l.quantity)).toEqual(['1.00 h', '1.05 h']);
    // 57.93 x 1.00; 57.93 x 1.05 = 60.8265.
    expect(labour.map((l) => l.amount.minor)).toEqual([5793, 6083]);
  });

  test('rounding brings one table up to a multiple, and never down', () => {
    const at = (hours: number) =>
      priceTable(bare({}, { hour: decimal('25.00'), contingency: percent(0) }), { ...nothing, operations: [work('a', 'table', hours)] });
    expect(at(4).net.minor).toBe(10000);
    expect(group(at(4), 'rounding')).toBe(0);
    expect(at(4.05).net.minor).toBe(12500);
    expect(group(at(4.05), 'rounding')).toBe(12500 - 10125);
  });

  test('overhead is in the hour or a line, and has no mark-up of its own', () => {
    const taken = { ...nothing, operations: [work('a', 'table', 10)] };
    const inHour = priceTable(bare({}), taken);
    const apart = priceTable(bare({}, { overhead: { kind: 'line', amount: decimal('333.33') } }), taken);
    expect(group(inHour, 'overhead')).toBe(0);
    expect(group(apart, 'overhead')).toBe(33333);
    expect(group(apart, 'mark-up')).toBe(group(inHour, 'mark-up'));
    expect(apart.costMinor - inHour.costMinor).toBe(33333);
  });

  test('private lines sit inside the price of the table, shown ones beside it, and only where the variant has them', () => {
    const lines = {
      hidden: free('100.00', { shown: false }),
      other: free('7.00', { variants: ['B'] }),
      seen: free('2.50', { quantity: 3, provisional: true, certainty: 'estimate' }),
    };
    const price = priceTable(bare({ lines }), nothing);
    expect(price.shown.map((l) => [l.id, l.quantity, l.each.minor, l.amount.minor, l.provisional])).toEqual([
      ['table', 1, 10000, 10000, false],
      ['line/seen', 3, 250, 750, true],
    ]);
    expect(group(price, 'line')).toBe(10000);
    expect(JSON.stringify(price.shown)).not.toContain('hidden');
  });

  test('the margin is what is left of the price; below the least, the price that would leave it is named', () => {
    const taken = { ...nothing, operations: [work('a', 'table', 100)] };
    const at = (markUp: number) =>
      priceTable(
        bare({}, { markUp: { ...rates.markUp, labour: percent(markUp) }, leastMargin: percent(20), roundUpTo: decimal('0') }),
        taken,
      );
    expect(at(25).marginPercent).toBeCloseTo(20, 9);
    expect(at(25).problems).toEqual([]);
    const [low] = at(20).problems;
    expect(low).toMatchObject({ code: 'price/margin-low', severity: 'warning' });
    // 5,793.00 / 0.8.
    expect(low?.mend).toContain('7,241.25');
  });

  test('what an hour earns if the hours run low or high', () => {
    const price = priceTable(bare({}, { hour: decimal('50.00'), roundUpTo: decimal('0') }), {
      ...nothing,
      operations: [work('a', 'table', 10)],
    });
    expect(price.net.minor).toBe(50000);
    expect([price.spread.low.minor, price.spread.high.minor]).toEqual([10000, 2500]);
    // A private line of 100.00 is passed on and is no hour's pay.
    const lines = { hidden: free('100.00', { shown: false }) };
    const passed = priceTable(bare({ lines }, { hour: decimal('50.00'), roundUpTo: decimal('0') }), {
      ...nothing,
      operations: [work('a', 'table', 10)],
    });
    expect([passed.net.minor, passed.spread.low.minor, passed.spread.high.minor]).toEqual([60000, 10000, 2500]);
  });

  test('several tables: the job once, the rest with the saving on repeats, one price each', () => {
    const taken = { ...nothing, operations: [work('design', 'job', 6), work('a', 'table', 10), work('road', 'trip', 4)] };
    const price = priceTable(bare({ quantity: 3 }, { roundUpTo: decimal('10.00') }), taken);
    expect(price.build.filter((l) => l.group === 'labour').map((l) => l.quantity)).toEqual(['6.00 h', '28.50 h', '4.00 h']);
    const [table] = price.shown;
    expect(table?.quantity).toBe(3);
    expect((table?.each.minor ?? 0) % 1000).toBe(0);
    expect(table?.amount.minor).toBe(3 * (table?.each.minor ?? 0));
    checkSums(price);
  });

  test('groups of the table’s price add up to it exactly', () => {
    const priceGroups = [1, 2, 3].map((n) => ({ says: `group ${n}`, percent: percent(n === 3 ? 33.4 : 33.3) }));
    const price = priceTable(
      bare({ lines: { a: free('100.01', { shown: false }) } }, { roundUpTo: decimal('0') }, { priceGroups }),
      nothing,
    );
    expect(price.shown[0]?.groups.map((g) => g.amount.minor)).toEqual([3330, 3330, 3341]);
    checkSums(price);
  });
});

describe('options with a price of their own', () => {
  const option = (more: Partial<OptionSpec>): OptionSpec => ({ says: 'option', default: false, excludes: [], ...more });
  const options = {
    // The price of a group's default says nothing: it is the table.
    oil: option({ group: 'finish', default: true, price: decimal('99.00') }),
    ceramic: option({ says: 'Ceramic coat', group: 'finish', price: decimal('240.00') }),
    shelf: option({ says: 'Shelf' }),
    plate: option({ says: 'Plate', price: decimal('260.00') }),
  };
  const withOptions = bare({}, {}, { options });
  const hours = (n: number): TakeOff => ({ ...nothing, operations: [work('a', 'table', n)] });

  test('name the choice whose price stands', () => {
    const at = (...choice: string[]) => choiceWithoutFixedPrices(withOptions.variant, choice);
    expect(at('oil')).toBeUndefined();
    expect(at('oil', 'shelf')).toBeUndefined();
    expect(at('ceramic')).toEqual(['oil']);
    expect(at('ceramic', 'plate', 'shelf')).toEqual(['oil', 'shelf']);
  });

  test('are lines beside an unchanged table; the build still holds the real cost', () => {
    const standard = priceTable(withOptions, hours(10), ['oil']);
    const price = priceTable(withOptions, hours(12), ['ceramic', 'plate'], standard);
    expect(price.shown.map((l) => [l.id, l.amount.minor])).toEqual([
      ['table', standard.net.minor],
      ['option/ceramic', 24000],
      ['option/plate', 26000],
    ]);
    expect(price.net.minor).toBe(standard.net.minor + 50000);
    expect(price.costMinor).toBeGreaterThan(standard.costMinor);
    expect(price.marginPercent).toBeCloseTo((100 * (price.net.minor - price.costMinor)) / price.net.minor, 9);
    checkSums(price);
  });

  test('are asked for every table', () => {
    const two = { ...withOptions, proposal: { ...withOptions.proposal, quantity: 2 } };
    const price = priceTable(two, hours(12), ['plate'], priceTable(two, hours(10)));
    expect(price.shown[1]).toMatchObject({ id: 'option/plate', quantity: 2, each: { minor: 26000 }, amount: { minor: 52000 } });
    checkSums(price);
  });

  test('without the price of the table that they stand beside there is no price', () => {
    const price = priceTable(withOptions, hours(12), ['ceramic']);
    expect(price.problems.map((p) => [p.code, p.severity])).toContainEqual(['price/no-standard-price', 'error']);
  });

  test('an option without a price is in the table’s price', () => {
    const price = priceTable(withOptions, hours(12), ['oil', 'shelf']);
    expect(price.shown.map((l) => l.id)).toEqual(['table']);
    expect(price.net.minor).toBe(priceTable(withOptions, hours(12)).net.minor);
  });
});

describe('refusals', () => {
  test.each([
    ['price/currency-differs', bare({ currency: 'USD' })],
    ['price/unknown-tax', bare({ tax: 'hoem' })],
    ['price/unknown-tax', bare({ lines: { a: free('1.00', { tax: 'street' }) } })],
    [
      'price/instalments-not-whole',
      bare({
        instalments: [
          { percent: percent(40), when: '' },
          { percent: percent(50), when: '' },
        ],
      }),
    ],
    ['price/groups-not-whole', bare({}, {}, { priceGroups: [{ says: 'wood', percent: percent(99.9) }] })],
  ])('%s, case %#', (code, effective) => {
    const errors = priceTable(effective, nothing).problems.filter((p) => p.severity === 'error');
    expect(errors.map((p) => p.code)).toEqual([code]);
  });

  test('no tax needs no entry in the rates', () => {
    const price = priceTable(bare({ tax: 'none', lines: { a: free('5.00', { tax: 'none' }) } }, { taxes: {} }), nothing);
    expect(price.problems).toEqual([]);
    expect([price.taxes, price.total.minor]).toEqual([[], 500]);
  });

  test('a private line with another tax is warned about', () => {
    const price = priceTable(bare({ lines: { a: free('5.00', { shown: false, tax: 'none' }) } }), nothing);
    expect(price.problems.map((p) => p.code)).toContain('price/private-line-tax');
  });
});

test('sums hold for five hundred prices out of a drawn series', () => {
  let state = 12345;
  const draw = (below: number): number => {
    state = (state * 1103515245 + 12345) % 2147483648;
    return Math.floor((state / 2147483648) * below);
  };
  const cents = (): string => (draw(400000) / 1000 - 50).toFixed(3);
  for (let run = 0; run < 500; run += 1) {
    const lines = Object.fromEntries(
      Array.from({ length: draw(6) }, (_, i) => [
        `l${i}`,
        free(cents(), { quantity: 1 + draw(4), shown: draw(2) === 0, tax: draw(2) === 0 ? 'home' : 'none' }),
      ]),
    );
    const first = 1 + draw(98);
    const effective = bare(
      { lines, quantity: 1 + draw(5), instalments: [first, 100 - first].map((p) => ({ percent: percent(p), when: '' })) },
      {
        hour: decimal((draw(9000) / 100).toFixed(2)),
        contingency: percent(draw(20)),
        roundUpTo: decimal(['0', '0.01', '5', '25.00'][draw(4)] ?? '0'),
      },
      { priceGroups: [first, 100 - first].map((p) => ({ says: '', percent: percent(p) })) },
    );
    checkSums(
      priceTable(effective, { ...nothing, operations: Array.from({ length: draw(8) }, (_, i) => work(`o${i}`, 'table', draw(1000) / 77)) }),
    );
  }
});
