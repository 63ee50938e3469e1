/** Terms against what a signed scope lists and the default tolerances. @source tolerances: common practice, the maker's own defaults. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import type { MakerSpec, MaterialSpec, TermsSpec } from '../../src/spec/index.ts';
import { parseLength } from '../../src/units/index.ts';

const read = <T>(file: string): T => parse(readFileSync(`templates/${file}`, 'utf8')) as T;
const terms = {
  eu: read<TermsSpec>('terms/standard-eu.yaml'),
  us: read<TermsSpec>('terms/standard-us.yaml'),
  trade: read<TermsSpec>('terms/trade-eu.yaml'),
};

const mm = (text: string): number => {
  const length = parseLength(text.replace('± ', '').replace(/ per .*/, ''), { bare: 'mm' });
  return length.ok ? length.value.mm : Number.NaN;
};

describe('terms', () => {
  it.each(Object.entries(terms))('%s: a section for each thing that a signed scope needs', (_, one) => {
    const titles = one.sections.map((section) => section.title).join('\n');
    for (const wanted of [/order/, /Price and payment/, /ready/, /Changes/, /Delivery, and when it is yours/, /wrong/, /Drawings/, /Law/])
      expect(titles).toMatch(wanted);
  });

  it.each(Object.entries(terms))('%s: tolerances of the defaults, to the nearest mark of the rule', (_, one) => {
    // Length, width and height 3 mm; thickness 1 mm; flatness 2 mm a metre; square 1 mm; gaps 1 mm. 1/8 in = 3.175 mm, 1/32 in = 0.794 mm.
    const values = one.tolerances.map((tolerance) => tolerance.value);
    expect(mm(values[0] ?? '')).toBeCloseTo(3, 0);
    expect(mm(values[1] ?? '')).toBeCloseTo(3, 0);
    expect(mm(values[2] ?? '')).toBeCloseTo(1, 0);
    expect(mm(values[5] ?? '')).toBeCloseTo(1, 0);
  });

  it('flatness is the same in both: 2 mm per metre and 1/32 in per 16 in', () => {
    expect(terms.eu.tolerances[3]?.value).toBe('2 mm per metre');
    expect(terms.us.tolerances[3]?.value).toBe('1/32 in per 16 in');
    expect((1 / 32 / 16) * 1000).toBeCloseTo(2, 1);
  });

  it.each(Object.entries(terms))('%s: what changing and cancelling costs rises stage by stage, the same stages in both lists', (_, one) => {
    const stages = (list: readonly { readonly stage: string }[]): readonly string[] => list.map((entry) => entry.stage);
    expect(stages(one.changes)).toHaveLength(5);
    expect(stages(one.cancellation)).toHaveLength(4);
    expect(stages(one.changes)[0]).toBe(stages(one.cancellation)[0]);
    expect(stages(one.changes).at(-1)).toBe(stages(one.cancellation).at(-1));
    expect(one.changes.find((entry) => entry.stage === 'Glued up')?.says).toMatch(/smaller, not larger/);
  });

  it('says in the file that it is no legal advice, and to the client that the calculation is no test', () => {
    const files = { eu: 'standard-eu', us: 'standard-us', trade: 'trade-eu' };
    for (const id of ['eu', 'us', 'trade'] as const) {
      expect(readFileSync(`templates/terms/${files[id]}.yaml`, 'utf8')).toMatch(/^#.*not legal advice/m);
      const use = terms[id].sections.find((section) => section.title === 'Use')?.body ?? '';
      expect(use).toMatch(/no test/);
      expect(use).toMatch(/local (?:rules|codes) come first/);
      expect(use).toMatch(/licensed engineer/);
    }
  });

  // @source Directive 2011/83/EU, Art. 9 (fourteen days) and Art. 16(c) (goods made to the consumer's specifications).
  it('tells the client in Europe before the order that the right to withdraw does not apply, and why', () => {
    const body = terms.eu.sections.find((section) => section.title === 'Your right to withdraw')?.body ?? '';
    expect(body).toMatch(/fourteen-day/);
    expect(body).toMatch(/made to your specifications/);
  });

  it('does not offer a business the right of a consumer, and gives no warranty on wood that it brings', () => {
    const text = terms.trade.sections.map((section) => section.body).join(' ');
    expect(text).not.toMatch(/withdraw/);
    expect(text).toMatch(/answer for my work in them, not for\s+the wood itself/);
  });

  // @source 16 CFR 429: until midnight of the third business day for sales away from the seller's place of business.
  it('tells the client in the States of the third business day', () => {
    expect(terms.us.sections.find((section) => section.title === 'If you sign at your home')?.body).toMatch(/third\s+business day/);
  });
});

describe('materials and maker', () => {
  const materials = read<Record<string, MaterialSpec>>('materials.yaml');

  // @source EN 1991-1-1:2002, Tables A.1 and A.4 (from memory), printed to 0.1: kN/m3 / 9.80665 x 1000 = kg/m3.
  it.each([
    ['steel', 76.95, 78.5],
    ['aluminium', 26.4, 27.1],
    ['granite', 26.4, 30.0],
    ['slate', 27.4, 28.1],
    ['glass', 24.5, 25.1],
  ] as const)('%s weighs between %d and %d kN/m3', (id, low, high) => {
    const weight = ((materials[id]?.densityKgM3 ?? 0) * 9.80665) / 1000;
    expect(weight).toBeGreaterThanOrEqual(low);
    expect(weight).toBeLessThanOrEqual(high);
  });

  it('glass comes with the caution that it must be tempered or laminated', () => {
    expect(materials.glass?.name).toMatch(/tempered or laminated/);
    expect(readFileSync('templates/materials.yaml', 'utf8')).toMatch(/Tempered or laminated glass only/);
  });

  it('the maker is invented and cannot be written to', () => {
    const maker = read<MakerSpec>('maker.yaml');
    expect(maker.invented).toBe(true);
    // @source RFC 2606, section 2: .invalid is reserved and never resolves.
    expect(maker.email).toMatch(/\.invalid$/);
    expect(new Intl.DateTimeFormat('en-GB', { timeZone: maker.timeZone }).resolvedOptions().timeZone).toBe(maker.timeZone);
  });
});
