/**
 * templates/finishes.yaml against tests/published/finishes.csv: classes of finish with their ranges.
 * @source The csv names a source per row; its `basis` column says which figures are from memory or common practice.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import type { FinishSpec } from '../../src/spec/index.ts';
import { readCsv } from './csv.ts';

const finishes = parse(readFileSync('templates/finishes.yaml', 'utf8')) as Record<string, FinishSpec>;
const rows = readCsv(readFileSync('tests/published/finishes.csv', 'utf8'));

/** Lowest and highest of a pair of columns over all classes of a finish. */
function range(finish: FinishSpec, low: string, high: string): readonly [number, number] {
  const found = finish.classes.map((id) => rows.find((row) => row.id === id));
  return [Math.min(...found.map((row) => Number(row?.[low]))), Math.max(...found.map((row) => Number(row?.[high])))];
}

describe('finishes', () => {
  it('uses every class of the table', () => {
    const used = new Set(Object.values(finishes).flatMap((finish) => finish.classes));
    expect([...used].sort()).toEqual(rows.map((row) => row.id).sort());
  });

  it.each(Object.entries(finishes))('%s lies within its classes', (_, finish) => {
    const within = (value: number, [low, high]: readonly [number, number]): void => {
      expect(value).toBeGreaterThanOrEqual(low);
      expect(value).toBeLessThanOrEqual(high);
    };
    within(finish.coverageM2PerLitre, range(finish, 'coverage_m2_per_l_per_coat_min', 'coverage_m2_per_l_per_coat_max'));
    within(finish.betweenCoatsHours, range(finish, 'dry_between_coats_h_min', 'dry_between_coats_h_max'));
    within(finish.refreshMonths.low, range(finish, 'refresh_interval_months_min', 'refresh_interval_months_max'));
    within(finish.refreshMonths.high, range(finish, 'refresh_interval_months_min', 'refresh_interval_months_max'));
    expect(finish.refreshMonths.low).toBeLessThan(finish.refreshMonths.high);
    // The longest time of its classes: light use and full cure are told to the client, so they err to the safe side.
    expect(finish.lightUseHours).toBe(range(finish, 'light_use_after_h', 'light_use_after_h')[1]);
    expect(finish.fullCureDays).toBe(range(finish, 'full_cure_days_max', 'full_cure_days_max')[1]);
    // Loss: 10 to 20 % wiped or brushed, 30 to 60 % sprayed (common practice).
    within(finish.lossPercent, finish.method === 'sprayed' ? [30, 60] : [10, 20]);
    // A layered system has the coats of both layers.
    const coats = finish.classes.map((id) => rows.find((row) => row.id === id));
    within(finish.coats, [sum(coats.map((row) => Number(row?.coats_min))), sum(coats.map((row) => Number(row?.coats_max)))]);
  });

  it('warns of cloths that heat by themselves wherever the class does', () => {
    const warned: string[] = [];
    for (const [id, finish] of Object.entries(finishes)) {
      const hazard = finish.classes.map((name) => rows.find((row) => row.id === name)?.hazard_note ?? '').join(' ');
      if (!/self-heating/i.test(hazard)) continue;
      warned.push(id);
      expect(finish.cautions.join(' '), id).toMatch(/heat up and catch fire|self-heating/);
      expect(finish.cautions.join(' '), id).toMatch(/flat outdoors/);
      expect(finish.cautions.join(' '), id).toMatch(/under water in a closed metal/);
    }
    expect(warned).toContain('hardwax-oil');
    expect(warned).toContain('linseed-oil');
    expect(warned.length).toBeGreaterThanOrEqual(8);
  });

  it('warns of isocyanates, formaldehyde and resins wherever the class does', () => {
    const words: readonly (readonly [RegExp, RegExp])[] = [
      [/isocyanate/i, /isocyanate/i],
      [/formaldehyde/i, /formaldehyde/i],
      [/uncured resin/i, /resin/i],
      [/flammable/i, /flammable|burn easily/i],
    ];
    let met = 0;
    for (const [id, finish] of Object.entries(finishes)) {
      const hazard = finish.classes.map((name) => rows.find((row) => row.id === name)?.hazard_note ?? '').join(' ');
      for (const [says, wanted] of words) {
        if (!says.test(hazard)) continue;
        met += 1;
        expect(finish.cautions.join(' '), id).toMatch(wanted);
      }
    }
    expect(met).toBeGreaterThanOrEqual(7);
  });

  it('keeps food off the bare top in every finish', () => {
    for (const [id, finish] of Object.entries(finishes)) expect(finish.cautions.join(' '), id).toMatch(/Eat from plates/);
  });
});

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
