/** Turned, mirrored, scaled: the answer must follow. */
import { describe, expect, test } from 'vitest';
import type { Table } from '../../src/design/index.ts';
import { designTable, partMassKg, partVolume } from '../../src/design/index.ts';
import type { Vec3 } from '../../src/solid/index.ts';
import type { EffectiveSpec, FreePartSpec, TableSpec } from '../../src/spec/index.ts';
import { angle, length } from '../fixtures.ts';
import { tables } from './tables.ts';

interface Weighed {
  readonly kg: number;
  readonly at: Vec3;
  readonly contactMm2: number;
}

function weigh(table: Table): Weighed {
  let kg = 0;
  let at: Vec3 = [0, 0, 0];
  for (const part of table.parts) {
    const m = partMassKg(part);
    const c = partVolume(part).centroidMm;
    kg += m;
    at = [at[0] + m * c[0], at[1] + m * c[1], at[2] + m * c[2]];
  }
  return { kg, at: [at[0] / kg, at[1] / kg, at[2] / kg], contactMm2: table.joints.reduce((s, j) => s + j.contactAreaMm2, 0) };
}

function tableOf(spec: EffectiveSpec): Table {
  const { table, problems } = designTable(spec);
  if (table === undefined) throw new Error(problems.map((p) => `${p.title}: ${p.found}`).join('; '));
  return table;
}

const withTable = (spec: EffectiveSpec, patch: Partial<TableSpec>): EffectiveSpec => ({ ...spec, table: { ...spec.table, ...patch } });

/** Every length of a table times a factor, wherever it is written. */
function scaled(value: unknown, by: number): unknown {
  if (Array.isArray(value)) return value.map((v) => scaled(v, by));
  if (typeof value !== 'object' || value === null) return value;
  if ('mm' in value && typeof value.mm === 'number') return length(value.mm * by);
  return Object.fromEntries(Object.entries(value).map(([k, v]) => [k, scaled(v, by)]));
}

describe.each(Object.keys(tables))('%s', (name) => {
  const spec = tables[name] as EffectiveSpec;
  const own = weigh(tableOf(spec));

  test('twice the size: eight times the mass, twice the height of the middle, four times the contact', () => {
    const double = weigh(tableOf({ ...spec, table: scaled(spec.table, 2) as TableSpec }));
    expect(Math.abs(double.kg / own.kg / 8 - 1)).toBeLessThan(1e-5);
    expect(Math.abs(double.at[2] / own.at[2] / 2 - 1)).toBeLessThan(1e-5);
    // Round contacts are polygons within a fixed chord.
    expect(Math.abs(double.contactMm2 - 4 * own.contactMm2)).toBeLessThanOrEqual(0.02 * 4 * own.contactMm2);
  });

  test('symmetric tables have their middle over the middle', () => {
    expect(Math.abs(own.at[0])).toBeLessThan(1e-3);
    if (!name.includes('trestles') && !name.includes('steel')) expect(Math.abs(own.at[1])).toBeLessThan(1e-3);
  });
});

describe('free parts', () => {
  const spec = tables['free parts: two leaning trestles with a rail'] as EffectiveSpec;
  const own = weigh(tableOf(spec));
  const parts = Object.entries(spec.table.parts);
  const change = (how: (part: FreePartSpec) => FreePartSpec): EffectiveSpec =>
    withTable(spec, { parts: Object.fromEntries(parts.map(([id, part]) => [id, how(part)])) });

  test('turned by half a turn about z: the middle goes across', () => {
    const turned = change((part) => ({
      ...part,
      at: [length(-part.at[0].mm), length(-part.at[1].mm), part.at[2]],
      turn: [...part.turn, { about: 'z', by: angle(180) }],
    }));
    const found = weigh(tableOf(turned));
    expect(found.kg).toBeCloseTo(own.kg, 9);
    expect(found.at[1]).toBeCloseTo(-own.at[1], 9);
    expect(found.contactMm2).toBeCloseTo(own.contactMm2, 2);
  });

  test('quartered by hand: a mirror writes what four parts would', () => {
    const leg = spec.table.parts['leg'];
    if (leg?.kind !== 'frustum') throw new Error('a leg');
    const placed = (sx: number, sy: number): FreePartSpec => ({
      ...leg,
      at: [length(sx * 620), length(sy * 300), length(0)],
      shift: [length(0), length(sy * -90)],
      mirror: [],
    });
    const four = { 'leg-a': placed(1, 1), 'leg-b': placed(-1, 1), 'leg-c': placed(1, -1), 'leg-d': placed(-1, -1) };
    const { leg: _gone, ...others } = spec.table.parts;
    const table = tableOf(withTable(spec, { parts: { ...others, ...four } }));
    const found = weigh(table);
    expect(found.kg).toBeCloseTo(own.kg, 9);
    found.at.forEach((v, i) => {
      expect(v).toBeCloseTo(own.at[i] as number, 9);
    });
    // Mirror images are one line of the cutting list.
    expect(new Set(table.parts.filter((p) => p.role === 'leg').map((p) => p.type)).size).toBe(1);
    expect(
      new Set(
        tableOf(spec)
          .parts.filter((p) => p.role === 'leg')
          .map((p) => p.type),
      ).size,
    ).toBe(1);
  });

  test('ids of mirror images: -2 across the first plane, -3 across the second, -4 across both', () => {
    const legs = tableOf(spec).parts.filter((p) => p.role === 'leg');
    expect(legs.map((p) => [p.id, Math.sign(p.placement.originMm[0]), Math.sign(p.placement.originMm[1])])).toEqual([
      ['parts/leg', 1, 1],
      ['parts/leg-2', -1, 1],
      ['parts/leg-3', 1, -1],
      ['parts/leg-4', -1, -1],
    ]);
    for (const leg of legs) {
      const [x, y, z] = leg.placement.axes;
      const det = x[0] * (y[1] * z[2] - y[2] * z[1]) - x[1] * (y[0] * z[2] - y[2] * z[0]) + x[2] * (y[0] * z[1] - y[1] * z[0]);
      expect(det).toBeCloseTo(1, 12);
    }
  });

  test('turns go in the order written, about the axes of the table', () => {
    // Stood up about x, then turned about z: the outline's x runs along the table's y.
    const table = tableOf(tables['free parts: an outline with a hole, stood up'] as EffectiveSpec);
    const end = table.parts.find((p) => p.id === 'parts/end');
    if (end === undefined) throw new Error('an end');
    const column = (i: 0 | 1 | 2): Vec3 => [end.placement.axes[0][i], end.placement.axes[1][i], end.placement.axes[2][i]];
    expect(column(0)).toEqual([0, 1, 0]);
    expect(column(1)).toEqual([0, 0, 1]);
    expect(column(2)).toEqual([1, 0, 0]);
    expect(end.grain?.L).toEqual([0, 0, 1]);
  });
});
