/**
 * templates/woods.yaml against tests/published/woods.csv and elastic-ratios.csv.
 * @source Wood Handbook, FPL-GTR-190 (2010) and FPL-GTR-282 (2021), Tables 4-3, 4-4, 5-1, 5-2, 5-3, 5-5, 13-5; Niemz, Physik des
 * Holzes (1993) and the German trade table of differential shrinkage for the European woods. Each row of the csv says which.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import type { WoodSpec } from '../../src/spec/index.ts';
import { readCsv } from './csv.ts';

const woods = parse(readFileSync('templates/woods.yaml', 'utf8')) as Record<string, WoodSpec>;
const published = readCsv(readFileSync('tests/published/woods.csv', 'utf8'));
const ratios = readCsv(readFileSync('tests/published/elastic-ratios.csv', 'utf8'));

const number = (text: string | undefined): number | undefined => (text === undefined || text === '' ? undefined : Number(text));

describe('woods', () => {
  it('holds every published wood and no other', () => {
    expect(Object.keys(woods)).toEqual(published.map((row) => row.id));
    expect(published).toHaveLength(30);
  });

  it.each(published.map((row) => [row.id ?? '', row] as const))('%s says what was published', (id, row) => {
    const wood = woods[id];
    expect(wood?.botanical).toBe(row.botanical_name);
    expect(wood?.densityKgM3).toBe(Number(row.density_12_kg_m3));
    expect(wood?.specificGravity12).toBe(number(row.specific_gravity_12));
    expect(wood?.moeMPa).toBe(number(row.MOE_GPa) === undefined ? undefined : Math.round(Number(row.MOE_GPa) * 1000));
    expect(wood?.shrinkRadialPercent).toBe(number(row.shrink_radial_pct));
    expect(wood?.shrinkTangentialPercent).toBe(number(row.shrink_tangential_pct));
    expect(wood?.changeRadial).toBe(Number(row.dim_change_coeff_radial_per_pct_mc));
    expect(wood?.changeTangential).toBe(Number(row.dim_change_coeff_tangential_per_pct_mc));
    expect(wood?.source.length).toBeGreaterThan(40);
  });

  it('gives elastic ratios where a table gives them, and no others', () => {
    for (const [id, wood] of Object.entries(woods)) {
      const row = ratios.find((r) => r.species_id === id);
      if (wood.elastic === undefined) {
        // Longleaf pine alone stands in the copy from memory throughout, so it is left out.
        expect([undefined, 'pine-longleaf']).toContain(row?.species_id);
        continue;
      }
      expect(wood.elastic.etOverEl).toBe(Number(row?.ET_over_EL));
      expect(wood.elastic.erOverEl).toBe(Number(row?.ER_over_EL));
      if (wood.elastic.glrOverEl !== undefined) expect(wood.elastic.glrOverEl).toBe(Number(row?.GLR_over_EL));
      if (wood.elastic.gltOverEl !== undefined) expect(wood.elastic.gltOverEl).toBe(Number(row?.GLT_over_EL));
      if (wood.elastic.grtOverEl !== undefined) expect(wood.elastic.grtOverEl).toBe(Number(row?.GRT_over_EL));
    }
  });

  // @source Wood Handbook, FPL-GTR-282, Eq. 4-14: density = 1000 G (1 + x/100), G at x % on the volume at x %.
  it('weighs what its specific gravity at 12 % says', () => {
    const checked = Object.values(woods).filter((wood) => wood.specificGravity12 !== undefined);
    expect(checked.length).toBeGreaterThanOrEqual(26);
    for (const wood of checked) {
      const expected = 1000 * (wood.specificGravity12 ?? 0) * 1.12;
      // Imported woods come from the basic gravity (Eq. 4-13), of which two decimals are printed: half a unit of those.
      expect(Math.abs(wood.densityKgM3 - expected)).toBeLessThanOrEqual(6);
    }
  });

  // @source Wood Handbook, FPL-GTR-190: Table 13-5 reproduced from Table 4-3 by C = S / (3000 - 20 S), single-species rows.
  it.each([
    'walnut-black',
    'cherry-black',
    'maple-sugar',
    'ash-white',
    'birch-yellow',
    'beech-american',
    'elm-american',
    'alder-red',
    'butternut',
  ])('%s: coefficients follow from total shrinkage', (id) => {
    const wood = woods[id];
    const fromShrinkage = (percent: number): number => percent / (3000 - 20 * percent);
    expect(wood?.changeRadial).toBeCloseTo(fromShrinkage(wood?.shrinkRadialPercent ?? 0), 4.9);
    expect(wood?.changeTangential).toBeCloseTo(fromShrinkage(wood?.shrinkTangentialPercent ?? 0), 4.9);
  });

  it('moves more along the rings than across them', () => {
    for (const wood of Object.values(woods)) expect(wood.changeTangential).toBeGreaterThan(wood.changeRadial);
  });

  it('can be told from paper and shows its grain', () => {
    const paper = lightness('#FBFAF6');
    for (const [id, wood] of Object.entries(woods)) {
      const [face, grain, end] = [lightness(wood.colour.face), lightness(wood.colour.grain), lightness(wood.colour.end)];
      expect(paper - face, id).toBeGreaterThan(8);
      expect(face - grain, id).toBeGreaterThan(8);
      expect(grain, id).toBeGreaterThan(end);
    }
  });
});

/** CIE lightness L* of an sRGB colour. @source IEC 61966-2-1:1999; CIE 15:2004, 8.2.1. */
function lightness(hex: string): number {
  expect(hex).toMatch(/^#[0-9A-F]{6}$/);
  const linear = [1, 3, 5].map((at) => {
    const value = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  });
  const y = 0.2126 * (linear[0] ?? 0) + 0.7152 * (linear[1] ?? 0) + 0.0722 * (linear[2] ?? 0);
  return y > 216 / 24389 ? 116 * Math.cbrt(y) - 16 : (24389 / 27) * y;
}
